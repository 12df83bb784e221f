"""The crew works too long without a meal.

On set: hands get slow, voices get loud, and somebody drops a lamp.

How it is decided: in the agreed order, from the call to the first meal, from meal to meal, and from the last meal to
the end of the day, at most what 'hours: {meal-within: ...}' says, else 6 h. Source: 6 h, common practice, no source;
contracts and local law may ask for less. In the European Union a break is due when a day is longer than 6 h
(Directive 2003/88/EC, article 4).

Fix: put the meal earlier in the order, or plan a second one.

When to accept it: a running buffet that everybody really gets to.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from . import timing
from .words import clock, finding, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.timeline import Timeline
    from ..findings import Finding
    from ..plan.day import Day

RULE = "meal-late"
SEVERITY: Final = "warning"
TITLE = "too long without a meal"

TRIGGERS = """
hotset: 1
days:
  1:
    call: 08:00
    load-in: 30 min
    wrap-out: 30 min
    order: [wide, close]  # <- here
setups: {wide: {takes: 4 h, rig: 0 min}, close: {takes: 2 h, rig: 0 min}}
"""
PASSES = TRIGGERS.replace("[wide, close]  # <- here", "[wide, meal, close]")
MOST = 720  # half-minutes without a meal; six hours


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    for day in facts.plan.days.values():
        line = facts.timelines.get(day.id)
        if line is not None:
            if not timing.meals_left_out(day):  # a meal that the order forgot is said by left-out-of-order
                yield from _day(facts, day, line)
            continue
        frame = timing.frame(day)
        if timing.waiting(facts, day.id) and frame is not None and frame[1] - frame[0] > _most(day)[0]:
            yield timing.not_agreed(RULE, day)


def _most(day: Day) -> tuple[int, bool]:
    said = day.hours.meal_within if day.hours is not None else None
    return (MOST, True) if said is None else (round(float(said) / 30), False)


def _day(facts: Facts, day: Day, line: Timeline) -> Iterator[Finding]:
    most, typical = _most(day)
    meals = [(s.start, s.end) for s in line.steps if s.kind == "meal"]
    since, words = line.call, "the call"
    for start, end in [*meals, (line.wrap, line.wrap)]:
        if start - since > most:
            until = f"the meal at {clock(start)}" if (start, end) in meals else f"the end of the day at {clock(start)}"
            yield finding(
                facts.plan,
                (RULE, SEVERITY),
                f"{day.path}.order",
                f"on day {day.id} {span(start - since)} lie between {words} at {clock(since)} and {until}, more than "
                f"{span(most)}",
                (f"put a meal before {clock(since + most)} into the order", "or write what the crew agreed to"),
                (("day", day.id), ("from", clock(since)), ("to", clock(start)), ("most_min", most / 2)),
                also=[(f"{day.path}.hours", "the limit")] if day.hours is not None else (),
                typical=("a meal within 6 h",) if typical else (),
            )
        since, words = end, "the end of the meal"
