"""The working day of one person: from when to when they are there, and when they are away on something else.

Half-minutes since the day's midnight, on days with an agreed order.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record
from . import errands, hands, hours
from .hours import times_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from ..plan.day import Day
    from ..plan.person import Person
    from .facts import Facts


@record
class Away:
    """Somebody is busy elsewhere: from when to when, with what in words, where the plan says it, which setup is rigged
    ahead, which thing is fetched or brought back ("" where neither)."""

    start: int
    end: int
    words: str
    path: str
    setup: str = ""
    thing: str = ""


@record
class WorkDay:
    """From `call` a person is there, from `ready` (made up) fit for work, until `end`; `away` meanwhile. `comes` and
    `leaves` tell whether the plan says that they come after the crew's call, or leave before its wrap."""

    person: str
    call: int
    ready: int
    end: int
    away: tuple[Away, ...]
    comes: bool
    leaves: bool

    @property
    def first(self) -> int:
        """When their day begins at the latest: the call, and an errand before it right before it."""
        return self.call - sum(a.end - a.start for a in _drives(self.away) if a.start < self.call)

    @property
    def last(self) -> int:
        """When their day ends at the earliest: as they go, and an errand after it right after it."""
        return self.end + sum(a.end - a.start for a in _drives(self.away) if a.end > self.end and a.start >= self.call)

    def spans(self, but: str = "") -> tuple[tuple[int, int], ...]:
        """When they are free for the crew's work; `but` is a setup whose rigging ahead does not count as away."""
        free = [(self.ready, self.end)] if self.end > self.ready else []
        for off in self.away:
            if off.setup and off.setup == but:
                continue
            parts = [((a, min(b, off.start)), (max(a, off.end), b)) for a, b in free]
            free = [(a, b) for two in parts for a, b in two if b > a]
        return tuple(free)

    def eats(self, start: int, end: int) -> bool:
        """Whether they are there for all of a meal, made up, and on nothing else."""
        return self.ready <= start and end <= self.end and not any(a.start < end and a.end > start for a in self.away)

    def kept(self, start: int, end: int, but: str = "") -> str:
        """What keeps them from being there for all of a stretch of the day, in words; "" where nothing does."""
        for off in self.away:
            if off.start < end and off.end > start and not (but and off.setup == but):
                return f"{off.words} from {times_words(off.start)} to {times_words(off.end)}"
        if self.ready > start:
            return f"comes at {times_words(self.ready)}"
        return f"leaves at {times_words(self.end)}" if self.end < end else ""

    def within(self, start: int, end: int, but: str = "") -> int:
        """How much of a stretch of the day they are free for."""
        return sum(max(0, min(b, end) - max(a, start)) for a, b in self.spans(but))


def free_crew(facts: Facts, setup_id: str, busy: Iterable[str]) -> list[Person]:
    """The crew of a setup's day without those who are busy otherwise; by the agreed order those alone who are there for
    all of its takes, and on nothing else."""
    found = hands.free_crew(facts.plan, facts.day_of[setup_id], busy)
    rolls = facts.rolling(setup_id)
    days = facts.work_days.get(facts.day_of[setup_id] or "") if rolls is not None else None
    if rolls is None or days is None:
        return found
    return [p for p in found if p.id in days and not days[p.id].kept(*rolls)]


@record
class Unfed:
    """Longer without a meal than the limit: from when to when, whether it begins after a meal and ends with one."""

    start: int
    end: int
    after_meal: bool
    to_meal: bool


MEAL_WITHIN = 720
"""Half-minutes without a meal where the plan says nothing: six hours; common practice, no source."""


def meal_within(day: Day) -> tuple[int, bool]:
    """The longest time without a meal, in half-minutes, and whether it is the typical one."""
    said = day.hours.meal_within if day.hours is not None else None
    return (MEAL_WITHIN, True) if said is None else (round(float(said) / 30), False)


def unfed(meals: Iterable[tuple[int, int]], call: int, end: int, limit: int) -> Iterator[Unfed]:
    """Every stretch from a call over meals to an end that is longer than the limit."""
    since, ate = call, False
    for start, over in meals:
        if start - since > limit:
            yield Unfed(since, start, ate, to_meal=True)
        since, ate = over, True
    if end - since > limit:
        yield Unfed(since, end, ate, to_meal=False)


def _drives(away: Iterable[Away]) -> Iterator[Away]:
    """Errands, those of the same hours once: they are one drive."""
    seen: set[tuple[int, int]] = set()
    for off in away:
        if off.thing and (off.start, off.end) not in seen:
            seen.add((off.start, off.end))
            yield off


def work_days(facts: Facts, day_id: str) -> dict[str, WorkDay]:
    """Everybody who is there on a day with an agreed order."""
    going: dict[str, list[errands.Trip]] = {}
    for trip in errands.trips(facts.plan):
        going.setdefault(trip.by, []).append(trip)
    found = ((name, _one(facts, name, day_id, going.get(name, []))) for name in facts.plan.people)
    return {name: day for name, day in found if day is not None}


def _one(facts: Facts, name: str, day_id: str, trips: list[errands.Trip]) -> WorkDay | None:
    """The day of a person by the agreed order; None where they are not there.

    Who only plays is called in time for their first setup, make-up before it, and goes after the last; all others are
    called with the crew and stay to the wrap. Their own call and hours bind.
    """
    plan, line = facts.plan, facts.timelines[day_id]
    who = plan.people[name]
    if not hands.present(plan, who, day_id):
        return None
    day = plan.days[day_id]
    call = int(day.call or 0)
    here = hands.hours(who, day_id)
    lo, hi = hours.shifted(here, call) if here is not None else (line.call, line.wrap)
    own = who.days.get(day_id)
    said = own.call if own is not None and own.call is not None else who.call
    chair = round(float(who.before) / 30) if who.before is not None else 0
    start, end = max(lo, line.call), min(hi, line.wrap)
    if not hands.is_crew(who):
        mine = [s for s in line.steps if s.kind == "setup" and name in _in_front(facts, s.setup)]
        if not mine:
            return None
        start = mine[0].start - chair
        start, end = start if here is None else max(lo, start), min(hi, mine[-1].end)
    if said is not None:
        own_call = hours.later(int(said), min(call, int(said)))
        start = own_call if here is None else max(lo, own_call)
    return WorkDay(
        person=name,
        call=start,
        ready=start + chair,
        end=max(end, start),
        away=tuple(_away(who, day, trips, line.wrap)),
        comes=lo > line.call or (said is not None and start > line.call),
        leaves=hi < line.wrap,
    )


def _in_front(facts: Facts, setup_id: str) -> dict[str, None]:
    """Everybody in front of the camera in a setup."""
    setup = facts.plan.setups[setup_id]
    shots = facts.shots_of.get(setup_id) or (None,)
    return {who: None for shot in shots for _, who in hands.cast(facts.plan, setup, shot, facts.players)}


def _away(who: Person, day: Day, trips: list[errands.Trip], wrap: int) -> Iterator[Away]:
    """What a person does elsewhere on a day: rooms rigged ahead, errands of its date or begun before its wrap."""
    call = int(day.call or 0)
    for early in day.ahead:
        if who.id in early.by and early.setup and early.to is not None:
            start = call if early.from_ is None else hours.later(int(early.from_), call)
            yield Away(start, hours.later(int(early.to), call), f"rigs '{early.setup}' ahead", f"{early.path}.by",
                       setup=early.setup)  # fmt: skip
    for trip in trips:
        when = trip.on(day)
        if when is not None and (trip.date == day.date or when[0] < wrap):
            yield Away(*when, trip.words, trip.path, thing=trip.thing)
