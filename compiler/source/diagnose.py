"""Where a parser gives up, it names a token. Here that becomes the mistake a person made, and what to type instead."""

from __future__ import annotations

import re

from .misplaced import colon, layout, misplaced_item, no_colon
from .scene import ENTRY, Last, Scene, line_at, quoted, until_flow_end, words_of
from .text import Fault, shown
from .traps import short, starred

_CONFLICT = re.compile(r"^(?:<{7}|={7}|>{7})(?: |$)", re.MULTILINE)
_CLOSED_BY = {"[": "]", "{": "}"}


def diagnose(text: str, error: Exception, last_value: tuple[int, int, str]) -> Fault:
    """The one fault to report for a text that no parser can read: its `error`, and offsets and style of the last value
    it gave before."""
    fault, last = words_of(error), Last(*last_value)
    at = min(fault.at, len(text))
    start = text.rfind("\n", 0, at) + 1
    scene = Scene(text, fault, last, at, start, line_at(text, start))
    looks = (_conflict, _tab, _open_quote, _quoted_rest, _star, _first_character, _flow, no_colon, colon, layout)
    for look in looks:
        found = look(scene)
        if found is not None:
            return found
    return Fault(
        at if at < len(text) else max(0, len(text) - 1),
        "from here on the text cannot be read",
        ("look for a quote, bracket, colon or blank that is missing on this line or on the one above",),
    )


def _conflict(scene: Scene) -> Fault | None:
    found = _CONFLICT.search(scene.text)
    if found is None or not scene.text.startswith("<<<<<<<", found.start()):
        return None
    return Fault(
        found.start(),
        "two versions of the plan were merged and the marks of their conflict are still in the text",
        ("keep the lines that are right, and delete the lines that start with <<<<<<<, ======= and >>>>>>>",),
    )


def _tab(scene: Scene) -> Fault | None:
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


def _open_quote(scene: Scene) -> Fault | None:
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
        ("write the same quote again at the end of the value", 'put a value that starts with an apostrophe in ""'),
    )


def _quoted_rest(scene: Scene) -> Fault | None:
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
    whole = until_flow_end(scene.text, last.start, line_at(scene.text, last.start))
    inner = value[1:-1]
    if last.style == "'" and "'" not in inner and scene.char.isalpha() and last.end == scene.at:
        way = f'put the value in double quotes: "{shown(whole.strip(chr(39)))}"'
    else:
        way = f"put the whole value in quotes: {quoted(whole)}"
    return Fault(scene.at, f"the quotes end after {short(value)}, but the line goes on", (way,))


def _star(scene: Scene) -> Fault | None:
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


def _first_character(scene: Scene) -> Fault | None:
    """A value that starts with a sign that means something."""
    problem, context = scene.fault.problem, scene.fault.context
    at = scene.at
    if any(word in context for word in ("an alias", "an anchor", "block scalar", "a tag", "a directive")):
        at = scene.fault.opened if scene.fault.opened is not None else at
    elif not ("start any token" in problem or "entries are not allowed" in problem or "keys are not" in problem):
        top = re.match(r"(?:[ \t]*(?:#.*)?\n)*(?=%)", scene.text)
        if "document start" not in problem or top is None:
            return None
        at = top.end()
    sign = scene.text[at : at + 1]
    if sign not in _SIGNS:
        return None
    start = scene.text.rfind("\n", 0, at) + 1
    if sign == "-" and not scene.text[start:at].strip(" -"):
        return misplaced_item(scene, at)
    rest = line_at(scene.text, at).split(" #", 1)[0].strip()
    if start == at and sign == "%":
        return Fault(
            at,
            "a line that starts with % speaks to YAML itself, and this one says nothing it knows",
            ("delete the line, or write # before it if it is a comment",),
        )
    return Fault(
        at,
        f"a value cannot start with {sign} unless it is in quotes: {sign} {_SIGNS[sign]}",
        (f"write {quoted(until_flow_end(scene.text, at, rest))}",),
    )


def _flow(scene: Scene) -> Fault | None:
    problem, context, opened = scene.fault.problem, scene.fault.context, scene.fault.opened
    if "unexpected ':'" in problem:
        return Fault(scene.at, "there is no blank after this colon", ("write a blank after the colon",))
    at_end = not scene.text[scene.at :].strip()
    if "flow node" in context or "node content" in problem:
        if at_end:
            opened = max(scene.text.rfind("[", 0, scene.at), scene.text.rfind("{", 0, scene.at))
            return _never_closed(scene, max(opened, 0))
        return Fault(scene.at, f"a value is missing before '{scene.char}'", ("write the value, or delete the comma",))
    if "flow sequence" not in context and "flow mapping" not in context:
        return None
    if opened is None:
        return None
    bracket = scene.text[opened : opened + 1]
    if bracket not in _CLOSED_BY:
        return None
    closing = _CLOSED_BY[bracket]
    opening_line = line_at(scene.text, opened)
    elsewhere = "\n" in scene.text[opened : scene.at]
    hash_at = opening_line.find("#")
    if elsewhere and hash_at > 0 and closing in opening_line[hash_at:]:
        return Fault(
            opened + hash_at,
            f"the # makes a comment of the rest of the line, with the '{closing}' that closes this '{bracket}'",
            ("put the value that starts with # in quotes",),
            ((opened, f"'{bracket}' opened here"),),
        )
    if at_end or (elsewhere and (scene.char == ":" or ENTRY.match(scene.line))):
        return _never_closed(scene, opened)
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


def _never_closed(scene: Scene, opened: int) -> Fault:
    bracket = scene.text[opened]
    closing = _CLOSED_BY.get(bracket, bracket)
    return Fault(opened, f"the '{bracket}' opened here is never closed", (f"write '{closing}' where it ends",))


def _colon_in_text(scene: Scene) -> Fault:
    value = scene.text[scene.last.start : scene.last.end]
    whole = until_flow_end(scene.text, scene.last.start, line_at(scene.text, scene.last.start))
    return Fault(
        scene.at,
        f"there is a second colon after {short(value)}; a colon and a blank inside text look like a name and its value",
        (f"put the text in quotes: {quoted(whole)}",),
    )
