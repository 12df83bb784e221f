"""Small changes of an agreed order that might mend a conflict of hours: two setups swapped, then one moved."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import Facts
from ..record import replace
from ..rules import run
from .edits import Edit, yaml_list

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..findings import Finding
    from ..plan import Plan
    from ..rules import Rule

MOST = 250
"""Orders tried for one finding."""
RULES_OF_HOURS = frozenset(
    {"window-missed", "cast-window", "night-scene-in-daylight", "due-back", "not-in-hands-yet", "meal-late",
     "day-too-long", "no-buffer", "outside-availability", "access-hours", "order-cycle", "long-hold",
     "slow-light-change", "rest-short", "piece-in-two-places", "more-than-owned", "cloth-short", "battery-flat",
     "cards-full", "direct-sun-on-window", "needs-sun", "needs-dark"}
)  # fmt: skip


def changes(facts: Facts, finding: Finding, rules: Sequence[Rule]) -> Iterator[tuple[Edit, ...]]:
    """Changed orders of the finding's day on which the finding's own rule no longer says it; swaps of neighbours first,
    then of others, then one entry moved."""
    plan = facts.plan
    if finding.rule in ("no-room-tone", "left-out-of-order"):
        for day in _days(facts, finding):
            for new in _grown(plan.days[day].order, finding):
                yield (Edit(("days", day, "order"), yaml_list(new)),)
    if finding.rule not in RULES_OF_HOURS:
        return
    mine = [rule for rule in rules if rule.id == finding.rule]
    for day in _days(facts, finding):
        order = plan.days[day].order
        for tried, (new, moved) in enumerate(_orders(order)):
            if tried >= MOST:
                break
            if not _stands(plan, day, new, mine, finding):
                yield (Edit(("days", day, "order"), yaml_list(new), values=moved),)


def _grown(order: tuple[str, ...], finding: Finding) -> Iterator[tuple[str, ...]]:
    """The order with what it lacks: a room tone behind the setup that is named, one left-out entry at every place."""
    said = dict(finding.details)
    if said.get("behind") in order:
        at = order.index(str(said["behind"])) + 1
        yield (*order[:at], "room-tone", *order[at:])
    left_out = str(said.get("left_out") or "")
    if left_out and ", " not in left_out:
        for at in range(len(order), -1, -1):
            yield (*order[:at], left_out, *order[at:])


def _stands(plan: Plan, day: str, order: tuple[str, ...], rules: list[Rule], finding: Finding) -> bool:
    changed = replace(plan, days={**plan.days, day: replace(plan.days[day], order=order)})
    found, _ = run(rules, Facts(changed))
    return any((f.rule, f.place.path) == (finding.rule, finding.place.path) for f in found)


def _days(facts: Facts, finding: Finding) -> list[str]:
    """The day of a finding: the one it names, or that of its setup; else every day with an order."""
    said = dict(finding.details)
    steps = finding.place.path.split(".")
    named = str(said.get("day") or "")
    if not named and steps[0] == "days" and len(steps) > 1:
        named = steps[1]
    setup = str(said.get("setup") or (steps[1] if steps[0] == "setups" and len(steps) > 1 else ""))
    if not named and setup in facts.plan.setups:
        named = facts.day_of[setup] or ""
    return [day for day in facts.timelines if not named or day == named]


def _orders(order: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], int]]:
    n = len(order)
    for apart in range(1, n):
        for i in range(n - apart):
            if order[i] != order[i + apart]:
                new = list(order)
                new[i], new[i + apart] = new[i + apart], new[i]
                yield tuple(new), 2
    for apart in range(2, n):
        for i in range(n):
            for to in (i - apart, i + apart):
                if 0 <= to < n:
                    rest = [*order[:i], *order[i + 1 :]]
                    yield (*rest[:to], order[i], *rest[to:]), apart + 1
