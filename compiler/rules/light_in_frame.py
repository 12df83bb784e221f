"""A lamp, its modifier or its stand is in the picture.

On set: the frame is found, the lamp is moved, and with it the light that took twenty minutes to find. Or nobody sees
it until the cut.

How it is decided: camera, lens and picture shape make a pinhole camera; lamp with modifier and stand are upright
solids that are cut against the frame at the start and the end of the move and on the way between; how far it is in or
out at both ends is said. Walls with their openings and furniture hide what stands behind them. Formula: central
projection. A lamp whose size is not said counts as a thin line, a stand that is not said as none; where only a typical
one (a lamp 30 cm across, a stand 90 cm at its feet; common practice, no source) would be seen, the check says that it
needs the size.

Fix: move the lamp out or up by the distance named, put it behind something, or use a longer lens.

When to accept it: the lamp is painted out in post, or is meant to be seen (then write it under 'practicals:').
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Final, NamedTuple

from ..facts import places, signposts, views
from ..facts import walls as walls_of
from ..facts.eye import Eye
from ..findings import Finding, NotChecked
from ..science import camera as cameras
from ..science import geometry
from ..source.quantities import show
from .physics import along

if TYPE_CHECKING:
    from ..facts import Facts
    from ..plan.light import Light
    from ..plan.set import Set
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
    when = along(part, len(ends) > 1)
    at_ends = _at_ends(facts, setup, solid, ends)
    edge = {"bottom": "lower", "top": "upper"}.get(view.edge, view.edge)
    way = _clear(facts, setup, item, ends, eye, view)
    return Finding(
        RULE,
        SEVERITY,
        f"{solid.words} is in the picture of '{setup.id}'{when}: it reaches {margin:.0f} deg inside the {edge} edge"
        f"{at_ends.words}",
        facts.plan.where(item.path),
        ways_out=(
            *([way] if way else []),
            f"{'or ' if way else ''}hang it above the frame, or put it behind something",
            "or use a longer lens",
        ),
        details=(
            ("setup", setup.id),
            ("light", item.id),
            ("degrees_inside", round(margin, 1)),
            ("edge", view.edge),
            ("turn_off_axis", round(view.turn, 1)),
            ("share_of_frame", round(view.share, 4)),
            *at_ends.details,
        ),
        typical=(f"size of {solid.words}",) if solid.typical else (),
    )


class _Ends(NamedTuple):
    """How a solid stands to the frame at both ends of a move: the end of the sentence, and the numbers."""

    words: str
    details: tuple[tuple[str, float], ...]


def _at_ends(facts: Facts, setup: Setup, solid: views.Solid, ends: tuple[cameras.Camera, ...]) -> _Ends:
    if len(ends) < 2:
        return _Ends("", ())
    blockers = views.blockers(facts.plan, setup)
    start, end = (Eye((one,), blockers).look(solid.shape)[1] for one in ends)
    words = f" ({_stands(start)} at the start of the move, {_stands(end)} at its end)"
    return _Ends(words, (("degrees_start", round(start.margin, 1)), ("degrees_end", round(end.margin, 1))))


def _stands(view: cameras.View) -> str:
    if view.seen:
        return f"{view.margin:.0f} deg inside"
    return "hidden" if view.margin > 0 else f"{-view.margin:.0f} deg outside"


def _clear(
    facts: Facts,
    setup: Setup,
    item: Light,
    ends: tuple[cameras.Camera, ...],
    eye: Eye,
    view: cameras.View,
) -> str:
    """The way that takes the lamp and its stand out of the picture, found by looking again: to the side it stands on,
    else to the other, as far as the room goes."""
    plan = facts.plan
    right = ends[0].right
    room = plan.sets.get(setup.set or "")
    floor = walls_of.corners(room) if room else ()
    here = places.light(plan, setup, item)
    solids = views.lamp_solids(plan, setup, item)
    near = 1.0 if view.turn >= 0 else -1.0
    for side in (near, -near):

        def by(steps: int, side: float = side) -> tuple[float, float]:
            return right[0] * side * steps * _STEP, right[1] * side * steps * _STEP

        def moved(steps: int, by: Callable[[int], tuple[float, float]] = by) -> list[geometry.Prism]:
            dx, dy = by(steps)
            return [s.shape._replace(base=tuple((x + dx, y + dy) for x, y in s.shape.base)) for s in solids]

        steps = _steps(eye, moved)
        dx, dy = by(steps)
        if not steps or (here and floor and not geometry.inside(floor, (here[0] + dx, here[1] + dy))):
            continue
        far = show("length", steps * _STEP, plan.film.lengths or "metric")
        post = signposts.towards(plan, room, here[:2], (dx, dy)) if room and here else ""
        where = f", towards {post}," if post else ","
        return f"move it {far} to the {'right' if side > 0 else 'left'}{where} seen from the camera"
    return _higher(facts, room, eye, solids)


def _higher(facts: Facts, room: Set | None, eye: Eye, solids: tuple[views.Solid, ...]) -> str:
    """How far a lamp without a stand has to be raised, below the ceiling; "" where that does not do."""
    if len(solids) != 1 or room is None:
        return ""
    shape = solids[0].shape
    high = walls_of.ceiling(room)

    def moved(steps: int) -> list[geometry.Prism]:
        return [shape._replace(bottom=shape.bottom + steps * _STEP, top=shape.top + steps * _STEP)]

    steps = _steps(eye, moved)
    if not steps or (high is not None and not room.outdoors and moved(steps)[0].top > high + 1e-9):
        return ""
    return f"raise it by {show('length', steps * _STEP, facts.plan.film.lengths or 'metric')}"


def _steps(eye: Eye, moved: Callable[[int], list[geometry.Prism]]) -> int:
    """The fewest steps to a side after which nothing is seen; 0 where none are enough.

    Coarse steps first, then back in fine ones: a plan of a hundred lamps is looked at in a second.
    """

    def free(steps: int) -> bool:
        return not any(eye.sees(shape) for shape in moved(steps))

    coarse = next((n for n in range(_COARSE, round(_FURTHEST / _STEP) + 1, _COARSE) if free(n)), None)
    if coarse is None:
        return 0
    steps = next(n for n in range(coarse - _COARSE + 1, coarse + 1) if n == coarse or free(n))
    return steps + any(eye.look(shape)[1].seen for shape in moved(steps))  # seen between two of the parts looked at
