"""A setup or a meal of the day is not in the day's agreed order.

On set: the order was agreed last week, the insert was added yesterday, and nobody shoots it.

How it is decided: every setup of a day that has an agreed order must be in it, unless all its shots are 'if-time', and
every meal the day names, as 'meal' or by its name. Source: counting.

Fix: put it into the order, move it to another day ('day:'), or make it 'priority: if-time'.

When to accept it: it is dropped on purpose; better take it out of the plan, or give it another day.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import names_used
from . import timing
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "left-out-of-order"
SEVERITY: Final = "warning"
TITLE = "a setup or a meal is in no agreed order"

TRIGGERS = """
hotset: 1
days:
  1:
    call: 08:00
    order: [wide]  # <- here
setups: {wide: {takes: 10 min}, close: {takes: 10 min}}
"""
PASSES = TRIGGERS.replace("[wide]  # <- here", "[wide, close]")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    for day in plan.days.values():
        if not day.order:
            continue
        out = [s for s, on in facts.day_of.items() if on == day.id and s not in day.order and _matters(facts, s)]
        misspelt = names_used.meant(plan, out)
        out = [name for name in out if name not in misspelt]
        out += timing.meals_left_out(day)
        if out:
            yield finding(
                plan,
                (RULE, SEVERITY),
                f"{day.path}.order",
                f"the agreed order of day {day.id} leaves out {quoted(out)}",
                (
                    "put it into the order, or ask `hotset order` where it costs least",
                    "or give it another 'day:', or 'priority: if-time'",
                ),
                (("day", day.id), ("left_out", ", ".join(out))),
                also=[(f"setups.{name}", "left out") for name in out[:6] if name in plan.setups],
            )


def _matters(facts: Facts, setup_id: str) -> bool:
    setup = facts.plan.setups[setup_id]
    said = [s.priority or setup.priority for s in facts.shots_of.get(setup_id, ())] or [setup.priority]
    if setup.priority is None and not facts.shots_of.get(setup_id) and any(
        other.like == setup_id for other in facts.plan.setups.values()
    ):
        return False  # a pattern for others
    return any(p != "if-time" for p in said)
