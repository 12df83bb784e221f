"""The tree of a plan's text: scalars as written, lists and maps, each with its exact place."""

from __future__ import annotations

from collections.abc import Iterator


class Node:
    """A value in the text. `file` is an index into the reader's list of files; `start`/`end` are character offsets
    into that file's decoded text; `line` and `column` count from 1."""

    __slots__ = ("column", "end", "file", "line", "start")

    def __init__(self, file: int, line: int, column: int, start: int, end: int) -> None:
        self.file = file
        self.line = line
        self.column = column
        self.start = start
        self.end = end


class Scalar(Node):
    """A scalar as written. `text` is the value after unquoting; `quoted` tells `"no"` from `no`.
    An empty value has text "" and quoted False."""

    __slots__ = ("quoted", "text")

    def __init__(self, file: int, line: int, column: int, start: int, end: int, text: str, quoted: bool) -> None:
        super().__init__(file, line, column, start, end)
        self.text = text
        self.quoted = quoted


class Sequence(Node):
    """A list, flow or block."""

    __slots__ = ("flow", "items")

    def __init__(self, file: int, line: int, column: int, start: int, end: int, flow: bool) -> None:
        super().__init__(file, line, column, start, end)
        self.flow = flow
        self.items: list[Node] = []


class Mapping(Node):
    """A map. `entries` keeps the order of the text: key text -> (key node, value node); a key written twice keeps
    its first value (the reader has already reported it)."""

    __slots__ = ("entries", "flow")

    def __init__(self, file: int, line: int, column: int, start: int, end: int, flow: bool) -> None:
        super().__init__(file, line, column, start, end)
        self.flow = flow
        self.entries: dict[str, tuple[Scalar, Node]] = {}

    def get(self, key: str) -> Node | None:
        entry = self.entries.get(key)
        return entry[1] if entry else None

    def __iter__(self) -> Iterator[tuple[str, Scalar, Node]]:
        for name, (key, value) in self.entries.items():
            yield name, key, value
