"""Load bars: what hangs on each circuit against what it may carry for hours and against its breaker."""

from __future__ import annotations

from collections.abc import Sequence

from ...record import record
from ..numbers import decimal
from ..words import Words, words_for
from .metrics import cut, width_of, wrap
from .svg import INK, Drawing, document, line, num, rect, text

SIZE = 9.0
_BAR = 13.0
_FILLS = ("", "thin", "upright", "hatch")


@record
class Part:
    """One consumer and its amperes."""

    words: str
    amperes: float


@record
class Circuit:
    """One circuit: what is on it in order, the amperes allowed for hours (None: no rule known), its breaker."""

    name: str
    parts: tuple[Part, ...]
    breaker: float
    limit: float | None = None

    @property
    def amperes(self) -> float:
        """All that flows."""
        return sum(part.amperes for part in self.parts)


def draw(
    circuits: Sequence[Circuit], prefix: str, title: str, words: Words | None = None, width: float = 510.0
) -> Drawing:
    """One bar a circuit, all to the same scale of amperes, with the sum in words."""
    _ = words or words_for()
    most = max((max(c.amperes, c.breaker) for c in circuits), default=1.0) * 1.04
    factor = (width - 4.0) / most
    hatches: list[str] = []
    parts: list[str] = []
    told: list[str] = []
    y = 2.0
    for circuit in circuits:
        said = verdict(circuit, _)
        told.append(f"{circuit.name}: {said}")
        rows = wrap(f"{circuit.name}: {said}", 10.0, width - 4.0, True)
        for n, row in enumerate(rows):
            parts.append(text(row, (2.0, y + 10.0 + 12.0 * n), 10.0, True))
        y += 12.0 * len(rows) + 5.0
        parts.extend(_bar(circuit, y, factor, prefix, hatches))
        y += _BAR + 4.0
        parts.extend(_scale(circuit, y, factor, width, _))
        y += 11.0
        keys, deep = _keys(circuit, y, width, prefix, _)
        parts.extend(keys)
        y += deep
        y += 9.0
    desc = ". ".join(told) + "."
    height = max(y, 20.0)
    return Drawing(document(prefix, (width, height), title, desc, parts, tuple(hatches)), title, desc, width, height)


def amps(value: float, _: Words) -> str:
    """Amperes to one decimal; less than a tenth to two."""
    return decimal(f"{value:.2f} A" if 0.0 < value < 0.1 else f"{value:.1f} A", _)


def verdict(circuit: Circuit, _: Words) -> str:
    """How much flows and whether that may be, in words."""
    flows, breaker = amps(circuit.amperes, _), decimal(f"{num(circuit.breaker)} A", _)
    if circuit.amperes > circuit.breaker:
        return _("{flows}: over its breaker of {breaker}, it will trip", flows=flows, breaker=breaker)
    if circuit.limit is None:
        return _("{flows} of {breaker}", flows=flows, breaker=breaker)
    limit = amps(circuit.limit, _)
    if circuit.amperes > circuit.limit:
        return _(
            "{flows}: over the {limit} it should carry for hours, breaker {breaker}",
            flows=flows,
            limit=limit,
            breaker=breaker,
        )
    free = amps(circuit.limit - circuit.amperes, _)
    return _(
        "{flows} of {limit} for hours, {free} free, breaker {breaker}",
        flows=flows,
        limit=limit,
        free=free,
        breaker=breaker,
    )


def _bar(circuit: Circuit, y: float, factor: float, prefix: str, hatches: list[str]) -> list[str]:
    """The consumers side by side, then the room that is left; what is over the limit is dense."""
    drawn = [rect((2.0, y, 2.0 + circuit.breaker * factor, y + _BAR), "#fff", INK, 0.6)]
    at = 2.0
    for n, part in enumerate(circuit.parts):
        end = at + part.amperes * factor
        name = _FILLS[n % len(_FILLS)]
        drawn.append(rect((at, y, end, y + _BAR), "#fff", INK, 1.0))
        if name:
            if name not in hatches:
                hatches.append(name)
            drawn.append(rect((at, y, end, y + _BAR), f"url(#{prefix}-{name})", INK, 1.0))
        at = end
    over = circuit.limit if circuit.limit is not None else circuit.breaker
    if circuit.amperes > over:
        drawn.append(rect((2.0 + over * factor, y, at, y + _BAR), INK))
    return drawn


def _keys(circuit: Circuit, y: float, width: float, prefix: str, _: Words) -> tuple[list[str], float]:
    """What each part of the bar is, with its own filling before it, and the height that takes."""
    drawn: list[str] = []
    x, row = 2.0, 0
    for n, part in enumerate(circuit.parts):
        said = cut(f"{part.words} {amps(part.amperes, _)}", SIZE, width - 22.0)
        wide = 16.0 + width_of(said, SIZE)
        if x > 2.0 and x + wide > width - 2.0:
            x, row = 2.0, row + 1
        top = y + 11.5 * row
        box = (x, top + 1.6, x + 12.0, top + 9.2)
        drawn.append(rect(box, "#fff", INK, 0.8))
        name = _FILLS[n % len(_FILLS)]
        if name:
            drawn.append(rect(box, f"url(#{prefix}-{name})", INK, 0.8))
        drawn.append(text(said, (x + 16.0, top + SIZE), SIZE))
        x += wide + 10.0
    return drawn, 11.5 * (row + 1)


def _scale(circuit: Circuit, y: float, factor: float, width: float, _: Words) -> list[str]:
    """Marks below the bar: the limit for hours and the breaker, with their words kept apart."""
    drawn: list[str] = []
    free = width - 2.0
    marks = [(circuit.breaker, _("breaker {amps}", amps=decimal(f"{num(circuit.breaker)} A", _)), 1.6)]
    if circuit.limit is not None and circuit.limit < circuit.breaker:
        marks.append((circuit.limit, _("for hours {amps}", amps=amps(circuit.limit, _)), 1.0))
    for value, said, thick in marks:
        x = 2.0 + value * factor
        wide = width_of(said, SIZE)
        left = min(x - 3.0 - wide, free - wide)
        drawn.append(line((x, y - _BAR - 7.0), (x, y - 1.0), thick, "" if thick > 1.2 else "3 2"))
        if left >= 2.0:
            drawn.append(text(said, (left, y + 7.0), SIZE))
            free = left - 8.0
    return drawn
