"""What every stage hands on beside its result: findings, each at a place in the plan's text."""

from __future__ import annotations

from typing import Literal

from .record import record, replace

Severity = Literal["error", "warning", "note"]
SEVERITY_RANK: dict[str, int] = {"error": 0, "warning": 1, "note": 2}


@record(order=True)
class Place:
    """A spot in a text: file as the user named it, line and column from 1, and the plan path it belongs to."""

    file: str
    line: int
    column: int
    path: str = ""


@record
class Related:
    """A second place that belongs to a finding, with the words that say why ("first used here")."""

    place: Place
    words: str


@record
class Finding:
    """One conflict or fault, in the crew's words.

    `sentence` starts in lower case and carries its numbers with units; `ways_out` each start with a verb;
    `details` are the machine-readable inputs that decided it; `typical` names the built-in typical values it
    rests on. `unreadable` marks a text that is no YAML within the limits (exit status 2).
    """

    rule: str
    severity: Severity
    sentence: str
    place: Place
    related: tuple[Related, ...] = ()
    ways_out: tuple[str, ...] = ()
    details: tuple[tuple[str, str | int | float], ...] = ()
    typical: tuple[str, ...] = ()
    unreadable: bool = False


@record
class NotChecked:
    """A check that had to stay silent: which rule, on what, and the detail that would unlock it."""

    rule: str
    subject: str
    wants: str


def in_order(findings: list[Finding]) -> tuple[Finding, ...]:
    """Findings by file position, then rule and sentence; the same finding said twice is kept once."""
    seen: set[tuple[object, ...]] = set()
    kept: list[Finding] = []
    for f in sorted(findings, key=lambda f: (f.place.file, f.place.line, f.place.column, f.rule, f.sentence)):
        mark = (f.rule, f.place.file, f.place.line, f.place.column, f.sentence)
        if mark not in seen:
            seen.add(mark)
            kept.append(f)
    return tuple(kept)


def together(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Findings of gear that say the same of several places made one, with the other places named beside it: one
    adapter that is missing is missing once, however often the lens is used."""
    first: dict[tuple[str, str], int] = {}
    kept: list[Finding] = []
    for f in findings:
        at = first.setdefault((f.rule, f.sentence), len(kept)) if f.rule in _OF_THINGS else len(kept)
        if at == len(kept):
            kept.append(f)
        elif len(kept[at].related) < _ALSO:
            kept[at] = replace(kept[at], related=(*kept[at].related, Related(f.place, "and here")))
    return tuple(kept)


_OF_THINGS = frozenset(
    ("missing-adapter", "filter-thread", "missing-battery", "missing-modifier", "modifier-does-not-fit")
)
_ALSO = 8
