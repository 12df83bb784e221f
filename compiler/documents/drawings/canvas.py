"""The paper a plan is drawn on: the scale, the layers, and what labels must keep clear of."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from .labels import Ask, Obstacle
from .shapes import Box, Point, Segment, apart, around
from .svg import POINTS_PER_METRE

LAYERS = ("floor", "things", "walls", "beams", "views", "grip", "symbols", "labels", "edge")
Forms = tuple[tuple[str, ...], ...]


class Canvas:
    """Collects one drawing. `bounds` is the part of the paper the plan and its labels may use, in points."""

    def __init__(self, prefix: str, scale: float, world: Box, bounds: Box) -> None:
        self.prefix = prefix
        self.factor = POINTS_PER_METRE / scale
        self.bounds = bounds
        self._left = (bounds[0] + bounds[2]) / 2 - self.factor * (world[0] + world[2]) / 2
        self._base = (bounds[1] + bounds[3]) / 2 + self.factor * (world[1] + world[3]) / 2
        self.layers: dict[str, list[str]] = {name: [] for name in LAYERS}
        self.obstacles: list[Obstacle] = []
        self.thin: list[Segment] = []
        self.asks: list[Ask] = []
        self.hatches: list[str] = []
        self.met: list[str] = []

    def at(self, p: Point) -> Point:
        """A point of the set on the paper."""
        return self._left + p[0] * self.factor, self._base - p[1] * self.factor

    def all_at(self, points: Iterable[Point]) -> list[Point]:
        return [self.at(p) for p in points]

    def back(self, p: Point) -> Point:
        """A point of the paper in the set."""
        return (p[0] - self._left) / self.factor, (self._base - p[1]) / self.factor

    def draw(self, layer: str, *parts: str) -> None:
        self.layers[layer].extend(parts)

    def meet(self, entry: str) -> None:
        """Note that a kind of thing occurs, so that the legend explains it."""
        if entry not in self.met:
            self.met.append(entry)

    def hatch(self, name: str) -> str:
        """The paint of one hatch, its definition asked for."""
        if name not in self.hatches:
            self.hatches.append(name)
        return f"url(#{self.prefix}-{name})"

    def keep_clear(self, shape: Sequence[Point], owner: str = "", leaders: bool = True) -> None:
        self.obstacles.append(Obstacle(tuple(shape), owner, leaders))

    def keep_box(self, box: Box, owner: str = "") -> None:
        self.keep_clear(corners(box), owner)

    def avoid(self, points: Sequence[Point], closed: bool = False) -> None:
        """Thin lines that a label may cover if it must."""
        listed = list(points) + ([points[0]] if closed else [])
        self.thin.extend(pairwise(listed))

    def label(self, key: str, anchor: Box, forms: Forms, bold: bool = False, within: Sequence[Point] = ()) -> None:
        said = tuple(form for form in forms if form and any(form))
        if said:
            self.asks.append(Ask(key, anchor, said, bold, tuple(within)))

    def taken(self, box: Box) -> bool:
        """True when a symbol already drawn lies in the box."""
        return any(o.owner and not apart(around(o.shape), box) for o in self.obstacles)


def corners(box: Box) -> tuple[Point, Point, Point, Point]:
    return (box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])


def square(centre: Point, half: float) -> Box:
    return centre[0] - half, centre[1] - half, centre[0] + half, centre[1] + half


def band(a: Point, b: Point, half: float) -> tuple[Point, Point, Point, Point]:
    """The thin rectangle around a line."""
    length = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 or 1.0
    nx, ny = -(b[1] - a[1]) / length * half, (b[0] - a[0]) / length * half
    return (a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny), (b[0] - nx, b[1] - ny), (a[0] - nx, a[1] - ny)
