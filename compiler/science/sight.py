"""What hides what: the part of a solid a camera sees past walls and other solids, in mirrors and through a move.

Exact for convex solids that do not run into each other: what stands in the way is cut out of the outline in the frame.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from typing import NamedTuple

from . import camera as cameras
from .camera import Camera, View
from .geometry import Point, Point3, Prism, area, clip_convex, distance, edges, side_of, signed_area

#: Pieces of outline smaller than this part of the frame are dropped while cutting.
_CRUMB = cameras.LEAST_SHARE / 10.0


class Opening(NamedTuple):
    """A door or window in a wall: metres along the wall from its first end, and heights above the floor."""

    start: float
    end: float
    bottom: float
    top: float


class Wall(NamedTuple):
    """An upright wall from a to b (m on the floor) between two heights, with openings one can see through."""

    a: Point
    b: Point
    bottom: float
    top: float
    openings: tuple[Opening, ...] = ()


#: A flat convex outline in space.
Pane = tuple[Point3, ...]


def panes(wall: Wall) -> list[Pane]:
    """The wall without its openings, as upright rectangles."""
    length = distance(wall.a, wall.b)
    cuts = sorted({0.0, length, *(min(max(x, 0.0), length) for o in wall.openings for x in (o.start, o.end))})
    result: list[Pane] = []
    for left, right in itertools.pairwise(cuts):
        holes = sorted((o.bottom, o.top) for o in wall.openings if o.start <= left and right <= o.end)
        low = wall.bottom
        for bottom, top in [*holes, (wall.top, wall.top)]:
            if bottom > low:
                result.append(upright(wall.a, wall.b, left / length, right / length, low, min(bottom, wall.top)))
            low = max(low, top)
    return result


def upright(a: Point, b: Point, start: float, end: float, bottom: float, top: float) -> Pane:
    """An upright rectangle on the line from a to b, between two parts (0 to 1) of it and two heights."""
    p = (a[0] + (b[0] - a[0]) * start, a[1] + (b[1] - a[1]) * start)
    q = (a[0] + (b[0] - a[0]) * end, a[1] + (b[1] - a[1]) * end)
    return (*p, bottom), (*q, bottom), (*q, top), (*p, top)


def _minus(origin: Point3, p: Point3) -> Point3:
    return p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]


def _dot(a: Point3, b: Point3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _cross(a: Point3, b: Point3) -> Point3:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def depth_of_pane(origin: Point3, direction: Point3, pane: Pane) -> float:
    """Multiple of `direction` at which a ray meets the plane of a pane; infinite when it runs along it or away from
    it.
    """
    normal = _cross(_minus(pane[0], pane[1]), _minus(pane[0], pane[2]))
    slope = _dot(normal, direction)
    if slope == 0.0:
        return float("inf")
    depth = _dot(normal, _minus(origin, pane[0])) / slope
    return depth if depth > 0.0 else float("inf")


def depth_of_solid(origin: Point3, direction: Point3, solid: Prism) -> float:
    """Multiple of `direction` at which a ray enters an upright solid (0 when it starts inside); infinite when it
    misses.
    """
    base = solid.base if signed_area(solid.base) > 0.0 else tuple(reversed(solid.base))
    enter, leave = 0.0, float("inf")
    limits = [(origin[2] - solid.bottom, direction[2]), (solid.top - origin[2], -direction[2])]
    for a, b in edges(base):
        here = side_of(a, b, (origin[0], origin[1]))
        limits.append((here, side_of(a, b, (origin[0] + direction[0], origin[1] + direction[1])) - here))
    for inside, gain in limits:
        if gain == 0.0:
            if inside < 0.0:
                return float("inf")
        elif gain > 0.0:
            enter = max(enter, -inside / gain)
        else:
            leave = min(leave, -inside / gain)
    return enter if enter <= leave else float("inf")


def cut_out(pieces: list[tuple[Point, ...]], hole: Sequence[Point]) -> list[tuple[Point, ...]]:
    """Convex pieces less a convex hole (corners counter-clockwise), as convex pieces."""
    left: list[tuple[Point, ...]] = []
    for piece in pieces:
        inner: tuple[Point, ...] = piece
        parts: list[tuple[Point, ...]] = []
        for a, b in edges(hole):
            outer, inner = _split(inner, a, b)
            if len(outer) >= 3 and area(outer) / 4.0 > _CRUMB:
                parts.append(outer)
            if len(inner) < 3:
                break
        left.extend(parts)
    return left


def _split(piece: tuple[Point, ...], a: Point, b: Point) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """A convex piece cut by the line from a to b: the part to its right, the part to its left."""
    right: list[Point] = []
    left: list[Point] = []
    for p, q in edges(piece):
        here, there = side_of(a, b, p), side_of(a, b, q)
        (left if here >= 0.0 else right).append(p)
        if (here < 0.0 < there) or (there < 0.0 < here):
            t = here / (here - there)
            at = (p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]))
            left.append(at)
            right.append(at)
        elif here == 0.0 and there < 0.0:
            right.append(p)
        elif here < 0.0 and there == 0.0:
            right.append(q)
    return tuple(right), tuple(left)


def _mean(points: Sequence[Point]) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def _hides(camera: Camera, at: Point, solid: Prism, blocker: Prism | Pane) -> bool:
    """Whether, in the direction of a point of the frame, the blocker comes before the solid."""
    ray = _minus(camera.position, cameras.unproject(camera, *at, 1.0))
    mine = depth_of_solid(camera.position, ray, solid)
    if isinstance(blocker, Prism):
        return depth_of_solid(camera.position, ray, blocker) < mine
    return depth_of_pane(camera.position, ray, blocker) < mine


def _shape(camera: Camera, blocker: Prism | Pane) -> tuple[Point, ...]:
    if isinstance(blocker, Prism):
        return cameras.solid_in_frame(camera, blocker)
    return cameras.outline_in_frame(camera, [blocker])[0]


class InTheWay(NamedTuple):
    """What stands in the frame and may hide other things: itself, its outline there, and the box around that
    (least and greatest x, least and greatest y).
    """

    thing: Prism | Pane
    outline: tuple[Point, ...]
    box: tuple[float, float, float, float]


def in_the_way(camera: Camera, blockers: Sequence[Prism | Pane]) -> list[InTheWay]:
    """The blockers that are in the frame at all; worked out once for many solids seen from one place."""
    found = []
    for blocker in blockers:
        shape = _shape(camera, blocker)
        if len(shape) >= 3:
            found.append(InTheWay(blocker, shape, _box(shape)))
    return found


def _box(points: Sequence[Point]) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), max(xs), min(ys), max(ys)


def what_is_left(
    camera: Camera, solid: Prism, outline: Sequence[Point], blockers: Sequence[InTheWay]
) -> list[tuple[Point, ...]]:
    """The convex pieces of a solid's outline in the frame that nothing in the way hides."""
    pieces = [tuple(outline)]
    left, right, low, high = _box(outline)
    for blocker, shape, (west, east, south, north) in blockers:
        if east <= left or west >= right or north <= low or south >= high:
            continue
        shared = clip_convex(outline, shape)
        if len(shared) >= 3 and area(shared) / 4.0 > _CRUMB and _hides(camera, _mean(shared), solid, blocker):
            pieces = cut_out(pieces, shape)
            if not pieces:
                break
    return pieces


def share_of(pieces: Sequence[Sequence[Point]]) -> float:
    """Part of the frame (0 to 1) that pieces without overlaps cover."""
    return sum(area(piece) for piece in pieces) / 4.0


def seen(camera: Camera, solid: Prism, blockers: Sequence[Prism | Pane]) -> View:
    """How a solid stands to the frame past everything in the way.

    `share` counts only what is left to see; with all of it hidden `seen` is False while `outline` still shows where
    it is.
    """
    return seen_past(camera, solid, lambda: in_the_way(camera, blockers))


def seen_past(camera: Camera, solid: Prism, blockers: Callable[[], Sequence[InTheWay]]) -> View:
    """As `seen`, where what is in the way is asked for only if the solid is in the frame."""
    bare = cameras.view(camera, solid)
    if not bare.seen:
        return bare
    share = share_of(what_is_left(camera, solid, bare.outline, blockers()))
    return bare._replace(seen=share > cameras.LEAST_SHARE, share=share)


def seen_in_mirror(
    camera: Camera, mirror: Pane, solid: Prism, blockers: Sequence[Prism | Pane] = ()
) -> tuple[float, list[tuple[Point, ...]]]:
    """Part of the frame (0 to 1) in which an upright mirror shows a solid, and the pieces in frame coordinates.

    `blockers` hide the solid on its way to the mirror, not the mirror from the camera. 0 when the solid stands behind
    it.
    """
    a, b = mirror[0][:2], mirror[1][:2]
    behind = cameras.mirrored(camera, a, b)
    glass, _ = cameras.outline_in_frame(behind, [mirror])
    ours = side_of(a, b, camera.position[:2])
    if len(glass) < 3 or not any(side_of(a, b, p) * ours > 0.0 for p in solid.base):
        return 0.0, []
    ahead = solid._replace(base=_on_our_side(solid.base, a, b, ours))
    outline = cameras.solid_in_frame(behind, ahead)
    shared = tuple(clip_convex(outline, glass)) if len(outline) >= 3 else ()
    if len(shared) < 3:
        return 0.0, []
    between = [blocker for blocker in blockers if _ahead(blocker, a, b, ours)]
    pieces = what_is_left(behind, ahead, shared, in_the_way(behind, between))
    return share_of(pieces), pieces


def _on_our_side(base: tuple[Point, ...], a: Point, b: Point, ours: float) -> tuple[Point, ...]:
    right, left = _split(base, a, b)
    return left if ours > 0.0 else right


def _ahead(blocker: Prism | Pane, a: Point, b: Point, ours: float) -> bool:
    """Whether all of a blocker stands on the camera's side of the mirror's line."""
    points = blocker.base if isinstance(blocker, Prism) else [p[:2] for p in blocker]
    return all(side_of(a, b, (p[0], p[1])) * ours > 0.0 for p in points)


def worst_along(view_at: Callable[[float], View], samples: int = 16) -> tuple[float, View]:
    """The part (0 to 1) of a move at which a solid comes furthest into the frame, and how it stands there.

    The move is looked at `samples` + 1 times, then more finely around the best; what is seen beats what is hidden.
    """

    def key(part: float, found: View) -> tuple[bool, float, float]:
        return found.seen, found.margin, -part

    views = {i / samples: view_at(i / samples) for i in range(samples + 1)}
    step = 1.0 / samples
    for _ in range(5):
        best = max(views, key=lambda part: key(part, views[part]))
        step /= 2.0
        for part in (best - step, best + step):
            if 0.0 <= part <= 1.0 and part not in views:
                views[part] = view_at(part)
    best = max(views, key=lambda part: key(part, views[part]))
    return best, views[best]
