"""Walls, their openings, and how far a look or a beam gets before a wall stops it. All in metres."""

from __future__ import annotations

from ...record import record
from .scene import Opening, Scene
from .shapes import Point, Segment, between, contains, distance, outset, ray_hit


@record
class Hole:
    """An opening laid into its wall: inner and outer ends in the wall's own direction."""

    opening: Opening
    inner: Segment
    outer: Segment

    @property
    def quad(self) -> tuple[Point, Point, Point, Point]:
        return self.inner[0], self.inner[1], self.outer[1], self.outer[0]


@record
class Walls:
    """The standing walls: `runs` are whole shapes to draw, `pieces` convex parts of them, `holes` the openings."""

    inner: tuple[Point, ...]
    outer: tuple[Point, ...]
    runs: tuple[tuple[Point, ...], ...]
    pieces: tuple[tuple[Point, Point, Point, Point], ...]
    holes: tuple[Hole, ...]
    ring: bool


def _hole(scene: Scene, opening: Opening) -> Hole | None:
    count = len(scene.outline)
    a, b = scene.outline[opening.wall % count], scene.outline[(opening.wall + 1) % count]
    length = distance(a, b)
    start, end = max(0.0, opening.start), min(length, opening.start + opening.width)
    if length <= 0 or end - start < 0.01:
        return None
    nx, ny = (b[1] - a[1]) / length * scene.thickness, (a[0] - b[0]) / length * scene.thickness
    p, q = between(a, b, start / length), between(a, b, end / length)
    return Hole(opening, (p, q), ((p[0] + nx, p[1] + ny), (q[0] + nx, q[1] + ny)))


def build(scene: Scene) -> Walls:
    """The walls of a scene; outdoors there are none, only the outline."""
    inner = scene.outline
    outer = outset(inner, scene.thickness) if scene.indoors else inner
    holes = tuple(h for o in scene.openings if (h := _hole(scene, o)) is not None)
    if not scene.indoors:
        return Walls(inner, outer, (), (), holes, False)
    count = len(inner)
    cuts: list[list[tuple[float, float, Hole]]] = [[] for _ in inner]
    for hole in holes:
        wall = hole.opening.wall % count
        a = inner[wall]
        cuts[wall].append((distance(a, hole.inner[0]), distance(a, hole.inner[1]), hole))
    runs: list[tuple[list[Point], list[Point]]] = [([], [])]
    pieces: list[tuple[Point, Point, Point, Point]] = []
    for wall in range(count):
        a, b = inner[wall], inner[(wall + 1) % count]
        last: Segment = (a, outer[wall])
        reached = 0.0
        runs[-1][0].append(a)
        runs[-1][1].append(outer[wall])
        for start, end, hole in sorted(cuts[wall], key=lambda c: (c[0], c[1])):
            if start > reached + 1e-6:
                pieces.append((last[0], hole.inner[0], hole.outer[0], last[1]))
            if end <= reached:
                continue
            if start >= reached:
                runs[-1][0].append(hole.inner[0])
                runs[-1][1].append(hole.outer[0])
                runs.append(([], []))
            else:
                runs[-1] = ([], [])
            runs[-1][0].append(hole.inner[1])
            runs[-1][1].append(hole.outer[1])
            last, reached = (hole.inner[1], hole.outer[1]), end
        if distance(a, b) > reached + 1e-6:
            pieces.append((last[0], b, outer[(wall + 1) % count], last[1]))
    if len(runs) > 1:
        first = runs.pop(0)
        runs[-1][0].extend(first[0])
        runs[-1][1].extend(first[1])
        shapes = tuple(tuple(near + far[::-1]) for near, far in runs if len(near) > 1)
        return Walls(inner, outer, shapes, tuple(pieces), holes, False)
    return Walls(inner, outer, (), tuple(pieces), holes, True)


def sight(walls: Walls, start: Point, along: Point, longest: float) -> float:
    """How far one sees from `start` along a unit vector: up to the first wall, or `longest`.

    Within a set every opening ends the view as the wall does, for the drawing ends there. From outside, the view
    may come in through one opening that is not blacked out.
    """
    if not walls.pieces:
        return longest
    far = longest
    for piece in walls.pieces:
        for n in range(4):
            hit = ray_hit(start, along, piece[n], piece[(n + 1) % 4])
            if hit is not None and hit < far and not _seam(walls, piece[n], piece[(n + 1) % 4]):
                far = hit
    outside = not contains(walls.inner, start)
    entries = sorted(
        (hit, h.opening.treatment == "black-out")
        for h in walls.holes
        if (hit := ray_hit(start, along, h.inner[0], h.inner[1])) is not None and hit < far
    )
    if outside and entries and not entries[0][1]:
        entries = entries[1:]
    return entries[0][0] if entries else far


def _seam(walls: Walls, a: Point, b: Point) -> bool:
    """True for the edge where two wall pieces meet in a corner: it is no face of the wall."""
    return any((a, b) in ((p, q), (q, p)) for p, q in zip(walls.inner, walls.outer, strict=True))
