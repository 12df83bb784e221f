"""The day does not fit into its hours.

On set: the last setup is begun when everybody must be out.

How it is decided: with an agreed order the day is followed minute by minute (load-in, rigging from one setup to the
next, takes, meals, wrap) and its end is held against the latest 'wrap:' and the longest day under 'hours:'. Without
one, the load-in, takes, meals and wrap-out that the plan itself states are added up: more than the hours cannot be
avoided by any order. Source: counting; minutes of rigging that the plan does not say are typical ones, common practice,
no source, and marked so.

Fix: drop or merge setups, make the takes shorter, call earlier; never cut meal, rest, safety, verified copies.

When to accept it: the place may be kept longer; then change 'wrap:'.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from . import timing
from .words import clock, finding, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.day import Day

RULE = "day-too-long"
SEVERITY: Final = "error"
TITLE = "the day does not fit into its hours"

TRIGGERS = """
hotset: 1
days:
  1: {call: 08:00, wrap: 10:00, load-in: 30 min, wrap-out: 30 min}  # <- here
setups: {wide: {rig: 0 min}, close: {rig: 0 min}}
scenes:
  4: {shots: {4A: {setup: wide, takes: 45 min}, 4B: {setup: close, takes: 30 min}}}
"""
PASSES = TRIGGERS.replace(
    "wrap-out: 30 min}  # <- here", "wrap-out: 15 min, buffer: 0 min, order: [wide, close]}"
)


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    for day in facts.plan.days.values():
        line = facts.timelines.get(day.id)
        limit = _limit(day)
        if line is not None and day.call is not None and limit is not None:
            if line.wrap > limit[0]:
                yield _late(facts, day, line.wrap, limit, line.typical)
        elif timing.waiting(facts, day.id):
            least = _least(facts, day)
            if limit is not None and day.call is not None and day.call + least > limit[0]:
                yield _never(facts, day, least, limit)
            elif limit is not None or day.call is None:
                yield timing.not_agreed(RULE, day)


def _limit(day: Day) -> tuple[int, str, str] | None:
    """When the day must end, in the words for it, and where that is said; the tighter of two."""
    found = []
    frame = timing.frame(day)
    if frame is not None:
        found.append((frame[1], f"everybody must be out at {clock(frame[1])}", f"{day.path}.wrap"))
    if day.call is not None and day.hours is not None and day.hours.longest is not None:
        most = round(float(day.hours.longest) / 30)
        found.append((int(day.call) + most, f"the longest day is {span(most)}", f"{day.path}.hours.longest"))
    return min(found) if found else None


def _least(facts: Facts, day: Day) -> int:
    """Half-minutes that the plan itself states: load-in, takes, meals, wrap-out."""
    meals = [*((day.meal,) if day.meal else ()), *day.meals.values()]
    said = [day.load_in, day.wrap_out, *(meal.takes for meal in meals)]
    for name, on in facts.day_of.items():
        if on == day.id:
            shots = facts.shots_of.get(name, ())
            said += [facts.plan.setups[name].takes] if not any(s.takes for s in shots) else [s.takes for s in shots]
    return sum(round(float(seconds) / 30) for seconds in said if seconds is not None)


def _ways(over: int) -> tuple[str, ...]:
    return (
        f"drop, merge or move setups worth {span(over)} (if-time shots first), or call earlier",
        "ask `hotset order` what the shortest order is",
        "never cut meal, rest, safety or verified copies for it",
    )


def _late(facts: Facts, day: Day, end: int, limit: tuple[int, str, str], typical: tuple[str, ...]) -> Finding:
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        day.path,
        f"by its agreed order day {day.id} ends at {clock(end)}, and {limit[1]}: {span(end - limit[0])} too much",
        _ways(end - limit[0]),
        (("day", day.id), ("ends", clock(end)), ("limit", clock(limit[0])), ("over_min", (end - limit[0]) / 2)),
        also=[(limit[2], "the limit")],
        typical=typical,
    )


def _never(facts: Facts, day: Day, least: int, limit: tuple[int, str, str]) -> Finding:
    assert day.call is not None
    over = int(day.call) + least - limit[0]
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        day.path,
        f"load-in, takes, meals and wrap-out of day {day.id} alone last {span(least)} from {clock(int(day.call))}, and "
        f"{limit[1]}: {span(over)} too much in any order",
        _ways(over),
        (("day", day.id), ("least_min", least / 2), ("limit", clock(limit[0])), ("over_min", over / 2)),
        also=[(limit[2], "the limit")],
    )
