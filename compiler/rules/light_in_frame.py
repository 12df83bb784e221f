"""A lamp, its modifier or its stand is in the picture.

On set: the frame is found, the lamp is moved, and with it the light that took twenty minutes to find. Or nobody sees
it until the cut.

How it is decided: camera, lens and picture shape make a pinhole camera; lamp with modifier and stand are upright
solids that are cut against the frame at the start and the end of the move and on the way between. Walls with their
openings and furniture hide what stands behind them. Formula: central projection. A lamp whose size is not said
counts as a thin line, a stand that is not said as none; where only a typical one (a lamp 30 cm across, a stand 90 cm
at its feet; common practice, no source) would be seen, the check says that it needs the size.

Fix: move the lamp out by the distance named, raise it above the frame, or use a longer lens.

When to accept it: the lamp is painted out in post, or is meant to be seen (then write it under 'practicals:').
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from ..facts import places, views
from ..facts import walls as walls_of
from ..facts.eye import Eye
from ..findings import Finding, NotChecked
from ..science import camera as cameras
from ..science import geometry
from ..source.quantities import show

if TYPE_CHECKING:
    from ..facts import Facts
    from ..plan.light import Light
    from ..plan.setup import Setup

RULE = "light-in-frame"
SEVERITY: Final = "error"
TITLE = "a lamp or its stand is in the picture"

TRIGGERS = """
hotset: 1
locations:
  landing: {sets: {office: {size: 4.2 m x 3.6 m x 2.4 m, marks: {desk: {at: [2.0 m, 1.5 m], sits: true}}}}}
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}
  lens-35: {kind: lens, focal: 35 mm}
  panel: {kind: light, size: 30 cm x 30 cm, runs: 90 min}
setups:
  office-wide:
    set: office
    camera: {body: body-a, lens: lens-35, at: [0.4 m, 0.4 m], height: 1.5 m, aim: desk}
    lights:
      edge: {lamp: panel, at: [3.6 m, 1.9 m], height: 1.5 m, aim: desk, on: table}  # <- here
scenes: {4: {shots: {4A: {setup: office-wide}}}}
"""
PASSES = TRIGGERS.replace("[3.6 m, 1.9 m]", "[3.9 m, 0.3 m]")
_STEP = 0.05
_FURTHEST = 3.0
_COARSE = 5


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    for setup in facts.plan.setups.values():
        if not setup.lights:
            continue
        lacks = views.missing_for_view(facts.plan, setup)
        if lacks:
            yield NotChecked(RULE, f"setup '{setup.id}'", lacks)
            continue
        yield from _setup(facts, setup)


def _setup(facts: Facts, setup: Setup) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    ends = views.ends(plan, setup)
    eye = Eye(ends, views.blockers(plan, setup))
    for item in setup.lights.values():
        solids = views.lamp_solids(plan, setup, item)
        if not solids:
            wants = "'height:' of the lamp" if places.light_xy(plan, setup, item) else "the place of the lamp ('at:')"
            yield NotChecked(RULE, f"'{item.id}' in setup '{setup.id}'", wants)
            continue
        worst = _worst(eye, solids)
        if worst is not None:
            yield _finding(facts, setup, item, ends, eye, worst)
            continue
        maybe = _worst(eye, views.lamp_solids(plan, setup, item, typical=True))
        if maybe is not None:
            what = "its stand ('on:') and the stand's 'base:'" if "stand" in maybe[3].words else "'size:' of the lamp"
            wants = f"{what} (a typical one would reach {maybe[0]:.0f} deg into the picture)"
            yield NotChecked(RULE, f"'{item.id}' in setup '{setup.id}'", wants)


Worst = tuple[float, float, cameras.View, views.Solid]


def _worst(eye: Eye, solids: tuple[views.Solid, ...]) -> Worst | None:
    """The solid that reaches furthest into the picture, with the angle and the part of the move."""
    worst: Worst | None = None
    for solid in solids:
        part, view = eye.look(solid.shape)
        if view.seen and (worst is None or view.margin > worst[0]):
            worst = (view.margin, part, view, solid)
    return worst


def _finding(
    facts: Facts,
    setup: Setup,
    item: Light,
    ends: tuple[cameras.Camera, ...],
    eye: Eye,
    worst: Worst,
) -> Finding:
    margin, part, view, solid = worst
    when = ""
    if len(ends) > 1:
        when = (
            " at the start of the move"
            if part < 0.05
            else " at the end of the move"
            if part > 0.95
            else (f" {part:.0%} of the way along the move")
        )
    edge = {"bottom": "lower", "top": "upper"}.get(view.edge, view.edge)
    ways = [w for w in (_clear(facts, setup, item, ends, eye, view),) if w]
    return Finding(
        RULE,
        SEVERITY,
        f"{solid.words} is in the picture of '{setup.id}'{when}: it reaches {margin:.0f} deg inside the {edge} edge",
        facts.plan.where(item.path),
        ways_out=(*ways, "raise it above the frame, hang it, or put it behind something", "or use a longer lens"),
        details=(
            ("setup", setup.id),
            ("light", item.id),
            ("degrees_inside", round(margin, 1)),
            ("edge", view.edge),
            ("turn_off_axis", round(view.turn, 1)),
            ("share_of_frame", round(view.share, 4)),
        ),
        typical=(f"size of {solid.words}",) if solid.typical else (),
    )


def _clear(
    facts: Facts,
    setup: Setup,
    item: Light,
    ends: tuple[cameras.Camera, ...],
    eye: Eye,
    view: cameras.View,
) -> str:
    """The shortest way to the side that takes the lamp and its stand out of the picture, found by looking again."""
    side = 1.0 if view.turn >= 0 else -1.0
    right = ends[0].right
    room = facts.plan.sets.get(setup.set or "")
    floor = walls_of.corners(room) if room else ()
    here = places.light(facts.plan, setup, item)
    solids = views.lamp_solids(facts.plan, setup, item)

    def by(steps: int) -> tuple[float, float]:
        return right[0] * side * steps * _STEP, right[1] * side * steps * _STEP

    def moved(steps: int) -> list[geometry.Prism]:
        dx, dy = by(steps)
        return [s.shape._replace(base=tuple((x + dx, y + dy) for x, y in s.shape.base)) for s in solids]

    def free(steps: int) -> bool:
        return not any(eye.sees(shape) for shape in moved(steps))

    # Coarse steps first, then back in fine ones: a plan of a hundred lamps is looked at in a second.
    coarse = next((n for n in range(_COARSE, round(_FURTHEST / _STEP) + 1, _COARSE) if free(n)), None)
    if coarse is None:
        return ""
    steps = next(n for n in range(coarse - _COARSE + 1, coarse + 1) if n == coarse or free(n))
    if any(eye.look(shape)[1].seen for shape in moved(steps)):  # seen between two of the parts looked at
        steps += 1
    dx, dy = by(steps)
    if here and floor and not geometry.inside(floor, (here[0] + dx, here[1] + dy)):
        return ""
    far = show("length", steps * _STEP, facts.plan.film.lengths or "metric")
    return f"move it {far} to the {'right' if side > 0 else 'left'}, seen from the camera"
