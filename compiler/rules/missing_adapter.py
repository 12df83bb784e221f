"""The lens does not fit the camera, and no adapter that the plan owns joins them at the right distance.

On set: the lens is in the case, the camera is on the sticks, and nothing joins them; or it goes on and never gets
sharp at a distance.

How it is decided: the camera's 'mount:' against the lens's. Where they differ, one adapter 'from:' the camera's 'to:'
the lens's is looked for, then a chain of several (shortest path over mounts). Where 'mounts:' tells both flange
distances and the adapters say 'thick:', the thickness must be the lens's flange distance less the camera's, to 0.1 mm;
where one of these is not said, that the thickness is not known is said. Adapters with glass in them ('loses:') are left
out of that. Source: the flange distance is by definition where a lens
set to infinity draws sharp.

Fix: get the adapter that is named, or take another lens.

When to accept it: you have seen the lens on this camera, sharp at a distance.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts.fits import Chain, lens_chain
from ..findings import NotChecked
from .words import Once, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.setup import Setup

RULE = "missing-adapter"
SEVERITY: Final = "error"
TITLE = "no adapter joins lens and camera"

TRIGGERS = """
hotset: 1
mounts: {cine-short: {flange: 18 mm}, photo-old: {flange: 46.5 mm}}
gear:
  body-a: {kind: camera, mount: cine-short}
  lens-50: {kind: lens, mount: photo-old}
setups:
  wide:
    camera:
      body: body-a
      lens: lens-50  # <- here
"""
PASSES = TRIGGERS.replace(
    "photo-old}\n", "photo-old}\n  old-on-short: {kind: adapter, from: cine-short, to: photo-old, thick: 28.5 mm}\n"
).replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    fresh = Once(plan)
    for setup in plan.setups.values():
        if setup.camera is None or setup.camera.body not in plan.gear:
            continue
        wanted = [(setup.camera.lens, f"{setup.camera.path}.lens")]
        wanted += [(shot.lens, f"{shot.path}.lens") for shot in facts.shots_of.get(setup.id, ())]
        for lens, path in wanted:
            if lens in plan.gear and lens is not None:
                yield from _pair(facts, setup, lens, path, fresh)


def _pair(facts: Facts, setup: Setup, lens: str, path: str, fresh: Once) -> Iterator[Finding | NotChecked]:
    camera = setup.camera
    assert camera is not None
    assert camera.body is not None
    body_id = camera.body
    named = tuple(a for a in camera.adapters if a in facts.plan.gear)
    chain = lens_chain(facts.plan, facts.plan.gear[body_id], facts.plan.gear[lens], named)
    if chain.state in ("unknown", "fits") and chain.wants:
        how = "" if chain.state == "unknown" else f" with {quoted(chain.adapters)}: the thickness"
        yield NotChecked(RULE, f"'{lens}' on '{body_id}'{how}", chain.wants)
    elif chain.state in ("none", "flange") and fresh(path, body_id):
        yield _finding(facts, setup.id, body_id, lens, path, chain)


def _millimetres(metres: float) -> str:
    return f"{metres * 1000:.1f}".removesuffix(".0") + " mm"


def _finding(facts: Facts, setup: str, body: str, lens: str, path: str, chain: Chain) -> Finding:
    plan = facts.plan
    start, end = chain.from_, chain.to
    sentence = f"'{lens}' has mount '{end}' and '{body}' has '{start}', and no adapter in the plan joins them"
    if chain.adapters and chain.state == "none":
        sentence = f"'{lens}' ({end}) does not go onto '{body}' ({start}) with {quoted(chain.adapters)}"
    if chain.state == "flange" and chain.have is not None and chain.thick is not None:
        sentence = (
            f"with {quoted(chain.adapters)}, {_millimetres(chain.have)} thick, '{lens}' is not sharp at a distance "
            f"on '{body}': {_millimetres(chain.thick)} are needed"
        )
    if chain.thick is not None and chain.thick <= 0:
        sentence += f"; the lens would have to stand {_millimetres(-chain.thick)} inside the camera"
        ways = [f"only an adapter with glass in it would do, from '{start}' to '{end}'"]
    else:
        thick = f", {_millimetres(chain.thick)} thick," if chain.thick is not None else ""
        ways = [f"an adapter from '{start}' to '{end}'{thick} would do"]
    fitting = [g.id for g in plan.gear.values() if g.kind == "lens" and g.mount == start]
    if fitting:
        ways.append(f"or take {quoted(fitting, 'or')}, which fits '{body}'")
    details: tuple[tuple[str, str | int | float], ...] = (
        ("setup", setup),
        ("camera", body),
        ("lens", lens),
        ("from", start),
        ("to", end),
        *((("thickness_needed_m", round(chain.thick, 5)),) if chain.thick is not None else ()),
    )
    also = [(f"gear.{lens}", "the lens"), (f"gear.{body}", "the camera")]
    return finding(plan, (RULE, SEVERITY), path, sentence, tuple(ways), details, also=also)
