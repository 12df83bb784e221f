"""What the physical rules share: a cause said once though many setups inherit it, numbers as the crew says them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Generic, NamedTuple, TypeVar

from ..source.quantities import show
from .words import quoted

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..plan import Plan

T = TypeVar("T")


class Case(NamedTuple, Generic[T]):
    """Something a rule met: the plan path, the setup or shot it was met in, how bad it is there, and what it is."""

    path: str
    who: str
    bad: float
    what: T


class Cause(NamedTuple, Generic[T]):
    """Cases with one cause: the worst of them, and who else has it."""

    worst: Case[T]
    others: tuple[str, ...]

    @property
    def also(self) -> str:
        """The end of the sentence that names the others."""
        return f", and so in {quoted(self.others)}" if self.others else ""


def causes(plan: Plan, cases: Iterable[Case[T]], words: str = "") -> list[Cause[T]]:
    """Cases gathered by the place of the text that says them: what setups inherit stands in one place. `words` keeps
    apart what one place may say of different things."""
    by_place: dict[tuple[object, ...], list[Case[T]]] = {}
    for case in cases:
        at = plan.where(case.path)
        by_place.setdefault((at.file, at.line, at.column, words), []).append(case)
    found = []
    for group in by_place.values():
        worst = max(group, key=lambda c: c.bad)
        others = tuple(dict.fromkeys(c.who for c in group if c.who != worst.who))
        found.append(Cause(worst, others))
    return found


def length(plan: Plan, metres: float) -> str:
    """A length as the plan's sheets print it, to the centimetre."""
    return show("length", round(metres, 2), plan.film.lengths or "metric")


def fine(plan: Plan, metres: float) -> str:
    """A length of some centimetres, to the half one."""
    return f"{metres * 100:.2g} cm" if abs(metres) < 1.0 else length(plan, metres)


def up(metres: float) -> float:
    """Rounded up to the next 5 cm, so that what is offered does hold."""
    return math.ceil(round(metres / 0.05, 6)) * 0.05


def along(part: float, moves: bool) -> str:
    """Where on a move (0 to 1) something is, with a space before it; "" without a move."""
    if not moves:
        return ""
    if part < 0.05:
        return " at the start of the move"
    return " at the end of the move" if part > 0.95 else f" {part:.0%} of the way along the move"


def stops(value: float) -> str:
    """Stops to the third, without a sign: 1 stop, 1 1/3 stops."""
    thirds = round(abs(value) * 3)
    whole, rest = divmod(thirds, 3)
    words = " ".join([f"{whole}"] * (whole > 0 or not rest) + [f"{rest}/3"] * (rest > 0))
    return f"{words} stop" if thirds <= 3 else f"{words} stops"


def lux(value: float) -> str:
    """Lux to two significant figures, as the inputs deserve."""
    if value <= 0:
        return "0 lx"
    digits = 1 - math.floor(math.log10(value))
    rounded = round(value, digits)
    return f"{rounded:.{max(digits, 0)}f} lx" if rounded < 10 else f"{rounded:.0f} lx"
