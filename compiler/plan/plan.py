"""The whole plan as one value, with the ways to find things in it and the place of everything in the text."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from ..findings import Finding, Place
from ..record import field, record
from ..source import Source
from ..source.tree import Mapping, Node, Sequence
from .decode import Decoder
from .inherit import expand
from .names import Names
from .schema import noun

if TYPE_CHECKING:
    from collections.abc import Mapping as Map

    from .day import Day
    from .film import Film
    from .gear import Gear
    from .location import Location
    from .person import Person
    from .scene import Scene, Shot
    from .set import Door, Set, Window
    from .setup import Setup
    from .stock import Stock

LANGUAGE = 1  # version of the plan language


@record
class Plan:
    """A decoded plan. The families are in the order of the text.

    `sets`, `windows` and `doors` are keyed by their whole names (`landing/office`, `landing/office/hatch`); `shots`
    by their number over all scenes; `scene_of` tells the scene of a shot; `defaulted` holds the paths that
    `defaults:` filled. `tree` is the text's tree with everything inherited in it: ask `where` for places. `parts` are
    the visits to setups whose shots are taken at different times, each with the setup it is part of.
    """

    film: Film
    days: Map[str, Day]
    locations: Map[str, Location]
    people: Map[str, Person]
    gear: Map[str, Gear]
    stock: Map[str, Stock]
    scenes: Map[str, Scene]
    setups: Map[str, Setup]
    sets: Map[str, Set]
    windows: Map[str, Window]
    doors: Map[str, Door]
    shots: Map[str, Shot]
    scene_of: Map[str, str]
    defaulted: frozenset[str]
    source: Source
    tree: Mapping
    parts: Map[str, str] = field(default_factory=dict)

    def where(self, path: str) -> Place:
        """The place in the text of a plan path, or of the nearest part of it that is written."""
        node: Node = self.tree
        mark: Node = self.tree
        path = self._as_written(path)
        for step in path.split(".") if path else ():
            if isinstance(node, Mapping) and step in node.entries:
                mark, node = node.entries[step]
            elif isinstance(node, Sequence) and step.isdigit() and int(step) < len(node.items):
                mark = node = node.items[int(step)]
            else:
                break
        return self.source.place(mark, path)

    def value_at(self, path: str) -> Node | None:
        """The node of the text at exactly this path, or None."""
        node: Node | None = self.tree
        path = self._as_written(path)
        for step in path.split(".") if path else ():
            if isinstance(node, Mapping):
                node = node.get(step)
            elif isinstance(node, Sequence) and step.isdigit() and int(step) < len(node.items):
                node = node.items[int(step)]
            else:
                return None
        return node

    def _as_written(self, path: str) -> str:
        """The path in the text: a visit stands where its setup stands."""
        if not self.parts or not path.startswith("setups."):
            return path
        _, name, *rest = path.split(".")
        return ".".join(("setups", self.parts.get(name, name), *rest))

    @cached_property
    def _shots_by_setup(self) -> dict[str, tuple[Shot, ...]]:
        found: dict[str, list[Shot]] = {}
        for shot in self.shots.values():
            found.setdefault(shot.setup or "", []).append(shot)
        return {name: tuple(shots) for name, shots in found.items()}

    def shots_of(self, setup_id: str) -> tuple[Shot, ...]:
        """The shots taken from a setup, in story order."""
        return self._shots_by_setup.get(setup_id, ())

    @cached_property
    def _gear_by_kind(self) -> dict[str, tuple[Gear, ...]]:
        found: dict[str, list[Gear]] = {}
        for gear in self.gear.values():
            found.setdefault(gear.kind or "", []).append(gear)
        return {kind: tuple(things) for kind, things in found.items()}

    def gear_of(self, kind: str) -> tuple[Gear, ...]:
        """The gear of one kind, in the order of the plan."""
        return self._gear_by_kind.get(kind, ())

    def location_of(self, setup_id: str) -> Location | None:
        """The place where a setup is shot."""
        room = self.setups[setup_id].set
        return self.locations.get(room.split("/")[0]) if room else None

    def set_of(self, setup_id: str) -> Set | None:
        """The room or outdoor area of a setup."""
        room = self.setups[setup_id].set
        return self.sets.get(room) if room else None

    @cached_property
    def _days_by_setup(self) -> dict[str, str]:
        """Setup -> the first day that names or orders it."""
        found: dict[str, str] = {}
        for day in self.days.values():
            for name in (*day.setups, *day.order):
                found.setdefault(name, day.id)
        return found

    def day_of(self, setup_id: str) -> str | None:
        """The day on which a setup is shot: its own word, the day that names or orders it, or the only day."""
        said = self.setups[setup_id].day or self._days_by_setup.get(setup_id)
        return said or (next(iter(self.days)) if len(self.days) == 1 else None)

    @cached_property
    def _setups_by_day(self) -> dict[str, tuple[str, ...]]:
        found: dict[str, list[str]] = {}
        for name in self.setups:
            found.setdefault(self.day_of(name) or "", []).append(name)
        return {day: tuple(names) for day, names in found.items()}

    def setups_on(self, day_id: str) -> tuple[str, ...]:
        """The setups of a day, in the order of the text."""
        return self._setups_by_day.get(day_id, ())


def _where_written(findings: list[Finding], root: Mapping) -> list[Finding]:
    """The findings without those of setups that merely inherit what is wrong, where the setup that says it has it."""
    own = {(f.rule, f.place.file, f.place.line, f.place.column) for f in findings if _written(root, f.place.path)}
    return [
        f
        for f in findings
        if not f.place.path.startswith("setups.")
        or (f.rule, f.place.file, f.place.line, f.place.column) not in own
        or _written(root, f.place.path)
    ]


def _written(root: Mapping, path: str) -> bool:
    """Whether a path of names stands in the text as it was written."""
    node: Node = root
    for name in path.split("."):
        if isinstance(node, Sequence):
            return True
        if not isinstance(node, Mapping) or name not in node.entries:
            return False
        node = node.entries[name][1]
    return True


def decode(source: Source) -> tuple[Plan | None, list[Finding]]:
    """The plan of a text that was read, and every fault met; no plan where the text has none."""
    if source.root is None:
        return None, []
    grown = expand(source.root, Names(source.root), source)
    decoder = Decoder(source, Names(grown.root))
    film: Film = decoder.decode(grown.root, noun("film"), "")
    findings = [*grown.findings, *_where_written(decoder.findings, source.root)]
    if film.hotset not in (None, LANGUAGE):
        findings.append(_other_language(film.hotset, source.place(_key(grown.root, "hotset"), "hotset")))
    shots: dict[str, Shot] = {}
    scene_of: dict[str, str] = {}
    for scene in film.scenes.values():
        for number, shot in scene.shots.items():
            if number in shots:
                place = source.place(_key(grown.root, shot.path), shot.path)
                findings.append(_twice(number, scene_of[number], scene.id, place))
                continue
            shots[number] = shot
            scene_of[number] = scene.id
    sets = {s.id: s for loc in film.locations.values() for s in loc.sets.values()}
    plan = Plan(
        film=film,
        days=film.days,
        locations=film.locations,
        people=film.people,
        gear=film.gear,
        stock=film.stock,
        scenes=film.scenes,
        setups=film.setups,
        sets=sets,
        windows={w.id: w for s in sets.values() for w in s.windows.values()},
        doors={d.id: d for s in sets.values() for d in s.doors.values()},
        shots=shots,
        scene_of=scene_of,
        defaulted=grown.defaulted,
        source=source,
        tree=grown.root,
    )
    if any(" " in entry for day in plan.days.values() for entry in day.order):
        from .parts import parted

        plan = parted(plan)
    return plan, findings


def _key(root: Mapping, path: str) -> Node:
    node: Node = root
    key: Node = root
    for step in path.split("."):
        if isinstance(node, Mapping) and step in node.entries:
            key, node = node.entries[step]
    return key


def _other_language(version: int | None, place: Place) -> Finding:
    return Finding(
        "wrong-kind",
        "error",
        f"this plan says 'hotset: {version}', but this hotset knows language {LANGUAGE} alone",
        place,
        ways_out=(f"write 'hotset: {LANGUAGE}', or use a hotset that knows language {version}",),
    )


def _twice(number: str, first: str, second: str, place: Place) -> Finding:
    return Finding(
        "duplicate-key",
        "error",
        f"shot '{number}' stands in scene '{first}' and in scene '{second}'",
        place,
        ways_out=(f"give one of the two another number, such as '{second}{number}'",),
    )
