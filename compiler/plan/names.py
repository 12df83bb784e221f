"""Every name of a plan, gathered from its tree before anything is decoded, and how a name is found.

A name that is unique may drop its front: `office` finds `landing/office`. Rooms, doors, windows and circuits are
known by their whole name from then on.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..source.tree import Mapping, Node, Scalar, Sequence

if TYPE_CHECKING:
    from collections.abc import Iterator

_TOP = ("gear", "stock", "people", "days", "locations", "scenes", "setups")
_WORDS = {
    "on": ("ceiling", "floor", "table", "wall", "hand"),
    "held-by": ("any",),
    "battery": ("own",),
    "circuit": (),
    "hands": ("any",),
}
COMPASS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
PLAIN_WALLS = ("south", "east", "north", "west")


class Names:
    """The names of a plan. `enter` and `leave` follow decoding into a place, a set or a setup, so that a window, a
    mark or a circuit is looked for where the plan speaks."""

    def __init__(self, root: Mapping) -> None:
        self._of: dict[str, dict[str, str]] = {f: {n: n for n in _keys(root.get(f))} for f in _TOP}
        self._marks: dict[str, set[str]] = {}
        self._mirrors: dict[str, set[str]] = {}
        self._walls: dict[str, tuple[str, ...]] = {}
        self._of["shots"] = {n: n for s in _maps(root.get("scenes")) for n in _keys(s[1].get("shots"))}
        self._of["compass"] = {n: n for n in COMPASS}
        self._of["gear-or-stock"] = {**self._of["gear"], **self._of["stock"]}
        self._local: dict[str, dict[str, str]] = {"windows": {}, "openings": {}, "circuits": {}}
        self._of["sets"] = {}
        for place, body in _maps(root.get("locations")):
            for name in _keys(body.get("circuits")):
                self._local["circuits"][f"{place}/{name}"] = name
            for room, inner in _maps(body.get("sets")):
                self._add_set(f"{place}/{room}", inner)
        self._behind = self._doors_behind(root)
        self._characters = _characters(root)
        self._setup_sets = {n: _text(b.get("set")) for n, b in _maps(root.get("setups"))}
        self._shot_setups = {
            n: _text(b.get("setup")) for _, s in _maps(root.get("scenes")) for n, b in _maps(s.get("shots"))
        }
        self._parts = {
            *self._characters,
            *(c for _, s in _maps(root.get("scenes")) for c in _texts(s.get("characters"))),
        }
        self._lists = False
        self._location = self._set = self._lamp_set = ""

    def _add_set(self, full: str, body: Mapping) -> None:
        self._of["sets"][full] = full
        for name in _keys(body.get("windows")):
            self._local["windows"][f"{full}/{name}"] = self._local["openings"][f"{full}/{name}"] = name
        for name in _keys(body.get("doors")):
            self._local["openings"][f"{full}/{name}"] = name
        outline = body.get("outline")
        corners = len(outline.items) if isinstance(outline, Sequence) else 0
        self._walls[full] = tuple(f"wall-{i + 1}" for i in range(corners)) or PLAIN_WALLS
        self._mirrors[full] = set(_keys(body.get("mirrors")))
        self._marks[full] = {
            *_keys(body.get("marks")),
            *_keys(body.get("furniture")),
            *_keys(body.get("doors")),
            *_keys(body.get("windows")),
            *self._mirrors[full],
        }

    def _doors_behind(self, root: Mapping) -> dict[str, str]:
        """A door as the room behind it calls it -> its whole name: it is written once and has two sides."""
        found: dict[str, str] = {}
        for place, body in _maps(root.get("locations")):
            self._location = place
            for room, inner in _maps(body.get("sets")):
                for name, door in _maps(inner.get("doors")):
                    if behind := self.find("sets", _text(door.get("leads-to"))):
                        found.setdefault(f"{behind}/{name}", f"{place}/{room}/{name}")
        self._location = ""
        return found

    def enter(self, noun: str, name: str, body: Node) -> None:
        """Decoding goes into this entry."""
        if noun == "location":
            self._location, self._set = name, ""
        elif noun == "set":
            self._set = self._lamp_set = f"{self._location}/{name}"
        elif noun == "scene":
            self._lists = isinstance(body, Mapping) and bool(_texts(body.get("characters")))
        elif noun in ("setup", "shot"):
            setup = name if noun == "setup" else self._shot_setups.get(name, "")
            self._set = self._lamp_set = self.find("sets", self._setup_sets.get(setup, "")) or ""
            self._location = self._set.split("/")[0]
        elif noun == "light" and isinstance(body, Mapping) and (other := _text(body.get("in"))):
            self._lamp_set = self.find("sets", other) or self._set

    def leave(self, noun: str) -> None:
        """Decoding comes out of an entry of this noun."""
        if noun in ("setup", "shot", "location"):
            self._location = self._set = self._lamp_set = ""
        elif noun == "light":
            self._lamp_set = self._set
        elif noun == "scene":
            self._lists = False

    def full(self, noun: str, name: str) -> str:
        """The whole name of an entry of this noun, where decoding stands."""
        if noun == "set":
            return f"{self._location}/{name}"
        if noun in ("window", "door"):
            return f"{self._set}/{name}"
        return f"{self._location}/{name}" if noun == "circuit" else name

    def find(self, family: str, text: str, word_key: str = "") -> str | None:
        """The name that a text means, or None. `word_key` lets the words of that key stand for themselves."""
        if word_key and text in _WORDS.get(word_key, ()):
            return text
        if family in self._local:
            return self._find_local(family, text)
        if family == "parts":
            return text if text in self._of["people"] or self.has_part(text) else None
        if family == "marks":
            return text if self.has_mark(text, "") else None
        if family == "mirrors":
            return text if text in self._mirrors.get(self._set, ()) or not self._set else None
        known = self._of[family]
        if text in known:
            return text
        if family == "sets" and text:
            near = [n for n in known if n.endswith(f"/{text}")]
            here = [n for n in near if n.startswith(f"{self._location}/")]
            return here[0] if len(here) == 1 else near[0] if len(near) == 1 else None
        return None

    def _find_local(self, family: str, text: str) -> str | None:
        known = self._local[family]
        front = self._location if family == "circuits" else self._set
        for full in (f"{front}/{text}", f"{self._location}/{text}", text):
            if full in known:
                return full
            if family == "openings" and full in self._behind:
                return self._behind[full]
        near = [full for full in known if full.endswith(f"/{text}")] if "/" in text or not front else []
        return near[0] if len(near) == 1 else None

    def walls(self) -> tuple[str, ...]:
        """The names of the walls of the set where decoding stands."""
        return self._walls.get(self._set, PLAIN_WALLS)

    def has_mark(self, text: str, key: str) -> bool:
        """Whether a place may be told from this name; a lamp in another set counts its own place there."""
        here = self._lamp_set if key == "at" else self._set
        return text in self._marks.get(here, ()) or not here

    def alike(self, family: str, text: str) -> list[str]:
        """The whole names that a short one may mean, where it means more than one."""
        known = self._local[family] if family in self._local else self._of.get(family, {})
        found = [full for full in known if full.endswith(f"/{text}")]
        return found if len(found) > 1 else []

    def cast(self, character: str, text: str) -> tuple[str, str] | None:
        """Character and person meant: a list names either, a map says who doubles whom."""
        if text in self._of["people"]:
            return character or self._plays(text) or text, text
        if not character and text in self._characters:
            return text, self._characters[text]
        return None

    def is_part(self, character: str) -> bool:
        """Whether a scene lists a character, or somebody plays it."""
        return character in self._parts

    def has_part(self, character: str) -> bool:
        """Whether somebody plays a character or a scene has it. A new one may come in where it is doubled, unless it
        is spelt nearly like another, or the scene lists who is in it."""
        if character in self._parts or not self._parts:
            return True
        from .speech import nearest

        return not self._lists and not nearest(character, self._parts)

    def _plays(self, person: str) -> str:
        return next((c for c, p in self._characters.items() if p == person), "")

    def known(self, family: str) -> set[str]:
        """The names one could have meant, as a plan would write them here."""
        if family == "cast":
            return {*self._of["people"], *self._characters}
        if family == "parts":
            return set(self._parts)
        if family in ("marks", "mirrors"):
            return set((self._marks if family == "marks" else self._mirrors).get(self._set, ()))
        if family in self._local:
            front = f"{self._location if family == 'circuits' else self._set}/"
            behind = {full: full.rsplit("/", 1)[-1] for full in self._behind} if family == "openings" else {}
            return {short for full, short in {**self._local[family], **behind}.items() if full.startswith(front)}
        return set(self._of[family]) | ({n.split("/")[-1] for n in self._of["sets"]} if family == "sets" else set())


def _keys(node: Node | None) -> list[str]:
    return list(node.entries) if isinstance(node, Mapping) else []


def _maps(node: Node | None) -> Iterator[tuple[str, Mapping]]:
    if isinstance(node, Mapping):
        for name, _, child in node:
            if isinstance(child, Mapping):
                yield name, child


def _texts(node: Node | None) -> list[str]:
    items = node.items if isinstance(node, Sequence) else [node]
    return [text for item in items if (text := _text(item))]


def _text(node: Node | None) -> str:
    return node.text if isinstance(node, Scalar) else ""


def _characters(root: Mapping) -> dict[str, str]:
    """Character -> person who plays it; the first in the plan where two do."""
    found: dict[str, str] = {}
    for person, body in _maps(root.get("people")):
        plays = body.get("plays")
        for node in plays.items if isinstance(plays, Sequence) else [plays]:
            if text := _text(node):
                found.setdefault(text, person)
    return found
