"""From events to the tree: one loop without recursion, within limits, with what newcomers lose on the way put right."""

from __future__ import annotations

from typing import Any

from . import traps
from .events import Events, events_of
from .text import Fault, line_and_column
from .tree import Mapping, Node, Scalar, Sequence

DEEPEST = 64
MOST_NODES = 500_000
LONGEST_SCALAR = 64_000
MOST_FAULTS = 20


class Composed:
    """The root of a text (None where there is none), what stopped the reading, and what was met on the way: each fault
    with the path it was met at."""

    __slots__ = ("faults", "root", "stopped")

    def __init__(self) -> None:
        self.root: Node | None = None
        self.stopped: Fault | None = None
        self.faults: list[tuple[Fault, str]] = []


class _Stop(Exception):
    """Reading cannot go on; carries the fault."""

    def __init__(self, fault: Fault) -> None:
        self.fault = fault


class _Frame:
    """An open list or map: the node, the key that waits for its value, and what aliases need to know of it."""

    __slots__ = ("anchor", "first", "height", "items", "key", "lost", "node")

    def __init__(self, node: Mapping | Sequence, anchor: str | None, first: int) -> None:
        self.node = node
        self.items = node.items if isinstance(node, Sequence) else None
        self.anchor = anchor
        self.first = first
        self.height = 1
        self.key: Scalar | None = None
        self.lost: Scalar | None = None


class _Anchored:
    """What an anchor names: the node, how many nodes it holds and how deep; no node while it is still open."""

    __slots__ = ("height", "node", "size")

    def __init__(self, node: Node | None, size: int, height: int) -> None:
        self.node = node
        self.size = size
        self.height = height


def compose(text: str, file: int = 0, *, pure: bool | None = None) -> Composed:
    """The tree of a text. `file` is the index the nodes carry; `pure` picks the parser, see `events_of`."""
    done = Composed()
    builder = _Builder(text, file, done)
    try:
        builder.run(events_of(text, pure=pure))
    except _Stop as stop:
        done.root, done.stopped = None, stop.fault
    return done


class _Builder:
    """The state of one run over the events."""

    def __init__(self, text: str, file: int, done: Composed) -> None:
        self.text = text
        self.file = file
        self.done = done
        self.open: list[_Frame] = []
        self.count = 0
        self.documents = 0
        self.anchors: dict[str, _Anchored] = {}
        self.hashes = traps.glued_hashes(text)
        # Offsets and style of the last value: '' plain, a quote, '*' alias, ']' list or map in brackets.
        self.last: tuple[int, int, str] = (0, 0, "")

    def run(self, events: Events) -> None:
        """Feed every event to the step for its kind."""
        steps = {
            "ScalarEvent": self.scalar, "MappingStartEvent": self.starts, "SequenceStartEvent": self.starts,
            "MappingEndEvent": self.ends, "SequenceEndEvent": self.ends, "AliasEvent": self.alias,
            "DocumentStartEvent": self.document,
        }  # fmt: skip
        colon = events.colon
        by_class: dict[type, Any] = {}
        try:
            while (event := events.next()) is not None:
                kind = event.__class__
                if kind not in by_class:
                    by_class[kind] = steps.get(kind.__name__)
                step = by_class[kind]
                if step is not None:
                    step(event, colon)
        except events.error as error:
            from .diagnose import diagnose

            raise _Stop(diagnose(self.text, error, self.last)) from None

    def document(self, event: Any, _colon: str) -> None:
        self.documents += 1
        if self.documents > 1:
            raise _Stop(traps.second_document(event.start_mark.index))

    def scalar(self, event: Any, colon: str) -> None:
        value, style, mark = event.value, event.style, event.start_mark
        start, end, line, column = mark.index, event.end_mark.index, mark.line + 1, mark.column + 1
        if colon != ":" and colon in value:
            value = value.replace(colon, ":")
        anchor = event.anchor
        if anchor is not None or event.ctag is not None:
            start, line, column = self.past_anchor(event)
        if style in ("|", ">"):
            end = start + len(self.text[start:end].rstrip())
        self.last = (start, end, style or "")
        if len(value) > LONGEST_SCALAR:
            raise _Stop(traps.scalar_too_long(start, len(value), LONGEST_SCALAR))
        node = Scalar(self.file, line, column, start, end, value, bool(style))
        if end in self.hashes and not style and start != end:
            self.glued(node)
        self.count += 1
        if self.count > MOST_NODES:
            raise _Stop(traps.too_many(start, MOST_NODES))
        if self.open and anchor is None:
            # The three ways nearly every scalar of a plan goes, without a detour.
            frame = self.open[-1]
            if frame.items is not None:
                frame.items.append(node)
            elif frame.key is None:
                frame.key = node
            else:
                key, frame.key = frame.key, None
                self.enter(frame, key, node)
            return
        self.take(node, anchor)

    def starts(self, event: Any, _colon: str) -> None:
        mark = event.start_mark
        start, line, column = mark.index, mark.line + 1, mark.column + 1
        if event.anchor is not None or event.ctag is not None:
            start, line, column = self.past_anchor(event)
        if len(self.open) >= DEEPEST:
            raise _Stop(traps.too_deep(start, DEEPEST))
        kind = Mapping if event.__class__.__name__ == "MappingStartEvent" else Sequence
        node = kind(self.file, line, column, start, event.end_mark.index, bool(event.flow_style))
        self.counted(start, 1)
        if self.open and self.open[-1].key is None and self.open[-1].items is None:
            raise _Stop(traps.name_is_no_word(self.text, start))
        self.open.append(_Frame(node, event.anchor, self.count))
        if event.anchor is not None:
            self.anchors[event.anchor] = _Anchored(None, 0, 0)

    def ends(self, event: Any, _colon: str) -> None:
        frame = self.open.pop()
        node: Node = frame.node
        if frame.node.flow:
            node.end = event.end_mark.index
            self.last = (node.start, node.end, "]")
        else:
            node.end = max(self.last[1], node.start)
        if frame.lost is not None and isinstance(node, Mapping):
            node = self.braced(node)
        size = self.count - frame.first + 1
        self.attach(node, frame.anchor, size, frame.height)

    def alias(self, event: Any, _colon: str) -> None:
        start = event.start_mark.index
        self.last = (start, event.end_mark.index, "*")
        known = self.anchors.get(event.anchor)
        if known is None:
            raise _Stop(traps.starred(self.text, start, event.anchor))
        if known.node is None:
            raise _Stop(traps.alias_of_itself(start, event.anchor))
        if len(self.open) + known.height > DEEPEST:
            raise _Stop(traps.too_deep(start, DEEPEST))
        self.counted(start, known.size)
        self.take(known.node, None, known)

    def take(self, node: Node, anchor: str | None, known: _Anchored | None = None) -> None:
        """A node that is whole: the next key of a map, or a value."""
        frame = self.open[-1] if self.open else None
        if frame is not None and frame.key is None and frame.items is None:
            if not isinstance(node, Scalar):
                raise _Stop(traps.name_is_no_word(self.text, node.start))
            frame.key = node
            if anchor is not None:
                self.anchors[anchor] = _Anchored(node, 1, 0)
            return
        self.attach(node, anchor, known.size if known else 1, known.height if known else 0)

    def attach(self, node: Node, anchor: str | None, size: int, height: int) -> None:
        """Hang a finished node into what is open."""
        if anchor is not None:
            self.anchors[anchor] = _Anchored(node, size, height)
        if not self.open:
            self.done.root = node
            return
        frame = self.open[-1]
        if height >= frame.height:
            frame.height = height + 1
        if frame.items is not None:
            frame.items.append(node)
            return
        key, frame.key = frame.key, None
        if key is not None:
            self.enter(frame, key, node)

    def enter(self, frame: _Frame, key: Scalar, node: Node) -> None:
        """One entry of a map, unless it is a trap."""
        name, into = key.text, frame.node
        assert isinstance(into, Mapping)
        if into.flow and node.start == node.end and ":" not in self.text[key.end : node.start]:
            self.report(traps.no_value(self.text, into, key))
            if not into.entries and frame.lost is None:
                frame.lost = key
            return
        if not key.quoted and (not name or name == "<<" or name[0] > "\x7f"):
            trap = traps.bad_key(key, self.text)
            if trap is not None:
                raise _Stop(trap)
        if node.start == node.end and node.__class__ is Scalar:
            self.empty(key, node)
        first = into.entries.get(name)
        if first is not None:
            self.report(traps.written_twice(key, first[0], isinstance(node, Mapping)))
            return
        into.entries[name] = (key, node)

    def empty(self, key: Scalar, node: Node) -> None:
        """An empty value stands right behind its colon, wherever the parser put it."""
        after = self.text.find(":", key.end, node.start) + 1
        if after:
            if "\n" not in self.text[key.start : after]:
                node.line, node.column = key.line, key.column + after - key.start
            node.start = node.end = after
            self.last = (after, after, "")
        if node.end in self.hashes and isinstance(node, Scalar):
            self.glued(node)

    def glued(self, node: Scalar) -> None:
        lost = traps.after_hash(self.text, node, self.hashes[node.end])
        if lost is not None:
            self.report(lost)

    def braced(self, node: Mapping) -> Node:
        """A map of nothing but words without values was text in braces."""
        if node.entries or not self.open:
            return node
        return Scalar(self.file, node.line, node.column, node.start, node.end, self.text[node.start : node.end], False)

    def counted(self, at: int, more: int) -> None:
        self.count += more
        if self.count > MOST_NODES:
            raise _Stop(traps.too_many(at, MOST_NODES))

    def past_anchor(self, event: Any) -> tuple[int, int, int]:
        """Refuse a tag; step over an anchor to the offset, line and column of the value it names."""
        start = event.start_mark.index
        if event.ctag is not None:
            raise _Stop(traps.tagged(self.text, start))
        after = start + 1 + len(event.anchor)
        at = after + len(self.text[after:]) - len(self.text[after:].lstrip())
        return at, *line_and_column(self.text, at)

    def report(self, fault: Fault) -> None:
        if len(self.done.faults) < MOST_FAULTS:
            keys = [frame.key.text for frame in self.open if frame.key is not None]
            self.done.faults.append((fault, ".".join(keys)))
