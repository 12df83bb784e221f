"""From the tree of a text to the nouns of a plan, with every problem met on the way.

Decoding follows the schema key by key; nothing is raised for bad input, nothing stops at the first problem. A value
that cannot be read is left out of its noun, and a finding says where, what and how to write it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ..findings import Finding, Related, Severity
from ..source.quantities import KINDS, QuantityError, parse
from ..source.tree import Mapping, Node, Scalar, Sequence
from . import speech
from .names import PLAIN_WALLS
from .schema import Key, Noun, noun
from .spots import Aim, Named, Point, Spot

if TYPE_CHECKING:
    from collections.abc import Callable

    from ..source import Source
    from .names import Names

MISSING: Any = object()
_TEXT_KINDS = frozenset({"text"})


class Decoder:
    """Decodes one plan. `names` knows every name of the plan before the first noun is decoded."""

    def __init__(self, source: Source, names: Names) -> None:
        self.source = source
        self.names = names
        self.findings: list[Finding] = []
        self._readers: dict[str, Callable[[Node, Key, str], Any]] = {
            "enum": self._enum,
            "word": self._word,
            "name": self._name,
            "name-or-word": self._name,
            "names": self._names,
            "texts": self._texts,
            "noun": self._noun,
            "map": self._map,
            "list": self._list,
            "list-of": self._list_of,
            "map-of": self._map_of,
            "map-names": self._map_names,
            "cast": self._cast,
            "spot": self._spot,
            "aim": self._aim,
            "part": self._part,
            "wall": self._wall,
        }

    def say(
        self,
        rule: str,
        node: Node,
        path: str,
        sentence: str,
        ways_out: tuple[str, ...] = (),
        *,
        severity: Severity = "error",
        related: tuple[Related, ...] = (),
    ) -> None:
        """Report a finding at a node of the text."""
        place = self.source.place(node, path)
        self.findings.append(Finding(rule, severity, sentence, place, related, ways_out))

    def decode(self, node: Node, what: Noun, path: str, id: str = "", *, part: bool = False) -> Any:
        """One noun from its map, or from its short form; None where nothing can be made of it."""
        if isinstance(node, Mapping):
            return self._decode_map(node, what, path, id, part)
        if what.short and isinstance(node, (Scalar, Sequence)) and not _is_empty(node):
            key = what.keys[what.short]
            value = self._value(node, key, path)
            return what.cls(id=id, path=path, **({} if value is MISSING else {key.field: value}))
        if _is_empty(node) and (part or not what.required):
            return what.cls(id=id, path=path)
        self.say("wrong-kind", node, path, *speech.wants_map(node, what, path))
        return None

    def _decode_map(self, node: Mapping, what: Noun, path: str, id: str, part: bool) -> Any:
        values: dict[str, Any] = {"id": id, "path": path}
        kind = node.get("kind") if what.name == "gear" else None
        for text, (key_node, child) in node.entries.items():
            key = what.keys.get(text)
            if key is None:
                here = f"{path}.{text}" if path else text
                self.say("unknown-key", key_node, here, *speech.unknown_key(text, what, path))
                continue
            if key.for_kinds and isinstance(kind, Scalar) and kind.text not in key.for_kinds:
                if kind.text not in what.keys["kind"].words:
                    continue  # the kind itself is told to be none
                self.say("wrong-kind", key_node, f"{path}.{text}", *speech.key_of_other_kind(key, kind.text))
                continue
            if key.measured and isinstance(kind, Scalar) and isinstance(child, Scalar):
                self._measured(child, key, key.measured.get(kind.text, ""), f"{path}.{text}")
            value = self._value(child, key, f"{path}.{text}" if path else text)
            if value is not MISSING:
                values[key.field] = value
        if not part:
            for text in what.required:
                if text not in node.entries:
                    self.say("missing-key", node, path, *speech.missing_key(what.keys[text], what, path))
        return what.cls(**values)

    def _measured(self, node: Scalar, key: Key, kind: str, path: str) -> None:
        """A text that is a quantity where it begins with a number; a mount may do so, too, unless it is all number."""
        bare = speech.quantity_rule(node.text, kind) == "missing-unit"
        if not kind or not node.text[:1].isdigit() or (kind == "length" and not bare):
            return
        try:
            parse(kind, node.text)
        except QuantityError as e:
            self.say(speech.quantity_rule(node.text, kind), node, path, *speech.bad_quantity(key.name, e))

    def _value(self, node: Node, key: Key, path: str) -> Any:
        reader = self._readers.get(key.kind)
        if reader is not None:
            return reader(node, key, path)
        value = self._scalar(node, key.kind, key.name, path, key.example)
        if key.above_zero and value is not MISSING and _nothing(value):
            self.say("bad-quantity", node, path, *speech.nothing_at_all(key, node))
            return MISSING
        return value

    def _scalar(self, node: Node, kind: str, key: str, path: str, example: str = "") -> Any:
        """A quantity or a text of this kind. A room has three sides, an outdoor area or a table top two."""
        if kind == "room-size":
            sides = node.text.count("x") if isinstance(node, Scalar) else 2
            kind = "size" if sides == 1 else "box"
        if not isinstance(node, Scalar):
            return self._refuse(node, path, speech.wants_scalar(node, key, KINDS[kind]))
        if _is_empty(node):
            return self._refuse(node, path, speech.nothing_written(key, KINDS[kind].example))
        if kind in _TEXT_KINDS:
            return node.text
        try:
            return parse(kind, node.text, example)
        except QuantityError as e:
            said = speech.clock_not_length(key, node.text) if kind == "duration" else None
            self.say(speech.quantity_rule(node.text, kind), node, path, *(said or speech.bad_quantity(key, e)))
            return MISSING

    def _refuse(self, node: Node, path: str, words: tuple[str, tuple[str, ...]]) -> Any:
        self.say("wrong-kind", node, path, *words)
        return MISSING

    def _text_of(self, node: Node, key: Key, path: str) -> str | None:
        if isinstance(node, Scalar) and not _is_empty(node):
            return node.text
        self.say("wrong-kind", node, path, *speech.wants_word(node, key))
        return None

    def _enum(self, node: Node, key: Key, path: str) -> Any:
        text = self._text_of(node, key, path)
        if text is None:
            return MISSING
        if text in key.words:
            return text
        return self._refuse(node, path, speech.not_among(text, key.name, key.words))

    def _word(self, node: Node, key: Key, path: str) -> Any:
        text = self._text_of(node, key, path)
        if text is None:
            return MISSING
        if text in (*key.words, "true", "yes"):
            return True
        return self._refuse(node, path, speech.not_among(text, key.name, key.words))

    def _wall(self, node: Node, key: Key, path: str) -> Any:
        """A wall of the set; of the room behind a door, whose outline is not known here, any name a wall can have."""
        text = self._text_of(node, key, path)
        walls = self.names.walls()
        if text is None or text in walls:
            return MISSING if text is None else text
        if path.endswith(".there.wall") and text in (*PLAIN_WALLS, f"wall-{text[5:]}") and text != "wall-":
            return text
        self.say("unknown-name", node, path, *speech.unknown_wall(text, walls))
        return MISSING

    def _name(self, node: Node, key: Key, path: str) -> Any:
        text = self._text_of(node, key, path)
        if text is None:
            return MISSING
        found = self.names.find(key.of, text, key.name if key.kind == "name-or-word" else "")
        if found is None:
            self.say("unknown-name", node, path, *speech.unknown_name(text, key, self.names))
            return MISSING
        return found

    def _names(self, node: Node, key: Key, path: str) -> Any:
        return tuple(v for v in (self._name(n, key, p) for n, p in _each(node, path)) if v is not MISSING)

    def _texts(self, node: Node, key: Key, path: str) -> Any:
        return tuple(v for v in (self._text_of(n, key, p) for n, p in _each(node, path)) if v is not None)

    def _noun(self, node: Node, key: Key, path: str) -> Any:
        value = self.decode(node, noun(key.of), path, key.name)
        return MISSING if value is None else value

    def _part(self, node: Node, key: Key, path: str) -> Any:
        value = self.decode(node, noun(key.of), path, key.name, part=True)
        return MISSING if value is None else value

    def _list(self, node: Node, key: Key, path: str) -> Any:
        made = (self.decode(n, noun(key.of), p) for n, p in _each(node, path))
        return tuple(v for v in made if v is not None)

    def _list_of(self, node: Node, key: Key, path: str) -> Any:
        if key.of == "spot":
            if isinstance(node, Sequence):
                spots = (self._spot(n, key, f"{path}.{i}") for i, n in enumerate(node.items))
                return tuple(v for v in spots if v is not MISSING)
            return self._refuse(node, path, speech.wants_list(key))
        made = (self._scalar(n, key.of, key.name, p) for n, p in _each(node, path))
        return tuple(v for v in made if v is not MISSING)

    def _entries(self, node: Node, key: Key, path: str) -> list[tuple[str, Scalar, Node]]:
        """The entries of a map of names; findings for what is no map and for names that cannot be."""
        if _is_empty(node):
            return []
        if not isinstance(node, Mapping):
            self._refuse(node, path, speech.wants_named(node, key))
            return []
        return list(node)

    def _map(self, node: Node, key: Key, path: str) -> Any:
        found: dict[str, Any] = {}
        what = noun(key.of)
        for name, key_node, child in self._entries(node, key, path):
            if not speech.is_name(name):
                self.say("bad-name", key_node, f"{path}.{name}", *speech.bad_name(name, what))
                continue
            inner = f"{path}.{name}"
            self.names.enter(key.of, name, child)
            value = self.decode(child, what, inner, self._id_of(key, key_node, name, inner))
            self.names.leave(key.of)
            if value is not None:
                found[name] = value
        return found

    def _id_of(self, key: Key, key_node: Scalar, name: str, path: str) -> str:
        """Rooms, doors, windows and circuits are known by their whole name, whoever speaks of them."""
        if key.of == "treatment":
            full = self.names.find("windows", name)
            if full is None:
                self.say("unknown-name", key_node, path, *speech.unknown_name(name, key, self.names, "windows"))
            return full or name
        return self.names.full(key.of, name)

    def _map_of(self, node: Node, key: Key, path: str) -> Any:
        found: dict[str, Any] = {}
        for name, key_node, child in self._entries(node, key, path):
            if key.keys and self.names.find(key.keys, name) is None:
                words = speech.unknown_name(name, key, self.names, key.keys)
                self.say("unknown-name", key_node, f"{path}.{name}", *words)
                continue
            value = self._scalar(child, key.of, name, f"{path}.{name}")
            if value is not MISSING:
                found[name] = value
        return found

    def _map_names(self, node: Node, key: Key, path: str) -> Any:
        found = ((n, self._name(child, key, f"{path}.{n}")) for n, _, child in self._entries(node, key, path))
        return {n: v for n, v in found if v is not MISSING}

    def _cast(self, node: Node, key: Key, path: str) -> Any:
        """Pairs of character and person; a list names either."""
        pairs: list[tuple[str, str]] = []
        if isinstance(node, Mapping):
            wanted = [(name, child, f"{path}.{name}") for name, _, child in node]
            for name, key_node, _ in node:
                if not self.names.has_part(name):
                    words = speech.unknown_name(name, key, self.names, "parts")
                    self.say("unknown-name", key_node, f"{path}.{name}", *words)
        else:
            wanted = [("", child, p) for child, p in _each(node, path)]
        for character, child, inner in wanted:
            text = self._text_of(child, key, inner)
            pair = self.names.cast(character, text) if text is not None else None
            if pair is not None:
                pairs.append(pair)
            elif text is not None and not self.names.is_part(text):  # one that nobody plays has a rule of its own
                self.say("unknown-name", child, inner, *speech.unknown_name(text, key, self.names, "cast"))
        return tuple(pairs)

    def _spot(self, node: Node, key: Key, path: str) -> Any:
        if isinstance(node, Sequence):
            if better := speech.decimal_comma(node):
                return self._refuse(node, path, speech.with_points(key, better))
            made = [self._scalar(n, "length", key.name, f"{path}.{i}") for i, n in enumerate(node.items)]
            if len(made) != 2:
                return self._refuse(node, path, speech.wants_spot(node, key))
            return MISSING if MISSING in made else Point(*made)
        if not isinstance(node, Scalar) or _is_empty(node):
            return self._refuse(node, path, speech.wants_spot(node, key))
        if pair := speech.bare_pair(node.text):
            return self._refuse(node, path, speech.wants_brackets(node, key, pair))
        spot: Spot
        if speech.is_name(node.text):
            spot, marks = Named(node.text), [node.text]
        else:
            try:
                spot = parse("spot", node.text)
            except QuantityError as e:
                self.say("bad-quantity", node, path, *speech.bad_quantity(key.name, e))
                return MISSING
            marks = [getattr(spot, n) for n in ("mark", "start", "end") if hasattr(spot, n)]
        if unknown := [m for m in marks if not self.names.has_mark(m, key.name)]:
            self.say("unknown-name", node, path, *speech.unknown_name(unknown[0], key, self.names, "marks"))
            return MISSING
        return spot

    def _aim(self, node: Node, key: Key, path: str) -> Any:
        if isinstance(node, Scalar) and node.text == "down":
            return Aim(down=True)
        if not isinstance(node, Mapping):
            spot = self._spot(node, key, path)
            return MISSING if spot is MISSING else Aim(at=spot)
        values: dict[str, Any] = {}
        for name, key_node, child in node:
            inner = f"{path}.{name}"
            if name == "at":
                values["at"] = self._spot(child, key, inner)
            elif name == "height":
                values["height"] = self._scalar(child, "length", name, inner)
            elif name in ("in", "see"):
                values["mirror" if name == "in" else "sees"] = self._seen(child, key, inner, mirror=name == "in")
            else:
                self.say("unknown-key", key_node, inner, *speech.unknown_word(name, ("at", "height", "in", "see")))
        return Aim(**{k: v for k, v in values.items() if v is not MISSING})

    def _seen(self, node: Node, key: Key, path: str, *, mirror: bool) -> Any:
        """A mirror that is looked into, or the mark that is seen in it."""
        text = self._text_of(node, key, path)
        family = "mirrors" if mirror else "marks"
        if text is None or self.names.find(family, text):
            return MISSING if text is None else text
        self.say("unknown-name", node, path, *speech.unknown_name(text, key, self.names, family))
        return MISSING


def _is_empty(node: Node) -> bool:
    return isinstance(node, Scalar) and not node.quoted and node.text in ("", "~", "null")


def _each(node: Node, path: str) -> list[tuple[Node, str]]:
    """A list's items with their paths; a single value counts as a list of one, nothing as an empty list."""
    if isinstance(node, Sequence):
        return [(n, f"{path}.{i}") for i, n in enumerate(node.items)]
    return [] if _is_empty(node) else [(node, path)]


def _nothing(value: Any) -> bool:
    """Whether a quantity, the lower end of a range or one of several sides is zero or below."""
    if isinstance(value, tuple):
        return any(side <= 0 for side in value)
    return bool(getattr(value, "lo", value) <= 0)
