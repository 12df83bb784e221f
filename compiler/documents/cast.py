"""Cast sheet: one actor's day on one page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial

from ..plan.person import Person
from ..plan.scene import Shot
from ..record import record, replace
from .desk import Desk, slug
from .light_words import effect_words
from .say import join
from .shoot import DayLine
from .view import Mark, Pair, Sheet

REST = 90  # half-minutes from which on a gap between two takes is told as free time


@record
class Part:
    """One stretch of shooting that the actor is in; `free` says how long nothing was asked of them before it."""

    when: str
    scene: str
    heading: str
    synopsis: str
    wears: str
    make_up: str
    shots: tuple[Pair, ...]
    free: str = ""


@record
class CastSheet:
    """The sheet of one actor."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    weather: str
    facts: tuple[Pair, ...]
    parts: tuple[Part, ...]
    cautions: tuple[str, ...]
    marks: tuple[Mark, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each actor on each day on which they play."""
    _ = desk.words
    plan = desk.shoot.plan
    for line in desk.shoot.days:
        for name, person in plan.people.items():
            if _playing(desk, line, name):
                who = join(" · ", (_("Cast sheet"), ", ".join(person.plays)))
                head = desk.head(desk.say.person(name), line, who)
                file = f"{desk.folder(line)}/cast-{slug(name)}"
                yield Sheet("cast", file, head, partial(view, desk, line, person), line.day.id, (name,))


def view(desk: Desk, line: DayLine, person: Person) -> CastSheet:
    """Call, scenes in shooting order, cautions, release."""
    _ = desk.words
    say = desk.say
    location = desk.shoot.plan.locations.get(line.day.location or "")
    parts = tuple(_parts(desk, line, person))
    today = person.days.get(line.day.id)
    release = _released(desk, line, person.id)
    rows = (
        Pair(_("on set from"), parts[0].when), Pair(_("released about"), release),
        Pair(_("where to wait"), location.waiting or "" if location else ""),
        Pair(_("meal"), _meal(desk, line, person.id)),
        Pair(_("parking"), location.parking or "" if location else ""),
        Pair(_("toilets"), location.toilets or "" if location else ""),
        Pair(_("who looks after you"), say.person(person.guardian) if person.guardian else ""),
        Pair(_("bring"), ", ".join(f"{piece}: {words}" for piece, words in person.wears.items())),
        *(Pair(who, words) for who, words in list(desk.shoot.plan.film.contacts.items())[:1]),
        Pair(_("to know"), "; ".join((*person.note, *(today.note if today else ())))),
    )  # fmt: skip
    return CastSheet(
        first_when=say.clock(desk.call_of(line, person.id)), first_what=_("Your call"),
        first_where=join(", ", (say.location(line.day.location), location.address or "" if location else "")),
        why=line.why, weather=line.day.weather or "", facts=tuple(row for row in rows if row.words), parts=parts,
        cautions=tuple(_cautions(desk, line, person.id)), marks=tuple(_found(desk, person)),
    )  # fmt: skip


def _found(desk: Desk, person: Person) -> Iterator[Mark]:
    """What was found of a person, said to them; the hours that they wait stand at their scenes already."""
    _ = desk.words
    for mark in desk.marking.under(person.path):
        if mark.rule == "no-release" and not mark.accepted:
            told = _("your release is not signed yet: please read it, ask, and sign it before your first take")
            yield replace(mark, sentence=told, way_out="", title="", own=True)
        elif mark.rule != "long-hold":
            yield mark


def _playing(desk: Desk, line: DayLine, name: str) -> tuple[str, ...]:
    """The setups of a day with a shot that this person is in."""
    plan = desk.shoot.plan
    return tuple(s for s in line.setups if any(name in desk.cast_of(shot) for shot in plan.shots_of(s)))


def _parts(desk: Desk, line: DayLine, person: Person) -> Iterator[Part]:
    """The parts in order; what a scene says stands once, at its first part."""
    said = ""
    plan = desk.shoot.plan
    for name in _playing(desk, line, person.id):
        scenes: dict[str, list[Shot]] = {}
        for shot in plan.shots_of(name):
            if person.id in desk.cast_of(shot):
                scenes.setdefault(plan.scene_of[shot.id], []).append(shot)
        for number, shots in enumerate(scenes.values()):
            part = _part(desk, line, person, name, shots)
            part = replace(part, when="" if number else part.when,
                           free="" if number else _free(desk, line, person.id, name))  # fmt: skip
            yield part if part.scene != said else replace(part, scene="", synopsis="", wears="", make_up="")
            said = part.scene


def _free(desk: Desk, line: DayLine, name: str, setup: str) -> str:
    """The time between somebody's last take and their next, where it is worth a rest."""
    _ = desk.words
    mine = [s for s in line.slots if s.kind == "shoot" and name in desk.cast_of_slot(s.shots)]
    now = next((n for n, slot in enumerate(mine) if slot.setup == setup), 0)
    if not now or mine[now].start - mine[now - 1].end < REST:
        return ""
    start, end = mine[now - 1].end, mine[now].start
    return _("free from {start}, {time}", start=desk.say.clock(start), time=desk.say.minutes(end - start))


def _part(desk: Desk, line: DayLine, person: Person, setup: str, shots: list[Shot]) -> Part:
    """What somebody plays of one scene in one setup."""
    plan = desk.shoot.plan
    scene = plan.scenes[plan.scene_of[shots[0].id]]
    roles = [c for shot in shots for c, who in shot.cast or () if who == person.id] + list(person.plays)
    return Part(
        when=desk.say.clock(line.rolling(setup)), scene=scene.id, heading=scene.heading or "",
        synopsis=scene.synopsis or "", wears=_state(scene.wardrobe, roles), make_up=_state(scene.make_up, roles),
        shots=tuple(Pair(shot.id, join(" · ", (shot.size or "", shot.does or ""))) for shot in shots),
    )  # fmt: skip


def _state(states: Mapping[str, str], roles: list[str]) -> str:
    """What a scene says of one of these characters."""
    return next((states[role] for role in roles if role in states), "")


def _released(desk: Desk, line: DayLine, name: str) -> str:
    last = [slot for slot in line.slots if slot.kind == "shoot" and name in desk.cast_of_slot(slot.shots)]
    return desk.say.clock(last[-1].end) if last else ""


def _meal(desk: Desk, line: DayLine, name: str) -> str:
    """When and where one eats; that it is over for whoever is called after it."""
    _ = desk.words
    slot = next((slot for slot in line.slots if slot.kind == "meal"), None)
    where = line.day.meal.where or "" if line.day.meal else ""
    call = desk.call_of(line, name)
    if slot is not None and call is not None and call >= slot.end:
        return _("over before your call: eat before you come")
    last = [s for s in line.slots if s.kind == "shoot" and name in desk.cast_of_slot(s.shots)]
    if slot is not None and last and last[-1].end <= slot.start:
        return join(", ", (desk.say.clock(slot.start), where, _("after your release, if you like")))
    return join(", ", (desk.say.clock(slot.start) if slot else "", where))


def _cautions(desk: Desk, line: DayLine, name: str) -> Iterator[str]:
    """What could be uncomfortable: dark, flashing light, effects, out of doors; each once, with its rooms."""
    found: dict[str, dict[str, None]] = {}
    for words, where in _cautioned(desk, line, name):
        found.setdefault(words, {})[where] = None
    for words, places in found.items():
        yield f"{words} ({', '.join(places)})"


def _cautioned(desk: Desk, line: DayLine, name: str) -> Iterator[tuple[str, str]]:
    _ = desk.words
    plan = desk.shoot.plan
    for setup_id in _playing(desk, line, name):
        setup = plan.setups[setup_id]
        title = desk.say.set(setup.set) or desk.say.setup(setup_id)
        for light in setup.lights.values():
            if light.effect:
                words = effect_words(desk, light.effect.flashes, light.effect.flickers)
                yield _("a lamp {does}: speak up if flashing light harms you", does=words), title
        if setup.needs in ("dark", "dusk") or any(t.black_out or t.tent for t in setup.windows.values()):
            yield _("it is dark around the set"), title
        room = plan.set_of(setup_id)
        if room and room.outdoors:
            yield _("out of doors: warm and dry clothes between takes"), title
        for shot in plan.shots_of(setup_id):
            if name in desk.cast_of(shot):
                for effect in plan.scenes[plan.scene_of[shot.id]].effects:
                    yield effect, title
