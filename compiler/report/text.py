"""Findings as text for people: `file:line:column: severity: message [rule]`, then what belongs to it, indented."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from ..findings import Finding, NotChecked, Place
from .glyphs import cut, shown, steady_from, wrap
from .look import Look

LineOf = Callable[[str, int], str | None]
"""(file as named, line from 1) -> that line's text without its end, or None where there is none."""

INDENT = "    "
NAMED_AT_MOST = 5
EVERY = "all"
"""What is asked for instead of one rule's name, for all of them."""
LONGEST_PART_OF_A_WORD = 16


def finding_lines(finding: Finding, line_of: LineOf, look: Look) -> Iterator[str]:
    """The lines of one finding, without line ends."""
    yield from _headline(finding, look)
    yield from excerpt(finding.place, line_of, look)
    if finding.place.path:
        yield INDENT + look.paint("dim", "in " + shown(finding.place.path))
    for other in finding.related:
        yield from wrap(f"{_spot(other.place)}: {shown(other.words)}", look.width, INDENT, INDENT * 2)
        yield from excerpt(other.place, line_of, look)
    if finding.details and look.numbers:
        numbers = ", ".join(f"{shown(name).replace('_', ' ')} {_value(value)}" for name, value in finding.details)
        yield from wrap(numbers, look.width, INDENT + "numbers: ", INDENT * 2)
    if finding.typical:
        yield from wrap(
            "; ".join(map(shown, finding.typical)), look.width, INDENT + "rests on typical values: ", INDENT * 2
        )
    for way in finding.ways_out:
        first, *rest = wrap(shown(way), look.width, INDENT + "do: ", INDENT * 2)
        yield INDENT + look.paint("bold", "do:") + first[len(INDENT) + 3 :]
        yield from rest


def all_lines(findings: Iterable[Finding], line_of: LineOf, look: Look) -> Iterator[str]:
    """The lines of all findings, in the order given, a blank line after each."""
    for finding in findings:
        yield from finding_lines(finding, line_of, look)
        yield ""


def _spot(place: Place) -> str:
    return f"{shown(place.file)}:{place.line}:{place.column}"


def _value(value: str | int | float) -> str:
    return f"{value:.6g}" if isinstance(value, float) else shown(str(value))


def _headline(finding: Finding, look: Look) -> list[str]:
    spot, severity = _spot(finding.place), finding.severity
    start = f"{spot}: {severity}: "
    body = f"{shown(finding.sentence)} [{finding.rule}]"
    lines = wrap(body, look.width, start, INDENT) if look.fold else [start + body]
    if look.colour:
        lines[0] = f"{look.paint('bold', spot)}: {look.paint(severity, severity + ':')} {lines[0][len(start) :]}"
        tail = f"[{finding.rule}]"
        lines[-1] = lines[-1].removesuffix(tail) + look.paint("dim", tail)
    return lines


def excerpt(place: Place, line_of: LineOf, look: Look) -> list[str]:
    """The line of the plan at `place` and a caret under its column, both at most `look.width` wide.

    What stands before a character of uncertain width is left out, so the caret is right on every terminal.
    """
    line = line_of(place.file, place.line)
    if line is None:
        return []
    gutter = f"{place.line:>5} | "
    room = look.width - len(gutter)
    index = max(0, min(place.column - 1, len(line)))
    before = shown(line[max(0, index - 2 * room) : index])
    left_out = index > 2 * room
    start = steady_from(before)
    if len(before) - start > room * 2 // 3:
        start = len(before) - room // 2
        start += before[start:].find(" ", 0, LONGEST_PART_OF_A_WORD) + 1
    if start or left_out:
        before = "... " + before[start:].lstrip(" ")
    after = cut(shown(line[index : index + 2 * room]), max(8, room - len(before)))
    caret = " " * (len(gutter) - 2) + "| " + " " * len(before) + look.paint("caret", "^")
    return [(gutter + before + after).rstrip(), caret]


def counted(number: int, word: str) -> str:
    """`1 error`, `2 errors`, `no errors`."""
    return f"{number or 'no'} {word}{'' if number == 1 else 's'}"


def tally(findings: Iterable[Finding]) -> str:
    """`2 errors, 1 warning, 3 notes`, only what there is; `no findings` when there is none."""
    counts = {"error": 0, "warning": 0, "note": 0}
    for finding in findings:
        counts[finding.severity] += 1
    return ", ".join(counted(n, word) for word, n in counts.items() if n) or "no findings"


def coverage_lines(
    findings: tuple[Finding, ...],
    checks: int,
    setups: int,
    silent: tuple[NotChecked, ...],
    accepted: int,
    look: Look,
) -> list[str]:
    """What was checked, what was found, and what could not be checked, grouped by the detail that would unlock it."""
    taken = f"; {counted(accepted, 'known risk')} accepted" if accepted else ""
    lines = wrap(f"{counted(checks, 'check')} on {counted(setups, 'setup')}: {tally(findings)}{taken}", look.width)
    rules = list(dict.fromkeys(item.rule for item in silent))
    if not rules:
        return lines
    groups = _by_detail(silent)
    said = [f"{_some(names)} (wants {shown(detail)})" for detail, names in groups[:NAMED_AT_MOST]]
    if len(groups) > NAMED_AT_MOST:
        said.append(f"and {counted(len(groups) - NAMED_AT_MOST, 'reason')} more")
    lines += wrap(f"{len(rules)} not checked: {'; '.join(said)}", look.width, "", INDENT)
    hint = f"'hotset check --why-not {rules[0] if len(rules) == 1 else EVERY}' lists where"
    return lines + wrap(hint, look.width, INDENT, INDENT)


def _by_detail(silent: tuple[NotChecked, ...]) -> list[tuple[str, list[str]]]:
    """The details that would unlock something with the rules they would, most rules first, each rule named once."""
    wants: dict[str, dict[str, None]] = {}
    details: dict[str, dict[str, None]] = {}
    for item in silent:
        wants.setdefault(item.wants, {})[item.rule] = None
        details.setdefault(item.rule, {})[item.wants] = None
    said: set[str] = set()
    groups: list[tuple[str, list[str]]] = []
    for detail, names in sorted(wants.items(), key=lambda entry: -len(entry[1])):
        unsaid = [name for name in names if name not in said]
        said.update(unsaid)
        others = len(details[unsaid[0]]) - 1 if len(unsaid) == 1 else 0
        if unsaid:
            groups.append((detail + (f", and {counted(others, 'other detail')}" if others else ""), unsaid))
    return groups


def _some(names: list[str]) -> str:
    if len(names) <= NAMED_AT_MOST:
        return ", ".join(names)
    return ", ".join(names[: NAMED_AT_MOST - 1]) + f" and {len(names) - NAMED_AT_MOST + 1} more"


def why_not_lines(rule: str, silent: tuple[NotChecked, ...], look: Look) -> list[str]:
    """Where `rule` stayed silent, and which detail would let it speak; `all` for every rule that did."""
    if rule == EVERY:
        rules = dict.fromkeys(item.rule for item in silent)
        every = [line for name in rules for line in why_not_lines(name, silent, look)]
        return every or ["every rule was checked everywhere it applies"]
    mine = [item for item in silent if item.rule == rule]
    if not mine:
        return [f"'{shown(rule)}' was checked everywhere it applies"]
    lines = [f"'{shown(rule)}' was not checked {'once' if len(mine) == 1 else f'{len(mine)} times'}:"]
    for item in mine:
        subject = f"{shown(item.subject)}: " if item.subject else ""
        lines += wrap(f"{subject}wants {shown(item.wants)}", look.width, INDENT, INDENT * 2)
    return lines
