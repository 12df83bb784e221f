"""One fault planted in a plan: a thing taken out or broken in its tree, with the rules that should say so and where."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from hotset.facts import Facts
from hotset.pipeline import Compiled, compile_plan
from hotset.plan import Plan, decode
from hotset.record import replace
from hotset.rules import RULES, run
from hotset.source import Source
from hotset.source.tree import Mapping, Node
from hotset.trials.edits import Edit, edited

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAMES = ("last-boat", "smallest", "two-days-outside")


class Fault(NamedTuple):
    """`paths` are places of the plan (before the fault) on whose lines one of `rules` has to point. A detail that is
    left out is no conflict: of that the check has to say that it could not look, and for want of what (`detail`)."""

    group: str
    words: str
    source: Source
    rules: tuple[str, ...]
    paths: tuple[str, ...]
    detail: str = ""


class Bed:
    """An example with what planting needs: its plan and facts, and what its whole check says."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.compiled: Compiled = compile_plan([str(EXAMPLES / name / "plan.yaml")])
        assert self.compiled.plan is not None
        assert self.compiled.facts is not None
        self.plan: Plan = self.compiled.plan
        self.facts: Facts = self.compiled.facts
        self.source = self.compiled.source
        accepted = [finding for finding, _ in self.compiled.accepted]
        self.known = {(f.rule, f.place.path, f.sentence) for f in (*self.compiled.findings, *accepted)}
        self.silent = {(n.rule, n.subject, n.wants) for n in self.compiled.coverage.not_checked}

    def put(self, path: str, text: str) -> Source:
        """The source with a value changed or added."""
        return edited(self.source, (Edit(tuple(path.split(".")), text),))

    def renamed(self, path: str, key: str) -> Source:
        """The source with a key spelt in another way."""
        assert self.source.root is not None
        return replace(self.source, root=_without(self.source.root, path.split("."), key))

    def without(self, path: str) -> Source:
        """The source without an entry."""
        assert self.source.root is not None
        return replace(self.source, root=_without(self.source.root, path.split(".")))

    def written(self, path: str) -> bool:
        """Whether an entry stands at exactly this path of the text."""
        node: Node | None = self.source.root
        for step in path.split("."):
            node = node.get(step) if isinstance(node, Mapping) else None
        return node is not None

    def lines(self, paths: tuple[str, ...]) -> set[tuple[str, int]]:
        """The lines on which what stands at these paths is written."""
        found: set[tuple[str, int]] = set()
        for path in paths:
            place = self.plan.where(path)
            node = self.plan.value_at(path)
            last = place.line
            if node is not None:
                text = self.source.files[node.file].text
                last = max(place.line, text.count("\n", 0, max(node.end, 1)) + 1)
            found |= {(place.file, line) for line in range(place.line, last + 1)}
        return found


def _without(root: Mapping, steps: list[str], key: str = "") -> Mapping:
    made = Mapping(root.file, root.line, root.column, root.start, root.end, root.flow)
    for name, entry in root.entries.items():
        if name != steps[0]:
            made.entries[name] = entry
        elif len(steps) > 1:
            assert isinstance(entry[1], Mapping)
            made.entries[name] = (entry[0], _without(entry[1], steps[1:], key))
        elif key:
            made.entries[key] = entry
    return made


def entries(node: Node | None, path: str = "") -> Iterator[tuple[str, Node]]:
    """Every entry below a map with its path, maps inside lists left out."""
    if isinstance(node, Mapping):
        for name, _, child in node:
            here = f"{path}.{name}" if path else name
            yield here, child
            yield from entries(child, here)


def found(bed: Bed, fault: Fault) -> bool:
    """Whether one of the fault's rules says something new and points at one of its lines."""
    plan, faults = decode(fault.source)
    if fault.detail and plan is not None:
        silent = run(RULES, Facts(plan))[1].not_checked
        return any((n.rule, n.subject, n.wants) not in bed.silent and fault.detail in n.wants for n in silent)
    said = [f for f in faults if f.rule in fault.rules]
    if plan is not None:
        said += run([r for r in RULES if r.id in fault.rules], Facts(plan))[0]
    lines = bed.lines(fault.paths)
    for one in said:
        places = [one.place, *(other.place for other in one.related)]
        new = (one.rule, one.place.path, one.sentence) not in bed.known
        if new and one.rule in fault.rules and any((p.file, p.line) in lines for p in places):
            return True
    return False
