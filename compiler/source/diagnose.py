"""Where a parser gives up, it names a token. Here that becomes the mistake a person made, and what to type instead."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from .text import Fault, shown
from .traps import short, starred

_ENTRY = re.compile(r"""[ ]*(?:- +)*("[^"\n]*"|'[^'\n]*'|[^\s#'"\[{][^\n]*?)[ ]*:(?:[ \t]+|$)""")
_NO_BLANK = re.compile(r"[ ]*(?:- +)*([\w-]+):(?=[^\s:/])")
_EQUALS = re.compile(r"[ ]*([\w-]+)\s*=\s*\S")
_CONFLICT = re.compile(r"^(?:<{7}|={7}|>{7})(?: |$)", re.MULTILINE)
_CLOSED_BY = {"[": "]", "{": "}"}


@dataclass(frozen=True, slots=True)
class _Words:
    """Where a parser gave up: its own words in lower case, and offsets into the text (None: not told)."""

    problem: str
    at: int
    context: str
    opened: int | None


@dataclass(frozen=True, slots=True)
class _Last:
    """The last value before the fault: its offsets and its style ('' plain, a quote, '*' alias, ']' list or map)."""

    start: int
    end: int
    style: str


@dataclass(frozen=True, slots=True)
class _Scene:
    """The fault with the lines around it."""

    text: str
    fault: _Words
    last: _Last
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


def _words_of(error: Any) -> _Words:
    context_mark, problem_mark = getattr(error, "context_mark", None), getattr(error, "problem_mark", None)
    opened = context_mark.index if context_mark is not None else None
    at = problem_mark.index if problem_mark is not None else opened or 0
    problem, context = getattr(error, "problem", None), getattr(error, "context", None)
    return _Words(str(problem or "").lower(), at, str(context or "").lower(), opened)


def diagnose(text: str, error: Exception, last_value: tuple[int, int, str]) -> Fault:
    """The one fault to report for a text that no parser can read: its `error`, and offsets and style of the last value
    it gave before."""
    fault, last = _words_of(error), _Last(*last_value)
    at = min(fault.at, len(text))
    start = text.rfind("\n", 0, at) + 1
    scene = _Scene(text, fault, last, at, start, _line_at(text, start))
    looks = (_conflict, _tab, _open_quote, _quoted_rest, _star, _first_character, _flow, _no_colon, _colon, _layout)
    for look in looks:
        found = look(scene)
        if found is not None:
            return found
    return Fault(
        at if at < len(text) else max(0, len(text) - 1),
        "from here on the text cannot be read",
        ("look for a quote, bracket, colon or blank that is missing on this line or on the one above",),
    )


def _line_at(text: str, start: int) -> str:
    end = text.find("\n", start)
    return (text[start:] if end < 0 else text[start:end]).rstrip("\r")


def _line_above(scene: _Scene, start: int) -> tuple[int, str] | None:
    """The nearest line above that holds more than a comment, with its offset."""
    while start > 0:
        start = scene.text.rfind("\n", 0, start - 1) + 1
        line = _line_at(scene.text, start)
        if line.strip() and not line.lstrip().startswith("#"):
            return start, line
    return None


def _quoted(value: str) -> str:
    """A value as it would be typed in quotes."""
    value = shown(value.strip())
    return f'"{value}"' if '"' not in value else "'" + value.replace("'", "''") + "'"


def _value_of(line: str) -> str:
    entry = _ENTRY.match(line)
    value = line[entry.end() :] if entry else line.lstrip(" -")
    return value.split(" #", 1)[0].strip()


def _conflict(scene: _Scene) -> Fault | None:
    found = _CONFLICT.search(scene.text)
    if found is None or not scene.text.startswith("<<<<<<<", found.start()):
        return None
    return Fault(
        found.start(),
        "two versions of the plan were merged and the marks of their conflict are still in the text",
        ("keep the lines that are right, and delete the lines that start with <<<<<<<, ======= and >>>>>>>",),
    )


def _tab(scene: _Scene) -> Fault | None:
    lead = scene.line[: len(scene.line) - len(scene.line.lstrip(" \t"))]
    if "\t" in lead:
        return Fault(
            scene.line_start + lead.index("\t"),
            "this line is indented with a tab; a plan is indented with blanks only",
            ("replace the tab with two blanks a level", "set your editor to write blanks when you press Tab"),
        )
    if scene.char == "\t":
        return Fault(scene.at, "a tab stands here where a blank is due", ("replace the tab with a blank",))
    return None


def _open_quote(scene: _Scene) -> Fault | None:
    fault = scene.fault
    if "escape" in fault.problem or ("quoted scalar" in fault.context and "hexdecimal" in fault.problem):
        slash = scene.text.rfind("\\", 0, scene.at + 1)
        return Fault(
            slash if slash >= 0 else scene.at,
            "a backslash inside double quotes starts a special sign, and this is none",
            ("write it twice (\\\\), or use single quotes around the value",),
        )
    if "quoted scalar" not in fault.context and "quoted scalar" not in fault.problem:
        return None
    opened = fault.opened if fault.opened is not None else scene.at
    return Fault(
        opened,
        f"the quote opened here ({scene.text[opened : opened + 1]}) is never closed",
        ("write the same quote again at the end of the value", "put a value that starts with an apostrophe in \"\""),
    )


def _quoted_rest(scene: _Scene) -> Fault | None:
    last = scene.last
    if last.style not in ("'", '"') or last.end > scene.at or scene.text[last.end : scene.at].strip(" \t"):
        return None
    if scene.char in ("\n", "\r", "", ",", "]", "}", ":", "#"):
        return None
    value = scene.text[last.start : last.end]
    if "\n" in value:
        return Fault(
            last.start,
            "the quote opened here is closed only on a later line, before more text",
            ("close the quote at the end of this line, or take it away",),
            ((last.end - 1, "closed here"),),
        )
    whole = _line_at(scene.text, last.start)
    inner = value[1:-1]
    if last.style == "'" and "'" not in inner and scene.char.isalpha() and last.end == scene.at:
        way = f'put the value in double quotes: "{shown(whole.strip(chr(39)))}"'
    else:
        way = f"put the whole value in quotes: {_quoted(whole)}"
    return Fault(scene.at, f"the quotes end after {short(value)}, but the line goes on", (way,))


def _star(scene: _Scene) -> Fault | None:
    last = scene.last
    if last.style == "*" and "\n" not in scene.text[last.start : scene.at] and last.end <= scene.at:
        return starred(scene.text, last.start, scene.text[last.start + 1 : last.end])
    return None


_SIGNS = {
    "*": "points to a name given elsewhere",
    "&": "gives a name to what follows",
    "%": "is kept for YAML itself",
    "@": "is kept for YAML itself",
    "`": "is kept for YAML itself",
    "-": "starts an item of a list",
    "?": "starts a name of several lines",
    "|": "starts text on the lines below",
    ">": "starts text on the lines below",
    "!": "gives a type to what follows",
}


def _first_character(scene: _Scene) -> Fault | None:
    """A value that starts with a sign that means something."""
    problem, context = scene.fault.problem, scene.fault.context
    at = scene.at
    if any(word in context for word in ("an alias", "an anchor", "block scalar", "a tag", "a directive")):
        at = scene.fault.opened if scene.fault.opened is not None else at
    elif not ("start any token" in problem or "entries are not allowed" in problem or "keys are not" in problem):
        if not ("before" in problem or "document start" in problem) or not scene.line.startswith("%"):
            return None
        at = scene.line_start
    sign = scene.text[at : at + 1]
    if sign not in _SIGNS:
        return None
    start = scene.text.rfind("\n", 0, at) + 1
    if sign == "-" and not scene.text[start:at].strip(" -"):
        return _misplaced_item(scene, at)
    rest = _line_at(scene.text, at).split(" #", 1)[0].strip()
    if start == at and sign == "%":
        return Fault(
            at,
            "a line that starts with % speaks to YAML itself, and this one says nothing it knows",
            ("delete the line, or write # before it if it is a comment",),
        )
    return Fault(
        at,
        f"a value cannot start with {sign} unless it is in quotes: {sign} {_SIGNS[sign]}",
        (f"write {_quoted(_until_flow_end(scene.text, at, rest))}",),
    )


def _until_flow_end(text: str, at: int, rest: str) -> str:
    """A value inside braces or brackets ends before the comma or bracket."""
    start = text.rfind("\n", 0, at) + 1
    line = text[start:at]
    if line.count("{") > line.count("}") or line.count("[") > line.count("]"):
        return re.split(r"[,\]}]", rest, maxsplit=1)[0]
    return rest


def _misplaced_item(scene: _Scene, at: int) -> Fault:
    above = _line_above(scene, scene.line_start)
    related = ((above[0] + len(above[1]) - len(above[1].lstrip()), "the line above"),) if above else ()
    return Fault(
        at,
        "a list item stands here where none can be",
        ("start the list on the line below a name that ends with a colon", "line the dashes up with each other"),
        related,
    )


def _flow(scene: _Scene) -> Fault | None:
    problem, context, opened = scene.fault.problem, scene.fault.context, scene.fault.opened
    if "unexpected ':'" in problem:
        return Fault(scene.at, "there is no blank after this colon", ("write a blank after the colon",))
    if "flow node" in context or "node content" in problem:
        missing = scene.char if scene.char.strip() else "the end"
        return Fault(scene.at, f"a value is missing before '{missing}'", ("write the value, or delete the comma",))
    if "flow sequence" not in context and "flow mapping" not in context:
        return None
    if opened is None:
        return None
    bracket = scene.text[opened : opened + 1]
    if bracket not in _CLOSED_BY:
        return None
    closing = _CLOSED_BY[bracket]
    opening_line = _line_at(scene.text, opened)
    at_end = not scene.text[scene.at :].strip()
    elsewhere = "\n" in scene.text[opened : scene.at]
    hash_at = opening_line.find("#")
    if elsewhere and hash_at > 0 and closing in opening_line[hash_at:]:
        return Fault(
            opened + hash_at,
            f"the # makes a comment of the rest of the line, with the '{closing}' that closes this '{bracket}'",
            ("put the value that starts with # in quotes",),
            ((opened, f"'{bracket}' opened here"),),
        )
    if at_end or (elsewhere and (scene.char == ":" or _ENTRY.match(scene.line))):
        return Fault(opened, f"the '{bracket}' opened here is never closed", (f"write '{closing}' where it ends",))
    if scene.char in "]})":
        return Fault(
            scene.at,
            f"'{bracket}' is closed with '{scene.char}'",
            (f"write '{closing}' here",),
            ((opened, f"'{bracket}' opened here"),),
        )
    if scene.char == ":":
        return _colon_in_text(scene)
    way = "write a comma between one value and the next"
    return Fault(scene.at, f"a comma is missing here, or a '{closing}'", (way,))


def _colon_in_text(scene: _Scene) -> Fault:
    value = scene.text[scene.last.start : scene.last.end]
    return Fault(
        scene.at,
        f"there is a second colon after {short(value)}; a colon and a blank inside text look like a name and its value",
        (f"put the text in quotes: \"{shown(value)}: ...\"",),
    )


def _no_colon(scene: _Scene) -> Fault | None:
    """A line without its colon, found when the next one starts."""
    if "expected ':'" not in scene.fault.problem or scene.fault.opened is None:
        return None
    start = scene.text.rfind("\n", 0, scene.fault.opened) + 1
    return _line_without_colon(scene.text, start)


def _line_without_colon(text: str, start: int) -> Fault:
    line = _line_at(text, start)
    first = start + len(line) - len(line.lstrip(" "))
    glued = _NO_BLANK.match(line)
    if glued is not None:
        name, value = glued[1], line[glued.end() :].strip()
        return Fault(
            start + glued.end() - 1,
            f"there is no blank after the colon of '{name}'",
            (f"write '{name}: {shown(value)}'",),
        )
    equals = _EQUALS.match(line)
    if equals is not None:
        sign = line.index("=")
        return Fault(
            start + sign,
            f"an equals sign stands after '{equals[1]}' where a colon is due",
            (f"write '{equals[1]}: {shown(line[sign + 1 :].strip())}'",),
        )
    return Fault(
        first,
        f"{short(line)} has no colon, so it is neither a name nor its value",
        (
            f"write a colon after it if it is a name: '{shown(line.strip()[:40])}:'",
            "indent it further than the line above if it goes on with the text there",
        ),
    )


def _colon(scene: _Scene) -> Fault | None:
    """A colon where none can be: inside text, or under a name that already has its value."""
    if "mapping values are not allowed" not in scene.fault.problem:
        return None
    if len(scene.before) > 1000:
        return Fault(scene.line_start + scene.indent, "this name is longer than 1000 characters", ("shorten it",))
    entry = _ENTRY.match(scene.line)
    if entry is not None and entry.end() <= len(scene.before) and scene.before[entry.end() :].strip():
        name, value = entry[1], _value_of(scene.line)
        return Fault(
            scene.at,
            "a colon and a blank inside text look like a name and its value",
            (f"put the text in quotes: {shown(name)}: {_quoted(value)}",),
        )
    above = _line_above(scene, scene.line_start)
    if above is None:
        return None
    above_indent = len(above[1]) - len(above[1].lstrip(" "))
    above_entry = _ENTRY.match(above[1])
    if above_entry is None:
        return _line_without_colon(scene.text, above[0])
    return Fault(
        scene.line_start + scene.indent,
        f"this line is indented under '{shown(above_entry[1].strip())}', which already has the value "
        f"{short(_value_of(above[1]))}",
        (
            f"start it at column {above_indent + 1} like the line above",
            f"or take the value of '{shown(above_entry[1].strip())}' away",
        ),
        ((above[0] + above_indent, "the line above"),),
    )


def _layout(scene: _Scene) -> Fault | None:
    """What is left are lines that fit no level above them."""
    problem = scene.fault.problem
    if not ("expected key" in problem or "block end" in problem or "expected '-'" in problem or "document" in problem):
        return None
    if scene.char in ("]", "}") and scene.char:
        return Fault(scene.at, f"this '{scene.char}' closes nothing", ("delete it, or put the text in quotes",))
    if scene.char == ":" and not scene.before.strip():
        return Fault(scene.at, "there is no name before this colon", ("write the name, a colon and then its value",))
    if scene.before.strip():
        return None
    if scene.last.style in ("|", ">"):
        return Fault(
            scene.at,
            "this line is indented less than the text it belongs to",
            ("indent every line of the text at least as far as its first line",),
            ((scene.last.start, "the text starts here"),),
        )
    if scene.char == "-":
        return _misplaced_item(scene, scene.at)
    return _wrong_level(scene)


def _wrong_level(scene: _Scene) -> Fault:
    """A line whose indentation is that of no line it could belong to."""
    levels: list[int] = []
    start, lowest = scene.line_start, 1_000_000
    for _ in range(1000):
        above = _line_above(scene, start)
        if above is None or lowest == 0:
            break
        start, line = above
        indent = len(line) - len(line.lstrip(" "))
        if indent < lowest:
            levels.append(indent)
            lowest = indent
    columns = " or ".join(str(level + 1) for level in reversed(levels)) or "1"
    return Fault(
        scene.line_start + scene.indent,
        f"this line starts at column {scene.indent + 1}, where no line above it starts that it could belong to",
        (f"start it at column {columns}, in line with what it belongs beside",),
    )
