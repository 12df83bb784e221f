"""Small changes of an agreed order that might mend a conflict of hours: a swap, one entry moved, the best order."""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING

from ..facts import Facts
from ..order.dayorder import plan_day
from ..plan.parts import ordered
from ..rules import run
from .edits import Edit, yaml_list

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..findings import Finding
    from ..plan import Plan
    from ..rules import Rule

MOST = 60
"""Orders tried for one finding: all swaps and moves of its setups in a day of the usual length."""
SEARCHED = 800
"""Moments of a day that the search for the best order may open, when no small change of the agreed one does."""
RULES_OF_HOURS = frozenset(
    {"window-missed", "cast-window", "night-scene-in-daylight", "due-back", "not-in-hands-yet", "meal-late",
     "day-too-long", "no-buffer", "outside-availability", "access-hours", "order-cycle", "long-hold",
     "slow-light-change", "rest-short", "piece-in-two-places", "more-than-owned", "cloth-short", "battery-flat",
     "cards-full", "direct-sun-on-window", "needs-sun", "needs-dark"}
)  # fmt: skip
LACKING = frozenset({"no-room-tone", "left-out-of-order", "meal-late"})
RULES_OF_ORDER = RULES_OF_HOURS | LACKING


def changes(facts: Facts, finding: Finding, rules: Sequence[Rule]) -> Iterator[tuple[Edit, ...]]:
    """Changed orders of the finding's day on which the finding's own rule no longer says it; swaps of neighbours first,
    then of others, then one entry moved."""
    plan = facts.plan
    if finding.rule in LACKING:
        for day in _days(facts, finding):
            for new in _grown(plan.days[day].order, finding):
                yield (Edit(("days", day, "order"), yaml_list(new)),)
    if finding.rule not in RULES_OF_HOURS:
        return
    mine = [rule for rule in rules if rule.id == finding.rule]
    for day in _days(facts, finding):
        order = plan.days[day].order
        for new, moved in islice(_orders(order, _named(finding)), MOST):
            if not _stands(plan, day, new, mine, finding):
                yield (Edit(("days", day, "order"), yaml_list(new), values=moved),)
        best = plan_day(plan, day, SEARCHED)
        if best.order and not best.dropped and best.order != order:
            moved = sum(a != b for a, b in zip(order, best.order, strict=False))
            yield (Edit(("days", day, "order"), yaml_list(best.order), values=moved),)


def _grown(order: tuple[str, ...], finding: Finding) -> Iterator[tuple[str, ...]]:
    """The order with what it lacks: a room tone behind the setup that is named, one left-out entry at every place."""
    said = dict(finding.details)
    if said.get("behind") in order:
        at = order.index(str(said["behind"])) + 1
        yield (*order[:at], "room-tone", *order[at:])
    if finding.rule == "meal-late":
        for at in range(len(order), 0, -1):
            yield (*order[:at], "meal", *order[at:])
    left_out = str(said.get("left_out") or "")
    if left_out and ", " not in left_out:
        for at in range(len(order), -1, -1):
            yield (*order[:at], left_out, *order[at:])


def _stands(plan: Plan, day: str, order: tuple[str, ...], rules: list[Rule], finding: Finding) -> bool:
    changed = ordered(plan, {day: order})
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


def _named(finding: Finding) -> frozenset[str]:
    """The setups a finding is about."""
    said = dict(finding.details)
    paths = (finding.place.path, *(other.place.path for other in finding.related))
    named = {path.split(".")[1] for path in paths if path.startswith("setups.")}
    return frozenset({*named, *str(said.get("setups") or "").split(", "), str(said.get("setup") or "")} - {""})


def _orders(order: tuple[str, ...], named: frozenset[str]) -> Iterator[tuple[tuple[str, ...], int]]:
    """Changed orders with how many entries change: swaps of what is named (of any where nothing is), the nearest
    first, then one of it moved."""
    n = len(order)
    for apart in range(1, n):
        for i in range(n - apart):
            one, other = order[i], order[i + apart]
            if one != other and (not named or {one, other} & named):
                new = list(order)
                new[i], new[i + apart] = other, one
                yield tuple(new), 2
    for apart in range(2, n):
        for i in range(n):
            for to in (i - apart, i + apart):
                if 0 <= to < n and (not named or order[i] in named):
                    rest = [*order[:i], *order[i + 1 :]]
                    yield (*rest[:to], order[i], *rest[to:]), apart + 1
