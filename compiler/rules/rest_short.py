"""Too little rest between the end of one day and the call of the next.

On set: somebody falls asleep on the drive home.

How it is decided: from the end of a day (by its agreed order, else its latest 'wrap:') to the call of the next dated
day of the plan, at least what 'hours: {rest: ...}' of the second day says, else 11 h. Source: 11 consecutive hours in
24 (Directive 2003/88/EC, article 3); contracts and local law may ask for more. Days of two units are compared only
where they share people. With agreed orders the same for everybody whose own day differs: own call, make-up, release,
and errands before or after it, counted as if they were done at once.

Fix: call later on the second day, or end the first one earlier.

When to accept it: those concerned start later by their own call, and you have written it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import timing
from .words import clock, finding, quoted, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.day import Day

RULE = "rest-short"
SEVERITY: Final = "warning"
TITLE = "too little rest between two days"

TRIGGERS = """
hotset: 1
days:
  1: {date: 2026-11-14, call: 12:00, wrap: 23:00}
  2: {date: 2026-11-15, call: 08:00, wrap: 18:00}  # <- here
"""
PASSES = TRIGGERS.replace("call: 08:00, wrap: 18:00}  # <- here", "call: 10:00, wrap: 18:00}")
LEAST = 1320  # half-minutes of rest; eleven hours


def check(facts: Facts) -> Iterator[Finding]:
    days = sorted((d for d in facts.plan.days.values() if d.date is not None), key=lambda d: (d.date, d.call or 0))
    for i, after in enumerate(days):
        earlier = [d for d in days[:i] if d.date != after.date and _shared(d, after)]
        if earlier and after.call is not None:
            found = _pair(facts, earlier[-1], after, int(after.call))
            if found is not None:
                yield found
            elif earlier[-1].id in facts.timelines and after.id in facts.timelines:
                yield from _persons(facts, earlier[-1], after)


def _persons(facts: Facts, before: Day, after: Day) -> Iterator[Finding]:
    """Those whose own night is shorter than the crew's."""
    assert before.date is not None
    assert after.date is not None
    said = after.hours.rest if after.hours is not None else None
    least = LEAST if said is None else round(float(said) / 30)
    night = (after.date - before.date).days * timing.NIGHT
    ended, begins = facts.work_days[before.id], facts.work_days[after.id]
    rows: dict[tuple[int, int], list[str]] = {}
    for name in (n for n in ended if n in begins):
        if night + begins[name].first - ended[name].last < least:
            rows.setdefault((ended[name].last, begins[name].first), []).append(name)
    for (end, call), names in rows.items():
        rest = max(night + call - end, 0)
        yield finding(
            facts.plan,
            (RULE, SEVERITY),
            f"people.{names[0]}",
            f"day {before.id} of {quoted(names)} ends at {clock(end)} and day {after.id} begins at {clock(call)}, "
            f"calls and errands included: {span(rest)} of rest, less than {span(least)}",
            ("call them later, let them go earlier, or give the errand to somebody else",),
            (("day", after.id), ("day_before", before.id), ("people", ", ".join(names)), ("rest_min", rest / 2),
             ("least_min", least / 2)),
            also=[(before.path, "the day before"), (after.path, "the day after")],
            typical=("11 h of rest",) if said is None else (),
        )  # fmt: skip


def _shared(a: Day, b: Day) -> bool:
    return (a.unit == "second") == (b.unit == "second") or bool(set(a.people) & set(b.people))


def _pair(facts: Facts, before: Day, after: Day, call: int) -> Finding | None:
    line, frame = facts.timelines.get(before.id), timing.frame(before)
    if before.date is None or after.date is None or (line is None and frame is None):
        return None
    end = line.wrap if line is not None else frame[1] if frame is not None else 0
    rest = (after.date - before.date).days * timing.NIGHT + call - end
    said = after.hours.rest if after.hours is not None else None
    least = LEAST if said is None else round(float(said) / 30)
    if rest >= least:
        return None
    how = "by its agreed order" if line is not None else "by its latest wrap"
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"{after.path}.call",
        f"day {before.id} ends at {clock(end)} {how} and day {after.id} is called at {clock(call)}: "
        f"{span(max(rest, 0))} of rest, less than {span(least)}",
        (f"call day {after.id} at {clock(call + least - rest)} or later", f"or end day {before.id} earlier"),
        (("day", after.id), ("day_before", before.id), ("rest_min", rest / 2), ("least_min", least / 2)),
        also=[(f"{before.path}.{'order' if line is not None else 'wrap'}", "the day before ends then")],
        typical=("11 h of rest",) if said is None else (),
    )
