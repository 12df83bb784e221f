"""The answer on the day: what goes on, what is next and by when, how late it is, and what could be given up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.hours import full_minute
from ..facts.rollby import latest, works_of
from ..log import happened
from ..record import record
from .judge import judge
from .onward import onward, reason
from .rest import rest
from .ways import choose

if TYPE_CHECKING:
    from ..log import DayLog
    from ..plan import Plan
    from .onward import Way
    from .rest import Rest
    from .ways import Choice


MINUTE = 2
"""Half-minutes. A log has full minutes, the plan half ones: what is a minute apart is the same."""


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
    ends = way.timeline.wrap if left.happened.wrapped is None else left.happened.wrapped
    behind = ends - agreed.wrap if agreed is not None else None
    if behind is not None and abs(behind) <= MINUTE and left.happened.wrapped is None:
        behind = 0
    choice = None if left.happened.wrapped is not None else choose(left, way, behind or 0)
    starts = {s.setup: s.start for s in agreed.steps if s.kind == "setup"} if agreed is not None else {}
    return Answer(log.day, at, left, way, _coming(left, way, starts), behind,
                  agreed.wrap if agreed is not None else None, choice)  # fmt: skip


def _coming(left: Rest, way: Way, starts: dict[str, int]) -> tuple[Coming, ...]:
    legs = judge(left.day, (*left.held, *way.order)).legs[len(left.held) :]
    found = []
    limits = latest(left.day, works_of(legs), left.limit, left.day.day.pack)
    for name, leg, limit in zip(way.order, legs, limits, strict=True):
        shots = []
        at = start = full_minute(leg.start)
        for part in left.parts.get(name, ()):
            shots.append((part.id, full_minute(at)))
            at += part.left
        kind = "setup" if leg.entry.setup >= 0 else "meal" if leg.entry.meal >= 0 else "room-tone"
        planned = starts.get(name) if kind == "setup" else None
        if planned is not None and abs(planned - start) <= MINUTE:
            planned = start
        misses = reason(left.day, name, (leg.start, leg.end)) if leg.missed else ""
        by = None if limit is None else max(limit.latest, start)
        when = (full_minute(leg.begin), start, by, full_minute(leg.end))
        found.append(Coming(kind, name, *when, tuple(shots), planned, misses))
    return tuple(found)
