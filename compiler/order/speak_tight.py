"""Where a day has little to spare: the setups that only just keep their hours, or those of a meal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.hours import duration, times_words
from ..facts.rollby import roll_by

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts.rollby import RollBy
    from .dayorder import DayOrder

CLOSE = 30
"""Half-minutes; what has less to spare than these is told."""
MOST = 3


def tight(result: DayOrder) -> str:
    """One sentence, or "" where nothing is close; tightest first. The end of the day is told elsewhere."""
    found = sorted(_close(result), key=lambda one: one[0])[:MOST]
    said = [f"'{name}' must roll by {times_words(by.latest)}, {duration(left)} later than here, {_why(by)}"
            for left, name, by in found]  # fmt: skip
    return f"Little to spare: {'; '.join(said)}." if said else ""


def _close(result: DayOrder) -> Iterator[tuple[int, str, RollBy]]:
    """(half-minutes to spare, setup, what binds it): of setups that are bound by the same the last."""
    assert result.timeline is not None
    starts = {s.setup: s.start for s in result.timeline.steps if s.kind == "setup"}
    bound = roll_by(result.day, result.timeline.steps)
    last: dict[str, str] = {}
    for name in starts:
        by = bound.get(name)
        if by is not None and (by.own or by.why.endswith("meal")):
            last[name if by.own else by.why] = name
    for name in dict.fromkeys(last.values()):
        left = bound[name].latest - starts[name]
        if 0 <= left < CLOSE:
            yield left, name, bound[name]


def _why(by: RollBy) -> str:
    if by.own:
        return f"to keep its hours ({by.why})"
    return "or the meal comes too late" if by.why == "for meal" else "or the wrap comes too long after the meal"
