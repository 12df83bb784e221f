"""Cutting rectangles of cloth, diffusion or gel from the rolls and pieces one has.

Lengths are metres; inside, whole millimetres (needs rounded up, cloth rounded down), so that the answer never makes
cloth. Method: panels are laid edge to edge from the near corner, every order, turn and piece of cloth tried; any
layout that is possible can be pushed into one of these (Christofides and Whitlock 1977 call the places normal
patterns), so an exhausted search proves that the cloth does not reach. The search counts its steps and stops at a
limit, the same on every machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor
from typing import NamedTuple

#: Steps of the search before it gives up and says so.
LIMIT = 20_000


class Panel(NamedTuple):
    """A rectangle that is wanted, overlaps included: a name for the cut list, width and height in metres."""

    name: str
    width: float
    height: float


class Sheet(NamedTuple):
    """A piece of cloth one has (a roll is a long piece): a name, width and length in metres."""

    name: str
    width: float
    length: float


class Cut(NamedTuple):
    """One rectangle to cut: `across` the sheet's width and `along` its length (m), and where its near corner lies.

    `part` of `parts` strips that are joined along their long sides to make the panel.
    """

    panel: str
    sheet: str
    from_side: float
    from_end: float
    across: float
    along: float
    part: int
    parts: int


class Cutting(NamedTuple):
    """Whether the cloth reaches. `proven` is False only where the search stopped at its limit without an answer.

    `wanted` and `owned` are areas in square metres; `joins` counts the seams; `too_large` names the panels that no
    sheet takes by itself; `cuts` is empty when it does not reach.
    """

    fits: bool
    proven: bool
    cuts: tuple[Cut, ...]
    wanted: float
    owned: float
    joins: int
    too_large: tuple[str, ...]


class _Strip(NamedTuple):
    panel: int
    width: int
    height: int
    part: int
    parts: int


class _Place(NamedTuple):
    strip: _Strip
    sheet: int
    x: int
    y: int
    across: int
    along: int


class _Search:
    """The state of one search: what lies where, and how many steps were taken."""

    def __init__(self, sheets: list[tuple[int, int]], limit: int) -> None:
        self.sheets = sheets
        self.limit = limit
        self.steps = 0
        self.places: list[_Place] = []

    def exhausted(self) -> bool:
        return self.steps >= self.limit

    def lay(self, left: list[_Strip]) -> bool:
        """Lay all strips that are left, trying every order, sheet, turn and corner."""
        if not left:
            return True
        if not self._enough(left):
            return False
        tried: set[tuple[int, int]] = set()
        for index, strip in enumerate(left):
            kind = (min(strip.width, strip.height), max(strip.width, strip.height))
            if kind in tried:
                continue
            tried.add(kind)
            rest = left[:index] + left[index + 1 :]
            for place in self._spots(strip):
                self.steps += 1
                if self.exhausted():
                    return False
                self.places.append(place)
                if self.lay(rest):
                    return True
                self.places.pop()
                if self.exhausted():
                    return False
        return False

    def _enough(self, left: list[_Strip]) -> bool:
        used = sum(p.across * p.along for p in self.places)
        return sum(s.width * s.height for s in left) + used <= sum(w * length for w, length in self.sheets)

    def _spots(self, strip: _Strip) -> list[_Place]:
        """Corners where a strip can lie, those that use up least length first."""
        turns = {(strip.width, strip.height), (strip.height, strip.width)}
        spots = []
        empty: set[tuple[int, int]] = set()
        for index, (width, length) in enumerate(self.sheets):
            here = [p for p in self.places if p.sheet == index]
            if not here:
                if (width, length) in empty:
                    continue
                empty.add((width, length))
            for x in sorted({0, *(p.x + p.across for p in here)}):
                for y in sorted({0, *(p.y + p.along for p in here)}):
                    for across, along in turns:
                        place = _Place(strip, index, x, y, across, along)
                        if x + across <= width and y + along <= length and not any(_meet(place, p) for p in here):
                            spots.append(place)
        return sorted(spots, key=lambda p: (not any(q.sheet == p.sheet for q in self.places), p.y + p.along, p))


def _meet(a: _Place, b: _Place) -> bool:
    return a.x < b.x + b.across and b.x < a.x + a.across and a.y < b.y + b.along and b.y < a.y + a.along


def with_overlap(width: float, height: float, overlap: float) -> tuple[float, float]:
    """Size of the cloth that covers an opening with an overlap on every side, m."""
    return width + 2 * overlap, height + 2 * overlap


def cut(panels: Sequence[Panel], sheets: Sequence[Sheet], join: float | None = None, limit: int = LIMIT) -> Cutting:
    """Cut every panel from the sheets.

    `join` is the overlap (m) along which strips of cloth may be joined when a panel is wider than any sheet; None where
    joining is not allowed (gel, a frame's diffusion). Layouts with fewer seams are tried first.
    """
    stock = [(floor(s.width * 1000 + 1e-6), floor(s.length * 1000 + 1e-6)) for s in sheets]
    sizes = [(ceil(p.width * 1000 - 1e-6), ceil(p.height * 1000 - 1e-6)) for p in panels]
    wanted = sum(p.width * p.height for p in panels)
    owned = sum(s.width * s.length for s in sheets)
    choices = [_choices(i, w, h, stock, None if join is None else ceil(join * 1000)) for i, (w, h) in enumerate(sizes)]
    too_large = tuple(p.name for p, (w, h) in zip(panels, sizes, strict=True) if not _goes_on(w, h, stock))
    if not all(choices):
        return Cutting(False, True, (), wanted, owned, 0, too_large)
    spent = 0
    for combination in _combinations(choices):
        search = _Search(stock, limit - spent)
        strips = sorted(
            (strip for option in combination for strip in option),
            key=lambda s: (-s.width * s.height, -max(s.width, s.height), s),
        )
        if search.lay(strips):
            joins = sum(len(option) - 1 for option in combination)
            return Cutting(True, True, _listed(search.places, panels, sheets), wanted, owned, joins, too_large)
        spent += search.steps + 1
        if spent >= limit:
            return Cutting(False, wanted > owned, (), wanted, owned, 0, too_large)
    return Cutting(False, True, (), wanted, owned, 0, too_large)


def _goes_on(width: int, height: int, stock: Sequence[tuple[int, int]]) -> bool:
    low, high = min(width, height), max(width, height)
    return any(low <= min(sheet) and high <= max(sheet) for sheet in stock)


def _choices(
    index: int, width: int, height: int, stock: Sequence[tuple[int, int]], join: int | None
) -> list[tuple[_Strip, ...]]:
    """The ways to make a panel: whole, or in strips as wide as a sheet, fewest seams first."""
    result: list[tuple[_Strip, ...]] = []
    if _goes_on(width, height, stock):
        result.append((_Strip(index, width, height, 1, 1),))
    if join is None:
        return result
    for strip_width in sorted({w for w, _ in stock}, reverse=True):
        for across, along in ((width, height), (height, width)):
            if strip_width <= join or across <= strip_width:
                continue
            count = ceil((across - join) / (strip_width - join))
            last = across - (count - 1) * (strip_width - join)
            pieces = [strip_width] * (count - 1) + [last]
            strips = tuple(_Strip(index, piece, along, n, count) for n, piece in enumerate(pieces, start=1))
            if strips not in result and all(_goes_on(s.width, s.height, stock) for s in strips):
                result.append(strips)
    return sorted(result, key=len)


def _combinations(choices: Sequence[Sequence[tuple[_Strip, ...]]]) -> list[tuple[tuple[_Strip, ...], ...]]:
    """One choice for each panel, in every combination (at most a thousand), those with fewest seams first."""
    result: list[tuple[tuple[_Strip, ...], ...]] = [()]
    for options in choices:
        result = [(*done, option) for done in result for option in options]
        result.sort(key=lambda c: sum(len(option) for option in c))
        result = result[:1000]
    return result


def _listed(places: Sequence[_Place], panels: Sequence[Panel], sheets: Sequence[Sheet]) -> tuple[Cut, ...]:
    """The cut list in metres, in the order of sheets and from their free end."""
    return tuple(
        Cut(
            panels[p.strip.panel].name,
            sheets[p.sheet].name,
            p.x / 1000,
            p.y / 1000,
            p.across / 1000,
            p.along / 1000,
            p.strip.part,
            p.strip.parts,
        )
        for p in sorted(places, key=lambda p: (p.sheet, p.y, p.x))
    )


def length_that_would_do(panels: Sequence[Panel], roll_width: float, join: float | None = None) -> float | None:
    """Metres of a roll of a width that surely take all panels (laid in rows, longest first); None when it is too
    narrow.

    An upper bound for a shopping list: a cleverer layout may need less.
    """
    width = floor(roll_width * 1000 + 1e-6)
    if width <= 0:
        return None
    strips: list[tuple[int, int]] = []
    for index, panel in enumerate(panels):
        size = ceil(panel.width * 1000 - 1e-6), ceil(panel.height * 1000 - 1e-6)
        options = _choices(index, *size, [(width, sum(size) * 1000)], None if join is None else ceil(join * 1000))
        if not options:
            return None
        best = min(options, key=lambda option: (len(option), sum(s.width * s.height for s in option)))
        strips.extend(_along_the_roll(s.width, s.height, width) for s in best)
    total = used = row = 0
    for across, along in sorted(strips, key=lambda s: (-s[1], -s[0])):
        if used + across > width:
            total, used, row = total + row, 0, 0
        used, row = used + across, max(row, along)
    return (total + row) / 1000


def _along_the_roll(width: int, height: int, roll: int) -> tuple[int, int]:
    """A strip as (across, along) the roll: the turn that takes least of its length."""
    turns = [(a, b) for a, b in ((width, height), (height, width)) if a <= roll]
    return min(turns, key=lambda turn: (turn[1], turn[0]))
