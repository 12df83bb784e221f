"""It is not written who gives first aid and where the kit is.

On set: the finger bleeds, and three people look into four cases.

How it is decided: where 'first-aid:' is written for one day, every other day that has people and setups needs it too;
where it is written for none, that is reported as not checked once the plan names people and a dated day. Source: common
practice, no source; in most countries an employer must name somebody.

Fix: write under the day who gives first aid and where the kit is.

When to accept it: the place has its own first-aider, who is there; better write that.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from . import papers
from .words import finding, written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "no-first-aid"
SEVERITY: Final = "warning"
TITLE = "nobody is named for first aid"

TRIGGERS = """
hotset: 1
days:
  1: {first-aid: bea; the kit is in the camera bag}
  2: {call: 08:00}  # <- here
people: {bea: {works: camera}}
setups: {wide: {day: 1}, close: {day: 2}}
"""
PASSES = TRIGGERS.replace("call: 08:00}  # <- here", "call: 08:00, first-aid: bea}")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    if not plan.people:
        return
    if not any(day.first_aid for day in plan.days.values()):
        if papers.is_due(plan):
            yield NotChecked(RULE, "the days", "'first-aid:' of the days")
        return
    busy = set(facts.day_of.values())
    for day in plan.days.values():
        if not day.first_aid and day.id in busy and not written(plan, f"{day.path}.first-aid"):
            yield finding(
                plan,
                (RULE, SEVERITY),
                day.path,
                f"nobody is named for first aid on day {day.id}",
                ("write 'first-aid:' with who gives it and where the kit is",),
                (("day", day.id),),
            )
