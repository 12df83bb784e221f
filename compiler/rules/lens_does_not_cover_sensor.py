"""The lens's image circle is smaller than the picture on the sensor.

On set: the corners of every picture are dark, and it is seen on the big monitor in the evening.

How it is decided: the diagonal of the part of the sensor that makes the picture (its 'aspect:' cut from it, the width
before an anamorphic lens's stretching) against the lens's 'circle:'. Formula: Pythagoras. Source: the lens's own data.

Fix: take a lens with a larger circle, or record a smaller part of the sensor (say it as the body's 'sensor:').

When to accept it: dark corners are wanted, or the picture is cropped in post.
"""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING, Final

from ..facts import focus, views
from ..findings import NotChecked
from ..science import lens
from .physics import Case, causes
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.gear import Gear

RULE = "lens-does-not-cover-sensor"
SEVERITY: Final = "warning"
TITLE = "the lens's image circle is smaller than the picture"

TRIGGERS = """
hotset: 1
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}
  old-25: {kind: lens, focal: 25 mm, circle: 28 mm}
setups:
  office-wide:
    camera:
      body: body-a
      lens: old-25  # <- here
"""
PASSES = TRIGGERS.replace("circle: 28 mm", "circle: 41.4 mm").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[tuple[Gear, float, float]]] = []
    for setup, shot in facts.takes:
        glass, gate = focus.glass(plan, setup, shot), views.picture(plan, setup, shot)
        if glass is None or gate is None or glass.kind != "lens":
            continue
        if glass.circle is None:
            yield NotChecked(RULE, f"lens '{glass.id}'", f"'circle:' of '{glass.id}'")
            continue
        width = gate.width / float(glass.squeeze or 1.0)
        short = -lens.covers(float(glass.circle), width, gate.height)
        if short > 0.0002:
            path = f"{shot.path}.lens" if shot and shot.lens else f"{setup.path}.camera.lens"
            cases.append(Case(path, setup.id, short, (glass, width, gate.height)))
    for cause in causes(plan, cases):
        glass, width, height = cause.worst.what
        diagonal = hypot(width, height)
        ways = [f"take '{g}', whose circle is wide enough" for g in _others(facts, diagonal)[:1]]
        shrink = float(glass.circle or 0.0) / diagonal
        ways.append(f"record a part of the sensor of {width * shrink * 1000:.1f} x {height * shrink * 1000:.1f} mm")
        body = plan.setups[cause.worst.who].camera
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"'{glass.id}' makes a circle of {float(glass.circle or 0.0) * 1000:.4g} mm, and the picture of "
            f"'{body.body if body else ''}' is {diagonal * 1000:.1f} mm across its corners: they stay dark{cause.also}",
            tuple(ways),
            (
                ("lens", glass.id),
                ("circle_mm", round(float(glass.circle or 0.0) * 1000, 2)),
                ("diagonal_mm", round(diagonal * 1000, 2)),
            ),
            also=[(f"{glass.path}.circle", "the lens")],
        )


def _others(facts: Facts, diagonal: float) -> list[str]:
    return [
        g.id
        for g in facts.plan.gear.values()
        if g.kind == "lens" and g.circle is not None and float(g.circle) >= diagonal
    ]
