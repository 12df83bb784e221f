"""The smallest repair of each conflict: tried on the plan, proven by compiling it again, offered as text to write.

A change counts as a repair when the conflict is gone, and no error and no warning is there that was not before. Of
several the one with the fewest changed values wins, then the first in the order of the plan.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import Facts
from ..pipeline import compile_source
from ..plan import decode
from ..record import record
from ..rules import RULES, run
from . import candidates, orders
from .edits import edited

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..findings import Finding
    from ..pipeline import Compiled
    from ..source import Source
    from .edits import Edit

MOST_TRIED = 60
MOST_IN_ALL = 300
"""Changes tried for one finding, and for all of a plan: the search is bounded on any plan."""
MOST_ORDERED = 6
"""Findings for which other orders are tried: a day that is wrong in more ways wants `hotset order`."""
READING = frozenset({"unknown-key", "unknown-name", "wrong-kind", "bad-name"})


@record
class Repair:
    """A finding with the change that mends it; `also` are further findings that the same change mends."""

    finding: Finding
    edits: tuple[Edit, ...]
    also: tuple[Finding, ...] = ()


@record
class Repairs:
    """All repairs, in the order of the findings; `left` are findings without a small one; `edits` all changes
    together, in the order in which they are to be made; `after` what is found when they are."""

    found: tuple[Repair, ...]
    left: tuple[Finding, ...]
    edits: tuple[Edit, ...]
    after: tuple[Finding, ...]


def repairs(compiled: Compiled) -> Repairs:
    """The smallest repair of every error and warning, one after another, each on the plan as the ones before it leave
    it."""
    found: list[Repair] = []
    left: list[Finding] = []
    edits: tuple[Edit, ...] = ()
    now = compiled
    purse = _Purse()
    queue = _conflicts(compiled)
    seen = {_key(f) for f in queue}
    for finding in queue:  # what was named beside a finding that is mended comes behind
        if not _stands(now, finding):
            continue
        mended = _smallest(now, finding, purse)
        if mended is None:
            left.append(finding)
            continue
        change, after = mended
        gone = tuple(f for f in _conflicts(now) if not _stands(after, f) and _key(f) != _key(finding))
        found.append(Repair(finding, change, gone))
        edits, now = (*edits, *change), after
        behind = [f for f in _conflicts(after) if _key(f) not in seen]
        seen |= {_key(f) for f in behind}
        queue += behind
    settled = {_key(f) for one in found for f in one.also}
    return Repairs(tuple(found), tuple(f for f in left if _key(f) not in settled), edits, now.findings)


def _conflicts(compiled: Compiled) -> list[Finding]:
    return [f for f in compiled.findings if f.severity != "note"]


def _key(finding: Finding) -> tuple[str, str, str]:
    words = finding.sentence if finding.rule in READING else ""
    return finding.rule, finding.place.path, words


def _stands(compiled: Compiled, finding: Finding) -> bool:
    return any(_key(f) == _key(finding) for f in compiled.findings)


class _Purse:
    """How much may still be tried."""

    def __init__(self) -> None:
        self.changes, self.orders = MOST_IN_ALL, MOST_ORDERED


def _smallest(now: Compiled, finding: Finding, purse: _Purse) -> tuple[tuple[Edit, ...], Compiled] | None:
    """The first change that holds, those with the fewest changed values first."""
    facts = now.facts
    if facts is None:
        return None
    known = {_key(f) for f in now.findings}
    known |= {(f.rule, r.place.path, "") for f in now.findings for r in f.related}
    tried: set[tuple[Edit, ...]] = set()
    for change in _bounded(facts, finding, purse):
        if change in tried:
            continue
        if purse.changes <= 0:
            return None
        purse.changes -= 1
        tried.add(change)
        source = edited(now.source, change)
        if not _worth(source, finding):
            continue
        after = compile_source(source)
        fresh = [f for f in _conflicts(after) if _key(f) not in known]
        if not after.unreadable and not _stands(after, finding) and not fresh:
            return change, after
    return None


def _bounded(facts: Facts, finding: Finding, purse: _Purse) -> Iterator[tuple[Edit, ...]]:
    small = []
    for change in candidates.changes(facts, finding):
        small.append(change)
        if len(small) >= MOST_TRIED:
            break
    small.sort(key=lambda change: sum(edit.values for edit in change))  # stable: plan order among equals
    yield from small
    if finding.rule in orders.RULES_OF_ORDER and purse.orders > 0:
        purse.orders -= 1
        yield from orders.changes(facts, finding, RULES)


def _worth(source: Source, finding: Finding) -> bool:
    """Whether the finding's own rule is silent on the changed plan: cheap, before everything is asked."""
    plan, faults = decode(source)
    if plan is None or any(_key(f) == _key(finding) for f in faults):
        return False
    mine = [rule for rule in RULES if rule.id == finding.rule and rule.check is not None]
    found, _ = run(mine, Facts(plan))
    return not any(_key(f) == _key(finding) for f in found)
