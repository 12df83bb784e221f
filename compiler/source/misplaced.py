"""Lines that stand where they cannot: without their colon, with one too many, or at the wrong column."""

from __future__ import annotations

import re

from .scene import ENTRY, Scene, line_above, line_at, quoted, value_of
from .text import Fault, shown
from .traps import short

_NO_BLANK = re.compile(r"[ ]*(?:- +)*([\w-]+):(?=[^\s:/])")
_EQUALS = re.compile(r"[ ]*([\w-]+)\s*=\s*\S")


def no_colon(scene: Scene) -> Fault | None:
    """A line without its colon, found when the next one starts."""
    if "expected ':'" not in scene.fault.problem or scene.fault.opened is None:
        return None
    start = scene.text.rfind("\n", 0, scene.fault.opened) + 1
    return _line_without_colon(scene.text, start)


def _line_without_colon(text: str, start: int) -> Fault:
    line = line_at(text, start)
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


def colon(scene: Scene) -> Fault | None:
    """A colon where none can be: inside text, or under a name that already has its value."""
    if "mapping values are not allowed" not in scene.fault.problem:
        return None
    if len(scene.before) > 1000:
        return Fault(scene.line_start + scene.indent, "this name is longer than 1000 characters", ("shorten it",))
    entry = ENTRY.match(scene.line)
    if entry is not None and entry.end() <= len(scene.before) and scene.before[entry.end() :].strip():
        name, value = entry[1], value_of(scene.line)
        return Fault(
            scene.at,
            "a colon and a blank inside text look like a name and its value",
            (f"put the text in quotes: {shown(name)}: {quoted(value)}",),
        )
    above = line_above(scene, scene.line_start)
    if above is None:
        return None
    above_indent = len(above[1]) - len(above[1].lstrip(" "))
    above_entry = ENTRY.match(above[1])
    if above_entry is None:
        return _line_without_colon(scene.text, above[0])
    return Fault(
        scene.line_start + scene.indent,
        f"this line is indented under '{shown(above_entry[1].strip())}', which already has the value "
        f"{short(value_of(above[1]))}",
        (
            f"start it at column {above_indent + 1} like the line above",
            f"or take the value of '{shown(above_entry[1].strip())}' away",
        ),
        ((above[0] + above_indent, "the line above"),),
    )


def layout(scene: Scene) -> Fault | None:
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
        return misplaced_item(scene, scene.at)
    return _wrong_level(scene)


def _wrong_level(scene: Scene) -> Fault:
    """A line whose indentation is that of no line it could belong to."""
    levels: list[int] = []
    start, lowest = scene.line_start, 1_000_000
    for _ in range(1000):
        above = line_above(scene, start)
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


def misplaced_item(scene: Scene, at: int) -> Fault:
    above = line_above(scene, scene.line_start)
    related = ((above[0] + len(above[1]) - len(above[1].lstrip()), "the line above"),) if above else ()
    return Fault(
        at,
        "a list item stands here where none can be",
        ("start the list on the line below a name that ends with a colon", "line the dashes up with each other"),
        related,
    )
