"""The path of a plan, whole: text -> tree -> plan -> facts -> findings. Read this first.

    text --read--> tree --decode--> plan --derive--> facts --check--> findings

Every stage gives the thing on its right and the findings met on the way; none raises for bad input.
"""

from __future__ import annotations

from collections.abc import Sequence

from .accepting import accept
from .facts import Facts
from .findings import Finding, in_order, together
from .plan import Plan, decode
from .record import record
from .rules import RULES, Coverage, run
from .source import Source, read

_MEANT_OTHERWISE = ("unknown-name", "cast-missing", "accepted-nothing")


@record
class Compiled:
    """What became of a plan's text. `plan` and `facts` are None where the text is not readable; `accepted` holds
    the findings that the plan takes as known risks, with the acceptance's index."""

    source: Source
    plan: Plan | None
    facts: Facts | None
    findings: tuple[Finding, ...]
    coverage: Coverage
    accepted: tuple[tuple[Finding, int], ...] = ()

    @property
    def unreadable(self) -> bool:
        """Whether the text is no YAML within the limits."""
        return self.plan is None


def compile_plan(names: Sequence[str], stdin_text: bytes | None = None, stdin_name: str = "-") -> Compiled:
    """Read, decode and check a plan given as files, a folder, or `-` for the text on standard input."""
    return compile_source(read(names, stdin_text=stdin_text, stdin_name=stdin_name))


def compile_source(source: Source) -> Compiled:
    """Decode and check a plan that was read already."""
    return _compiled(source)


def _compiled(source: Source, depth: int = 3) -> Compiled:
    plan, faults = decode(source)
    if plan is None:
        return Compiled(source, None, None, in_order([*source.findings, *faults]), Coverage(0, 0))
    facts = Facts(plan)
    conflicts, coverage = run(RULES, facts)
    if plan.parts:
        from .plan.parts import told_once as once_for_all_visits

        conflicts = once_for_all_visits(plan, conflicts)
    findings, accepted = accept(plan, in_order([*source.findings, *faults, *conflicts]))
    if faults or any(f.rule in _MEANT_OTHERWISE for f in findings):
        from .mending import consequences_left_out, told_once

        findings = told_once(consequences_left_out(findings, source, _again, depth))
    return Compiled(source, plan, facts, together(findings), coverage, accepted)


def _again(source: Source, depth: int) -> tuple[Finding, ...]:
    """All that stands in a source."""
    return _compiled(source, depth).findings
