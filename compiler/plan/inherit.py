"""What a plan leaves unsaid: `like:`, what a set's setups share, and `defaults:`, laid under what is written.

Works on the tree, so that every value keeps the place where it was written. A key said again changes just that key,
inside maps too; a key that is another way of saying the same (a window is open, or blacked out, or tented) drops the
inherited ones together with their companions.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from ..findings import Finding, Related
from ..source import Source
from ..source.tree import Mapping, Node, Scalar, Sequence
from .names import Names

# Each group: ways that exclude one another, every way with the companions that make sense with it alone.
_WAYS: tuple[dict[str, tuple[str, ...]], ...] = (
    {
        "open": (),
        "black-out": ("layers-of", "overlap", "side"),
        "tent": ("depth", "layers-of", "overlap", "side"),
        "layers": ("side",),
    },
    {"at": ("in", "through"), "outside": ("away", "along")},
    {"circuit": ("lead",), "battery": ()},
    {"on": (), "held-by": ("during",)},
)
_SHARED = ("windows", "practicals", "dressing")
_TOLD = 12  # setups of a circle that are named; of a longer one the ends
_NOT_INHERITED = ("like", "remove", "held-until", "note")


class Expanded(NamedTuple):
    """The tree with everything inherited in it, the paths that a default filled, and what was wrong."""

    root: Mapping
    defaulted: frozenset[str]
    findings: list[Finding]


def expand(root: Mapping, names: Names, source: Source) -> Expanded:
    """Lay inheritance and defaults into the tree of a plan. The tree given stays as it is."""
    work = _Work(root, names, source)
    entries = dict(root.entries)
    setups = root.get("setups")
    if isinstance(setups, Mapping):
        entries["setups"] = (root.entries["setups"][0], work.setups(setups))
    grown = _copy(root, entries)
    defaults = root.get("defaults")
    if isinstance(defaults, Mapping):
        grown = work.defaults(grown, defaults)
    return Expanded(grown, frozenset(work.defaulted), work.findings)


def merge(base: Mapping, changes: Mapping) -> Mapping:
    """Changes laid over a base: new names are additions, a name said again changes, inside maps too."""
    entries = dict(base.entries)
    for group in _WAYS:
        written = [way for way in group if way in changes.entries]
        if written:
            keep = {written[0], *group[written[0]]}
            for way, companions in group.items():
                if way not in written:
                    for name in (way, *companions):
                        if name not in changes.entries and (way in base.entries or name not in keep):
                            entries.pop(name, None)
    for name, (key, node) in changes.entries.items():
        under = base.get(name)
        both = isinstance(under, Mapping) and isinstance(node, Mapping)
        entries[name] = (key, merge(under, node) if both else node)  # type: ignore[arg-type]
    return _copy(changes, entries)


def _copy(like: Mapping, entries: dict[str, tuple[Scalar, Node]]) -> Mapping:
    made = Mapping(like.file, like.line, like.column, like.start, like.end, like.flow)
    made.entries = entries
    return made


class _Work:
    def __init__(self, root: Mapping, names: Names, source: Source) -> None:
        self.root, self.names, self.source = root, names, source
        self.findings: list[Finding] = []
        self.defaulted: list[str] = []
        self._done: dict[str, Mapping] = {}
        self._cut_off: set[str] = set()

    def _say(
        self, rule: str, node: Node, path: str, words: tuple[str, tuple[str, ...]], related: tuple[Related, ...] = ()
    ) -> None:
        place = self.source.place(node, path)
        self.findings.append(Finding(rule, "error", words[0], place, related, words[1]))

    def setups(self, setups: Mapping) -> Mapping:
        """Every setup with what it inherits. Chains are followed without recursion, so that their length is no
        matter."""
        for name, _, node in setups:
            chain: list[tuple[str, Mapping]] = []
            on_chain: dict[str, None] = {}
            here: Node | None = node
            while isinstance(here, Mapping) and name not in self._done:
                if name in on_chain:
                    self._cycle(list(on_chain), name, setups)
                    break
                on_chain[name] = None
                chain.append((name, here))
                like = here.get("like")
                if not isinstance(like, Scalar):
                    break
                name = like.text
                here = setups.get(name)
            for link, body in reversed(chain):
                self._done[link] = self._setup(link, body)
        entries = {n: (key, self._done.get(n, node)) for n, key, node in setups}
        return _copy(setups, entries)

    def _cycle(self, chain: list[str], name: str, setups: Mapping) -> None:
        ring = [*chain[chain.index(name) :], name]
        first = min(ring[:-1], key=lambda n: setups.entries[n][0].start)
        at = ring.index(first)
        ring = [*ring[at:-1], *ring[: at + 1]]
        others = tuple(
            Related(self.source.place(setups.entries[n][0], f"setups.{n}"), "also in the circle")
            for n in ring[1:-1][:_TOLD]
        )
        told = ring if len(ring) <= _TOLD else [*ring[: _TOLD - 2], f"{len(ring) - _TOLD + 1} more", *ring[-1:]]
        words = f"setups that are like one another in a circle: {' -> '.join(told)}"
        self._say(
            "like-cycle",
            setups.entries[first][0],
            f"setups.{first}.like",
            (words, (f"take 'like:' out of one of them, and write '{first}' out in full",)),
            others,
        )

    def _setup(self, name: str, body: Mapping) -> Mapping:
        path = f"setups.{name}"
        for part in ("lights", "windows", "practicals", "grip"):
            inner = body.get(part)
            for entry, _, node in inner if isinstance(inner, Mapping) else ():
                if isinstance(node, Mapping):
                    self._one_way(node, f"{path}.{part}.{entry}")
        if isinstance(camera := body.get("camera"), Mapping):
            self._one_way(camera, f"{path}.camera")
        like = body.get("like")
        parent = self._done.get(like.text) if isinstance(like, Scalar) else None
        base = _copy(body, {k: v for k, v in parent.entries.items() if k not in _NOT_INHERITED} if parent else {})
        base = self._shared(base, parent, body)
        if isinstance(like, Scalar) and (parent is None or like.text in self._cut_off):
            self._cut_off.add(name)  # what it would inherit is not known, so nothing is said of what it removes
        else:
            base = self._remove(base, body, path)
        return merge(base, body)

    def _shared(self, base: Mapping, parent: Mapping | None, body: Mapping) -> Mapping:
        """What the set's setups share lies under what is inherited, once: the first time the set is named."""
        place = body.get("set")
        room = self.names.find("sets", place.text) if isinstance(place, Scalar) else None
        if not room or "/" not in room:
            return base
        inherited = parent.get("set") if parent else None
        if isinstance(inherited, Scalar) and self.names.find("sets", inherited.text) == room:
            return base
        node: Node | None = self.root
        for step in ("locations", room.split("/")[0], "sets", room.split("/")[1], "usual"):
            node = node.get(step) if isinstance(node, Mapping) else None
        if not isinstance(node, Mapping):
            return base
        known = {k: v for k, v in node.entries.items() if k in _SHARED}
        return merge(_copy(node, known), base)

    def _remove(self, base: Mapping, body: Mapping, path: str) -> Mapping:
        wanted = body.get("remove")
        items = wanted.items if isinstance(wanted, Sequence) else [wanted] if isinstance(wanted, Scalar) else []
        for item in items:
            if isinstance(item, Scalar) and item.text:
                without = _without(base, item.text.split("."))
                if without is None:
                    self._say(
                        "unknown-name",
                        item,
                        f"{path}.remove",
                        (
                            f"there is nothing at '{item.text}' that could be removed",
                            (f"write one of: {_paths(base)}", "or take it out of 'remove:'"),
                        ),
                    )
                else:
                    base = without
        return base

    def _one_way(self, node: Mapping, path: str) -> None:
        for group in _WAYS:
            written = [way for way in group if way in node.entries]
            if len(written) > 1:
                first, second = (node.entries[w][0] for w in written[:2])
                self._say(
                    "two-ways",
                    second,
                    f"{path}.{written[1]}",
                    (
                        f"'{written[0]}' and '{written[1]}' cannot both be said of '{path.rsplit('.', 1)[-1]}'",
                        (f"keep '{written[0]}' or '{written[1]}'",),
                    ),
                    (Related(self.source.place(first, f"{path}.{written[0]}"), f"'{written[0]}' stands here"),),
                )

    def defaults(self, root: Mapping, said: Mapping) -> Mapping:
        """Lay each part of `defaults:` under every noun it speaks of."""
        plain = (("day", "days"), ("person", "people"), ("gear", "gear"), ("scene", "scenes"), ("setup", "setups"))
        for word, family in plain:
            if isinstance(part := said.get(word), Mapping):
                root = self._each(root, family, lambda b, p, part=part: self._under(part, b, p))  # type: ignore[misc]
        if isinstance(part := said.get("shot"), Mapping):
            root = self._each(root, "scenes", lambda b, p: self._each(b, "shots", self._laid(part), p))
        if isinstance(camera := said.get("camera"), Mapping):
            root = self._each(root, "setups", lambda b, p: self._camera(b, p, camera))
        if isinstance(light := said.get("light"), Mapping):
            root = self._each(root, "setups", lambda b, p: self._each(b, "lights", self._laid(light), p))
        return root

    def _laid(self, part: Mapping) -> Callable[[Mapping, str], Mapping]:
        return lambda body, path: self._under(part, body, path)

    def _camera(self, body: Mapping, path: str, part: Mapping) -> Mapping:
        camera = body.get("camera")
        if not isinstance(camera, Mapping):
            return body
        grown = self._under(part, camera, f"{path}.camera")
        return _copy(body, {**body.entries, "camera": (body.entries["camera"][0], grown)})

    def _under(self, part: Mapping, body: Mapping, path: str) -> Mapping:
        grown = merge(part, body)
        self.defaulted += [f"{path}.{k}" for k in grown.entries if k not in body.entries]
        return _copy(body, grown.entries)

    def _each(self, root: Mapping, family: str, change: Callable[[Mapping, str], Mapping], front: str = "") -> Mapping:
        held = root.get(family)
        if not isinstance(held, Mapping):
            return root
        path = f"{front}.{family}" if front else family
        entries = {
            n: (key, change(node, f"{path}.{n}") if isinstance(node, Mapping) else node) for n, key, node in held
        }
        return _copy(root, {**root.entries, family: (root.entries[family][0], _copy(held, entries))})


def _without(base: Mapping, steps: list[str]) -> Mapping | None:
    """The map without what stands at the path, or None where nothing stands there."""
    entry = base.entries.get(steps[0])
    if entry is None:
        return None
    if len(steps) == 1:
        return _copy(base, {k: v for k, v in base.entries.items() if k != steps[0]})
    if not isinstance(entry[1], Mapping):
        return None
    inner = _without(entry[1], steps[1:])
    return None if inner is None else _copy(base, {**base.entries, steps[0]: (entry[0], inner)})


def _paths(base: Mapping) -> str:
    found = [f"{k}.{n}" for k, _, v in base if isinstance(v, Mapping) for n in v.entries]
    return ", ".join(found[:8]) + (" ..." if len(found) > 8 else "") if found else "nothing is inherited here"
