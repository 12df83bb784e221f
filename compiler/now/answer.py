"""The answer on the day: what goes on, what is next and by when, how late it is, and what could be given up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.numbers import FOREVER, meet
from ..log import happened
from ..record import record
from .judge import judge
from .onward import onward, reason
from .rest import rest
from .ways import choose

if TYPE_CHECKING:
    from ..facts.follow import Leg
    from ..log import DayLog
    from ..plan import Plan
    from .onward import Way
    from .rest import Rest
    from .ways import Choice


@record
class Coming:
    """What comes: `kind` is setup, meal or room-tone; when work on it begins, when it starts (rolls), the latest start
    with which the rest still fits (None: nothing presses, or it is too late already), its end, its shots with their
    times, when it was planned to start (None: it was not), and the window it misses in this order ("" where none)."""

    kind: str
    name: str
    begin: int
    start: int
    latest: int | None
    end: int
    shots: tuple[tuple[str, int], ...]
    planned: int | None
    misses: str = ""


@record
class Answer:
    """All that `hotset now` says of a day at a time, in half-minutes of the day."""

    day: str
    at: int
    rest: Rest
    way: Way
    coming: tuple[Coming, ...]
    behind: int | None
    planned_wrap: int | None
    choice: Choice | None


def answer(plan: Plan, log: DayLog, at: int) -> Answer:
    """What is left of a day at a time, after the events of its log up to then."""
    left = rest(plan, happened(plan, log.until(at)), at)
    way, agreed = onward(left), left.planned
    behind = way.timeline.wrap - agreed.wrap if agreed is not None else None
    if left.happened.wrapped is not None:
        behind = left.happened.wrapped - agreed.wrap if agreed is not None else None
    choice = None if left.happened.wrapped is not None else choose(left, way, behind or 0)
    starts = {s.setup: s.start for s in agreed.steps if s.kind == "setup"} if agreed is not None else {}
    return Answer(log.day, at, left, way, _coming(left, way, starts), behind,
                  agreed.wrap if agreed is not None else None, choice)  # fmt: skip


def _coming(left: Rest, way: Way, starts: dict[str, int]) -> tuple[Coming, ...]:
    legs = judge(left.day, (*left.held, *way.order)).legs[len(left.held) :]
    found = []
    for name, leg, latest in zip(way.order, legs, _latest(left, legs), strict=True):
        shots = []
        at = leg.start
        for part in left.parts.get(name, ()):
            shots.append((part.id, at))
            at += part.left
        kind = "setup" if leg.entry.setup >= 0 else "meal" if leg.entry.meal >= 0 else "room-tone"
        planned = starts.get(name) if kind == "setup" else None
        misses = reason(left.day, name, (leg.start, leg.end)) if leg.missed else ""
        found.append(Coming(kind, name, leg.begin, leg.start, latest, leg.end, tuple(shots), planned, misses))
    return tuple(found)


def _latest(left: Rest, legs: tuple[Leg, ...]) -> list[int | None]:
    """For each leg the latest start with which all that follows still fits its window, and everybody is out in time."""
    numbers = left.day.day
    due = left.limit - numbers.pack if left.limit < FOREVER else FOREVER
    meals = [leg.end for leg in legs if leg.entry.meal >= 0]
    if numbers.gap < FOREVER:
        due = min(due, (meals[-1] if meals else numbers.fed or numbers.call) + numbers.gap - numbers.pack)
    found: list[int | None] = []
    fed = numbers.fed if numbers.fed is not None else numbers.call
    for k in range(len(legs) - 1, -1, -1):
        leg = legs[k]
        latest = due - (leg.end - leg.start)
        if leg.entry.setup >= 0:
            spans = meet(numbers.setups[leg.entry.setup].windows)
            closes = next((hi for lo, hi in spans if lo <= leg.start and leg.end <= hi), FOREVER)
            latest = min(latest, closes - (leg.end - leg.start))
        elif leg.entry.meal >= 0:
            eaten = [e.end for e in legs[:k] if e.entry.meal >= 0]
            latest = min(latest, numbers.meals[leg.entry.meal].latest, (eaten[-1] if eaten else fed) + numbers.gap)
        due = latest - leg.rig - leg.travel
        found.append(latest if leg.start <= latest < FOREVER // 2 else None)
    return found[::-1]
