"""The shell of a set in its own coordinates: corners, walls, openings in them, and the way from room to room.

x runs along the wall called south from the set's south-west corner, y away from it, in metres. A set with an outline
names its walls wall-1 on, in the order of its corners.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Protocol

from ..plan.spots import Point
from ..record import record

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.set import Set

XY = tuple[float, float]
DOOR_HEIGHT = 2.0  # metres; common practice, no source; a door's own height overrides it


class InWall(Protocol):
    """What a door, a window, a mirror and a socket have in common."""

    @property
    def wall(self) -> str | None: ...
    @property
    def from_(self) -> float | None: ...
    @property
    def width(self) -> float | None: ...


@record
class Wall:
    """One wall: its name, where it begins and ends, and the unit vector that points out of the room."""

    name: str
    start: XY
    end: XY
    out: XY

    @property
    def length(self) -> float:
        """Metres."""
        return math.dist(self.start, self.end)

    def along(self, metres: float) -> XY:
        """The point so far from the wall's beginning."""
        share = metres / self.length if self.length else 0.0
        return (
            self.start[0] + (self.end[0] - self.start[0]) * share,
            self.start[1] + (self.end[1] - self.start[1]) * share,
        )


@record
class Opening:
    """A door, window or mirror as it stands in its wall: both ends on the floor plan, lower and upper edge in
    metres, and the unit vector out of the room."""

    start: XY
    end: XY
    low: float
    high: float
    out: XY

    @property
    def middle(self) -> XY:
        """Its middle on the floor plan."""
        return ((self.start[0] + self.end[0]) / 2, (self.start[1] + self.end[1]) / 2)


def corners(room: Set) -> tuple[XY, ...]:
    """The corners of the floor, from the south-west on against the clock for a plain room, as written for an
    outline; empty where the plan gives no size."""
    if room.outline:
        found = tuple((float(p.x), float(p.y)) for p in room.outline if isinstance(p, Point))
        return found if len(found) >= 3 else ()
    if len(room.size or ()) < 2:
        return ()
    assert room.size is not None
    w, d = float(room.size[0]), float(room.size[1])
    return ((0.0, 0.0), (w, 0.0), (w, d), (0.0, d))


def ceiling(room: Set) -> float | None:
    """Height of the ceiling in metres, or None outdoors and where it is not said."""
    if room.height is not None:
        return float(room.height)
    return float(room.size[2]) if room.size and len(room.size) > 2 else None


def walls(room: Set) -> tuple[Wall, ...]:
    """The walls of a set in order: south, east, north, west, or wall-1 on; every plain wall begins at its west or
    south end."""
    points = corners(room)
    if not points:
        return ()
    if not room.outline:
        w, d = points[2]
        return (
            Wall("south", (0.0, 0.0), (w, 0.0), (0.0, -1.0)),
            Wall("east", (w, 0.0), (w, d), (1.0, 0.0)),
            Wall("north", (0.0, d), (w, d), (0.0, 1.0)),
            Wall("west", (0.0, 0.0), (0.0, d), (-1.0, 0.0)),
        )
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True))
    turn = 1.0 if area > 0 else -1.0
    found = []
    for i, (a, b) in enumerate(zip(points, points[1:] + points[:1], strict=True), 1):
        length = math.dist(a, b) or 1.0
        out = (turn * (b[1] - a[1]) / length, -turn * (b[0] - a[0]) / length)
        found.append(Wall(f"wall-{i}", a, b, out))
    return tuple(found)


def wall_named(room: Set, name: str | None) -> Wall | None:
    """The wall of this name."""
    return next((w for w in walls(room) if w.name == name), None)


def opening(room: Set, item: InWall, low: float = 0.0, height: float | None = None) -> Opening | None:
    """Where a door, window or mirror stands, from its lower edge and height in metres; None where the plan does not
    say enough."""
    wall = wall_named(room, item.wall)
    if wall is None or item.from_ is None or item.width is None or height is None:
        return None
    start, end = wall.along(item.from_), wall.along(item.from_ + item.width)
    return Opening(start, end, low, low + height, wall.out)


def window_opening(plan: Plan, name: str) -> Opening | None:
    """Where a window stands in its own set."""
    window, room = plan.windows.get(name), plan.sets.get(name.rsplit("/", 1)[0])
    if window is None or room is None:
        return None
    return opening(room, window, float(window.sill or 0.0), window.height)


def door_opening(plan: Plan, name: str) -> Opening | None:
    """Where a door stands in the set that writes it."""
    door, room = plan.doors.get(name), plan.sets.get(name.rsplit("/", 1)[0])
    if door is None or room is None:
        return None
    return opening(room, door, 0.0, float(door.height or DOOR_HEIGHT))


def outward_bearing(room: Set, out: XY) -> float:
    """Compass bearing in degrees, clockwise from north, of a direction given in the set's own coordinates."""
    return (math.degrees(math.atan2(out[0], out[1])) + float(room.north or 0.0)) % 360.0


def facing(plan: Plan, window_id: str) -> float | None:
    """Compass bearing a window looks to; None where its wall is not known."""
    window, room = plan.windows.get(window_id), plan.sets.get(window_id.rsplit("/", 1)[0])
    wall = wall_named(room, window.wall) if room is not None and window is not None else None
    return outward_bearing(room, wall.out) if room is not None and wall is not None else None


@record
class Carry:
    """Carries points of one room into the coordinates of another, by the door between them."""

    cos: float
    sin: float
    dx: float
    dy: float

    def __call__(self, p: XY) -> XY:
        return (self.cos * p[0] - self.sin * p[1] + self.dx, self.sin * p[0] + self.cos * p[1] + self.dy)


def carry(plan: Plan, source: str, target: str) -> Carry | None:
    """The way from the coordinates of one set into another's, through a door whose two sides the plan places."""
    for name, door in plan.doors.items():
        home = name.rsplit("/", 1)[0]
        if door.leads_to is None or door.there is None or {home, door.leads_to} != {source, target}:
            continue
        far_room, near = plan.sets[door.leads_to], door_opening(plan, name)
        far_wall = wall_named(far_room, door.there.wall)
        if near is None or far_wall is None or door.there.from_ is None or door.width is None:
            continue
        far = far_wall.along(door.there.from_ + door.width / 2)
        ends = ((far, far_wall.out), (near.middle, near.out))
        (a, a_out), (b, b_out) = ends if source == door.leads_to else ends[::-1]
        angle = math.atan2(-b_out[1], -b_out[0]) - math.atan2(a_out[1], a_out[0])
        c, s = math.cos(angle), math.sin(angle)
        return Carry(c, s, b[0] - (c * a[0] - s * a[1]), b[1] - (s * a[0] + c * a[1]))
    return None
