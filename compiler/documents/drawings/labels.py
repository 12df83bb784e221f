"""Where words go on a drawing: never over one another, never over a symbol, as near as may be to what they name.

Each label has forms (fullest first) and many candidate places; the places that the drawing forbids are dropped, the
rest are priced. Labels are set greedily, those with the fewest places first, and then moved while that lowers the
price. A label that stands away from its thing gets a leader line. Points of the paper, y downwards. The outcome
depends on nothing but the input.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache

from ...record import record
from .boxes import Boxes, met_on_a_grid
from .metrics import block
from .shapes import (
    NEAR,
    Box,
    Point,
    Segment,
    apart,
    around,
    distance,
    inside_box,
    segment_meets_box,
    segments_cross,
)

SIZE = 9.0
CLEAR = 1.5
_LEADER_FROM = 7.0
_KEPT = 16
_SHORTER = 26.0
_TURNS = (
    (1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (0.0, 1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, -1.0), (-1.0, 1.0),
    (1.0, -0.5), (1.0, 0.5), (-1.0, -0.5), (-1.0, 0.5), (0.5, -1.0), (0.5, 1.0), (-0.5, -1.0), (-0.5, 1.0),
)  # fmt: skip
_SEATS = (
    (0.0, 0.0), (0.0, -0.5), (0.0, 0.5), (-0.5, 0.0), (0.5, 0.0), (-0.5, -0.5), (0.5, -0.5), (-0.5, 0.5), (0.5, 0.5),
)  # fmt: skip
_GAPS = (2.0, 5.0, 10.0, 18.0, 30.0, 48.0, 76.0)
_ACROSS, _DOWN = 18.0, 11.0  # points between the places tried all over the paper


@record
class Ask:
    """A label to be placed: the box of the thing it names, its forms, and, for areas, the area it may lie in."""

    key: str
    anchor: Box
    forms: tuple[tuple[str, ...], ...]
    bold: bool = False
    within: tuple[Point, ...] = ()


@record
class Obstacle:
    """A convex shape no label may touch; `owner` is the label whose own thing it is."""

    shape: tuple[Point, ...]
    owner: str = ""
    blocks_leaders: bool = True


@record
class Placed:
    """A label that found its place."""

    key: str
    box: Box
    lines: tuple[str, ...]
    bold: bool
    leader: Segment | None


_Try = tuple[float, Box, tuple[str, ...]]


class _Spot:
    """A place tried and allowed; plain, since thousands of them are made for one drawing."""

    __slots__ = ("box", "leader", "lines", "price")

    def __init__(self, price: float, box: Box, lines: tuple[str, ...], leader: Segment | None) -> None:
        self.price = price
        self.box = box
        self.lines = lines
        self.leader = leader


@record
class Field:
    """What labels must respect: the paper they may use, shapes they must not touch, thin lines they should avoid."""

    bounds: Box
    obstacles: tuple[Obstacle, ...]
    thin: tuple[Segment, ...]


class _Ground:
    """A field made ready: which obstacles and lines a box or a leader meets is asked ten thousand times."""

    def __init__(self, field: Field) -> None:
        self.bounds = field.bounds
        self.shapes = [o.shape for o in field.obstacles]
        self.boxes = [around(shape) for shape in self.shapes]
        self.obstacles = Boxes(self.boxes)
        self.upright = sum(1 << n for n, shape in enumerate(self.shapes) if _is_box(shape, self.boxes[n]))
        self.upright_boxes = [box for n, box in enumerate(self.boxes) if self.upright >> n & 1]
        self.axes = [() if self.upright >> n & 1 else tuple(_axes(shape)) for n, shape in enumerate(self.shapes)]
        self.blocking = sum(1 << n for n, o in enumerate(field.obstacles) if o.blocks_leaders)
        self.owned: dict[str, int] = {}
        for n, obstacle in enumerate(field.obstacles):
            self.owned[obstacle.owner] = self.owned.get(obstacle.owner, 0) | 1 << n
        self.symbols = sum(bits for owner, bits in self.owned.items() if owner)
        self.thin = field.thin
        self.lines = Boxes([around(segment) for segment in field.thin], 1e-6)

    def free(self, box: Box) -> bool:
        """Whether a box touches no obstacle."""
        met = self.obstacles.met(box)
        if met & self.upright:
            return False
        if met:
            x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
            w, h = (box[2] - box[0]) / 2, (box[3] - box[1]) / 2
            for n in bits(met):
                for nx, ny, low, high in self.axes[n]:
                    middle, reach = nx * x + ny * y, abs(nx) * w + abs(ny) * h
                    if middle + reach <= low + NEAR or middle - reach >= high - NEAR:
                        break
                else:
                    return False
        return True

    def price(self, box: Box, leader: Segment | None, key: str) -> float:
        """What it costs to lie on thin lines and near the symbols of others, and to be led to from afar."""
        price = sum(8.0 for n in bits(self.lines.met(box)) if segment_meets_box(self.thin[n], box))
        if leader:
            price += 4.0
            way = _box_of(leader)
            price += sum(1.5 for n in bits(self.lines.met(way)) if segments_cross(leader, self.thin[n]))
            passed = self.obstacles.met(way) & ~self.blocking
            price += sum(3.0 for n in bits(passed) if segment_meets_box(leader, self.boxes[n]))
        close = (box[0] - 5.0, box[1] - 5.0, box[2] + 5.0, box[3] + 5.0)
        return price + 4.0 * (self.obstacles.met(close) & self.symbols & ~self.owned.get(key, 0)).bit_count()

    def blocked(self, leader: Segment, key: str) -> bool:
        """Whether a leader would run through somebody else's symbol."""
        met = self.obstacles.met(_box_of(leader)) & self.blocking & ~self.owned.get(key, 0)
        return any(segment_meets_box(leader, self.boxes[n]) for n in bits(met))


def bits(mask: int) -> Iterator[int]:
    """The places of the ones of a number, the lowest first."""
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


def _box_of(segment: Segment) -> Box:
    (ax, ay), (bx, by) = segment
    return (ax if ax < bx else bx, ay if ay < by else by, bx if ax < bx else ax, by if ay < by else ay)


def _axes(shape: Sequence[Point]) -> Iterator[tuple[float, float, float, float]]:
    """The normals of a convex shape's edges, each with the shape's own extent along it (separating axes)."""
    for n, a in enumerate(shape):
        b = shape[(n + 1) % len(shape)]
        nx, ny = b[1] - a[1], a[0] - b[0]
        if abs(nx) + abs(ny) >= NEAR:
            along = [p[0] * nx + p[1] * ny for p in shape]
            yield nx, ny, min(along), max(along)


def _is_box(shape: Sequence[Point], box: Box) -> bool:
    return len(shape) == 4 and all(x in (box[0], box[2]) and y in (box[1], box[3]) for x, y in shape)


def place(asks: Sequence[Ask], field: Field) -> tuple[tuple[Placed, ...], tuple[str, ...]]:
    """Places for all labels that have one, in the order asked, and the keys of those that have none."""
    ground = _Ground(field)
    spots = [_spots(ask, ground) for ask in asks]
    chosen: dict[int, _Spot] = {}
    for n in sorted(range(len(asks)), key=lambda n: (len(spots[n]) >= _KEPT, len(spots[n]), n)):
        if not _settle(n, spots, chosen):
            spots[n] = _everywhere(asks[n], ground, spots[n])
            if not _settle(n, spots, chosen):
                _make_room(n, spots, chosen)
    for _ in range(3):
        moved = False
        for n in range(len(asks)):
            others = [other for m, other in chosen.items() if m != n]
            now = chosen[n].price if n in chosen else 1e9
            for spot in spots[n]:
                if spot.price >= now - 0.01:
                    break
                if all(_agree(spot, other) for other in others):
                    chosen[n] = spot
                    moved = True
                    break
        if not moved:
            break
    placed = tuple(
        Placed(ask.key, chosen[n].box, chosen[n].lines, ask.bold, chosen[n].leader)
        for n, ask in enumerate(asks)
        if n in chosen
    )
    return placed, tuple(ask.key for n, ask in enumerate(asks) if n not in chosen)


def _settle(n: int, spots: list[list[_Spot]], chosen: dict[int, _Spot]) -> bool:
    """Set label n at its cheapest place that those set before leave; False where there is none."""
    for spot in spots[n]:
        if all(_agree(spot, other) for other in chosen.values()):
            chosen[n] = spot
            return True
    return False


def _make_room(n: int, spots: list[list[_Spot]], chosen: dict[int, _Spot]) -> None:
    """Set label n where only one other is in the way, if that other can go elsewhere."""
    for spot in spots[n]:
        rivals = [m for m, other in chosen.items() if not _agree(spot, other)]
        if len(rivals) != 1:
            continue
        rest = [other for m, other in chosen.items() if m != rivals[0]] + [spot]
        for move in spots[rivals[0]]:
            if all(_agree(move, other) for other in rest):
                chosen[rivals[0]] = move
                chosen[n] = spot
                return


def _agree(a: _Spot, b: _Spot) -> bool:
    """Two labels are apart, and neither's leader runs through the other or across its leader."""
    if not apart(a.box, b.box, CLEAR):
        return False
    if a.leader and segment_meets_box(a.leader, b.box):
        return False
    if b.leader and segment_meets_box(b.leader, a.box):
        return False
    return not (a.leader and b.leader and segments_cross(a.leader, b.leader))


def _spots(ask: Ask, ground: _Ground) -> list[_Spot]:
    """The allowed places of one label near its thing, cheapest first; all over the paper where those are dear."""
    kept = _allowed(_near(ask), ask, ground)
    if kept and kept[0].price < _SHORTER:
        return kept
    wide = _everywhere(ask, ground, kept)
    return wide or _allowed(_near(ask), ask, ground, True)


def _everywhere(ask: Ask, ground: _Ground, kept: list[_Spot]) -> list[_Spot]:
    """The places kept and more of them, from all over the paper."""
    far: list[_Try] = []
    for form, lines in enumerate(ask.forms):
        width, height = block(lines, SIZE, ask.bold)
        far.extend((price + form * _SHORTER, box, lines) for price, box in _grid(ask, width, height, ground))
    far.sort()
    wide = kept + (_allowed(far, ask, ground) or ([] if kept else _allowed(far, ask, ground, True)))
    return sorted(wide, key=lambda s: (s.price, s.box))


def _near(ask: Ask) -> Iterator[_Try]:
    """Places around the thing, and for areas within it, the cheapest first."""
    x0, y0, x1, y1 = ask.anchor
    cx, cy, half_w, half_h = (x0 + x1) / 2, (y0 + y1) / 2, (x1 - x0) / 2, (y1 - y0) / 2
    sizes = [block(lines, SIZE, ask.bold) for lines in ask.forms]
    for price, form, gap, dx, dy in _order(len(ask.forms), bool(ask.within)):
        width, height = sizes[form]
        if gap < 0.0:
            x = cx + dx * max(x1 - x0 - width - 4, 0.0)
            y = cy + dy * max(y1 - y0 - height - 4, 0.0)
        else:
            x = cx + dx * (half_w + gap + width / 2)
            y = cy + dy * (half_h + gap + height / 2)
        box = (x - width / 2, y - height / 2, x + width / 2, y + height / 2)
        if gap >= 0.0 or inside_box(box, ask.anchor):
            yield price, box, ask.forms[form]


@cache
def _order(forms: int, within: bool) -> tuple[tuple[float, int, float, float, float], ...]:
    """Price, form, gap and direction of the places near a thing, the cheapest first; no gap for seats within it."""
    tried = [
        (gap * 0.45 + turn * 0.12 + form * _SHORTER, form, gap, dx, dy)
        for form in range(forms) for gap in _GAPS for turn, (dx, dy) in enumerate(_TURNS)
    ]  # fmt: skip
    if within:
        tried += [
            (n * 0.8 - 6.0 + form * _SHORTER, form, -1.0, dx, dy)
            for form in range(forms) for n, (dx, dy) in enumerate(_SEATS)
        ]  # fmt: skip
    return tuple(sorted(tried))


def _grid(ask: Ask, width: float, height: float, ground: _Ground) -> list[tuple[float, Box]]:
    """Places all over the paper that touch no upright obstacle, each with its price."""
    bounds = ground.bounds
    centre = ((ask.anchor[0] + ask.anchor[2]) / 2, (ask.anchor[1] + ask.anchor[3]) / 2)
    lefts = [bounds[0] + _ACROSS * i for i in range(int((bounds[2] - bounds[0] - width) // _ACROSS) + 1)]
    tops = [bounds[1] + _DOWN * j for j in range(int((bounds[3] - bounds[1] - height) // _DOWN) + 1)]
    taken = met_on_a_grid(
        ground.upright_boxes,
        [(left - CLEAR, left + width + CLEAR) for left in lefts],
        [(top - CLEAR, top + height + CLEAR) for top in tops],
    )
    every = (1 << len(tops)) - 1
    found: list[tuple[float, Box]] = []
    for left, met in zip(lefts, taken, strict=True):
        for j in bits(every & ~met):
            top = tops[j]
            away = distance(centre, (left + width / 2, top + height / 2))
            found.append((10.0 + away * 0.45, (left, top, left + width, top + height)))
    return found


def _allowed(tried: Iterable[_Try], ask: Ask, ground: _Ground, across: bool = False) -> list[_Spot]:
    """The places among those tried, cheapest first, that nothing forbids; `across` lets a leader cross symbols for
    want of better."""
    kept: list[_Spot] = []
    left, top, right, bottom = ground.bounds
    for price, box, lines in tried:
        if box[0] < left or box[1] < top or box[2] > right or box[3] > bottom:
            continue
        if not ground.free((box[0] - CLEAR, box[1] - CLEAR, box[2] + CLEAR, box[3] + CLEAR)):
            continue
        leader = _leader(ask, box)
        if leader and not across and ground.blocked(leader, ask.key):
            continue
        kept.append(_Spot(price + ground.price(box, leader, ask.key), box, lines, leader))
        if len(kept) >= _KEPT + 8:
            break
    kept.sort(key=lambda s: (s.price, s.box))
    return kept[:_KEPT]


def _leader(ask: Ask, box: Box) -> Segment | None:
    """A line from the label's nearest edge to the thing, when the two are not close together."""
    x0, y0, x1, y1 = ask.anchor
    across = max(box[0] - x1, x0 - box[2], 0.0)
    down = max(box[1] - y1, y0 - box[3], 0.0)
    if (across * across + down * down) ** 0.5 < _LEADER_FROM:
        return None
    cx, cy = (x0 + x1) / 2, (y0 + y1) / 2
    start = (min(max(cx, box[0]), box[2]), min(max(cy, box[1]), box[3]))
    if box[0] <= cx <= box[2] or not (box[1] <= cy <= box[3]):
        start = (min(max(cx, box[0] + 2), box[2] - 2), start[1])
    if ask.within:
        return start, (cx, cy)
    return start, (min(max(start[0], x0), x1), min(max(start[1], y0), y1))
