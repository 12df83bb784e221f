"""The day is longer than people stay safe and awake.

On set: the last two hours are paid for with mistakes, and the drive home is the most dangerous part of the day.

How it is decided: by the agreed order, from the call to the end of the day, above 12 h; where the plan says
'hours: {longest: ...}', that limit has a rule of its own and this one is silent. Source: 12 h, common practice, no
source; contracts and local law may ask for less.

Fix: drop or move setups, or call part of the crew later.

When to accept it: everybody agreed before, the next day starts later, and nobody drives home alone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import clock, finding, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "long-day"
SEVERITY: Final = "warning"
TITLE = "the day is longer than twelve hours"

TRIGGERS = """
hotset: 1
days:
  1: {call: 08:00, load-in: 1 h, wrap-out: 1 h, order: [wide, meal, close, meal, night]}  # <- here
setups: {wide: {rig: 0 min, takes: 4 h}, close: {rig: 0 min, takes: 4 h}, night: {rig: 0 min, takes: 2 h}}
"""
PASSES = TRIGGERS.replace("night: {rig: 0 min, takes: 2 h}", "night: {rig: 0 min, takes: 1 h}").replace(
    "  # <- here", ""
)
MOST = 1440  # half-minutes; twelve hours


def check(facts: Facts) -> Iterator[Finding]:
    for day_id, line in facts.timelines.items():
        day = facts.plan.days[day_id]
        if line.wrap - line.call > MOST and (day.hours is None or day.hours.longest is None):
            yield finding(
                facts.plan,
                (RULE, SEVERITY),
                day.path,
                f"by its agreed order day {day_id} lasts {span(line.wrap - line.call)}, from {clock(line.call)} to "
                f"{clock(line.wrap)}, more than 12 h",
                (
                    f"drop or move setups worth {span(line.wrap - line.call - MOST)}",
                    "or write what was agreed: 'hours: {longest: ...}'",
                ),
                (("day", day_id), ("lasts_min", (line.wrap - line.call) / 2), ("most_min", MOST / 2)),
                typical=("a day of at most 12 h",),
            )
