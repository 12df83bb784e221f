"""A fault of syntax with what lies around it: the parser's words, the value before, the line and the one above."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from .text import shown

ENTRY = re.compile(r"""[ ]*(?:- +)*("[^"\n]*"|'[^'\n]*'|[^\s#'"\[{][^\n]*?)[ ]*:(?:[ \t]+|$)""")


@dataclass(frozen=True, slots=True)
class Words:
    """Where a parser gave up: its own words in lower case, and offsets into the text (None: not told)."""

    problem: str
    at: int
    context: str
    opened: int | None


@dataclass(frozen=True, slots=True)
class Last:
    """The last value before the fault: its offsets and its style ('' plain, a quote, '*' alias, ']' list or map)."""

    start: int
    end: int
    style: str


@dataclass(frozen=True, slots=True)
class Scene:
    """The fault with the lines around it."""

    text: str
    fault: Words
    last: Last
    at: int
    line_start: int
    line: str

    @property
    def indent(self) -> int:
        return len(self.line) - len(self.line.lstrip(" "))

    @property
    def before(self) -> str:
        """The line up to the fault."""
        return self.line[: self.at - self.line_start]

    @property
    def char(self) -> str:
        return self.text[self.at : self.at + 1]


def words_of(error: Any) -> Words:
    context_mark, problem_mark = getattr(error, "context_mark", None), getattr(error, "problem_mark", None)
    opened = context_mark.index if context_mark is not None else None
    at = problem_mark.index if problem_mark is not None else opened or 0
    problem, context = getattr(error, "problem", None), getattr(error, "context", None)
    return Words(str(problem or "").lower(), at, str(context or "").lower(), opened)


def line_at(text: str, start: int) -> str:
    end = text.find("\n", start)
    return (text[start:] if end < 0 else text[start:end]).rstrip("\r")


def line_above(scene: Scene, start: int) -> tuple[int, str] | None:
    """The nearest line above that holds more than a comment, with its offset."""
    while start > 0:
        start = scene.text.rfind("\n", 0, start - 1) + 1
        line = line_at(scene.text, start)
        if line.strip() and not line.lstrip().startswith("#"):
            return start, line
    return None


def quoted(value: str) -> str:
    """A value as it would be typed in quotes."""
    value = shown(value.strip())
    return f'"{value}"' if '"' not in value else "'" + value.replace("'", "''") + "'"


def value_of(line: str) -> str:
    entry = ENTRY.match(line)
    value = line[entry.end() :] if entry else line.lstrip(" -")
    return value.split(" #", 1)[0].strip()


def until_flow_end(text: str, at: int, rest: str) -> str:
    """A value inside braces or brackets ends before the comma or bracket."""
    start = text.rfind("\n", 0, at) + 1
    line = text[start:at]
    if line.count("{") > line.count("}") or line.count("[") > line.count("]"):
        return re.split(r"[,\]}]", rest, maxsplit=1)[0]
    return rest
