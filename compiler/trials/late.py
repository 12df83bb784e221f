"""Everything slips: which findings a delay at the start of each agreed day brings, and from how many minutes on.

The delay lengthens the load-in: people are called as before, and rigging, takes and meals come later. What waits for a
window waits less.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import Facts, changeover
from ..facts.hours import hours
from ..record import record, replace
from ..rules import RULES, run

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..findings import Finding
    from ..pipeline import Compiled
    from ..plan import Plan
    from ..rules import Rule

Key = tuple[str, str]


@record
class Brought:
    """A finding that a delay brings, and the whole minutes from which on it stands."""

    finding: Finding
    minutes: int


@record
class Late:
    """What a delay of so many minutes does: findings it brings, findings there were before that say something worse,
    and for each agreed day the wrap before and after in half-minutes."""

    minutes: int
    brought: tuple[Brought, ...]
    worse: tuple[Finding, ...]
    days: tuple[tuple[str, int, int], ...]


def late(compiled: Compiled, minutes: int) -> Late:
    """What a delay does to the agreed days of a plan; nothing at all where no order is agreed."""
    facts = compiled.facts
    assert facts is not None
    before = {(f.rule, f.place.path): f for f in (*compiled.findings, *(f for f, _ in compiled.accepted))}
    delayed = Facts(_slipped(facts.plan, minutes))
    found = _findings(RULES, delayed)
    new = [key for key in found if key not in before]
    worse = [f for key, f in found.items() if key in before and f.sentence != before[key].sentence]
    wanted = [rule for rule in RULES if any(rule.id == key[0] for key in new)]
    seen: dict[int, dict[Key, Finding]] = {0: {}, minutes: found}

    def stands(key: Key, at: int) -> bool:
        if at not in seen:
            seen[at] = _findings(wanted, Facts(_slipped(facts.plan, at)))
        return key in seen[at]

    brought = []
    for key in new:
        lo, hi = 0, minutes
        while hi - lo > 1:
            middle = (lo + hi) // 2
            lo, hi = (lo, middle) if stands(key, middle) else (middle, hi)
        brought.append(Brought(found[key], hi))
    brought.sort(key=lambda one: one.minutes)
    days = tuple((name, line.wrap, delayed.timelines[name].wrap) for name, line in facts.timelines.items())
    return Late(minutes, tuple(brought), tuple(worse), days)


def _findings(rules: Sequence[Rule], facts: Facts) -> dict[Key, Finding]:
    found, _ = run(rules, facts)
    return {(f.rule, f.place.path): f for f in found if f.severity != "note"}


def _slipped(plan: Plan, minutes: int) -> Plan:
    """The plan with a longer load-in on every day whose order is agreed."""
    if not minutes:
        return plan
    counted = changeover.minutes(plan)
    days = dict(plan.days)
    for name, day in plan.days.items():
        if day.order and day.call is not None:
            whole = hours(plan, name, counted).load_in + 2 * minutes
            days[name] = replace(day, load_in=whole * 30.0)
    return replace(plan, days=days)
