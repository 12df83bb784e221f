"""Battery lines: the charge of each battery along the day, with the times at which it is flat and charging.

Times are half-minutes since local midnight, charge is a share of what can be used.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from ...facts.hours import times_words
from ...record import record
from ..words import Words, words_for
from .axis import GUTTER, RIGHT, SIZE, Axis
from .metrics import width_of, wrap
from .svg import Drawing, document, line, polygon, rect, text

_TOP = 17.0  # points for the names of the hours
_TALL = 22.0  # points from flat to full
_ROW = 27.0
_HEAD = 10.0

Doing = Literal["use", "charge", "rest"]


@record
class Leg:
    """A stretch in a battery's day: what it does, the shares of its charge at both ends."""

    doing: Doing
    start: float
    end: float
    before: float
    after: float


@record
class Cell:
    """One battery: its name, its day without a gap, and what it feeds."""

    name: str
    feeds: tuple[str, ...]
    legs: tuple[Leg, ...]


@record
class Kind:
    """The batteries of a kind that are used, what is said of them, and where they do not last: when and in what. Of a
    thing with a battery of its `own` the name stands at the row."""

    name: str
    cells: tuple[Cell, ...]
    words: str = ""
    flat: tuple[float, str] | None = None
    own: bool = False


def draw(
    kinds: Sequence[Kind], start: int, end: int, prefix: str, title: str, words: Words | None = None,
    width: float = 510.0,
) -> Drawing:
    """One line a battery over the hours from start to end; `svg` is empty where there is none."""
    _ = words or words_for()
    if not any(kind.cells for kind in kinds):
        return Drawing("", title, "", 0.0, 0.0)
    axis = Axis(start, end, width, GUTTER, RIGHT)
    parts: list[str] = []
    y = _TOP
    for n, kind in enumerate(kinds):
        rows = () if kind.own else wrap(": ".join(w for w in (kind.name, kind.words) if w), _HEAD, width - 4.0, True)
        parts.extend(text(row, (2.0, y + _HEAD - 1.0 + 12.0 * k), _HEAD, True) for k, row in enumerate(rows))
        y += 12.0 * len(rows) + (4.0 if rows else 0.0)
        grid_from = y
        parts.extend(axis.hours(y, y + _ROW * len(kind.cells) - 5.0, _TOP if n == 0 else None))
        for cell in kind.cells:
            parts.extend(_cell(cell, axis, y, prefix, _))
            y += _ROW
        if kind.flat is not None:
            parts.extend(_flat(kind.flat, axis, grid_from, y - 6.0, _))
            y += 12.0
    told = legend(kinds, _)
    rows_of = [text(row, (2.0, y + SIZE + 11.5 * n), SIZE) for n, row in enumerate(wrap(told, SIZE, width - 4.0))]
    height = y + 11.5 * len(rows_of) + 4.0
    desc = _told(kinds, _)
    svg = document(prefix, (width, height), title, desc, [*parts, *rows_of], ("thin",))
    return Drawing(svg, title, desc, width, height)


def _cell(cell: Cell, axis: Axis, y: float, prefix: str, _: Words) -> list[str]:
    """The line of one battery: hatched below while it gives, dashed while it charges, thin at rest."""
    base = y + _TALL
    drawn = [axis.name(cell.name, y + 9.0)]
    if cell.feeds:
        drawn.append(axis.name(", ".join(cell.feeds), y + 20.0, False))
    drawn.append(line((axis.left, base), (axis.right, base), 0.6))
    words: list[str] = []
    taken: list[tuple[float, float]] = []
    for leg in cell.legs:
        a = (axis.x(leg.start), base - leg.before * _TALL)
        b = (axis.x(leg.end), base - leg.after * _TALL)
        if leg.doing == "use":
            under = ((a[0], base), a, b, (b[0], base))
            drawn.append(polygon(under, f"url(#{prefix}-thin)", 0.0, stroke="none"))
            drawn.append(line(a, b, 1.8))
            if leg.after <= 1e-6:
                words.extend(_when(_("flat {time}", time=times_words(int(leg.end))), b[0], y, axis, taken))
        elif leg.doing == "charge":
            drawn.append(line(a, b, 1.2, "4 2.5"))
        else:
            drawn.append(line(a, b, 0.9))
    last = cell.legs[-1].after if cell.legs else 1.0
    left = f"{round(last * 100)} %"
    words.append(text(left, (axis.right + 4.0, base - 1.0), SIZE))
    return [*drawn, *words]


def _when(said: str, x: float, y: float, axis: Axis, taken: list[tuple[float, float]]) -> list[str]:
    """A time at the top of a row, over the foot of the line that ends there, where no other time of the row stands."""
    wide = width_of(said, SIZE)
    for left in (x + 3.0, x - 3.0 - wide):
        span = (left - 2.0, left + wide + 2.0)
        if span[0] >= axis.left and span[1] <= axis.right and all(span[1] <= a or span[0] >= b for a, b in taken):
            taken.append(span)
            return [rect((span[0], y + 0.5, span[1], y + 10.5), "#fff"), text(said, (left, y + 9.0), SIZE)]
    return []


def _flat(flat: tuple[float, str], axis: Axis, top: float, bottom: float, _: Words) -> list[str]:
    """The line at which no charged battery is left."""
    x = axis.x(flat[0])
    said = _("{time} none left for {thing}", time=times_words(int(flat[0])), thing=flat[1])
    wide = width_of(said, SIZE, True)
    left = min(max(x - wide / 2, 2.0), axis.right - wide)
    return [line((x, top), (x, bottom), 2.4), text(said, (left, bottom + 11.0), SIZE, True)]


def legend(kinds: Sequence[Kind], _: Words) -> str:
    """What the lines mean, as far as they occur."""
    doing = {leg.doing for kind in kinds for cell in kind.cells for leg in cell.legs}
    said = [_("height of the line: charge; right: what is left")]
    if "use" in doing:
        said.append(_("hatched: in use"))
    if "charge" in doing:
        said.append(_("dashed: charging"))
    if "rest" in doing:
        said.append(_("thin: at rest"))
    return "; ".join(said)


def _told(kinds: Sequence[Kind], _: Words) -> str:
    """The day of each battery in words."""
    told = []
    for kind in kinds:
        if kind.words and not kind.own:
            told.append(f"{kind.name}: {kind.words}")
        for cell in kind.cells:
            steps = []
            for leg in cell.legs:
                if leg.doing == "rest":
                    continue
                hours = f"{times_words(int(leg.start))}-{times_words(int(leg.end))}"
                how = _("in use") if leg.doing == "use" else _("charging")
                steps.append(f"{hours} {how} {round(leg.before * 100)}-{round(leg.after * 100)} %")
            feeds = f" ({', '.join(cell.feeds)})" if cell.feeds else ""
            named = cell.name if kind.own else f"{kind.name} {cell.name}"
            told.append(f"{named}{feeds}: {'; '.join(steps)}")
        if kind.flat is not None:
            told.append(_("{time} none left for {thing}", time=times_words(int(kind.flat[0])), thing=kind.flat[1]))
    return ". ".join(told) + "."

