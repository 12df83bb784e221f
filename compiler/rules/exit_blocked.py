"""A way out is blocked by furniture, by a cloth or frame, or by a stand on its far side.

On set: everybody knows the door; behind it stands the lamp that shines through it.

How it is decided: the strip 0.6 m deep before each exit (the doors marked 'exit: true', or the only door) on both sides
of it: furniture by its footprint, cloths and frames of a setup by their width, square to their aim, and, on the far
side, the feet of stands ('base:'). The widest gap left must be 0.6 m. Stands on this side of it have a rule of their
own. Source: 0.6 m is common practice, no source; local rules may ask for more, and they decide.

Fix: move it aside, hang the cloth elsewhere, or let the lamp shine through another door.

When to accept it: another exit is open, marked and told to everybody.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from ..facts import places, space, walls
from ..science import geometry
from .physics import Case, causes, length, up
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.walls import XY, Opening
    from ..findings import Finding
    from ..plan import Plan
    from ..plan.set import Set
    from ..plan.setup import Setup

    Thing = tuple[str, str, tuple[XY, ...]]
    Met = tuple[str, str, float, float, list[str]]

RULE = "exit-blocked"
SEVERITY: Final = "warning"
TITLE = "a way out is blocked"

TRIGGERS = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        doors: {yard: {wall: west, from: 2.0 m, width: 0.9 m, exit: true}}
        furniture:
          shelf:
            at: [0.3 m, 2.4 m]  # <- here
            size: 0.5 m x 0.6 m x 1.8 m
setups: {office-wide: {set: office}}
"""
PASSES = TRIGGERS.replace("[0.3 m, 2.4 m]", "[0.3 m, 1.9 m]").replace("  # <- here", "")
THIN = 0.05


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        room = plan.set_of(setup.id)
        if room is None or not room.doors:
            continue
        for name, path, door in space.exits(plan, room):
            near = [*_furniture(plan, room), *_cloth(plan, setup)]
            cases += _case(setup, f"door '{name}'", path, door, near)
            far = _far(plan, room, name)
            if far is not None:
                other, opening = far
                behind = [*_furniture(plan, other), *_stands(plan, setup, other)]
                cases += _case(setup, f"door '{name}' on its far side", path, opening, behind)
    for cause in causes(plan, cases):
        words, path, width, free, things = cause.worst.what
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"{quoted(things)} {'leaves' if len(things) == 1 else 'leave'} {length(plan, free)} of {words} clear "
            f"({length(plan, width)} wide) in {quoted([cause.worst.who, *cause.others])}: {length(plan, space.EXIT)} "
            "have to stay clear",
            (f"move {'it' if len(things) == 1 else 'them'} {length(plan, up(space.EXIT - free))} aside",
             "or open another exit, mark it, and tell everybody"),
            (("setup", cause.worst.who), ("free_m", round(free, 3)), ("least_m", space.EXIT),
             ("width_m", round(width, 3))),
            also=[(path, words)],
            typical=("0.6 m stay clear",),
        )  # fmt: skip


def _case(setup: Setup, words: str, path: str, door: Opening, things: list[Thing]) -> list[Case[Met]]:
    """The case of one side of an exit, at the thing that takes most of it."""
    width = math.dist(door.start, door.end)
    taken = [(span, at, name) for name, at, shape in things if (span := _in_strip(shape, door)) is not None]
    free = max(space.free_across(width, [span for span, _, _ in taken]), 0.0)
    if not taken or free >= space.EXIT - 1e-6 or width < space.EXIT:
        return []
    widest = max(taken, key=lambda one: min(one[0][1], width) - max(one[0][0], 0.0))
    names = list(dict.fromkeys(name for _, _, name in taken))
    return [Case(widest[1], setup.id, space.EXIT - free, (words, path, width, free, names))]


def _in_strip(shape: tuple[XY, ...], door: Opening) -> tuple[float, float] | None:
    """The part of the door's width that a shape takes of the strip before it."""
    (ax, ay), (bx, by) = door.start, door.end
    dx, dy = -door.out[0] * space.EXIT, -door.out[1] * space.EXIT
    strip = [(ax, ay), (bx, by), (bx + dx, by + dy), (ax + dx, ay + dy)]
    if geometry.signed_area(strip) < 0:
        strip.reverse()
    inside = geometry.clip_convex(shape, strip)
    if len(inside) < 3 or geometry.area(inside) < 1e-4:
        return None
    run = math.dist(door.start, door.end)
    along = [((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / run for x, y in inside]
    return min(along), max(along)


def _furniture(plan: Plan, room: Set) -> Iterator[Thing]:
    for piece in room.furniture.values():
        shape = space.footprint(plan, room, piece.id)
        if shape:
            yield piece.id, f"{piece.path}.at", shape


def _cloth(plan: Plan, setup: Setup) -> Iterator[Thing]:
    """Cloths and frames that hang or stand across, where their size and their aim are said."""
    for item in setup.grip.values():
        at = places.spot(plan, setup, item.at)
        aim = places.spot(plan, setup, item.aim.at) if item.aim is not None else None
        if at is None or item.size is None or item.on == "ceiling" or item.held_by:
            continue
        if item.turned is None and (aim is None or math.dist(at, aim) < 1e-6):
            continue
        turned = float(item.turned) if item.turned is not None else geometry.bearing(at, aim or at)
        shape = geometry.rectangle(at, float(item.size[0]), THIN, turned)
        yield item.id, f"{item.path}.at", shape


def _far(plan: Plan, room: Set, name: str) -> tuple[Set, Opening] | None:
    """The set behind a door, and the door as it stands there."""
    door = room.doors[name]
    other = plan.sets.get(door.leads_to or "")
    wall = walls.wall_named(other, door.there.wall) if other is not None and door.there is not None else None
    if other is None or wall is None or door.there is None or door.there.from_ is None or door.width is None:
        return None
    start, end = wall.along(float(door.there.from_)), wall.along(float(door.there.from_) + float(door.width))
    return other, walls.Opening(start, end, 0.0, walls.DOOR_HEIGHT, wall.out)


def _stands(plan: Plan, setup: Setup, room: Set) -> Iterator[Thing]:
    """Stands of a setup in the set behind."""
    for one in space.standers(plan, setup):
        if one.room == room.id and one.base > 0 and not one.held:
            yield one.words.strip("'"), one.at_path, geometry.circle(one.at, one.base / 2, 24)
