"""Reading a plan: one file, several, a folder or standard input, into one map with a place for every value."""

from __future__ import annotations

from collections.abc import Sequence as Names

from ..findings import Finding, Place, Related, in_order
from ..record import record
from .files import load
from .text import SourceFile, excerpt_of, lines_of
from .tree import Mapping, Node, Scalar


@record
class Source:
    """What was read. `root` is None where something stopped the reading; a finding marked `unreadable` then says what.
    Nodes point into `files` by index."""

    files: tuple[SourceFile, ...]
    root: Mapping | None
    findings: tuple[Finding, ...]

    def place(self, node: Node, path: str = "") -> Place:
        """The place of a node, for a finding about it."""
        return Place(self.files[node.file].name, node.line, node.column, path)

    def excerpt(self, place: Place) -> tuple[str, int]:
        """The line of a place, safe to print, and the place's column in it, from 1; ("", 1) where there is none."""
        for file in self.files:
            if file.name == place.file:
                lines = lines_of(file.text)
                if 1 <= place.line <= len(lines):
                    return excerpt_of(lines[place.line - 1], place.column)
                break
        return "", 1


def read(names: Names[str], *, stdin_text: bytes | None = None, stdin_name: str = "-") -> Source:
    """Read the files that `names` mean; `-` stands for `stdin_text`, shown as `stdin_name`."""
    loaded = load(names, stdin_text, stdin_name)
    findings = loaded.findings
    root = None
    if loaded.roots and not any(finding.unreadable for finding in findings):
        files = tuple(loaded.files)
        root = loaded.roots[0]
        for more in loaded.roots[1:]:
            root = _merged(root, more, files, findings)
    return Source(tuple(loaded.files), root, in_order(findings))


def _merged(into: Mapping, more: Mapping, files: tuple[SourceFile, ...], findings: list[Finding]) -> Mapping:
    """Both maps as one. Maps under the same key are joined id by id; anything else written in both is a clash."""
    joined = Mapping(into.file, into.line, into.column, into.start, into.end, into.flow)
    joined.entries.update(into.entries)
    for name, key, value in more:
        if name == "include":
            continue
        known = joined.entries.get(name)
        if known is None:
            joined.entries[name] = (key, value)
        elif isinstance(known[1], Mapping) and isinstance(value, Mapping):
            joined.entries[name] = (known[0], _ids_of_both(known[1], value, name, files, findings))
        elif not _same_word(known[1], value, name):
            findings.append(_clash(key, known[0], name, files))
    return joined


def _ids_of_both(
    first: Mapping, second: Mapping, above: str, files: tuple[SourceFile, ...], findings: list[Finding]
) -> Mapping:
    joined = Mapping(first.file, first.line, first.column, first.start, first.end, first.flow)
    joined.entries.update(first.entries)
    for name, key, value in second:
        known = joined.entries.get(name)
        if known is None:
            joined.entries[name] = (key, value)
        else:
            findings.append(_clash(key, known[0], f"{above}.{name}", files))
    return joined


def _same_word(first: Node, second: Node, name: str) -> bool:
    """Every file may say which version of the language it is written in, if they agree."""
    return name == "hotset" and isinstance(first, Scalar) and isinstance(second, Scalar) and first.text == second.text


def _clash(key: Scalar, first: Scalar, path: str, files: tuple[SourceFile, ...]) -> Finding:
    there = Place(files[first.file].name, first.line, first.column, path)
    return Finding(
        "include-clash",
        "error",
        f"'{path}' is written in two files, in '{files[key.file].name}' and in '{there.file}'; only the first counts",
        Place(files[key.file].name, key.line, key.column, path),
        (Related(there, "first written here"),),
        ("delete one of the two, or give it another name",),
    )
