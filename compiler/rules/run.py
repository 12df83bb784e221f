"""Asking every rule, keeping what was found and what could not be checked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..findings import Finding, NotChecked, Place
from ..record import record

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..facts import Facts
    from .rule import Rule


@record
class Coverage:
    """How much was looked at: how many checks ran, on how many setups, and what stayed unchecked for want of what."""

    checks: int
    setups: int
    not_checked: tuple[NotChecked, ...] = ()


def run(rules: Sequence[Rule], facts: Facts) -> tuple[list[Finding], Coverage]:
    """Ask each rule. A rule that breaks becomes a finding about that rule, and the others go on."""
    found: list[Finding] = []
    silent: dict[tuple[str, str, str], NotChecked] = {}
    ran = 0
    for one in rules:
        if one.check is None:
            continue
        ran += 1
        try:
            for item in one.check(facts):
                if isinstance(item, NotChecked):
                    silent.setdefault((item.rule, item.subject, item.wants), item)
                else:
                    found.append(item)
        except Exception as fault:  # a broken rule must not hide what the others find
            found.append(_broken(one.id, fault, facts))
    return found, Coverage(ran, len(facts.plan.setups), tuple(silent.values()))


def _broken(rule_id: str, fault: Exception, facts: Facts) -> Finding:
    last = fault.__traceback__
    while last is not None and last.tb_next is not None:
        last = last.tb_next
    line = f"line {last.tb_lineno}" if last else "no line"
    return Finding(
        "broken-rule",
        "error",
        f"the check '{rule_id}' broke on this plan ({type(fault).__name__}, {line}): this is a fault of hotset",
        Place(facts.plan.where("").file, 1, 1),
        ways_out=("report it with this plan; the other checks have run",),
        details=(("rule", rule_id), ("fault", str(fault)[:200])),
    )
