"""By when each setup must roll so that all that follows still fits: a day reckoned backwards from its end.

Work keeps its length, waits give way, nothing is brought forward. The buffer counts as time there is: whoever prints a
latest start says so. Meals count too: one must come within the longest time without, and so must the wrap after the
last.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record
from .hours import times_words
from .numbers import FOREVER, meet

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from .follow import Leg
    from .numbers import Day
    from .shootday import ShootDay
    from .timeline import Step


@record
class Work:
    """A stretch of work: what comes right before it and cannot wait (travel, rigging), its start and end in
    half-minutes; the number of its setup or meal, -1 where it is neither."""

    before: int
    start: int
    end: int
    setup: int = -1
    meal: int = -1


@record
class RollBy:
    """The latest start of a stretch of work, at a full minute, and what binds it: its own windows in the words of the
    facts (`own`), `for 'setup'` for the windows of a later one, `for meal`, `after meal` (the wrap comes soon
    enough after it) or `out by 19:30`."""

    latest: int
    why: str
    own: bool = False


def roll_by(numbers: ShootDay, steps: Sequence[Step]) -> dict[str, RollBy]:
    """For every setup of a day's steps whose takes anything binds."""
    meals = 0
    works = []
    for step in steps:
        if step.kind == "wait":
            continue
        meal = -1
        if step.kind == "meal":
            meal, meals = meals, meals + 1
        setup = numbers.index(step.setup) if step.kind == "setup" else -1
        works.append(Work(0, step.start, step.end, setup, meal))
    found = latest(numbers, works, FOREVER if numbers.out is None else numbers.out, 0)
    return {numbers.setups[w.setup]: by for w, by in zip(works, found, strict=True) if w.setup >= 0 and by is not None}


def works_of(legs: Iterable[Leg]) -> list[Work]:
    """Legs of an order that was followed, as work."""
    return [Work(g.rig + g.travel, g.start, g.end, g.entry.setup, g.entry.meal) for g in legs]


def latest(numbers: ShootDay, works: Sequence[Work], out: int, after: int) -> list[RollBy | None]:
    """For each stretch of work its latest start; None where nothing binds it, or where it is too late already. `out`
    is when everybody must be out (FOREVER: nobody says), `after` half-minutes of work that follow the last stretch."""
    due, why = _end(numbers.day, works, out, after)
    found: list[RollBy | None] = []
    for k in range(len(works) - 1, -1, -1):
        work, own = works[k], False
        by = due - (work.end - work.start) if due < FOREVER else FOREVER
        if work.meal >= 0:
            closes = _meal(numbers.day, works, k)
            if work.start <= closes < by:
                by, why = closes, "for meal"
        elif work.setup >= 0:
            closes, words = _own(numbers, work)
            if closes <= by and closes < FOREVER:
                by, why, own = closes, words, True
        by -= by % 2 if by < FOREVER else 0
        found.append(RollBy(by, why, own) if work.start <= by < FOREVER else None)
        if own:
            why = f"for '{numbers.setups[work.setup]}'"
        due = by - work.before if by < FOREVER else FOREVER
    return found[::-1]


def _end(day: Day, works: Sequence[Work], out: int, after: int) -> tuple[int, str]:
    """By when the last stretch is over, and why: everybody out, or the longest time without a meal since the last."""
    due, why = (out - after, f"out by {times_words(out)}") if out < FOREVER else (FOREVER, "")
    if day.gap < FOREVER:
        eaten = [w.end for w in works if w.meal >= 0]
        fed = (eaten[-1] if eaten else day.call if day.fed is None else day.fed) + day.gap - after
        if fed < due and (not works or works[-1].end <= fed):
            due, why = fed, "after meal"
    return due, why


def _meal(day: Day, works: Sequence[Work], k: int) -> int:
    """The latest start of a meal: its own hours, and the longest time without since the one before."""
    closes = day.meals[works[k].meal].latest if works[k].meal < len(day.meals) else FOREVER
    if day.gap < FOREVER:
        eaten = [w.end for w in works[:k] if w.meal >= 0]
        closes = min(closes, (eaten[-1] if eaten else day.call if day.fed is None else day.fed) + day.gap)
    return closes


def _own(numbers: ShootDay, work: Work) -> tuple[int, str]:
    """The last minute at which the takes can begin and still end inside their windows, and which those are."""
    windows = numbers.day.setups[work.setup].windows
    open_until = [hi for lo, hi in meet(windows) if lo <= work.start and work.end <= hi < FOREVER]
    if not open_until:
        return FOREVER, ""
    binding = [w.why for w in windows if any(hi == max(open_until) for _lo, hi in w.spans)]
    return max(open_until) - (work.end - work.start), "; ".join(dict.fromkeys(binding))
