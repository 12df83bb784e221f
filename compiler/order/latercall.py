"""Whether everybody could come later: tried once, where an order keeps the whole crew waiting for an hour or more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.hours import full_minute
from ..facts.numbers import IF_TIME, MUST
from ..record import replace as changed
from .solve import earliest_wrap

if TYPE_CHECKING:
    from ..facts.shootday import ShootDay
    from ..facts.timeline import Step, Timeline

LONG = 120
"""Half-minutes of waiting from which on a later call is looked at."""
GRID = 30
"""Half-minutes: calls are given in quarters of an hour."""
LOOKED = 4_000
"""Moments of the day that are opened for it."""


def longest_wait(line: Timeline) -> Step | None:
    """The longest time in which the crew does nothing but wait, where it is an hour or more."""
    waits = [s for s in line.steps if s.kind == "wait" and s.end - s.start >= LONG]
    return max(waits, key=lambda s: (s.end - s.start, -s.start), default=None)


def later_call(day: ShootDay, line: Timeline) -> int | None:
    """The call, later by the longest wait in whole quarters of an hour, with which the same setups are shot and the
    wrap is no later; None where nobody waits that long, or where something would be lost."""
    wait = longest_wait(line)
    if wait is None or any(words.startswith("'call:'") for words in day.missing):
        return None
    by = (wait.end - wait.start) // GRID * GRID
    numbers = day.day
    setups = tuple(
        changed(s, priority=MUST if name in line.order else IF_TIME)
        for name, s in zip(day.setups, numbers.setups, strict=True)
    )
    fed = None if numbers.fed is None else numbers.fed + by
    found = earliest_wrap(changed(numbers, setups=setups, call=numbers.call + by, fed=fed), LOOKED)
    return day.call + by if found is not None and full_minute(found) <= line.wrap else None
