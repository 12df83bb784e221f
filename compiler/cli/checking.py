"""What `hotset check` does, whichever way its command line was read."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from ..findings import SEVERITY_RANK
from ..pipeline import compile_plan
from ..record import replace
from ..report.look import look_for
from ..report.text import EVERY, all_lines, coverage_lines, why_not_lines
from ..source.text import lines_of
from . import STATUS_FAULT, STATUS_FINDINGS, STATUS_OK, STATUS_UNUSABLE
from .unswept import unswept

if TYPE_CHECKING:
    from ..findings import Finding
    from ..pipeline import Compiled
    from ..report.look import Look
    from ..report.text import LineOf
    from ..source import Source
    from .quick import CheckOptions

MOST_BYTES_READ = 8_000_001
"""One more than a plan may have: enough to tell that it is too large, whatever is poured into standard input."""


def run(asked: CheckOptions) -> int:
    """Check the plans that are asked for, print what was found, and give the exit status."""
    if asked.why_not not in (None, EVERY) and not _is_rule(asked.why_not or ""):
        return STATUS_UNUSABLE
    stdin = sys.stdin.buffer.read(MOST_BYTES_READ) if "-" in asked.plans else None
    with unswept():
        compiled = compile_plan(list(asked.plans), stdin, asked.stdin_name)
    coverage = compiled.coverage
    if asked.format == "json":
        from ..report.as_json import document
        from .version import own_version

        text = document(compiled.findings, coverage.checks, coverage.setups, coverage.not_checked, own_version())
        sys.stdout.write(text)
    else:
        look = replace(look_for(sys.stdout, os.environ), numbers=asked.numbers)
        for line in _text(compiled, asked, look):
            sys.stdout.write(line + "\n")
    return status(compiled.findings, asked.fail_on)


def status(findings: tuple[Finding, ...], fail_on: str) -> int:
    """The exit status these findings call for: 3 a broken rule, 2 not readable, 1 at or above `fail_on`, else 0."""
    if any(finding.rule == "broken-rule" for finding in findings):
        return STATUS_FAULT
    if any(finding.unreadable for finding in findings):
        return STATUS_UNUSABLE
    if any(SEVERITY_RANK[finding.severity] <= SEVERITY_RANK[fail_on] for finding in findings):
        return STATUS_FINDINGS
    return STATUS_OK


def _text(compiled: Compiled, asked: CheckOptions, look: Look) -> list[str]:
    coverage = compiled.coverage
    if asked.why_not is not None:
        return why_not_lines(asked.why_not, coverage.not_checked, look)
    lines = list(all_lines(compiled.findings, line_reader(compiled.source), look))
    if not asked.quiet and not compiled.unreadable:
        lines += coverage_lines(
            compiled.findings, coverage.checks, coverage.setups, coverage.not_checked, len(compiled.accepted), look
        )
    return lines


def line_reader(source: Source) -> LineOf:
    """What gives a line of the files that were read, for excerpts."""
    texts = {file.name: file.text for file in source.files}

    def line_of(file: str, line: int) -> str | None:
        lines = lines_of(texts[file]) if file in texts else ()
        return lines[line - 1] if 1 <= line <= len(lines) else None

    return line_of


def _is_rule(name: str) -> bool:
    from ..rules import RULES

    if any(rule.id == name for rule in RULES):
        return True
    from ..report.catalogue import nearest_rule
    from ..report.glyphs import shown

    near = nearest_rule(name, RULES)
    offer = f"did you mean '{near}'?" if near else "'hotset explain' lists them all"
    print(f"hotset check: no rule '{shown(name)}' for --why-not; {offer}", file=sys.stderr)
    return False
