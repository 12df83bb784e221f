"""Laying rectangles on sheets, exactly.

Whole millimetres. Rectangles are laid edge to edge from the near corner, every order, turn and sheet tried; any layout
that is possible can be pushed into one of these (Christofides and Whitlock 1977 call the places normal patterns), so an
exhausted search proves that there is none. Steps are counted, not seconds: the answer is the same on every machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

#: Steps of the search before it gives up and says so, and of the first look at each way of joining.
LIMIT = 20_000
_FIRST_LOOK = 200


class Strip(NamedTuple):
    """A rectangle to lay, in millimetres: strip `part` of `parts` of a panel."""

    panel: int
    width: int
    height: int
    part: int
    parts: int


class Place(NamedTuple):
    """Where a strip lies: on which sheet, from its side (x) and its end (y), and how it is turned, in millimetres."""

    strip: Strip
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
        self.places: list[Place] = []

    def exhausted(self) -> bool:
        return self.steps >= self.limit

    def lay(self, left: list[Strip]) -> bool:
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

    def _enough(self, left: list[Strip]) -> bool:
        used = sum(p.across * p.along for p in self.places)
        return sum(s.width * s.height for s in left) + used <= sum(w * length for w, length in self.sheets)

    def _spots(self, strip: Strip) -> list[Place]:
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
                        place = Place(strip, index, x, y, across, along)
                        if x + across <= width and y + along <= length and not any(_meet(place, p) for p in here):
                            spots.append(place)
        return sorted(spots, key=lambda p: (not any(q.sheet == p.sheet for q in self.places), p.y + p.along, p))


def _meet(a: Place, b: Place) -> bool:
    return a.x < b.x + b.across and b.x < a.x + a.across and a.y < b.y + b.along and b.y < a.y + a.along


def layout(
    combinations: Sequence[tuple[tuple[Strip, ...], ...]], stock: list[tuple[int, int]], limit: int
) -> list[Place] | None:
    """Places for all strips of the first combination that works; None when none can; empty when the limit was reached.

    Every combination gets rows and a short look before any gets a long search.
    """
    pending = [sorted((strip for option in c for strip in option), key=_size_first) for c in combinations]
    spent = 0
    for look in (_FIRST_LOOK, limit):
        unsettled = []
        for strips in pending:
            search = _Search(stock, min(look, limit - spent))
            rows = in_rows(strips, stock) if look == _FIRST_LOOK else None
            if rows is not None:
                return rows
            if search.lay(strips):
                return search.places
            spent += search.steps
            if search.exhausted():
                unsettled.append(strips)
        pending = unsettled
    return [] if pending else None


def _size_first(strip: Strip) -> tuple[int, int, Strip]:
    return -strip.width * strip.height, -max(strip.width, strip.height), strip


def in_rows(strips: Sequence[Strip], stock: Sequence[tuple[int, int]]) -> list[Place] | None:
    """A layout in rows across each sheet, longest strips first; None when rows do not do."""
    places: list[Place] = []
    rows: list[tuple[int, int, int, int]] = []  # sheet, from its end, length of the row, width used
    ends = [0] * len(stock)
    for strip in sorted(strips, key=lambda s: (-max(s.width, s.height), s)):
        turns = sorted({(strip.width, strip.height), (strip.height, strip.width)}, key=lambda turn: turn[1])
        spot = next(
            (
                (i, across, along)
                for across, along in turns
                for i, (sheet, _, deep, used) in enumerate(rows)
                if along <= deep and used + across <= stock[sheet][0]
            ),
            None,
        )
        if spot is None:
            new = next(
                (
                    (sheet, across, along)
                    for across, along in turns
                    for sheet, (width, length) in enumerate(stock)
                    if across <= width and ends[sheet] + along <= length
                ),
                None,
            )
            if new is None:
                return None
            sheet, across, along = new
            rows.append((sheet, ends[sheet], along, 0))
            ends[sheet] += along
            spot = (len(rows) - 1, across, along)
        index, across, along = spot
        sheet, start, deep, used = rows[index]
        places.append(Place(strip, sheet, used, start, across, along))
        rows[index] = (sheet, start, deep, used + across)
    return places
