"""Putting a value into a plan's text by changing nothing but the text of that value.

Every function gives the new text or raises `CannotSplice`, which says where and what to write by hand. What comes out
has been read again and holds exactly what was meant.
"""

from __future__ import annotations

from collections.abc import Sequence as Items
from typing import Any

from .compose import compose
from .text import line_and_column
from .tree import Mapping, Node, Scalar, Sequence

Path = Items[str]
_INDENT = 2


class CannotSplice(Exception):
    """The text does not allow a safe change. `line` and `column` count from 1; `by_hand` is what to write instead."""

    def __init__(self, reason: str, line: int, column: int, by_hand: str) -> None:
        super().__init__(f"{reason} (line {line}, column {column}); write by hand: {by_hand}")
        self.reason = reason
        self.line = line
        self.column = column
        self.by_hand = by_hand


def plain(node: Node) -> Any:
    """A tree as dicts, lists and text, without places."""
    if isinstance(node, Mapping):
        return {name: plain(value) for name, _, value in node}
    if isinstance(node, Sequence):
        return [plain(item) for item in node.items]
    return node.text if isinstance(node, Scalar) else None


def flow_list(items: Items[str]) -> str:
    """A list in brackets, with quotes where an item needs them."""
    return "[" + ", ".join(scalar(item) for item in items) + "]"


def scalar(text: str) -> str:
    """A text as YAML writes it: bare where that reads back as itself, else in double quotes."""
    for form in (text, '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'):
        if "\n" not in form and form:
            read = compose(f"a: [{form}]\n")
            if read.stopped is None and not read.faults and _holds(read.root, {"a": [text]}):
                return form
    raise CannotSplice("the text cannot be written on one line", 1, 1, repr(text))


def replace_value(text: str, node: Node, new_text: str) -> str:
    """The text with the value `node` (from a reading of this very text) replaced by `new_text`, one YAML value."""
    root = _root(text, new_text)
    paths = [path for path, found in _walk(root) if found.start == node.start and found.end == node.end]
    _refuse_shared(text, node, len(paths), new_text)
    if not paths:
        raise _cannot(text, node.start, "there is no value with these bounds", new_text)
    return _replaced(text, root, paths[0], node, new_text)


def set_in_map(text: str, path: Path, key: str, new_text: str) -> str:
    """The text with `key` of the map at `path` (keys from the top) set to `new_text`: replaced where it is written,
    else added as the map's last entry. A list that is already written one item a line is put in the new order line
    by line, comments with their items, where old and new hold the same items."""
    root = _root(text, f"{key}: {new_text}")
    into: Node | None = root
    for name in path:
        into = into.get(name) if isinstance(into, Mapping) else None
    by_hand = f"{key}: {new_text} under {'.'.join(path) or 'the top'}"
    if not isinstance(into, Mapping):
        raise _cannot(text, into.start if into else 0, f"there is no map '{'.'.join(path)}' to write into", by_hand)
    _refuse_shared(text, into, sum(found is into for _, found in _walk(root)), by_hand)
    old = into.get(key)
    if old is None:
        return _checked(text, _added(text, into, key, new_text, by_hand), root, [*path, key], new_text, by_hand)
    _refuse_shared(text, old, sum(found is old for _, found in _walk(root)), by_hand)
    if isinstance(old, Sequence) and not old.flow:
        order = _same_items(old, new_text)
        if order is not None:
            return permute_items(text, old, order)
    return _replaced(text, root, [*path, key], old, new_text)


def permute_items(text: str, node: Sequence, order: Items[int]) -> str:
    """The text with the items of a block list in a new order (`order[i]` is the old index of the item that comes i-th).
    Each item moves with its lines: the comments above it, and those behind it."""
    by_hand = "the items in the order " + ", ".join(str(i + 1) for i in order)
    root = _root(text, by_hand)
    if node.flow or sorted(order) != list(range(len(node.items))):
        raise _cannot(text, node.start, "this is no list of one item a line, or the order is none of it", by_hand)
    paths = [path for path, found in _walk(root) if found.start == node.start and found.end == node.end]
    _refuse_shared(text, node, len(paths), by_hand)
    bounds = _item_lines(text, node, by_hand)
    chunks = [text[a:b] for a, b in bounds]
    ends = [chunk if chunk.endswith("\n") else chunk + _newline(text) for chunk in chunks]
    moved = "".join(ends[i] for i in order)
    if not chunks[-1].endswith("\n"):
        moved = moved[: -len(_newline(text))]
    new = text[: bounds[0][0]] + moved + text[bounds[-1][1] :]
    old = _at(plain(root), paths[0]) if paths else []
    if not _holds(compose(new).root, _with(plain(root), paths[0], [old[i] for i in order])):
        raise _cannot(text, node.start, "the lines cannot be told apart", by_hand)
    return new


def _root(text: str, by_hand: str) -> Mapping:
    read = compose(text)
    if read.stopped is not None or not isinstance(read.root, Mapping):
        raise _cannot(text, read.stopped.at if read.stopped else 0, "the plan cannot be read", by_hand)
    if read.faults:
        raise _cannot(text, read.faults[0][0].at, f"first mend this: {read.faults[0][0].sentence}", by_hand)
    return read.root


def _cannot(text: str, at: int, reason: str, by_hand: str) -> CannotSplice:
    return CannotSplice(reason, *line_and_column(text, at), by_hand)


def _walk(root: Node) -> list[tuple[list[str], Node]]:
    """Every node with its path, aliases followed each time they occur."""
    found: list[tuple[list[str], Node]] = []
    waiting: list[tuple[list[str], Node]] = [([], root)]
    while waiting:
        path, node = waiting.pop()
        found.append((path, node))
        if isinstance(node, Mapping):
            waiting.extend(([*path, name], value) for name, _, value in node)
        elif isinstance(node, Sequence):
            waiting.extend(([*path, str(index)], item) for index, item in enumerate(node.items))
    return found


def _refuse_shared(text: str, node: Node, times: int, by_hand: str) -> None:
    """A value that an anchor names, that an alias points to, or with a comment inside brackets, is left alone."""
    if times > 1:
        raise _cannot(text, node.start, "this value is used in several places with * and &", by_hand)
    line = text[text.rfind("\n", 0, node.start) + 1 : node.start].rstrip()
    word = line.rsplit(None, 1)[-1] if line else ""
    if word[:1] in ("&", "!") or word.lstrip("[{,")[:1] in ("&", "!"):
        raise _cannot(text, node.start, "this value has a name or a type given with & or !", by_hand)
    if getattr(node, "flow", False) and _comment_inside(text[node.start : node.end]):
        raise _cannot(text, node.start, "there is a comment inside these brackets", by_hand)


def _comment_inside(flow: str) -> bool:
    """Whether a # starts a comment inside a flow value: after a blank or line start, and outside quotes."""
    quote, before = "", " "
    for char in flow:
        if quote:
            quote = "" if char == quote and before != "\\" else quote
        elif char in "\"'" and before in " \n[{,:":
            quote = char
        elif char == "#" and before in " \t\n[{,":
            return True
        before = char
    return False


def _replaced(text: str, root: Mapping, path: Path, old: Node, new_text: str) -> str:
    new_text = new_text.replace("\r\n", "\n").replace("\n", _newline(text))
    start, end = old.start, old.end
    if start == end or _is_block(old):
        colon = text.rfind(":", 0, start)
        if start != end:
            return _checked(text, _block_replaced(text, old, colon, new_text), root, path, new_text, new_text)
        new_text = new_text if text[start - 1 : start].isspace() else " " + new_text
        blanks = len(text[end:]) - len(text[end:].lstrip(" "))
        end += blanks if text[end + blanks : end + blanks + 1] in (",", "}", "]") else 0
        if text[end : end + 1] not in ("", "\n", "\r", " ", "}", "]", ","):
            new_text += " "
    return _checked(text, text[:start] + new_text + text[end:], root, path, new_text, new_text)


def _is_block(node: Node) -> bool:
    return isinstance(node, Mapping | Sequence) and not node.flow


def _block_replaced(text: str, old: Node, colon: int, new_text: str) -> str:
    """A block list or map gives way to a value on the line of its key, unless comments inside would be lost."""
    gone = text[colon + 1 : old.end]
    if any("#" in line for line in gone.split("\n")):
        raise _cannot(text, old.start, "there are comments among these lines", new_text.strip())
    return text[: colon + 1] + " " + new_text.strip() + text[old.end :]


def _added(text: str, into: Mapping, key: str, new_text: str, by_hand: str) -> str:
    """The text with one more entry at the end of a map."""
    entry = f"{key}: {new_text}"
    if into.flow:
        closing = into.end - 1
        inside = text[into.start + 1 : closing].rstrip()
        if not inside:
            return text[: into.start + 1] + entry + text[closing:]
        at = into.start + 1 + len(inside)
        joint = " " if inside.endswith(",") else " , " if inside.endswith(":") else ", "
        return text[:at] + joint + entry + text[at:]
    if not into.entries:
        raise _cannot(text, into.start, "the map is empty", by_hand)
    last_key, last = list(into.entries.values())[-1]
    first_key = next(iter(into.entries.values()))[0]
    after = text.find("\n", max(last.end, last_key.end))
    newline = _newline(text)
    indent = " " * (first_key.column - 1)
    if after < 0:
        return text + newline + indent + entry
    return text[: after + 1] + indent + entry + newline + text[after + 1 :]


def _same_items(old: Sequence, new_text: str) -> list[int] | None:
    """The order that makes the new list of the old items, or None where they are not the same plain items."""
    new = compose(f"a: {new_text}\n").root
    wanted = plain(new)["a"] if isinstance(new, Mapping) and isinstance(new.get("a"), Sequence) else None
    have = plain(old)
    if wanted is None or len(wanted) != len(have) or any(not isinstance(item, str) for item in have):
        return None
    places = {item: index for index, item in enumerate(have)}
    if len(places) != len(have) or set(places) != {i for i in wanted if isinstance(i, str)}:
        return None
    return [places[item] for item in wanted]


def _item_lines(text: str, node: Sequence, by_hand: str) -> list[tuple[int, int]]:
    """Offsets of the lines of each item: from the comments right above its dash to before those of the next."""
    dashes: list[int] = []
    for item in node.items:
        start = text.rfind("\n", 0, item.start) + 1
        head = text[start : item.start]
        if head.lstrip()[:1] != "-" or head.lstrip(" -").strip():
            raise _cannot(text, item.start, "this item does not start on a line of its own", by_hand)
        dashes.append(start)
    if len(set(dashes)) != len(dashes):
        raise _cannot(text, node.start, "two items stand on one line", by_hand)
    starts = [_with_comments(text, dash, dashes[index - 1] if index else None) for index, dash in enumerate(dashes)]
    last_end = text.find("\n", node.items[-1].end)
    ends = [*starts[1:], len(text) if last_end < 0 else last_end + 1]
    return list(zip(starts, ends, strict=True))


def _with_comments(text: str, dash: int, above: int | None) -> int:
    """The start of the whole-line comments right above a dash, as deep as it; the first item keeps to its own line
    unless they are indented like it."""
    indent = len(text[dash:]) - len(text[dash:].lstrip(" "))
    while dash > 0:
        before = text.rfind("\n", 0, dash - 1) + 1
        line = text[before:dash]
        lead = len(line) - len(line.lstrip(" "))
        if not line.lstrip().startswith("#") or lead != indent or before == above:
            return dash
        dash = before
    return dash


def _newline(text: str) -> str:
    at = text.find("\n")
    return "\r\n" if at > 0 and text[at - 1] == "\r" else "\n"


def _at(data: Any, path: Path) -> Any:
    for name in path:
        data = data[int(name)] if isinstance(data, list) else data[name]
    return data


def _with(data: Any, path: Path, value: Any) -> Any:
    """Data with the value at a path replaced or, in a map, added."""
    if not path:
        return value
    name, rest = path[0], path[1:]
    if isinstance(data, list):
        return [_with(item, rest, value) if str(index) == name else item for index, item in enumerate(data)]
    return {**data, name: _with(data.get(name), rest, value)}


def _holds(root: Node | None, data: Any) -> bool:
    return root is not None and plain(root) == data


def _checked(text: str, new: str, root: Mapping, path: Path, new_text: str, by_hand: str) -> str:
    """The new text, if reading it again gives what was meant and nothing else."""
    meant = compose(f"a: {new_text.strip()}\n").root
    read = compose(new)
    if isinstance(meant, Mapping) and not read.faults and read.stopped is None:
        value = meant.get("a")
        if value is not None and _holds(read.root, _with(plain(root), path, plain(value))):
            return new
    old = _node_at(root, path)
    raise _cannot(text, old.start if old else 0, "the change would alter more than this value", by_hand.strip())


def _node_at(root: Node, path: Path) -> Node | None:
    node: Node | None = root
    for name in path:
        if isinstance(node, Mapping):
            node = node.get(name)
        elif isinstance(node, Sequence) and name.isdecimal() and int(name) < len(node.items):
            node = node.items[int(name)]
        else:
            return None
    return node
