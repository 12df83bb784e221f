"""One cause, one finding: what is said only because something was misspelt or lacks its unit is not said beside it.

Faults of reading that say what was meant are mended on the tree, and the plan is looked at once more: what is then no
longer found was a consequence. What would only be found with the guess is never said, either.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from .findings import Finding, Related
from .record import replace
from .source.tree import Mapping, Node, Scalar, Sequence

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from .source import Source

    Spot = tuple[int, int, int]

READING = frozenset({"unknown-key", "unknown-name", "wrong-kind", "missing-unit", "bad-quantity", "bad-name"})
MENDED = READING | {"cast-missing", "accepted-nothing"}
RESTS_ON_THINGS = frozenset(
    ("over-exposed", "under-exposed", "ratio-off", "spill", "furniture-clash", "does-not-fit", "boom-in-frame-risk",
     "missing-adapter", "filter-in-frame", "support-overloaded", "camera-outside-set")
)  # fmt: skip
MOST = 200
"""Faults of reading up to which they are mended: a text with more is no plan yet."""
ALSO = 8
_MEANT = re.compile(r"'([^']+)'[^']*; did you mean '([^']+)'\?")
_PLAYED = re.compile(r"^nobody plays '([^']+)'.*; is it '([^']+)'\?")
_ALONE = re.compile(r"^'[^']+': '((\d+)[^']*)' is not a number alone")
_WRITE = re.compile(r"^write it like (\S.*)$")


def consequences_left_out(
    findings: tuple[Finding, ...], source: Source, again: Callable[[Source, int], Iterable[Finding]], depth: int
) -> tuple[Finding, ...]:
    """The findings without those that follow from a fault of reading.

    `again` gives all that stands in a source, looking `depth` times more: keys are mended first, then names and units.
    """
    faults = [f for f in findings if f.rule in MENDED]
    if not faults or depth <= 0 or len(faults) > MOST or source.root is None:
        return findings
    findings = _without_blind(findings)
    keys = [f for f in faults if f.rule == "unknown-key"]
    changes = _changes(source, keys) or _changes(source, faults)
    if not changes:
        return findings
    played = (changes.get(_spot(source, f)) for f in faults if f.rule == "cast-missing")
    root = _changed(source.root, changes, dict(pair for pair in played if pair is not None))
    if not isinstance(root, Mapping):
        return findings
    known = {(f.rule, f.place.path) for f in again(replace(source, root=root), depth - 1)}
    mended = (f.rule in MENDED and _spot(source, f) in changes for f in findings)
    return tuple(f for f, own in zip(findings, mended, strict=True) if own or (f.rule, f.place.path) in known)


def _without_blind(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Without what is said of the light or the place of a lamp, a camera or a sound of which one thing has a name that
    means nothing: what is there in its stead is not known."""
    lost = [f.place.path for f in findings if f.rule == "unknown-name" and not _MEANT.search(f.sentence)]
    parents = {path.removesuffix(f".{path.rpartition('.')[2]}") for path in map(_without_number, lost)}
    blind = {path for path in parents if path.startswith("setups.") and path.count(".") >= 2}
    if not blind:
        return findings
    return tuple(f for f in findings if f.rule not in RESTS_ON_THINGS or not _within(f.place.path, blind))


def _without_number(path: str) -> str:
    front, _, last = path.rpartition(".")
    return front if last.isdigit() else path


def _within(path: str, blind: set[str]) -> bool:
    return any(path == other or path.startswith(f"{other}.") for other in blind)


def told_once(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Faults of reading at one place of the text are one, and so is a name that is nowhere, however often it is
    written: the others are named beside it."""
    first: dict[tuple[object, ...], int] = {}
    kept: list[Finding] = []
    for f in findings:
        place = (f.rule, f.place.file, f.place.line, f.place.column)
        meant = _MEANT.search(f.sentence) if f.rule == "unknown-name" else None
        mark = (f.rule, *meant.groups()) if meant else (f.rule, f.sentence) if f.rule == "unknown-name" else place
        if f.rule not in READING or (place not in first and mark not in first):
            first[place] = first[mark] = len(kept)
            kept.append(f)
            continue
        at = first[mark] if mark in first else first[place]
        if mark in first and f.rule == "unknown-name" and len(kept[at].related) < ALSO:
            kept[at] = replace(kept[at], related=(*kept[at].related, Related(f.place, "written here, too")))
    return tuple(kept)


def _spot(source: Source, finding: Finding) -> Spot:
    files = [file.name for file in source.files]
    index = files.index(finding.place.file) if finding.place.file in files else -1
    return index, finding.place.line, finding.place.column


def _changes(source: Source, faults: Iterable[Finding]) -> dict[Spot, tuple[str, str]]:
    """Place of the text -> what is wrong in it ("" for all of it) and what was meant."""
    found: dict[Spot, tuple[str, str]] = {}
    for fault in faults:
        meant = (_PLAYED if fault.rule == "cast-missing" else _MEANT).search(fault.sentence)
        if meant is not None:
            found.setdefault(_spot(source, fault), (meant.group(1), meant.group(2)))
        elif (whole := _ALONE.match(fault.sentence)) is not None:
            found.setdefault(_spot(source, fault), (whole.group(1), whole.group(2)))
        elif fault.rule == "missing-unit":
            like = next((m.group(1) for way in fault.ways_out if (m := _WRITE.match(way))), "")
            unit = like.lstrip("0123456789./+- ")
            if unit:
                found.setdefault(_spot(source, fault), ("", unit))
    return found


def _changed(node: Node, changes: dict[Spot, tuple[str, str]], parts: dict[str, str]) -> Node:
    """The tree with what was meant, and characters as those who play them call them; everything keeps its place."""
    if isinstance(node, Scalar):
        return _word(node, changes, parts)
    if isinstance(node, Sequence):
        row = Sequence(node.file, node.line, node.column, node.start, node.end, node.flow)
        row.items = [_changed(item, changes, parts) for item in node.items]
        return row
    assert isinstance(node, Mapping)
    made = Mapping(node.file, node.line, node.column, node.start, node.end, node.flow)
    for name, key, value in node:
        new = _word(key, changes, parts)
        text = new.text if new.text not in node.entries else name
        change = changes.get((key.file, key.line, key.column))
        if change is not None and new.text == key.text and isinstance(value, Scalar):  # said at the key, of its value
            made.entries[text] = (new, _with(value, change))
        else:
            made.entries[text] = (new, _changed(value, changes, parts))
    return made


def _word(node: Scalar, changes: dict[Spot, tuple[str, str]], parts: dict[str, str]) -> Scalar:
    change = changes.get((node.file, node.line, node.column))
    if change is None and node.text not in parts:
        return node
    return _with(node, change or (node.text, parts[node.text]))


def _with(node: Scalar, change: tuple[str, str]) -> Scalar:
    wrong, meant = change
    if not wrong:
        text = f"{node.text} {meant}" if node.text.replace(".", "", 1).isdigit() else node.text
    else:
        text = meant if node.text == wrong else node.text.replace(wrong, meant, 1)
    return Scalar(node.file, node.line, node.column, node.start, node.end, text, node.quoted)
