"""Cutting rectangles of cloth, diffusion or gel from the rolls and pieces one has.

Lengths are metres; inside, whole millimetres (needs rounded up, cloth rounded down), so that the answer never makes
cloth. The layout is searched exactly (`packing`); where the search stops at its limit, the answer says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor
from typing import NamedTuple

from .packing import LIMIT, Place, Strip, in_rows, layout

#: Strips one panel may be joined of: nobody sews more, and a slip of the key must not keep anybody waiting.
MOST_PARTS = 60


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
    places = layout(_combinations(choices), stock, limit)
    if places is None:
        return Cutting(False, True, (), wanted, owned, 0, too_large)
    if not places and panels:
        return Cutting(False, wanted > owned, (), wanted, owned, 0, too_large)
    joins = sum(p.strip.parts - 1 for p in places if p.strip.part == 1)
    return Cutting(True, True, _listed(places, panels, sheets), wanted, owned, joins, too_large)


def _goes_on(width: int, height: int, stock: Sequence[tuple[int, int]]) -> bool:
    low, high = min(width, height), max(width, height)
    return any(low <= min(sheet) and high <= max(sheet) for sheet in stock)


def _choices(
    index: int, width: int, height: int, stock: Sequence[tuple[int, int]], join: int | None
) -> list[tuple[Strip, ...]]:
    """The ways to make a panel: whole, or in strips as wide as a sheet, fewest seams first."""
    result: list[tuple[Strip, ...]] = []
    if _goes_on(width, height, stock):
        result.append((Strip(index, width, height, 1, 1),))
    if join is None:
        return result
    for strip_width in sorted({w for w, _ in stock}, reverse=True):
        for across, along in ((width, height), (height, width)):
            if strip_width <= join or across <= strip_width:
                continue
            count = ceil((across - join) / (strip_width - join))
            if count > MOST_PARTS:
                continue
            last = across - (count - 1) * (strip_width - join)
            pieces = [strip_width] * (count - 1) + [last]
            strips = tuple(Strip(index, piece, along, n, count) for n, piece in enumerate(pieces, start=1))
            if strips not in result and all(_goes_on(s.width, s.height, stock) for s in strips):
                result.append(strips)
    return sorted(result, key=lambda option: (len(option), sum(s.width * s.height for s in option)))


def _combinations(choices: Sequence[Sequence[tuple[Strip, ...]]]) -> list[tuple[tuple[Strip, ...], ...]]:
    """One choice for each panel, in every combination (at most a thousand), those with fewest seams first."""
    result: list[tuple[tuple[Strip, ...], ...]] = [()]
    for options in choices:
        result = [(*done, option) for done in result for option in options]
        result.sort(key=lambda c: sum(len(option) for option in c))
        result = result[:1000]
    return result


def _listed(places: Sequence[Place], panels: Sequence[Panel], sheets: Sequence[Sheet]) -> tuple[Cut, ...]:
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
    strips: list[Strip] = []
    for index, panel in enumerate(panels):
        size = ceil(panel.width * 1000 - 1e-6), ceil(panel.height * 1000 - 1e-6)
        options = _choices(index, *size, [(width, sum(size) * 1000)], None if join is None else ceil(join * 1000))
        if not options:
            return None
        strips.extend(options[0])
    endless = sum(max(s.width, s.height) for s in strips)
    places = in_rows(strips, [(width, endless)]) or []
    return max((p.y + p.along for p in places), default=0) / 1000
