"""Findings as one JSON document for programs.

The document carries `format`, a whole number that grows only when a reader written for the old one would break:
keys may be added without notice, none is renamed or dropped. Lines and columns count from 1, columns in characters.
"""

from __future__ import annotations

import json

from ..findings import Finding, NotChecked, Place, Related

FORMAT = 1


def document(
    findings: tuple[Finding, ...],
    checks: int,
    setups: int,
    silent: tuple[NotChecked, ...],
    version: str,
) -> str:
    """The whole document, two blanks of indent, plain ASCII, one line end at the end."""
    counts = {"error": 0, "warning": 0, "note": 0}
    for finding in findings:
        counts[finding.severity] += 1
    whole = {
        "format": FORMAT,
        "hotset": version,
        "counts": counts,
        "findings": [_finding(finding) for finding in findings],
        "coverage": {
            "checks": checks,
            "setups": setups,
            "not_checked": [{"rule": n.rule, "subject": n.subject, "wants": n.wants} for n in silent],
        },
    }
    return json.dumps(whole, indent=2, ensure_ascii=True, allow_nan=False) + "\n"


def _finding(finding: Finding) -> dict[str, object]:
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "sentence": finding.sentence,
        "place": _place(finding.place),
        "related": [_related(other) for other in finding.related],
        "ways_out": list(finding.ways_out),
        "details": {name: _number(value) for name, value in finding.details},
        "typical": list(finding.typical),
        "unreadable": finding.unreadable,
    }


def _number(value: str | int | float) -> str | int | float:
    """JSON knows no infinity and no not-a-number: these become words."""
    if isinstance(value, float) and not -float("inf") < value < float("inf"):
        return str(value)
    return value


def _place(place: Place) -> dict[str, object]:
    return {"file": place.file, "line": place.line, "column": place.column, "path": place.path}


def _related(other: Related) -> dict[str, object]:
    return {"place": _place(other.place), "words": other.words}
