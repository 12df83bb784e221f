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
    broken: dict[tuple[str, str], list[str]] = {}
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
            broken.setdefault((_spot(fault), str(fault)[:200]), []).append(one.id)
    found += [_broken(ids, where, words, facts) for (where, words), ids in broken.items()]
    return found, Coverage(ran, len(facts.plan.setups), tuple(silent.values()))


def _spot(fault: Exception) -> str:
    """What broke and where in hotset's own code, so that checks that rest on the same broken fact are one finding."""
    last = fault.__traceback__
    while last is not None and last.tb_next is not None:
        last = last.tb_next
    if last is None:
        return type(fault).__name__
    name = last.tb_frame.f_code.co_filename.replace("\\", "/").rsplit("/", 1)[-1]
    return f"{type(fault).__name__}, {name} line {last.tb_lineno}"


def _broken(ids: list[str], where: str, words: str, facts: Facts) -> Finding:
    others = f" and {len(ids) - 1} more" if len(ids) > 1 else ""
    return Finding(
        "broken-rule",
        "error",
        f"the check '{ids[0]}'{others} broke on this plan ({where}): this is a fault of hotset",
        Place(facts.plan.where("").file, 1, 1),
        ways_out=("report it with this plan; the other checks have run",),
        details=(("rules", ", ".join(ids)), ("fault", words)),
    )
