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
from ..findings import Finding, NotChecked
from ..science import camera as cameras
from ..science import geometry, sight
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
      edge: {lamp: panel, at: [3.6 m, 1.9 m], height: 1.5 m, aim: desk, on: table}
scenes: {4: {shots: {4A: {setup: office-wide}}}}
"""
PASSES = TRIGGERS.replace("[3.6 m, 1.9 m]", "[3.9 m, 0.3 m]")
_STEP = 0.05
_FURTHEST = 3.0


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
    walls = views.blockers(plan, setup)
    for item in setup.lights.values():
        solids = views.lamp_solids(plan, setup, item)
        if not solids:
            wants = "'height:' of the lamp" if places.light_xy(plan, setup, item) else "the place of the lamp ('at:')"
            yield NotChecked(RULE, f"'{item.id}' in setup '{setup.id}'", wants)
            continue
        worst = _worst(ends, solids, walls)
        if worst is not None:
            yield _finding(facts, setup, item, ends, walls, worst)
            continue
        maybe = _worst(ends, views.lamp_solids(plan, setup, item, typical=True), walls)
        if maybe is not None:
            what = "its stand ('on:') and the stand's 'base:'" if "stand" in maybe[3].words else "'size:' of the lamp"
            wants = f"{what} (a typical one would reach {maybe[0]:.0f} deg into the picture)"
            yield NotChecked(RULE, f"'{item.id}' in setup '{setup.id}'", wants)


Worst = tuple[float, float, cameras.View, views.Solid]


def _worst(
    ends: tuple[cameras.Camera, ...], solids: tuple[views.Solid, ...], walls: list[views.Blocker]
) -> Worst | None:
    """The solid that reaches furthest into the picture, with the angle and the part of the move."""
    worst: Worst | None = None
    for solid in solids:
        part, view = _look(ends, solid, walls)
        if view.seen and (worst is None or view.margin > worst[0]):
            worst = (view.margin, part, view, solid)
    return worst


def _look(
    ends: tuple[cameras.Camera, ...], solid: views.Solid, walls: list[views.Blocker]
) -> tuple[float, cameras.View]:
    if len(ends) == 1:
        return 0.0, sight.seen(ends[0], solid.shape, walls)
    return sight.worst_along(lambda part: sight.seen(cameras.between(ends[0], ends[1], part), solid.shape, walls))


def _finding(
    facts: Facts,
    setup: Setup,
    item: Light,
    ends: tuple[cameras.Camera, ...],
    walls: list[views.Blocker],
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
    ways = [w for w in (_clear(facts, setup, item, ends, walls, view),) if w]
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
    walls: list[views.Blocker],
    view: cameras.View,
) -> str:
    """The shortest way to the side that takes the lamp and its stand out of the picture, found by looking again."""
    side = 1.0 if view.turn >= 0 else -1.0
    right = ends[0].right
    room = facts.plan.sets.get(setup.set or "")
    floor = walls_of.corners(room) if room else ()
    here = places.light(facts.plan, setup, item)
    solids = views.lamp_solids(facts.plan, setup, item)
    for n in range(1, round(_FURTHEST / _STEP) + 1):
        by = n * _STEP
        dx, dy = right[0] * side * by, right[1] * side * by
        moved = [
            views.Solid(s.words, s.path, s.shape._replace(base=tuple((x + dx, y + dy) for x, y in s.shape.base)), False)
            for s in solids
        ]
        if here and floor and not geometry.inside(floor, (here[0] + dx, here[1] + dy)):
            return ""
        if not any(_look(ends, m, walls)[1].seen for m in moved):
            lengths = facts.plan.film.lengths or "metric"
            return (
                f"move it {show('length', by, lengths)} to the {'right' if side > 0 else 'left'}, seen from the camera"
            )
    return ""
