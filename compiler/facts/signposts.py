"""Directions in a set in words: towards what somebody walks who goes this way."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from . import places, walls

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan import Plan
    from ..plan.set import Set
    from .walls import XY

WITHIN = 30.0
"""Degrees to either side that still count as towards something; common practice, no source."""
NEAREST = 0.3
"""Metres: what is nearer gives no direction."""


def towards(plan: Plan, room: Set, here: XY, step: XY) -> str:
    """What lies in the direction of a step: the window, door, piece of furniture or mark most nearly ahead, else the
    wall; "" where nothing of the room is known."""
    best: tuple[float, float, str] | None = None
    for words, (x, y) in _posts(plan, room):
        away = math.dist(here, (x, y))
        if away < NEAREST:
            continue
        off = _between(step, (x - here[0], y - here[1]))
        if off <= WITHIN and (best is None or (off, away, words) < best):
            best = (off, away, words)
    if best is not None:
        return best[2]
    wall = min(walls.walls(room), key=lambda w: _between(step, w.out), default=None)
    return "" if wall is None else f"the wall '{wall.name}'"


def _posts(plan: Plan, room: Set) -> Iterator[tuple[str, XY]]:
    for window in room.windows.values():
        opening = walls.window_opening(plan, window.id)
        if opening is not None:
            yield f"the window '{_short(window.id)}'", opening.middle
    for door in room.doors.values():
        opening = walls.door_opening(plan, door.id)
        if opening is not None:
            yield f"the door '{_short(door.id)}'", opening.middle
    for name in (*room.furniture, *room.marks):
        at = places.named(plan, room.id, name)
        if at is not None:
            yield f"'{name}'", at


def _short(name: str) -> str:
    return name.rpartition("/")[2]


def _between(a: XY, b: XY) -> float:
    """Degrees between two directions; 180 where one is none."""
    size = math.hypot(*a) * math.hypot(*b)
    if size == 0.0:
        return 180.0
    return math.degrees(math.acos(max(-1.0, min(1.0, (a[0] * b[0] + a[1] * b[1]) / size))))
