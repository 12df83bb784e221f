"""Writes the generated pages, or with `--check` says which of them no longer match: `python -m hotset.report.pages`."""

from __future__ import annotations

import sys
from importlib.resources import files
from pathlib import Path

from ..rules import RULES
from . import catalogue, language
from .exact import output
from .look import Look


def home() -> Path:
    """The folder the pages stand in: the schema's own, beside what they are made from."""
    return Path(str(files("hotset.schemas")))


def pages() -> dict[str, str]:
    """Every generated page, by file name."""
    said = {rule.id: output(rule.id, rule.triggers, Look()) for rule in RULES}
    return {"LANGUAGE.md": language.page(), "RULES.md": catalogue.page(RULES, said)}


def stale(folder: Path) -> list[str]:
    """The pages in `folder` that are missing or say something else."""
    return [
        name
        for name, text in pages().items()
        if not (folder / name).is_file() or (folder / name).read_text("utf-8") != text
    ]


def main(arguments: list[str]) -> int:
    """Write the pages (0), or with `--check` compare them (0 the same, 1 not)."""
    folder = home()
    if arguments == ["--check"]:
        wrong = stale(folder)
        for name in wrong:
            print(f"{name} is not what the schema and the rules say; run: python -m hotset.report.pages")
        return 1 if wrong else 0
    if arguments:
        print("usage: python -m hotset.report.pages [--check]", file=sys.stderr)
        return 2
    for name, text in pages().items():
        (folder / name).write_text(text, "utf-8", newline="\n")
        print(f"wrote {folder / name}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
