"""Changes to the text of a plan: tried on its tree, and written by splicing, with everything else untouched."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record, replace
from ..source.compose import compose
from ..source.splice import CannotSplice, plain, replace_value, scalar, set_in_map
from ..source.tree import Mapping, Node, Scalar, Sequence

if TYPE_CHECKING:
    from ..source import Source


@record
class Edit:
    """One changed value: the keys to it, its new text as YAML, and where its key changes with it the new key. `values`
    counts the values that change, for an order the entries that move."""

    path: tuple[str, ...]
    text: str
    key: str = ""
    values: int = 1

    @property
    def line(self) -> str:
        """As it is written by hand: the keys, and the value."""
        return f"{'.'.join((*self.path[:-1], self.key or self.path[-1]))}: {self.text}"


def edited(source: Source, edits: tuple[Edit, ...]) -> Source:
    """What reading the changed text would give, without its new lines: changed values keep the place of the old."""
    root = source.root
    for edit in edits:
        assert root is not None
        root = _set(root, edit.path, edit)
    return replace(source, root=root)


def _set(into: Mapping, path: tuple[str, ...], edit: Edit) -> Mapping:
    name, rest = path[0], path[1:]
    made = Mapping(into.file, into.line, into.column, into.start, into.end, into.flow)
    made.entries = dict(into.entries)
    known = into.entries.get(name)
    if rest:
        below = known[1] if known is not None and isinstance(known[1], Mapping) else _empty(into)
        made.entries[name] = (known[0] if known is not None else _named(into, name), _set(below, rest, edit))
        return made
    like = known[1] if known is not None else into
    value = _placed(_value(edit.text), like)
    if edit.key:
        made.entries = {
            (edit.key if old == name else old): ((_named(pair[0], edit.key), value) if old == name else pair)
            for old, pair in made.entries.items()
        }
    else:
        made.entries[name] = (known[0] if known is not None else _named(into, name), value)
    return made


def _value(text: str) -> Node:
    root = compose(f"a: {text}\n").root
    value = root.get("a") if isinstance(root, Mapping) else None
    assert value is not None
    return value


def _empty(like: Node) -> Mapping:
    return Mapping(like.file, like.line, like.column, like.start, like.end, True)


def _named(like: Node, name: str) -> Scalar:
    return Scalar(like.file, like.line, like.column, like.start, like.end, name, False)


def _placed(node: Node, like: Node) -> Node:
    """The node with the place of another, all the way down."""
    node.file, node.line, node.column, node.start, node.end = like.file, like.line, like.column, like.start, like.end
    children: list[Node] = node.items if isinstance(node, Sequence) else []
    if isinstance(node, Mapping):
        children = [part for key, value in node.entries.values() for part in (key, value)]
    for child in children:
        _placed(child, like)
    return node


def spliced(source: Source, edits: tuple[Edit, ...]) -> dict[int, str]:
    """Index of each changed file -> its new text. Raises `CannotSplice` where a text does not allow it."""
    texts: dict[int, str] = {}
    for edit in edits:
        index = _file_of(source, edit.path)
        text = texts.get(index, source.files[index].text)
        texts[index] = _spliced(text, edit)
    return texts


def _file_of(source: Source, path: tuple[str, ...]) -> int:
    """The file in which the deepest written part of a path stands."""
    node: Node | None = source.root
    index = 0
    for name in path:
        node = node.get(name) if isinstance(node, Mapping) else None
        if node is None:
            break
        index = node.file
    return index


def _spliced(text: str, edit: Edit) -> str:
    root = compose(text).root
    node: Node | None = root
    deep = 0
    while deep < len(edit.path) - 1 and isinstance(node, Mapping) and isinstance(node.get(edit.path[deep]), Mapping):
        node = node.get(edit.path[deep])
        deep += 1
    if edit.key and isinstance(node, Mapping) and deep == len(edit.path) - 1:
        return _renamed(text, node, edit)
    missing = edit.path[deep + 1 :]
    value = edit.text
    for name in reversed(missing):
        value = f"{{{name}: {value}}}"
    if deep == 2 and edit.path[0] == "days" and edit.path[2:] == ("order",):
        from ..order.write import line_by_line

        listed = _value(edit.text)
        if isinstance(listed, Sequence):
            kept = line_by_line(text, edit.path[1], tuple(plain(listed)))
            if kept is not None:
                return kept
    return set_in_map(text, list(edit.path[:deep]), edit.path[deep], value)


def _renamed(text: str, holder: Mapping, edit: Edit) -> str:
    """The entry's key and value both changed; what was read again must hold just that."""
    entry = holder.entries.get(edit.path[-1])
    if entry is None:
        raise CannotSplice(f"there is no '{edit.path[-1]}' here", holder.line, holder.column, edit.line)
    key, value = entry
    if value.end > value.start:
        text = replace_value(text, value, edit.text) if text[value.start : value.end] != edit.text else text
    new = text[: key.start] + edit.key + text[key.end :]
    read = compose(new)
    before = compose(text).root
    meant = edited_data(plain(before), edit) if before is not None else None
    if read.stopped is not None or read.faults or read.root is None or plain(read.root) != meant:
        raise CannotSplice("the key cannot be told apart from its line", key.line, key.column, edit.line)
    return new


def edited_data(data: object, edit: Edit) -> object:
    """Plain data with the key of an edit renamed."""
    if not isinstance(data, dict):
        return data
    if len(edit.path) == 1:
        return {(edit.key if name == edit.path[0] else name): value for name, value in data.items()}
    below = replace(edit, path=edit.path[1:])
    return {name: edited_data(value, below) if name == edit.path[0] else value for name, value in data.items()}


def yaml_list(items: tuple[str, ...]) -> str:
    """A list in brackets."""
    return "[" + ", ".join(scalar(item) for item in items) + "]"
