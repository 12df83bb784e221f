"""The light a room gives back: where a lamp's light lands first, and all later bounces spread evenly.

An estimate. Surfaces are matt. The first bounce is followed ray by ray from the lamp to the wall, ceiling or floor it
falls on, each landing place shining by Lambert's law; what is reflected on from there is taken as even in the whole
room, as in an integrating sphere: E = flux x rho / (A (1 - rho)), the mean of any room of one reflectance (handbooks
of lighting, as the sum of a geometric series). Metres, lumens, lux, set coordinates with z up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import cos, hypot, pi, radians, sin
from typing import NamedTuple

from .geometry import Point, Point3

Profile = Callable[[float], float]
"""Part of the peak intensity at degrees off the axis."""

RINGS, SPOKES = 6, 8


class Enclosure(NamedTuple):
    """A room: corners of the floor, height, reflectance of floor, ceiling and of each wall (from corner i to the
    next), and rectangles of other reflectance in the walls."""

    corners: tuple[Point, ...]
    height: float
    floor: float
    ceiling: float
    walls: tuple[float, ...]
    panels: tuple[Panel, ...] = ()


class Panel(NamedTuple):
    """Part of a wall: its number, metres along it from its first corner, heights, reflectance, and whether light from
    outside comes in through it."""

    wall: int
    start: float
    end: float
    low: float
    high: float
    reflects: float
    open: bool = False


class Landing(NamedTuple):
    """Where light lands: the place, the normal into the room, the lumens given back, and the area they fall on."""

    at: Point3
    normal: Point3
    lumens: float
    area: float


def sphere(flux: float, area: float, reflectance: float) -> float:
    """Mean lux on the surfaces of a room of one reflectance by light that was reflected at least once."""
    return flux * reflectance / (area * (1.0 - reflectance))


def surface(room: Enclosure) -> tuple[float, float]:
    """The area of all surfaces, and their mean reflectance by area."""
    ground = abs(_signed(room.corners))
    area, kept = 2.0 * ground, ground * (room.floor + room.ceiling)
    for (a, b), reflects in zip(_edges(room.corners), room.walls, strict=True):
        wall = hypot(b[0] - a[0], b[1] - a[1]) * room.height
        area, kept = area + wall, kept + wall * reflects
    for panel in room.panels:
        size = (panel.end - panel.start) * (panel.high - panel.low)
        kept += size * (panel.reflects - room.walls[panel.wall])
    return area, kept / area


def lumens(candela: float, profile: Profile) -> float:
    """Flux of a round beam of a peak intensity: 2 pi times the integral of I sin, by the middle of each degree."""
    step = radians(1.0)
    return candela * 2.0 * pi * step * sum(profile(d + 0.5) * sin(radians(d + 0.5)) for d in range(90))


def rays(axis: Point3, profile: Profile) -> list[tuple[Point3, float]]:
    """Directions of a round beam about its axis (unit vector), each with its share of the flux; shares add up to 1."""
    widest = max((d for d in range(5, 91, 5) if profile(d) > 0.02), default=5)
    u, v = _across(axis)
    found: list[tuple[Point3, float]] = []
    for ring in range(RINGS):
        off = widest * (ring + 0.5) / RINGS
        weight = profile(off) * sin(radians(off))
        c, s = cos(radians(off)), sin(radians(off))
        for spoke in range(SPOKES):
            turn = 2.0 * pi * (spoke + 0.5 * (ring % 2)) / SPOKES
            a, b = s * cos(turn), s * sin(turn)
            way = (
                c * axis[0] + a * u[0] + b * v[0],
                c * axis[1] + a * u[1] + b * v[1],
                c * axis[2] + a * u[2] + b * v[2],
            )
            found.append((way, weight))
    total = sum(weight for _, weight in found) or 1.0
    return [(way, weight / total) for way, weight in found]


def landings(
    room: Enclosure, source: Point3, beam: Iterable[tuple[Point3, float]], flux: float, spread: float
) -> list[Landing]:
    """Where the rays of a lamp land, each with a share of its flux (lumens) and `spread`, its solid angle (sr). Rays
    of a lamp outside come in only through open panels; what falls out again is lost."""
    found = []
    for way, share in beam:
        met = _hit(room, source, way)
        if met is None:
            continue
        far, normal, reflects = met
        at = (source[0] + far * way[0], source[1] + far * way[1], source[2] + far * way[2])
        slant = max(0.1, abs(way[0] * normal[0] + way[1] * normal[1] + way[2] * normal[2]))
        found.append(Landing(at, normal, flux * share * reflects, spread * far * far / slant))
    return found


def first_bounce(places: Iterable[Landing], at: Point3, facing: Point3) -> float:
    """Lux at a point on a surface that faces a direction (unit vector), from where light has landed: each place a
    small disc, F = cos cos A / (pi d^2 + A)."""
    total = 0.0
    for place in places:
        dx, dy, dz = (place.at[i] - at[i] for i in range(3))
        square = dx * dx + dy * dy + dz * dz
        if square < 1e-12:
            continue
        far = square**0.5
        towards = (dx * facing[0] + dy * facing[1] + dz * facing[2]) / far
        leaves = -(dx * place.normal[0] + dy * place.normal[1] + dz * place.normal[2]) / far
        if towards > 0.0 and leaves > 0.0:
            total += place.lumens * towards * leaves / (pi * square + place.area)
    return total


def later_bounces(returned: float, area: float, mean: float) -> float:
    """Lux everywhere from the second bounce on, of lumens given back by the first."""
    return sphere(returned, area, min(mean, 0.98))


def _hit(room: Enclosure, source: Point3, way: Point3) -> tuple[float, Point3, float] | None:
    """The surface a ray meets inside the room: how far, its inward normal, its reflectance."""
    side = 1.0 if _signed(room.corners) > 0 else -1.0
    met: list[tuple[float, bool, int, float]] = []
    for i, (a, b) in enumerate(_edges(room.corners)):
        ex, ey = b[0] - a[0], b[1] - a[1]
        long = hypot(ex, ey)
        nx, ny = -side * ey / long, side * ex / long
        slope = way[0] * nx + way[1] * ny
        if abs(slope) < 1e-12:
            continue
        far = ((a[0] - source[0]) * nx + (a[1] - source[1]) * ny) / slope
        along = ((source[0] + far * way[0] - a[0]) * ex + (source[1] + far * way[1] - a[1]) * ey) / long
        if far > 1e-6 and 0.0 <= along <= long:
            met.append((far, slope > 0.0, i, along))
    inside = sum(1 for far, *_ in met) % 2 == 1
    start = 0.0
    for far, inwards, i, along in sorted(met):
        high = source[2] + far * way[2]
        if inside:
            level = _level(room, source, way, start, far)
            if level is not None:
                return level
            if not inwards:
                return _on_wall(room, side, far, i, along, high)
        elif inwards:
            if not any(p.open and p.wall == i and _within(p, along, high) for p in room.panels):
                return None
            inside, start = True, far
    return _level(room, source, way, start, 1e9) if inside else None


def _level(
    room: Enclosure, source: Point3, way: Point3, start: float, end: float
) -> tuple[float, Point3, float] | None:
    """Floor or ceiling between two distances along a ray."""
    if abs(way[2]) < 1e-12:
        return None
    to, normal, reflects = (
        (room.height, (0.0, 0.0, -1.0), room.ceiling) if way[2] > 0 else (0.0, (0.0, 0.0, 1.0), room.floor)
    )
    far = (to - source[2]) / way[2]
    return (far, normal, reflects) if start < far < end else None


def _on_wall(
    room: Enclosure, side: float, far: float, i: int, along: float, high: float
) -> tuple[float, Point3, float]:
    a, b = list(_edges(room.corners))[i]
    long = hypot(b[0] - a[0], b[1] - a[1])
    normal = (-side * (b[1] - a[1]) / long, side * (b[0] - a[0]) / long, 0.0)
    panel = next((p for p in room.panels if p.wall == i and _within(p, along, high)), None)
    return far, normal, room.walls[i] if panel is None else panel.reflects


def _within(panel: Panel, along: float, high: float) -> bool:
    return panel.start <= along <= panel.end and panel.low <= high <= panel.high


def _edges(corners: Sequence[Point]) -> Iterable[tuple[Point, Point]]:
    return zip(corners, (*corners[1:], corners[0]), strict=True)


def _signed(corners: Sequence[Point]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in _edges(corners)) / 2.0


def _across(axis: Point3) -> tuple[Point3, Point3]:
    """Two unit vectors square to an axis and to each other."""
    x, y, z = axis
    flat = hypot(x, y)
    u = (y / flat, -x / flat, 0.0) if flat > 1e-6 else (1.0, 0.0, 0.0)
    return u, (y * u[2] - z * u[1], z * u[0] - x * u[2], x * u[1] - y * u[0])
