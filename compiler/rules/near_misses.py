"""What only just passes, with its margin: asked for by `hotset check --margins`, never on the way of a plain check.

Each rule that has a margin is asked by one function, in the order of the catalogue; a rule that finds a conflict says
that in its own finding and has no margin.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..findings import Place
from ..record import record

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from ..facts import Facts


@record
class Margin:
    """A check that passes with little left: the rule, the sentence with the margin in it, its place, and how much of
    what is allowed is used, 1.0 being the limit."""

    rule: str
    sentence: str
    place: Place
    used: float


def margins(facts: Facts) -> tuple[Margin, ...]:
    """Every near miss, the nearest first, then by place."""
    from . import near_hours, near_things

    asked: tuple[Callable[[Facts], Iterator[Margin]], ...] = (*near_things.ASKED, *near_hours.ASKED)
    found = {(m.rule, m.sentence): m for ask in asked for m in ask(facts)}
    return tuple(sorted(found.values(), key=lambda m: (-round(m.used, 6), m.place, m.rule, m.sentence)))
