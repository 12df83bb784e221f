"""Where direct sun through a window falls: on a mark at the height of a face, on the floor, on a wall, from when to
when. The sun is the middle of its disc; furniture, frames and bars of the window are not looked at."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..science import sunlight
from . import sky, walls

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.set import Set
    from .places import XYZ
    from .sky import Span

STEP = 4  # half-minutes between two looks at the sun: it moves half a degree meanwhile


def pane(plan: Plan, window: str) -> tuple[XYZ, ...]:
    """The corners of a window in its set; empty where the plan does not place it."""
    found = walls.window_opening(plan, window)
    if found is None:
        return ()
    a, b = found.start, found.end
    return ((*a, found.low), (*b, found.low), (*b, found.high), (*a, found.high))


def reaches(plan: Plan, window: str, at: XYZ, towards: XYZ) -> bool:
    """Whether a ray from a point of the set towards the sun leaves it through the window."""
    found = walls.window_opening(plan, window)
    if found is None:
        return False
    (ax, ay), (bx, by) = found.start, found.end
    ox, oy = found.out
    facing = towards[0] * ox + towards[1] * oy
    if facing <= 1e-9 or towards[2] <= 0:
        return False
    step = ((ax - at[0]) * ox + (ay - at[1]) * oy) / facing
    if step <= 0:
        return False
    x, y, z = (at[i] + step * towards[i] for i in range(3))
    run = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 or 1.0
    along = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / run
    return 0.0 <= along <= run and found.low <= z <= found.high


def on_point(plan: Plan, room: Set, window: str, day: str, at: XYZ, spans: tuple[Span, ...]) -> tuple[Span, ...]:
    """When sun through a window falls on a point, within the spans in which it stands on the glass; to two minutes."""
    found: list[Span] = []
    place = room.id.split("/")[0]
    for start, end in spans:
        last: int | None = None
        for clock in [*range(start, end, STEP), end]:
            position = sky.sun_at(plan, day, place, clock)
            hit = position is not None and reaches(
                plan, window, at, sunlight.sun_direction(position.azimuth, position.elevation, float(room.north or 0.0))
            )
            if hit and last is None:
                last = clock
            if last is not None and (not hit or clock == end):
                found.append((last, clock))
                last = None
    return tuple((a, b) for a, b in found if b > a)


class Patch(NamedTuple):
    """The patch of sun of a window at an hour: how deep on the floor (metres from the window's wall to its far edge,
    None where it does not lie on the floor), and the walls it reaches with the lowest and highest metre there."""

    clock: int
    height: float
    bearing: float
    deep: float | None
    walls: tuple[tuple[str, float, float], ...]


def patch(plan: Plan, room: Set, window: str, day: str, clock: int) -> Patch | None:
    """The patch at an hour; None where the sun does not stand on the window or the plan says too little."""
    position, corners = sky.sun_at(plan, day, room.id.split("/")[0], clock), pane(plan, window)
    outline, opening = walls.corners(room), walls.window_opening(plan, window)
    if position is None or not corners or len(outline) < 3 or opening is None:
        return None
    towards = sunlight.sun_direction(position.azimuth, position.elevation, float(room.north or 0.0))
    if towards[2] <= 0 or towards[0] * opening.out[0] + towards[1] * opening.out[1] <= 0:
        return None
    floor = sunlight.floor_patch(corners, towards, list(outline))
    inward = (-opening.out[0], -opening.out[1])
    reach = [(x - opening.start[0]) * inward[0] + (y - opening.start[1]) * inward[1] for x, y in floor]
    high = walls.ceiling(room) or 3.0
    names = walls.walls(room)
    met = []
    for wall in names:
        lit = sunlight.wall_patch(corners, towards, wall.start, wall.end, high)
        if lit and wall.out != opening.out:
            met.append((wall.name, min(z for _, z in lit), max(z for _, z in lit)))
    return Patch(clock, position.elevation, position.azimuth, max(reach) if reach else None, tuple(met))
