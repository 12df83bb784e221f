"""The camera has nothing to record on.

On set: everything is lit, and the only card is in the reader at home.

How it is decided: a plan that says what is recorded (a 'codec:' of a camera, or 'rolls:' of a shot) needs at least one
thing of kind media; and what a setup names under its camera's 'media:' must be media. Whether they are large enough is
another matter. Source: common practice, no source.

Fix: add the cards to the gear, with 'holds:' and how many there are.

When to accept it: the camera records inside; say so in a note.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import Once, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan import Plan

RULE = "missing-media"
SEVERITY: Final = "error"
TITLE = "there is nothing to record on"

TRIGGERS = """
hotset: 1
gear:
  body-a: {kind: camera, codecs: {fine: 400 Mbit/s}}
setups:
  wide:
    camera: {body: body-a, codec: fine}  # <- here
"""
PASSES = TRIGGERS.replace("Mbit/s}}", "Mbit/s}}\n  card: {kind: media, holds: 256 GB, quantity: 2}").replace(
    "  # <- here", ""
)


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    fresh = Once(plan)
    for setup in plan.setups.values():
        for i, name in enumerate(setup.camera.media if setup.camera else ()):
            kind = plan.gear[name].kind if name in plan.gear else "media"
            path = f"setups.{setup.id}.camera.media.{i}"
            if kind and kind not in ("media", "drive") and fresh(path):
                yield finding(
                    plan,
                    (RULE, SEVERITY),
                    path,
                    f"'{setup.id}' records on '{name}', but that is a {kind}, no card",
                    ("write the card that is meant",),
                    (("setup", setup.id), ("media", name), ("kind", kind)),
                )
    if not any(g.kind in ("media", "drive") for g in plan.gear.values()) and plan.gear:
        path = _first_recording(plan)
        if path:
            yield finding(
                plan,
                (RULE, SEVERITY),
                path,
                "the plan says what is recorded, and has no card or other media to record on",
                ("add the cards to the gear: '{kind: media, holds: 256 GB, quantity: 2}'",),
                (("media", 0),),
            )


def _first_recording(plan: Plan) -> str:
    for setup in plan.setups.values():
        if setup.camera and setup.camera.codec:
            return f"{setup.camera.path}.codec"
    return next((f"{s.path}.rolls" for s in plan.shots.values() if s.rolls is not None), "")
