"""The day is longer than people stay safe and awake.

On set: the last two hours are paid for with mistakes, and the drive home is the most dangerous part of the day.

How it is decided: by the agreed order, from the call to the end of the day, above 12 h; where the plan says
'hours: {longest: ...}', that limit has a rule of its own for the crew. For everybody whose own day differs the same:
own call and make-up, and an errand before the call or after the wrap counted as if it were done at once; against
'longest:' where the plan says it. Source: 12 h, common practice, no source; contracts and local law may ask for
less.

Fix: drop or move setups, or call part of the crew later.

When to accept it: everybody agreed before, the next day starts later, and nobody drives home alone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import clock, finding, quoted, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.timeline import Timeline
    from ..findings import Finding
    from ..plan.day import Day

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
        said = day.hours.longest if day.hours is not None else None
        limit = MOST if said is None else round(float(said) / 30)
        if line.wrap - line.call > limit:
            if said is None:
                yield _crew(facts, day, line)
        else:
            yield from _persons(facts, day, limit, typical=said is None)


def _crew(facts: Facts, day: Day, line: Timeline) -> Finding:
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        day.path,
        f"by its agreed order day {day.id} lasts {span(line.wrap - line.call)}, from {clock(line.call)} to "
        f"{clock(line.wrap)}, more than 12 h",
        (
            f"drop or move setups worth {span(line.wrap - line.call - MOST)}",
            "or write what was agreed: 'hours: {longest: ...}'",
        ),
        (("day", day.id), ("lasts_min", (line.wrap - line.call) / 2), ("most_min", MOST / 2)),
        typical=("a day of at most 12 h",),
    )


def _persons(facts: Facts, day: Day, limit: int, *, typical: bool) -> Iterator[Finding]:
    """Those whose own day is longer than the crew's."""
    rows: dict[tuple[int, int], list[str]] = {}
    for name, own in facts.work_days[day.id].items():
        if own.last - own.first > limit:
            rows.setdefault((own.first, own.last), []).append(name)
    for (first, last), names in rows.items():
        yield finding(
            facts.plan,
            (RULE, SEVERITY),
            f"people.{names[0]}",
            f"day {day.id} of {quoted(names)} lasts {span(last - first)}, from {clock(first)} to {clock(last)}, calls "
            f"and errands included, more than {span(limit)}",
            ("call them later, let them go earlier, or give the errand to somebody else",),
            (("day", day.id), ("people", ", ".join(names)), ("lasts_min", (last - first) / 2), ("most_min", limit / 2)),
            also=[(day.path, "the day")],
            typical=("a day of at most 12 h",) if typical else (),
        )
