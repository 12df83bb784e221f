"""Wardrobe and make-up sheet: who wears what in shooting order, what changes, and when the chair is needed."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ..plan.scene import Scene
from ..record import record
from .desk import Desk
from .say import join
from .shoot import DayLine
from .view import Mark, Pair, Sheet


@record
class Look:
    """A character in a scene: what is worn, make-up, and whether it differs from what was last shot, where both
    scenes say something: silence is no change."""

    character: str
    person: str
    wears: str
    make_up: str
    changes: bool


@record
class Stretch:
    """A run of setups of one scene."""

    when: str
    scene: str
    heading: str
    story: str
    shots: str
    looks: tuple[Look, ...]
    notes: tuple[str, ...]


@record
class Chair:
    """Somebody who has to be made ready."""

    call: str
    name: str
    roles: str
    takes: str
    ready: str
    sizes: str
    marks: tuple[Mark, ...]


@record
class Wardrobe:
    """The sheet."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    chairs: tuple[Chair, ...]
    stretches: tuple[Stretch, ...]
    pieces: tuple[Pair, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day on which somebody plays."""
    _ = desk.words
    people = desk.workers("wardrobe", "costume", "make-up", "hair", "dresser")
    for line in desk.shoot.days:
        if any(desk.cast_of(shot) for name in line.setups for shot in desk.shoot.plan.shots_of(name)):
            head = desk.head(_("Wardrobe and make-up"), line)
            yield Sheet(
                "wardrobe", f"{desk.folder(line)}/wardrobe", head, partial(view, desk, line), line.day.id, people
            )


def view(desk: Desk, line: DayLine) -> Wardrobe:
    """Who comes to the chair when, then the scenes as they are shot."""
    _ = desk.words
    chairs = tuple(_chairs(desk, line))
    first = chairs[0] if chairs else None
    location = desk.shoot.plan.locations.get(line.day.location or "")
    return Wardrobe(
        first_when=first.call if first else "",
        first_what=_("First in the chair: {name}", name=first.name) if first else _("Nobody is called yet"),
        first_where=join(", ", (desk.say.location(line.day.location), location.waiting or "" if location else "")),
        why=line.why, chairs=chairs, stretches=tuple(_stretches(desk, line)), pieces=tuple(_pieces(desk, line)),
    )  # fmt: skip


def _chairs(desk: Desk, line: DayLine) -> Iterator[Chair]:
    plan, say = desk.shoot.plan, desk.say
    rows: list[tuple[int, int, Chair]] = []
    for name, person in plan.people.items():
        mine = [s for s in line.setups if any(name in desk.cast_of(shot) for shot in plan.shots_of(s))]
        if not mine:
            continue
        call = desk.call_of(line, name)
        row = Chair(
            say.clock(call), say.person(name), ", ".join(person.plays), say.value("duration", person.before),
            say.clock(line.rolling(mine[0])), ", ".join(f"{k}: {v}" for k, v in person.wears.items()),
            desk.marking.at(f"{person.path}.before", f"{person.path}.wears"),
        )  # fmt: skip
        rows.append((1 << 20 if call is None else call, len(rows), row))
    yield from (row for _call, _n, row in sorted(rows, key=lambda r: r[:2]))


def _stretches(desk: Desk, line: DayLine) -> Iterator[Stretch]:
    """Scenes in shooting order; setups of one scene that follow one another are one stretch."""
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    runs: list[tuple[str, list[str], list[str]]] = []
    for name in line.setups:
        for shot in plan.shots_of(name):
            of = plan.scene_of[shot.id]
            if not runs or runs[-1][0] != of:
                runs.append((of, [], []))
            if name not in runs[-1][1]:
                runs[-1][1].append(name)
            runs[-1][2].append(shot.id)
    worn: dict[str, tuple[str, str]] = {}
    for number, setups, shots in runs:
        scene = plan.scenes[number]
        looks = tuple(_looks(desk, scene, shots, worn))
        if looks:
            story = _("story: {day}", day=scene.story_day) if scene.story_day else ""
            yield Stretch(say.clock(line.rolling(setups[0])), number, scene.heading or "", story, ", ".join(shots),
                          looks, (*scene.effects, *scene.note))  # fmt: skip


def _looks(desk: Desk, scene: Scene, shots: list[str], worn: dict[str, tuple[str, str]]) -> Iterator[Look]:
    plan, say = desk.shoot.plan, desk.say
    players: dict[str, dict[str, None]] = {}
    for shot in shots:
        said = plan.shots[shot].cast
        pairs = said if said is not None else tuple(
            (c, name) for c in scene.characters for name, p in plan.people.items() if c in p.plays
        )
        for character, person in pairs:
            players.setdefault(character, {})[person] = None
    for character, people in players.items():
        now = (scene.wardrobe.get(character, ""), scene.make_up.get(character, ""))
        before = worn.get(character, ("", ""))
        worn[character] = (now[0] or before[0], now[1] or before[1])
        changes = any(old and new and old != new for old, new in zip(before, now, strict=True))
        yield Look(character, ", ".join(say.person(p) for p in people), *now, changes)


def _pieces(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """Pieces of wardrobe that the plan names, with who wears them."""
    for gear in desk.shoot.plan.gear.values():
        if gear.kind == "wardrobe" and (not gear.worn_by or desk.here_on(line, gear.worn_by)):
            who = desk.say.person(gear.worn_by) if gear.worn_by else ""
            yield Pair(desk.say.thing(gear.id), join(" · ", (who, gear.lent_by or "", *gear.note)))
