"""`hotset check --repair`: the smallest change that mends each conflict, shown as a diff, written only when asked."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from ..findings import Place
from ..report.glyphs import shown
from ..source.splice import CannotSplice
from ..source.writing import encoded, write_safely
from ..trials.edits import spliced
from ..trials.repair import repairs
from . import STATUS_FINDINGS, STATUS_OK, STATUS_UNUSABLE
from .trying import AsItIs, as_data, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..pipeline import Compiled
    from ..source import Source
    from ..source.text import SourceFile
    from ..trials.edits import Edit
    from ..trials.repair import Repair, Repairs

Line = tuple[int, str]


def repair(compiled: Compiled, format_: str, *, write: bool) -> int:
    """Find the repairs, show them, write them where that is asked, and give the exit status: 0 when nothing is left to
    mend, 1 when something is, 2 when the text does not let itself be changed."""
    done = repairs(compiled)
    kept: list[Repair] = []
    refused: list[tuple[Repair, CannotSplice]] = []
    texts: dict[int, str] = {}
    for one in done.found:
        so_far = tuple(edit for other in kept for edit in other.edits)
        try:
            texts = spliced(compiled.source, (*so_far, *one.edits))
            kept.append(one)
        except CannotSplice as refusal:
            refused.append((one, refusal))
    if write and texts:
        _write(compiled.source, texts)
    data = {
        "repairs": as_data(done.found),
        "by_hand": [as_data(one.finding) for one, _ in refused],
        "left": as_data(done.left),
        "written": write and bool(texts),
    }
    lines = [*_lines(compiled.source, done, kept, refused)]
    if format_ == "json":
        say((), data, format_)
    else:
        say(lines, data, format_)
        for line in _diff(compiled.source, texts):
            sys.stdout.write(shown(line) + "\n")
        say(_last(compiled.source, texts, write=write), data, format_)
    if refused:
        return STATUS_UNUSABLE
    errors = [f for f in done.left if f.severity == "error"]
    return STATUS_FINDINGS if errors or (done.found and not write) else STATUS_OK


def _lines(
    source: Source, done: Repairs, kept: list[Repair], refused: list[tuple[Repair, CannotSplice]]
) -> Iterator[Line]:
    if not done.found and not done.left:
        yield 0, "nothing to mend: no errors and no warnings"
    for one in kept:
        yield from _conflict(one.finding.place, one.finding.severity, one.finding.sentence, one.finding.rule)
        for edit in one.edits:
            yield 1, f"write {_at(source, edit)}:"
            yield 2, AsItIs(edit.line)
        for also in one.also:
            yield 1, f"mends too: {also.sentence} [{also.rule}]"
    for one, refusal in refused:
        yield from _conflict(one.finding.place, one.finding.severity, one.finding.sentence, one.finding.rule)
        yield 1, f"cannot be written for you: {refusal.reason}; by hand: {'; '.join(edit.line for edit in one.edits)}"
    for left in done.left:
        yield from _conflict(left.place, left.severity, left.sentence, left.rule)
        yield 1, "nothing that can be tried by itself mends it"
        if left.ways_out:
            yield 1, f"do: {left.ways_out[0]}"


def _conflict(place: Place, severity: str, sentence: str, rule: str) -> Iterator[Line]:
    yield 0, f"{place.file}:{place.line}:{place.column}: {severity}: {sentence} [{rule}]"


def _at(source: Source, edit: Edit) -> str:
    """The line at which a change is to be made."""
    node = source.root
    place = Place(source.files[0].name, 1, 1)
    for name in edit.path:
        entry = node.entries.get(name) if node is not None and hasattr(node, "entries") else None
        if entry is None:
            break
        place = source.place(entry[0])
        node = entry[1]  # type: ignore[assignment]
    return f"at {place.file}:{place.line}"


def _diff(source: Source, texts: dict[int, str]) -> Iterator[str]:
    """The changed lines as a unified diff."""
    from difflib import unified_diff

    for index, text in sorted(texts.items()):
        file = source.files[index]
        old, new = file.text.splitlines(), text.splitlines()
        yield from unified_diff(old, new, file.name, f"{file.name} (mended)", lineterm="", n=1)


def _last(source: Source, texts: dict[int, str], *, write: bool) -> Iterator[Line]:
    names = ", ".join(f"'{source.files[index].name}'" for index in sorted(texts))
    if not texts:
        return
    if write:
        yield 0, f"written into {names}; look at it with git diff"
    else:
        yield 0, f"nothing is written; 'hotset check --repair --write' writes this into {names}"


def _write(source: Source, texts: dict[int, str]) -> None:
    """All files, each in one step; nothing at all where one of them is not what was read."""
    for index in texts:
        _unchanged(source.files[index])
    for index, text in sorted(texts.items()):
        file = source.files[index]
        data = encoded(file, text)
        write_safely(file.path, data)
        with open(file.path, "rb") as stream:
            if stream.read() != data:
                raise OSError(5, "what was written does not read back", file.path)


def _unchanged(file: SourceFile) -> None:
    if file.path == "-":
        raise OSError(22, "standard input cannot be written to: name the file of the plan", "-")
    with open(file.path, "rb") as stream:
        if stream.read() != encoded(file, file.text):
            raise OSError(11, "the file has changed while it was looked at: ask again", file.path)
