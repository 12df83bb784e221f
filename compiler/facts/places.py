"""Where things stand: spots of the plan resolved to metres in the set of a setup.

Every function gives None where the plan does not say enough; nothing is guessed but what is marked typical here.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ..plan.spots import Aim, Named, Point, Spot
from ..record import record
from ..source.quantities import Around, Towards
from .walls import XY, carry, door_opening, opening, window_opening

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.light import Grip, Light, Practical
    from ..plan.setup import Setup

XYZ = tuple[float, float, float]

# Typical values, common practice, no source; each is overridden by the plan.
TALL = 1.70  # a person of whom no height is said
EYES_BELOW_TOP = 0.12
SITTING_EYES = 1.20
LYING_EYES = 0.30
OUTSIDE_AWAY = 1.0  # a lamp outside of a window
_TOPS = {"north": (0.0, 1.0), "south": (0.0, -1.0), "east": (1.0, 0.0), "west": (-1.0, 0.0)}


@record
class Stand:
    """A camera at one end of its move: where it is and what it looks at, in metres of the setup's set."""

    at: XYZ
    aim: XYZ
    down: bool = False


def spot(plan: Plan, setup: Setup, where: Spot | None, room: str | None = None) -> XY | None:
    """The spot in the coordinates of `room` (the setup's own set when left out)."""
    room = room or setup.set
    if where is None or room is None:
        return None
    if isinstance(where, Point):
        return (float(where.x), float(where.y))
    if isinstance(where, Named):
        return named(plan, room, where.mark)
    if isinstance(where, Towards):
        a, b = named(plan, room, where.start), named(plan, room, where.end)
        if a is None or b is None or a == b:
            return None
        share = where.metres / math.dist(a, b)
        return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
    return _around(plan, setup, where, room)


def _around(plan: Plan, setup: Setup, where: Around, room: str) -> XY | None:
    """A clock face laid on the mark: the camera stands at six; for a camera that looks down, `top` is twelve."""
    middle = named(plan, room, where.mark)
    six = _six(plan, setup, room, middle)
    if middle is None or six is None:
        return None
    turn = math.radians((where.hour - 6.0) * 30.0)
    x, y = six  # clockwise as seen from above, so by minus the angle in x, y
    direction = (x * math.cos(turn) + y * math.sin(turn), -x * math.sin(turn) + y * math.cos(turn))
    return (middle[0] + where.metres * direction[0], middle[1] + where.metres * direction[1])


def _six(plan: Plan, setup: Setup, room: str, middle: XY | None) -> XY | None:
    camera = setup.camera
    if camera is None or middle is None:
        return None
    if camera.aim is not None and camera.aim.down:
        top = _TOPS[camera.top or "north"]
        return (-top[0], -top[1])
    if camera.at is None or isinstance(camera.at, Around):
        return None
    at = spot(plan, setup, camera.at)
    if at is not None and room != setup.set and setup.set:
        way = carry(plan, setup.set, room)
        at = way(at) if way else None
    if at is None or math.dist(at, middle) < 1e-9:
        return None
    length = math.dist(at, middle)
    return ((at[0] - middle[0]) / length, (at[1] - middle[1]) / length)


def named(plan: Plan, room: str, name: str) -> XY | None:
    """A mark, piece of furniture, door, window or mirror of a set, by its middle."""
    place = plan.sets.get(room)
    if place is None:
        return None
    if name in place.marks:
        at = place.marks[name].at
        return _fixed(plan, room, at, name)
    if name in place.furniture:
        return _fixed(plan, room, place.furniture[name].at, name)
    full = f"{room}/{name}"
    if full in plan.doors:
        found = door_opening(plan, full)
    elif full in plan.windows:
        found = window_opening(plan, full)
    elif name in place.mirrors:
        mirror = place.mirrors[name]
        found = opening(place, mirror, float(mirror.sill or 0.0), mirror.height)
    else:
        return None
    return found.middle if found else None


def _fixed(plan: Plan, room: str, at: Spot | None, name: str) -> XY | None:
    """A mark may be told from another mark, but not from itself, and not by a clock, which needs a camera."""
    if isinstance(at, Point):
        return (float(at.x), float(at.y))
    if isinstance(at, Towards) and name not in (at.start, at.end):
        a, b = named(plan, room, at.start), named(plan, room, at.end)
        if a and b and a != b:
            share = at.metres / math.dist(a, b)
            return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
    if isinstance(at, Named) and at.mark != name and at.mark in plan.sets[room].furniture:
        return named(plan, room, at.mark)
    return None


def aim_height(plan: Plan, setup: Setup, aim: Aim) -> float | None:
    """Height in metres of what is aimed at: as said, or the eyes of whoever is at the mark."""
    if aim.height is not None:
        return float(aim.height)
    if isinstance(aim.at, Named) and setup.set:
        return mark_eyes(plan, setup, aim.at.mark)
    return None


def mark_eyes(plan: Plan, setup: Setup, name: str) -> float | None:
    """Height of the eyes of a person at a mark, or of the middle of a thing there."""
    room = plan.sets.get(setup.set or "")
    if room is None:
        return None
    if name in room.furniture:
        piece = room.furniture[name]
        size = piece.size or ()
        return float(piece.height) if piece.height is not None else float(size[2]) if len(size) > 2 else None
    if name not in room.marks:
        full = f"{setup.set}/{name}"
        found = window_opening(plan, full) or door_opening(plan, full)
        return (found.low + found.high) / 2 if found else None
    mark = room.marks[name]
    if mark.thing or mark.height is not None:
        return None if mark.height is None else float(mark.height)
    if mark.lies:
        return LYING_EYES
    tall = person_height(plan, setup)
    return SITTING_EYES * tall / TALL if mark.sits else tall - EYES_BELOW_TOP


def person_height(plan: Plan, setup: Setup) -> float:
    """Height of who is in the setup: of its one actor where it has one, else a typical person."""
    cast = [p for shot in plan.shots_of(setup.id) for _, p in shot.cast or ()] or [p for _, p in setup.cast or ()]
    heights = {float(t) for p in cast if p in plan.people and (t := plan.people[p].tall) is not None}
    if len(heights) == 1:
        return heights.pop()
    said = plan.film.defaults.person.tall if plan.film.defaults and plan.film.defaults.person else None
    return float(said) if said is not None else TALL


def camera(plan: Plan, setup: Setup) -> Stand | None:
    """Where the camera stands and looks at the start of its move."""
    c = setup.camera
    if c is None or c.aim is None or c.height is None:
        return None
    return _stand(plan, setup, c.at, float(c.height), c.aim)


def camera_end(plan: Plan, setup: Setup) -> Stand | None:
    """The same at the end of the move; None where nothing of it moves or the plan does not say where to."""
    c, move = setup.camera, setup.move
    if c is None or move is None or c.aim is None or c.height is None:
        return None
    if move.to is None and move.aim_to is None and move.height_to is None:
        return None
    height = c.height if move.height_to is None else move.height_to
    return _stand(plan, setup, move.to or c.at, float(height), move.aim_to or c.aim)


def _stand(plan: Plan, setup: Setup, at: Spot | None, height: float, aim: Aim) -> Stand | None:
    here = spot(plan, setup, at)
    if here is None:
        return None
    eye = (here[0], here[1], height)
    if aim.down:
        return Stand(eye, (here[0], here[1], 0.0), down=True)
    target, level = spot(plan, setup, aim.at), aim_height(plan, setup, aim)
    if target is None:
        return None
    return Stand(eye, (target[0], target[1], height if level is None else level))


def light_room(setup: Setup, light: Light) -> str | None:
    """The set a lamp stands in: another one where it says so."""
    return light.in_ or setup.set


def light(plan: Plan, setup: Setup, item: Light) -> XYZ | None:
    """Where a lamp stands, in the coordinates of the setup's set, also outside of a window or in another room."""
    height = None if item.height is None else float(item.height)
    if item.outside is not None:
        found = window_opening(plan, item.outside)
        if found is None:
            return None
        away = float(item.away if item.away is not None else OUTSIDE_AWAY)
        run = (found.end[0] - found.start[0], found.end[1] - found.start[1])
        length = math.hypot(*run) or 1.0
        along = float(item.along or 0.0)
        at: XY | None = (
            found.middle[0] + found.out[0] * away + run[0] / length * along,
            found.middle[1] + found.out[1] * away + run[1] / length * along,
        )
        room: str | None = item.outside.rsplit("/", 1)[0]
        height = (found.low + found.high) / 2 if height is None else height
    else:
        room = light_room(setup, item)
        at = spot(plan, setup, item.at, room)
    if at is None or height is None:
        return None
    if room != setup.set and room and setup.set:
        way = carry(plan, room, setup.set)
        if way is None:
            return None
        at = way(at)
    return (at[0], at[1], height)


def light_xy(plan: Plan, setup: Setup, item: Light) -> XY | None:
    """The same on the floor plan alone, so that a lamp without a height is not lost."""
    found = light(plan, setup, item)
    if found is not None:
        return found[:2]
    if item.outside is not None or light_room(setup, item) != setup.set:
        return None
    return spot(plan, setup, item.at)


def light_aim(plan: Plan, setup: Setup, item: Light) -> XYZ | None:
    """What a lamp points at, always in the setup's own set."""
    if item.aim is None or item.aim.at is None:
        return None
    at, level = spot(plan, setup, item.aim.at), aim_height(plan, setup, item.aim)
    if at is None:
        return None
    return (at[0], at[1], 1.2 if level is None else level)


def thing(plan: Plan, setup: Setup, item: Grip | Practical) -> XYZ | None:
    """Where a flag, a cloth or a practical stands; the middle of a thing of which no height is said lies at 1 m."""
    at = spot(plan, setup, item.at)
    if at is None and hasattr(item, "prop"):
        at = named(plan, setup.set or "", item.id)
    return None if at is None else (at[0], at[1], 1.0 if item.height is None else float(item.height))
