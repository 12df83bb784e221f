"""A day slips: which findings a delay at its start brings, and from how many minutes on, for each agreed day alone.

The delay lengthens the load-in: people are called as before, and rigging, takes and meals come later. What waits for a
window waits less. The other days stay as they are, so that a night that gets too short is said of the day that slipped.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any

from ..facts import Facts, changeover
from ..facts.hours import hours
from ..facts.timeline import timeline
from ..record import record, replace
from ..rules import RULES, run

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from ..findings import Finding
    from ..pipeline import Compiled
    from ..plan import Plan
    from ..rules import Rule

Key = tuple[str, str]


@record
class Brought:
    """A finding that a delay of a day brings, and the whole minutes from which on it stands."""

    day: str
    finding: Finding
    minutes: int


@record
class Worse:
    """A finding there was before, that says something worse when a day slips."""

    day: str
    finding: Finding


@record
class Late:
    """What a delay of so many minutes does to each agreed day alone: findings it brings, findings there were before
    that say something worse, and for each day that slips the wrap before and after in half-minutes."""

    minutes: int
    brought: tuple[Brought, ...]
    worse: tuple[Worse, ...]
    days: tuple[tuple[str, int, int], ...]


def late(compiled: Compiled, minutes: int, day: str | None = None) -> Late:
    """What a delay does to the agreed days of a plan, or to one of them; nothing where no order is agreed."""
    facts = compiled.facts
    assert facts is not None
    before = {(f.rule, f.place.path): f for f in (*compiled.findings, *(f for f, _ in compiled.accepted))}
    rules = _by_the_hour(facts, minutes)
    brought: list[Brought] = []
    worse: list[Worse] = []
    days: list[tuple[str, int, int]] = []
    for name in facts.timelines:
        if day is None or name == day:
            mine, bad, wrap = _one(facts, rules, before, name, minutes)
            brought += mine
            worse += bad
            days.append((name, facts.timelines[name].wrap, wrap))
    return Late(minutes, tuple(brought), tuple(worse), tuple(days))


def _one(
    facts: Facts, rules: Sequence[Rule], before: dict[Key, Finding], day: str, minutes: int
) -> tuple[list[Brought], list[Worse], int]:
    """One day slips."""
    delayed = _slipped(facts, (day,), minutes)
    found = _findings(rules, delayed)
    new = [key for key in found if key not in before]
    worse = [Worse(day, f) for key, f in found.items() if key in before and f.sentence != before[key].sentence]
    wanted = [rule for rule in rules if any(rule.id == key[0] for key in new)]
    seen: dict[int, dict[Key, Finding]] = {0: {}, minutes: found}

    def stands(key: Key, at: int) -> bool:
        if at not in seen:
            seen[at] = _findings(wanted, _slipped(facts, (day,), at))
        return key in seen[at]

    brought = []
    for key in new:
        lo, hi = 0, minutes
        while hi - lo > 1:
            middle = (lo + hi) // 2
            lo, hi = (lo, middle) if stands(key, middle) else (middle, hi)
        brought.append(Brought(day, found[key], hi))
    brought.sort(key=lambda one: one.minutes)
    return brought, worse, delayed.timelines[day].wrap


def _findings(rules: Sequence[Rule], facts: Facts) -> dict[Key, Finding]:
    found, _ = run(rules, facts)
    return {(f.rule, f.place.path): f for f in found if f.severity != "note"}


def _slipped(facts: Facts, names: Iterable[str], minutes: int) -> Facts:
    """The facts of the plan with a longer load-in on these days. The other days are as they were, and not told anew."""
    plan = facts.plan
    counted = changeover.minutes(plan)
    days = dict(plan.days)
    for name in names:
        days[name] = replace(days[name], load_in=(hours(plan, name, counted).load_in + 2 * minutes) * 30.0)
    found = Facts(replace(plan, days=days))
    told = {name: line for name in names if (line := timeline(found.plan, name)) is not None}
    found.timelines = {**facts.timelines, **told}
    return found


class _Watched(Facts):
    """Facts that tell whether the days minute by minute were looked at, also behind what is worked out from them."""

    def __init__(self, plan: Plan) -> None:
        super().__init__(plan)
        self.looked = False
        self.rests: set[str] = set()

    def __getattribute__(self, name: str) -> Any:
        if name == "timelines":
            self.looked = True
        elif isinstance(getattr(Facts, name, None), cached_property):
            rests = super().__getattribute__("rests")
            before, self.looked = self.looked, name in rests
            found = super().__getattribute__(name)
            if self.looked:
                rests.add(name)
            self.looked = self.looked or before
            return found
        return super().__getattribute__(name)


def _by_the_hour(facts: Facts, minutes: int) -> list[Rule]:
    """The rules that a delay can touch: those that look at the days minute by minute, and those that say something else
    when all days slip at once."""
    watched = _Watched(facts.plan)
    watched.timelines = facts.timelines
    every = _slipped(facts, facts.timelines, minutes)
    found = []
    for rule in RULES:
        watched.looked = False
        before = _findings([rule], watched)
        if watched.looked or _findings([rule], every) != before:
            found.append(rule)
    return found
