"""Small plans for the tests of rules: reading a text that may hold several files, and what was found in it."""

from __future__ import annotations

import re
from pathlib import Path

from hotset.findings import Finding
from hotset.pipeline import Compiled, compile_plan

_FILE = re.compile(r"^# in (\S+):\n", re.MULTILINE)
HERE = "# <- here"


def compiled(text: str, folder: Path) -> Compiled:
    """The plan of a text, given on standard input; with several files in it, on disk.

    A line `# in kit.yaml:` begins the file of that name; what stands before it is plan.yaml.
    """
    parts = _FILE.split(text)
    if len(parts) == 1:
        return compile_plan(["-"], stdin_text=text.encode(), stdin_name="plan.yaml")
    for name, body in zip(["plan.yaml", *parts[1::2]], parts[::2], strict=True):
        (folder / name).write_text(body, "utf-8")
    return compile_plan([str(folder / "plan.yaml")])


def conflicts(text: str, folder: Path) -> list[Finding]:
    """What was found, notes left out."""
    return [f for f in compiled(text, folder).findings if f.severity != "note"]


def said(found: list[Finding]) -> list[str]:
    return [f"{Path(f.place.file).name}:{f.place.line} {f.rule}: {f.sentence}" for f in found]


def marked_lines(text: str) -> list[int]:
    """The lines that carry the mark, counted inside their own file."""
    lines: list[int] = []
    number = 0
    for line in text.split("\n"):
        number = 0 if _FILE.match(line + "\n") else number + 1
        if line.rstrip().endswith(HERE):
            lines.append(number)
    return lines
