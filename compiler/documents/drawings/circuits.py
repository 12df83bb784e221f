"""What flows on each circuit along the day, against what it may carry for hours and against its breaker.

Times are half-minutes since local midnight, currents amperes.
"""

from __future__ import annotations

from collections.abc import Sequence

from ...facts.hours import times_words
from ...record import record
from ..numbers import decimal
from ..words import Words, words_for
from .axis import GUTTER, RIGHT, SIZE, Axis
from .loadbars import amps
from .metrics import width_of, wrap
from .svg import INK, Drawing, document, line, num, polygon, rect, text

_TOP, _TALL, _HEAD = 17.0, 30.0, 10.0


@record
class Step:
    """A stretch with the same things on a circuit."""

    start: int
    end: int
    amperes: float


@record
class Circuit:
    """A circuit along the day: the amperes it may carry for hours (None: no rule known), its breaker, its steps."""

    name: str
    breaker: float
    limit: float | None
    steps: tuple[Step, ...]


def draw(
    circuits: Sequence[Circuit], start: int, end: int, prefix: str, title: str, words: Words | None = None,
    width: float = 510.0,
) -> Drawing:
    """A stepped line a circuit, each to its own breaker's height; `svg` is empty without circuits."""
    _ = words or words_for()
    if not circuits:
        return Drawing("", title, "", 0.0, 0.0)
    axis = Axis(start, end, width, GUTTER, RIGHT)
    parts: list[str] = []
    told: list[str] = []
    y = _TOP
    for circuit in circuits:
        said, steps = peak(circuit, _), ", ".join(
            f"{times_words(s.start)}-{times_words(s.end)} {amps(s.amperes, _)}" for s in circuit.steps
        )
        told.append(f"{circuit.name}: {said}; {steps}")
        parts.append(axis.name(circuit.name, y + 10.0))
        rows = wrap(said, SIZE, axis.gutter - 8.0)[:2]
        parts.extend(text(row, (2.0, y + 21.0 + 10.5 * n), SIZE) for n, row in enumerate(rows))
        parts.extend(_line(circuit, axis, y, prefix, _))
        y += _TALL + 14.0
    legend = wrap(_("hatched: what flows, with its amperes; dashed: what may flow for hours; thick: the breaker"), SIZE,
                  width - 4.0)  # fmt: skip
    tail = [text(row, (2.0, y + SIZE + 11.5 * n), SIZE) for n, row in enumerate(legend)]
    height = y + 11.5 * len(legend) + 4.0
    desc = ". ".join(told) + "."
    body = [*axis.hours(_TOP, y - 6.0), *parts, *tail]
    return Drawing(document(prefix, (width, height), title, desc, body, ("thin",)), title, desc, width, height)


def peak(circuit: Circuit, _: Words) -> str:
    """The most that flows, against the breaker."""
    most = max((s.amperes for s in circuit.steps), default=0.0)
    return _("up to {flows} of {breaker}", flows=amps(most, _), breaker=decimal(f"{num(circuit.breaker)} A", _))


def _line(circuit: Circuit, axis: Axis, y: float, prefix: str, _: Words) -> list[str]:
    """The steps of one circuit; each new height is told where its words have room."""
    base = y + _TALL + 4.0
    most_flows = max((s.amperes for s in circuit.steps), default=0.0)
    most = max(circuit.breaker, most_flows) or 1.0
    factor = _TALL / most
    drawn = [line((axis.left, base), (axis.right, base), 0.6)]
    words: list[str] = []
    free, before = axis.left, -1.0
    for step in circuit.steps:
        x0, x1, top = axis.x(step.start), axis.x(step.end), base - step.amperes * factor
        if x1 - x0 < 0.3:
            continue
        drawn.append(rect((x0, top, x1, base), "#fff", INK, 0.8))
        drawn.append(rect((x0, top, x1, base), f"url(#{prefix}-thin)", INK, 0.8))
        drawn.append(polygon(((x0, top), (x1, top)), "none", 1.6, closed=False))
        said = amps(step.amperes, _)
        wide = width_of(said, SIZE) + 4.0
        left = max(x0, free) + 1.0
        fits = wide <= x1 - max(x0, free) or (step.amperes >= most_flows - 1e-9 and left + wide <= axis.right)
        if step.amperes > 0.0 and abs(step.amperes - before) > 0.05 and fits:
            foot = base - 1.0 if base - top >= 12.0 else top - 1.5  # above a step that is lower than the words
            words.append(rect((left, foot - 10.0, left + wide, foot), "#fff"))
            words.append(text(said, (left + 2.0, foot - 1.6), SIZE))
            free, before = left + wide, step.amperes
    edge = base - circuit.breaker * factor
    drawn.append(line((axis.left, edge), (axis.right, edge), 1.8))
    if circuit.limit is not None and circuit.limit < circuit.breaker:
        at = base - circuit.limit * factor
        drawn.append(line((axis.left, at), (axis.right, at), 1.0, "4 2.5"))
    return [*drawn, *words]
