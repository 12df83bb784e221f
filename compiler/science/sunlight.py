"""Direct sun through an opening: when it strikes, how far it reaches into the room, where its patch lies.

Set coordinates: x and y on the floor, z up, metres; `north` is the compass bearing of +y (degrees clockwise).
The sun is taken as parallel light from the centre of its disc; edges of a real patch are soft by half a degree.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, radians, sin, tan

from . import sun
from .geometry import Point, Point3, Polygon, clip_convex, distance, edges, turn_between
from .roots import spans

SkyLine = Callable[[float], float]


def sun_direction(azimuth: float, elevation: float, north: float) -> Point3:
    """Unit vector from a set towards the sun, in set coordinates."""
    turn, height = radians(azimuth - north), radians(elevation)
    return sin(turn) * cos(height), cos(turn) * cos(height), sin(height)


def incidence(azimuth: float, elevation: float, facing: float) -> float:
    """Cosine between the sun and the outward normal of a vertical opening that faces a compass bearing; <= 0 behind
    it.
    """
    return cos(radians(elevation)) * cos(radians(azimuth - facing))


def strike_margin(position: sun.Position, facing: float, skyline: float = 0.0, lifted: bool = True) -> float:
    """Degrees by which the sun is free of the skyline and in front of the opening; negative when it does not strike.

    `skyline` is the height of hills and houses in the sun's bearing; `lifted` adds the refraction of the air.
    """
    height = position.elevation + (sun.refraction(position.elevation) if lifted else 0.0)
    return min(height - skyline, 90.0 - abs(turn_between(facing, position.azimuth)))


def strikes(
    latitude: float,
    longitude: float,
    start: float,
    end: float,
    facing: float,
    skyline: SkyLine | None = None,
) -> list[tuple[float, float]]:
    """Spans of [start, end] (UTC seconds) in which direct sun falls on a vertical opening facing a compass bearing.

    `skyline` gives the height (degrees) of what stands before the sky in a compass bearing; none means a flat horizon.
    """

    def margin(utc: float) -> float:
        position = sun.position(latitude, longitude, utc)
        return strike_margin(position, facing, skyline(position.azimuth) if skyline else 0.0)

    return spans(margin, start, end, 600.0)


def reach(height: float, azimuth: float, elevation: float, facing: float) -> float | None:
    """How far (m) into the room, square to the wall, sun through a point at `height` meets the floor; None when it
    does not.
    """
    straight = cos(radians(azimuth - facing))
    if elevation <= 0.0 or straight <= 0.0:
        return None
    return height / tan(radians(elevation)) * straight


def floor_patch(opening: Sequence[Point3], towards_sun: Point3, floor: Polygon) -> list[Point]:
    """The patch of sun on the floor (z = 0) of an opening with convex outline, clipped to the floor's outline.

    Empty when the sun is not up or the patch falls beyond the floor. Furniture and inner corners are not taken into
    account.
    """
    sx, sy, sz = towards_sun
    if sz <= 0.0:
        return []
    shadow = [(x - z * sx / sz, y - z * sy / sz) for x, y, z in opening]
    patch = clip_convex(floor, shadow)
    return patch if len(patch) >= 3 else []


def wall_patch(opening: Sequence[Point3], towards_sun: Point3, a: Point, b: Point, height: float) -> list[Point]:
    """The patch of sun on the wall from a to b, as (metres along the wall from a, metres above the floor).

    Empty when the opening's light does not reach that wall, or the wall is the opening's own.
    """
    length = distance(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    nx, ny = -uy, ux
    sx, sy, sz = towards_sun
    along_normal = sx * nx + sy * ny
    offsets = [(x - a[0]) * nx + (y - a[1]) * ny for x, y, _ in opening]
    if abs(along_normal) < 1e-9 or max(map(abs, offsets)) < 1e-6:
        return []
    steps = [offset / along_normal for offset in offsets]
    if any(step < -1e-9 for step in steps):
        return []
    hits = [(x - t * sx, y - t * sy, z - t * sz) for (x, y, z), t in zip(opening, steps, strict=True)]
    shadow = [((x - a[0]) * ux + (y - a[1]) * uy, z) for x, y, z in hits]
    patch = clip_convex([(0.0, 0.0), (length, 0.0), (length, height), (0.0, height)], shadow)
    return patch if len(patch) >= 3 else []


def wall_patches(
    opening: Sequence[Point3], towards_sun: Point3, room: Polygon, height: float
) -> list[tuple[int, list[Point]]]:
    """Patches on every wall the sun reaches, as (index of the wall, outline), walls in the order of the room's
    corners.
    """
    found = []
    for index, (a, b) in enumerate(edges(room)):
        patch = wall_patch(opening, towards_sun, a, b, height)
        if patch:
            found.append((index, patch))
    return found
