"""Points, segments, polygons and upright solids.

Lengths are metres, x and y lie on the floor, z is up. A polygon is a sequence of (x, y) corners in order, either way
round, not closed by repeating the first. Formulas: textbook plane geometry (shoelace area, clipping after Sutherland
and Hodgman, and after Cyrus and Beck).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from math import atan2, ceil, cos, degrees, hypot, pi, radians, sin
from typing import NamedTuple, TypeAlias

Point: TypeAlias = tuple[float, float]
Point3: TypeAlias = tuple[float, float, float]
Polygon: TypeAlias = Sequence[Point]

#: Lengths below a tenth of a millimetre count as touching, not as overlapping.
TOUCH = 1e-4


class Prism(NamedTuple):
    """An upright solid: a convex base polygon between two heights (m). Boxes and cylinders are prisms."""

    base: tuple[Point, ...]
    bottom: float
    top: float


def bearing(origin: Point, target: Point) -> float:
    """Degrees clockwise from +y of the direction from one point to another, 0 to 360."""
    return degrees(atan2(target[0] - origin[0], target[1] - origin[1])) % 360.0


def towards(origin: Point, angle: float, length: float) -> Point:
    """The point `length` metres from `origin` in a direction given in degrees clockwise from +y."""
    return origin[0] + length * sin(radians(angle)), origin[1] + length * cos(radians(angle))


def clock(centre: Point, camera: Point, hour: float, length: float) -> Point:
    """The point `length` metres from `centre` at an hour of a clock face laid on the floor with the camera at 6
    o'clock.
    """
    return towards(centre, bearing(camera, centre) + 30.0 * hour, length)


def turn_between(first: float, second: float) -> float:
    """Signed turn from one bearing to another by the shorter way, degrees, above -180 up to 180."""
    turn = (second - first) % 360.0
    return turn if turn <= 180.0 else turn - 360.0


def distance(a: Point, b: Point) -> float:
    """Distance on the floor, m."""
    return hypot(a[0] - b[0], a[1] - b[1])


def area(polygon: Polygon) -> float:
    """Area of a polygon without crossings, square metres (shoelace formula)."""
    return abs(signed_area(polygon))


def signed_area(polygon: Polygon) -> float:
    """Area, positive for corners listed counter-clockwise (x to the right, y up)."""
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in edges(polygon)) / 2


def edges(polygon: Polygon) -> Iterable[tuple[Point, Point]]:
    """The sides of a polygon as pairs of corners, in order."""
    return ((polygon[i], polygon[(i + 1) % len(polygon)]) for i in range(len(polygon)))


def rectangle(centre: Point, width: float, depth: float, turned: float = 0.0) -> tuple[Point, ...]:
    """Corners, counter-clockwise, of a rectangle (width along x, depth along y) turned clockwise by degrees about its
    centre.
    """
    s, c = sin(radians(turned)), cos(radians(turned))
    half = ((-width / 2, -depth / 2), (width / 2, -depth / 2), (width / 2, depth / 2), (-width / 2, depth / 2))
    return tuple((centre[0] + x * c + y * s, centre[1] - x * s + y * c) for x, y in half)


def circle(centre: Point, radius: float, sides: int = 12) -> tuple[Point, ...]:
    """A regular polygon drawn around a circle, so that nothing of the circle lies outside."""
    outer = radius / cos(pi / sides)
    return tuple(
        (centre[0] + outer * cos(2 * pi * i / sides), centre[1] + outer * sin(2 * pi * i / sides)) for i in range(sides)
    )


def box(centre: Point, width: float, depth: float, bottom: float, top: float, turned: float = 0.0) -> Prism:
    """An upright box standing between two heights, its footprint turned clockwise by degrees."""
    return Prism(rectangle(centre, width, depth, turned), bottom, top)


def cylinder(centre: Point, radius: float, bottom: float, top: float) -> Prism:
    """An upright cylinder as a twelve-sided prism around it."""
    return Prism(circle(centre, radius), bottom, top)


def side_of(a: Point, b: Point, p: Point) -> float:
    """Twice the area of the triangle a, b, p: positive when p lies to the left of the line from a to b."""
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def inside(polygon: Polygon, p: Point) -> bool:
    """Whether a point lies in a polygon of any shape; its edge counts as inside."""
    if any(distance_to_segment(p, a, b) <= 1e-9 for a, b in edges(polygon)):
        return True
    result = False
    for (ax, ay), (bx, by) in edges(polygon):
        if (ay > p[1]) != (by > p[1]) and p[0] < ax + (p[1] - ay) * (bx - ax) / (by - ay):
            result = not result
    return result


def distance_to_segment(p: Point, a: Point, b: Point) -> float:
    """Distance from a point to the segment a-b, m."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = dx * dx + dy * dy
    along = 0.0 if length == 0.0 else max(0.0, min(1.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length))
    return hypot(p[0] - a[0] - along * dx, p[1] - a[1] - along * dy)


def segments_cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether segments a-b and c-d share a point."""
    d1, d2, d3, d4 = side_of(c, d, a), side_of(c, d, b), side_of(a, b, c), side_of(a, b, d)
    if d1 * d2 < 0.0 and d3 * d4 < 0.0:
        return True
    touching = ((d1, a, c, d), (d2, b, c, d), (d3, c, a, b), (d4, d, a, b))
    return any(turn == 0.0 and distance_to_segment(p, q, r) <= 1e-12 for turn, p, q, r in touching)


def crossing(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """The point where segments a-b and c-d cross; None when they do not, or run along each other."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
    cross = ux * vy - uy * vx
    if cross == 0.0:
        return None
    s = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross
    t = ((c[0] - a[0]) * uy - (c[1] - a[1]) * ux) / cross
    return (a[0] + s * ux, a[1] + s * uy) if 0.0 <= s <= 1.0 and 0.0 <= t <= 1.0 else None


def gap(first: Polygon, second: Polygon) -> float:
    """Clear distance between two polygons of any shape, m; 0 when they touch or overlap."""
    if inside(first, second[0]) or inside(second, first[0]):
        return 0.0
    best = float("inf")
    for a, b in edges(first):
        for c, d in edges(second):
            if segments_cross(a, b, c, d):
                return 0.0
            best = min(
                best, *(distance_to_segment(p, c, d) for p in (a, b)), *(distance_to_segment(p, a, b) for p in (c, d))
            )
    return best


def clip_convex(subject: Polygon, window: Polygon) -> list[Point]:
    """The part of a polygon inside a convex polygon (Sutherland-Hodgman); empty when nothing is left."""
    if signed_area(window) < 0.0:
        window = list(reversed(window))
    result = list(subject)
    for a, b in edges(window):
        if not result:
            return []
        kept: list[Point] = []
        for p, q in edges(result):
            left_p, left_q = side_of(a, b, p), side_of(a, b, q)
            if left_p >= 0.0:
                kept.append(p)
            if (left_p < 0.0 < left_q) or (left_q < 0.0 < left_p):
                t = left_p / (left_p - left_q)
                kept.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])))
        result = kept
    return result


def overlap(first: Polygon, second: Polygon) -> float:
    """Area two convex polygons share, square metres."""
    shared = clip_convex(first, second)
    return area(shared) if len(shared) >= 3 else 0.0


def sticks_out(shape: Polygon, room: Polygon) -> float:
    """How far a convex footprint reaches outside a room of any outline, m; 0 when it fits.

    The corners of the footprint are measured, and corners of the room that bite into the footprint.
    """
    out = max((wall_distance(room, p) for p in shape if not inside(room, p)), default=0.0)
    for corner in room:
        if inside(shape, corner):
            out = max(out, min(distance_to_segment(corner, a, b) for a, b in edges(shape)))
    return 0.0 if out <= TOUCH else out


def wall_distance(room: Polygon, p: Point) -> float:
    """Distance from a point to the nearest wall of a room, m."""
    return min(distance_to_segment(p, a, b) for a, b in edges(room))


def hull(points: Iterable[Point]) -> tuple[Point, ...]:
    """Convex hull, counter-clockwise from the leftmost lowest point (Andrew's monotone chain)."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return tuple(ordered)

    def chain(source: Iterable[Point]) -> list[Point]:
        line: list[Point] = []
        for p in source:
            while len(line) >= 2 and side_of(line[-2], line[-1], p) <= 0.0:
                line.pop()
            line.append(p)
        return line[:-1]

    return tuple(chain(ordered) + chain(reversed(ordered)))


def path_length(points: Sequence[Point]) -> float:
    """Length of a line through points, m."""
    return sum(distance(a, b) for a, b in itertools.pairwise(points))


def mirrored(p: Point, a: Point, b: Point) -> Point:
    """The point seen in a flat mirror that stands on the line from a to b."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    along = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)
    return 2 * (a[0] + along * dx) - p[0], 2 * (a[1] + along * dy) - p[1]


def points_along(a: Point, b: Point, spacing: float) -> list[Point]:
    """Points from a to b, both ends included, no further apart than `spacing` metres."""
    count = max(1, ceil(distance(a, b) / spacing))
    return [(a[0] + (b[0] - a[0]) * i / count, a[1] + (b[1] - a[1]) * i / count) for i in range(count + 1)]
