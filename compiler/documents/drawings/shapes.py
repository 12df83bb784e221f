"""Plane geometry the drawings share: boxes, segments, convex shapes, rays. Any unit; nothing here draws."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

Point = tuple[float, float]
Box = tuple[float, float, float, float]
Segment = tuple[Point, Point]

NEAR = 1e-9


def unit(degrees: float) -> Point:
    """The unit vector of a direction given clockwise from +y."""
    turn = math.radians(degrees)
    return math.sin(turn), math.cos(turn)


def direction(a: Point, b: Point) -> float:
    """The direction from a to b, degrees clockwise from +y, 0 to 360."""
    return math.degrees(math.atan2(b[0] - a[0], b[1] - a[1])) % 360.0


def between(a: Point, b: Point, share: float) -> Point:
    """The point that lies `share` of the way from a to b."""
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def distance(a: Point, b: Point) -> float:
    return math.hypot(b[0] - a[0], b[1] - a[1])


def around(points: Iterable[Point], margin: float = 0.0) -> Box:
    """The upright box around points, wider by a margin on each side."""
    listed = list(points)
    xs = [p[0] for p in listed]
    ys = [p[1] for p in listed]
    return min(xs) - margin, min(ys) - margin, max(xs) + margin, max(ys) + margin


def apart(a: Box, b: Box, gap: float = 0.0) -> bool:
    """True when two boxes have at least `gap` between them (touching counts as apart when gap is 0)."""
    return a[2] + gap <= b[0] or b[2] + gap <= a[0] or a[3] + gap <= b[1] or b[3] + gap <= a[1]


def inside_box(small: Box, big: Box) -> bool:
    return small[0] >= big[0] and small[1] >= big[1] and small[2] <= big[2] and small[3] <= big[3]


def segment_meets_box(segment: Segment, box: Box) -> bool:
    """True when any part of the segment lies within the box (clipping by parameter)."""
    (x0, y0), (x1, y1) = segment
    left, top, right, bottom = box
    if (x0 <= left and x1 <= left) or (x0 >= right and x1 >= right):
        return False
    if (y0 <= top and y1 <= top) or (y0 >= bottom and y1 >= bottom):
        return False
    low, high = 0.0, 1.0
    for start, change, least, most in ((x0, x1 - x0, left, right), (y0, y1 - y0, top, bottom)):
        if abs(change) < NEAR:
            if start <= least or start >= most:
                return False
            continue
        first, second = (least - start) / change, (most - start) / change
        if first > second:
            first, second = second, first
        low, high = max(low, first), min(high, second)
        if low >= high:
            return False
    return True


def segments_cross(a: Segment, b: Segment) -> bool:
    """True when two segments properly cross."""
    ((px, py), (qx, qy)), ((rx, ry), (sx, sy)) = a, b
    ux, uy, vx, vy = qx - px, qy - py, sx - rx, sy - ry
    if (ux * (ry - py) - uy * (rx - px)) * (ux * (sy - py) - uy * (sx - px)) >= -NEAR:
        return False
    return (vx * (py - ry) - vy * (px - rx)) * (vx * (qy - ry) - vy * (qx - rx)) < -NEAR


def convex_meets_box(shape: Sequence[Point], box: Box) -> bool:
    """True when a convex shape and an upright box overlap (separating axes)."""
    outer = around(shape)
    if apart(outer, box):
        return False
    if len(shape) == 4 and all(p[0] in (outer[0], outer[2]) and p[1] in (outer[1], outer[3]) for p in shape):
        return True
    corners = ((box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3]))
    for n, a in enumerate(shape):
        b = shape[(n + 1) % len(shape)]
        nx, ny = b[1] - a[1], a[0] - b[0]
        if abs(nx) + abs(ny) < NEAR:
            continue
        ours = [p[0] * nx + p[1] * ny for p in shape]
        theirs = [p[0] * nx + p[1] * ny for p in corners]
        if max(ours) <= min(theirs) + NEAR or max(theirs) <= min(ours) + NEAR:
            return False
    return True


def contains(outline: Sequence[Point], p: Point) -> bool:
    """True when p lies inside a simple polygon (even-odd rule)."""
    inside = False
    for n, a in enumerate(outline):
        b = outline[(n + 1) % len(outline)]
        if (a[1] > p[1]) != (b[1] > p[1]) and p[0] < a[0] + (p[1] - a[1]) * (b[0] - a[0]) / (b[1] - a[1]):
            inside = not inside
    return inside


def ray_hit(start: Point, along: Point, a: Point, b: Point) -> float | None:
    """How far along a ray (unit vector) it meets the segment a to b; None when it does not."""
    ex, ey = b[0] - a[0], b[1] - a[1]
    cross = along[0] * ey - along[1] * ex
    if abs(cross) < NEAR:
        return None
    dx, dy = a[0] - start[0], a[1] - start[1]
    far = (dx * ey - dy * ex) / cross
    share = (dx * along[1] - dy * along[0]) / cross
    return far if far > 1e-6 and -1e-6 <= share <= 1 + 1e-6 else None


def box_corners(at: Point, width: float, depth: float, turned: float) -> tuple[Point, Point, Point, Point]:
    """The corners of a rectangle about its centre, turned clockwise."""
    ux, uy = unit(turned + 90.0)
    vx, vy = unit(turned)
    w, d = width / 2.0, depth / 2.0

    def corner(s: float, t: float) -> Point:
        return at[0] + ux * w * s + vx * d * t, at[1] + uy * w * s + vy * d * t

    return corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)


def area(outline: Sequence[Point]) -> float:
    """Signed area, positive when the outline runs counter-clockwise (y up)."""
    return 0.5 * sum(
        a[0] * outline[(n + 1) % len(outline)][1] - outline[(n + 1) % len(outline)][0] * a[1]
        for n, a in enumerate(outline)
    )


def outset(outline: Sequence[Point], by: float) -> tuple[Point, ...]:
    """The outline moved outwards, corner for corner, mitred; very sharp corners are cut at three times `by`."""
    count = len(outline)
    normals: list[Point] = []
    for n, a in enumerate(outline):
        b = outline[(n + 1) % count]
        length = distance(a, b) or 1.0
        normals.append(((b[1] - a[1]) / length, (a[0] - b[0]) / length))
    moved: list[Point] = []
    for n, p in enumerate(outline):
        (ax, ay), (bx, by_) = normals[n - 1], normals[n]
        share = 1.0 + ax * bx + ay * by_
        reach = by / share if share > 0.22 else by * 3.0 / max(math.hypot(ax + bx, ay + by_), 0.1)
        moved.append((p[0] + (ax + bx) * reach, p[1] + (ay + by_) * reach))
    return tuple(moved)


def clip_to_box(segment: Segment, box: Box) -> Segment | None:
    """The part of a segment within a box, or None."""
    (x0, y0), (x1, y1) = segment
    low, high = 0.0, 1.0
    for start, change, least, most in ((x0, x1 - x0, box[0], box[2]), (y0, y1 - y0, box[1], box[3])):
        if abs(change) < NEAR:
            if start < least or start > most:
                return None
            continue
        first, second = (least - start) / change, (most - start) / change
        if first > second:
            first, second = second, first
        low, high = max(low, first), min(high, second)
    return (between(*segment, low), between(*segment, high)) if low < high else None
