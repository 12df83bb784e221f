"""The crew works too long without a meal.

On set: hands get slow, voices get loud, and somebody drops a lamp.

How it is decided: in the agreed order, from the call to the first meal, from meal to meal, and from the last meal to
the end of the day, at most what 'hours: {meal-within: ...}' says, else 6 h. The same for everybody whose own day
differs: called earlier or later, released before the meal, on an errand or rigging ahead while the others eat; who
only plays is called for their first setup, make-up before it, and released after the last. Source: 6 h, common
practice, no source; contracts and local law may ask for less. A meal that has hours of its own ('between:', 'at:')
begins within them. In the European Union a break is due when a day is longer than 6 h (Directive 2003/88/EC, article
4).

Fix: put the meal earlier in the order, plan a second one, or write when somebody else eats.

When to accept it: a running buffet that everybody really gets to.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts.hours import later, shifted
from ..facts.workday import meal_within, unfed
from ..findings import NotChecked
from . import timing
from .words import clock, finding, quoted, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.timeline import Timeline
    from ..facts.workday import Unfed, WorkDay
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


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    for day in facts.plan.days.values():
        line = facts.timelines.get(day.id)
        if line is not None:
            if not timing.meals_left_out(day):  # a meal that the order forgot is said by left-out-of-order
                late = list(unfed([(s.start, s.end) for s in line.steps if s.kind == "meal"], line.call, line.wrap,
                                      meal_within(day)[0]))  # fmt: skip
                for stretch in late:
                    yield _crew(facts, day, stretch)
                if not late:
                    yield from _off_hours(facts, day, line)
                yield from _persons(facts, day, line, late)
            continue
        frame = timing.frame(day)
        if timing.waiting(facts, day.id) and frame is not None and frame[1] - frame[0] > meal_within(day)[0]:
            yield timing.not_agreed(RULE, day)


def _crew(facts: Facts, day: Day, late: Unfed) -> Finding:
    limit, typical = meal_within(day)
    words = "the end of the meal" if late.after_meal else "the call"
    until = f"the meal at {clock(late.end)}" if late.to_meal else f"the end of the day at {clock(late.end)}"
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"{day.path}.order",
        f"on day {day.id} {span(late.end - late.start)} lie between {words} at {clock(late.start)} and {until}, more "
        f"than {span(limit)}",
        (f"put a meal before {clock(late.start + limit)} into the order", "or write what the crew agreed to"),
        (("day", day.id), ("from", clock(late.start)), ("to", clock(late.end)), ("most_min", limit / 2)),
        also=[(f"{day.path}.hours", "the limit")] if day.hours is not None else (),
        typical=("a meal within 6 h",) if typical else (),
    )


def _off_hours(facts: Facts, day: Day, line: Timeline) -> Iterator[Finding]:
    """Meals that begin after the hours the plan gives them; before them nobody begins, the crew waits."""
    for step in line.steps:
        meal = day.meals.get(step.words) or (day.meal if step.words == "meal" else None)
        if step.kind != "meal" or meal is None or (meal.between is None and meal.at is None):
            continue
        at = later(int(meal.at), line.call) if meal.at is not None else 0
        lo, hi = shifted(meal.between, line.call) if meal.between is not None else (at, at)
        off = step.start - hi
        if off <= 0:
            continue
        hours = clock(lo) if lo == hi else f"{clock(lo)}-{clock(hi)}"
        yield finding(
            facts.plan,
            (RULE, SEVERITY),
            f"{day.path}.order",
            f"on day {day.id} '{step.words}' begins at {clock(step.start)}, {span(off)} after its hours ({hours})",
            ("put it earlier into the order", "or change its hours"),
            (("day", day.id), ("from", clock(step.start)), ("off_min", off / 2)),
            also=[(meal.path, "its hours")],
        )


def _persons(facts: Facts, day: Day, line: Timeline, said: list[Unfed]) -> Iterator[Finding]:
    """Those whose own day is another than the crew's; what is said of all is not said again of one."""
    limit, typical = meal_within(day)
    rows: dict[tuple[Unfed, str], list[str]] = {}
    for name in facts.plan.people:
        own = facts.work_days[day.id].get(name)
        if own is None or (own.call, own.end, own.away) == (line.call, line.wrap, ()):
            continue
        meals = [(s.start, s.end) for s in line.steps if s.kind == "meal"]
        eaten = [m for m in meals if own.eats(*m)]
        for late in unfed(eaten, own.call, own.end, limit):
            if not any(s.end == late.end or (s.start <= late.start and late.end <= s.end) for s in said):
                rows.setdefault((late, _missed(own, meals, late)), []).append(name)
    for (late, why), names in rows.items():
        one = len(names) == 1
        begin = "the end of the meal" if late.after_meal else "their call"
        until = f"the meal at {clock(late.end)}" if late.to_meal else f"their release at {clock(late.end)}"
        yield finding(
            facts.plan,
            (RULE, SEVERITY),
            f"people.{names[0]}",
            f"on day {day.id} {quoted(names)} {'goes' if one else 'go'} {span(late.end - late.start)} without a meal, "
            f"from {begin} at {clock(late.start)} to {until}, more than {span(limit)}{why}",
            (
                f"let them eat before {clock(late.start + limit)}: a second meal in the order, or the meal elsewhere",
                "or change their hours or the order so that the meal lies between",
            ),
            (
                ("day", day.id),
                ("people", ", ".join(names)),
                ("from", clock(late.start)),
                ("to", clock(late.end)),
                ("most_min", limit / 2),
            ),
            also=[(f"{day.path}.order", "the order of the day"), *((f"people.{n}", "likewise") for n in names[1:4])],
            typical=("a meal within 6 h",) if typical else (),
        )


def _missed(own: WorkDay, meals: list[tuple[int, int]], late: Unfed) -> str:
    """Which meal of the day passes them by, and why."""
    for start, end in meals:
        off = next((a for a in own.away if a.start < end and a.end > start), None)
        if off is not None and late.start <= start < late.end:
            return f"; at the meal at {clock(start)} {off.words}"
        if start < own.ready and late.start == own.call:
            return f"; the meal at {clock(start)} is before they {'come' if end <= own.call else 'are made up'}"
    return ""
