"""What `hotset check --numbers` prints on the plan a rule speaks on: made by checking it, never written by hand."""

from __future__ import annotations

import re
from pathlib import Path

from ..findings import Finding, Place
from ..pipeline import Compiled, compile_plan
from ..record import replace
from ..source.text import lines_of
from .look import Look
from .text import finding_lines

NAME = "plan.yaml"
_FILE = r"^# in (\S+):\n"


def output(rule: str, plan: str, look: Look) -> tuple[str, ...]:
    """The lines of this rule's findings on a plan, as `check --numbers` prints them; none for an empty plan.

    A line `# in kit.yaml:` begins the file of that name; what stands before it is plan.yaml.
    """
    text = plan.lstrip("\n")
    if not text:
        return ()
    name, *others = re.split(_FILE, text, flags=re.MULTILINE)
    if others:
        found = _from_files([NAME, *others[::2]], [name, *others[1::2]])
    else:
        found = _kept(compile_plan(["-"], stdin_text=text.encode(), stdin_name=NAME), "")
    lines: list[str] = []
    findings, texts = found
    for finding in findings:
        if finding.rule == rule:
            lines += finding_lines(finding, lambda file, line: _line(texts, file, line), replace(look, numbers=True))
    return tuple(lines)


def _from_files(names: list[str], texts: list[str]) -> tuple[list[Finding], dict[str, str]]:
    """The same of several files, which have to stand in a folder; their names are said without it."""
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as folder:
        for name, text in zip(names, texts, strict=True):
            (Path(folder) / name).write_text(text, "utf-8", newline="\n")
        return _kept(compile_plan([str(Path(folder) / NAME)]), folder)


def _kept(compiled: Compiled, folder: str) -> tuple[list[Finding], dict[str, str]]:
    texts = {_short(file.name, folder): file.text for file in compiled.source.files}
    return [_in_place(finding, folder) for finding in compiled.findings], texts


def _short(words: str, folder: str) -> str:
    return words.replace(folder, "").lstrip("/\\") if folder else words


def _in_place(finding: Finding, folder: str) -> Finding:
    """The finding with its files named as somebody in their folder would name them."""

    def here(place: Place) -> Place:
        return replace(place, file=_short(place.file, folder))

    if not folder:
        return finding
    related = tuple(replace(other, place=here(other.place)) for other in finding.related)
    sentence = finding.sentence.replace(f"{folder}/", "").replace(f"{folder}\\", "")
    return replace(finding, sentence=sentence, place=here(finding.place), related=related)


def _line(texts: dict[str, str], file: str, line: int) -> str | None:
    lines = lines_of(texts.get(file, ""))
    return lines[line - 1] if 1 <= line <= len(lines) else None
