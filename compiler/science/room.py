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
FLOOR, CEILING = -1, -2


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
    """Where light lands: the place, the normal into the room, the lumens that fall there, the area they fall on, the
    surface (a wall's number, FLOOR or CEILING) and the reflectance of a panel in it (None: none is there)."""

    at: Point3
    normal: Point3
    lumens: float
    area: float
    surface: int
    panel: float | None

    def reflects(self, room: Enclosure) -> float:
        """The share given back in a room of this shape."""
        if self.panel is not None:
            return self.panel
        if self.surface == FLOOR:
            return room.floor
        return room.ceiling if self.surface == CEILING else room.walls[self.surface]


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
    """Flux of a round beam of a peak intensity: 2 pi times the integral of I sin, by the middle of every 2 degrees."""
    step = radians(2.0)
    return candela * 2.0 * pi * step * sum(profile(d + 1.0) * sin(radians(d + 1.0)) for d in range(0, 90, 2))


def widest(profile: Profile) -> float:
    """Degrees off the axis beyond which next to nothing shines."""
    return max((d for d in range(5, 91, 5) if profile(d) > 0.02), default=5)


def rays(axis: Point3, profile: Profile) -> tuple[list[tuple[Point3, float]], float]:
    """Directions of a round beam about its axis (unit vector), each with its share of the flux, which add up to 1;
    and the solid angle of each, sr."""
    edge = widest(profile)
    u, v = _across(axis)
    found: list[tuple[Point3, float]] = []
    for ring in range(RINGS):
        off = radians(edge * (ring + 0.5) / RINGS)
        weight = profile(edge * (ring + 0.5) / RINGS) * sin(off)
        c, s = cos(off), sin(off)
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
    return [(way, weight / total) for way, weight in found], 2.0 * pi * (1.0 - cos(radians(edge))) / len(found)


def landings(
    room: Enclosure, source: Point3, beam: Iterable[tuple[Point3, float]], flux: float, spread: float
) -> list[Landing]:
    """Where the rays of a lamp land, each with a share of its flux (lumens) and `spread`, its solid angle (sr). Rays
    of a lamp outside come in only through open panels; what falls out again is lost."""
    found, planes = [], _planes(room)
    for way, share in beam:
        met = _hit(room, planes, source, way)
        if met is None:
            continue
        far, normal, surface_, panel = met
        at = (source[0] + far * way[0], source[1] + far * way[1], source[2] + far * way[2])
        slant = max(0.1, abs(way[0] * normal[0] + way[1] * normal[1] + way[2] * normal[2]))
        found.append(Landing(at, normal, flux * share, spread * far * far / slant, surface_, panel))
    return found


def struck(room: Enclosure, source: Point3, way: Point3) -> Landing | None:
    """The surface that a ray from inside the room meets, as a place without light; None from outside."""
    met = _hit(room, _planes(room), source, way)
    if met is None:
        return None
    far, normal, surface_, panel = met
    at = (source[0] + far * way[0], source[1] + far * way[1], source[2] + far * way[2])
    return Landing(at, normal, 0.0, 0.0, surface_, panel)


def given_back(room: Enclosure, places: Iterable[Landing]) -> float:
    """Lumens that leave the places where light has landed."""
    return sum(place.lumens * place.reflects(room) for place in places)


def first_bounce(room: Enclosure, places: Iterable[Landing], at: Point3, facing: Point3) -> float:
    """Lux at a point on a surface that faces a direction (unit vector), from where light has landed: each place a
    small disc, F = cos cos A / (pi d^2 + A)."""
    total = 0.0
    x, y, z = at
    fx, fy, fz = facing
    for place in places:
        (px, py, pz), (nx, ny, nz), lumens_, area, _, _ = place
        dx, dy, dz = px - x, py - y, pz - z
        towards = dx * fx + dy * fy + dz * fz
        leaves = -(dx * nx + dy * ny + dz * nz)
        if towards > 0.0 and leaves > 0.0:
            square = dx * dx + dy * dy + dz * dz
            total += lumens_ * place.reflects(room) * towards * leaves / (square * (pi * square + area))
    return total


def later_bounces(returned: float, area: float, mean: float) -> float:
    """Lux everywhere from the second bounce on, of lumens given back by the first."""
    return sphere(returned, area, min(mean, 0.98))


Plane = tuple[float, float, float, float, float, float, float]


def _planes(room: Enclosure) -> list[Plane]:
    """Each wall: its first corner, the unit vector along it, its length, its inward normal."""
    side = 1.0 if _signed(room.corners) > 0 else -1.0
    found = []
    for a, b in _edges(room.corners):
        long = hypot(b[0] - a[0], b[1] - a[1]) or 1e-9
        ex, ey = (b[0] - a[0]) / long, (b[1] - a[1]) / long
        found.append((a[0], a[1], ex, ey, long, -side * ey, side * ex))
    return found


Hit = tuple[float, Point3, int, float | None]


def _hit(room: Enclosure, planes: list[Plane], source: Point3, way: Point3) -> Hit | None:
    """The surface a ray meets inside the room: how far, its inward normal, which one, a panel's reflectance."""
    sx, sy, sz = source
    wx, wy, wz = way
    met: list[tuple[float, bool, int, float]] = []
    for i, (ax, ay, ex, ey, long, nx, ny) in enumerate(planes):
        slope = wx * nx + wy * ny
        if -1e-12 < slope < 1e-12:
            continue
        far = ((ax - sx) * nx + (ay - sy) * ny) / slope
        if far > 1e-6:
            along = (sx + far * wx - ax) * ex + (sy + far * wy - ay) * ey
            if 0.0 <= along <= long:
                met.append((far, slope > 0.0, i, along))
    inside, start = len(met) % 2 == 1, 0.0
    for far, inwards, i, along in sorted(met):
        high = sz + far * wz
        if inside:
            level = _level(room, source, way, start, far)
            if level is not None:
                return level
            if not inwards:
                panel = next((p for p in room.panels if p.wall == i and _within(p, along, high)), None)
                return far, (planes[i][5], planes[i][6], 0.0), i, None if panel is None else panel.reflects
        elif inwards:
            if not any(p.open and p.wall == i and _within(p, along, high) for p in room.panels):
                return None
            inside, start = True, far
    return _level(room, source, way, start, 1e9) if inside else None


def _level(room: Enclosure, source: Point3, way: Point3, start: float, end: float) -> Hit | None:
    """Floor or ceiling between two distances along a ray."""
    if abs(way[2]) < 1e-12:
        return None
    up = way[2] > 0
    far = ((room.height if up else 0.0) - source[2]) / way[2]
    if not start < far < end:
        return None
    return (far, (0.0, 0.0, -1.0), CEILING, None) if up else (far, (0.0, 0.0, 1.0), FLOOR, None)


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
