"""Place sheet, for whoever owns the house: what we do in which room when, what it draws, what we put back."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ..plan.location import Location
from ..record import record
from . import load, stations
from .call_sheet import wrap_words
from .desk import Desk, slug
from .flames import flames
from .risk import papers
from .say import join, plain
from .shoot import DayLine
from .view import Mark, Pair, Sheet


@record
class RoomRow:
    """A stretch of the day in one room."""

    when: str
    until: str
    room: str
    what: str


@record
class PlaceSheet:
    """The sheet."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    facts: tuple[Pair, ...]
    rooms: tuple[RoomRow, ...]
    quiet: tuple[str, ...]
    asked: tuple[Pair, ...]
    loads: tuple[Pair, ...]
    brought: tuple[Pair, ...]
    restore: tuple[str, ...]
    contacts: tuple[Pair, ...]
    marks: tuple[Mark, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each place of each day."""
    _ = desk.words
    people = desk.workers("production", "producer", "locations", "location", "first-assistant", "first-ad")
    for line in desk.shoot.days:
        places = _places(desk, line)
        for place in places:
            head = desk.head(_("For the house"), line, desk.say.location(place.id))
            name = "place" if len(places) == 1 else f"place-{slug(place.id)}"
            yield Sheet(
                "place", f"{desk.folder(line)}/{name}", head, partial(view, desk, line, place), line.day.id, people
            )


def view(desk: Desk, line: DayLine, place: Location) -> PlaceSheet:
    """The day as somebody reads it who lives there."""
    _ = desk.words
    say, day, film = desk.say, line.day, desk.shoot.plan.film
    rooms = tuple(_rooms(desk, line, place))
    people = [name for name in desk.shoot.plan.people if desk.here_on(line, name)]
    out = line.slots[-1].end if line.slots else None
    facts: tuple[Pair, ...] = (
        Pair(_("we come"), say.clock(day.call)),
        Pair(_("we are gone by"), wrap_words(desk, line) or say.clock(out if out is not None else day.wrap)),
        Pair(_("agreed hours"), say.value("clock-range", place.access)),
        Pair(_("how many"), _.count("{n} person", "{n} people", len(people)) if people else ""),
        Pair(_("cars"), place.parking or ""), Pair(_("toilets"), place.toilets or ""),
        Pair(_("where we wait"), place.waiting or ""), *papers(desk, place),
    )  # fmt: skip
    return PlaceSheet(
        first_when=say.clock(day.call), first_what=_("We come, and begin to carry in"),
        first_where=join(", ", (say.location(place.id), place.address or "")), why=line.why,
        facts=tuple(fact for fact in facts if fact.words), rooms=rooms, quiet=tuple(_quiet(desk, line)),
        asked=tuple(_asked(desk, place)), loads=tuple(_loads(desk, line, place)),
        brought=tuple(_brought(desk, line, place)),
        restore=tuple(_restore(desk, line, place)),
        contacts=tuple(Pair(who, words) for who, words in film.contacts.items()),
        marks=desk.marking.at(f"{place.path}.permission", f"{place.path}.insurance", f"{place.path}.access"),
    )  # fmt: skip


def _places(desk: Desk, line: DayLine) -> list[Location]:
    plan = desk.shoot.plan
    names = dict.fromkeys((plan.setups[name].set or line.day.location or "").split("/")[0] for name in line.setups)
    return [plan.locations[name] for name in names if name in plan.locations]


def _rooms(desk: Desk, line: DayLine, place: Location) -> Iterator[RoomRow]:
    """Carrying in, stays in each room, the meal, packing. Setups in one room that follow one another are one stay."""
    _ = desk.words
    say = desk.say
    stays: list[tuple[str, list[str]]] = []
    for name in line.setups:
        room = desk.shoot.plan.setups[name].set or ""
        if room.split("/")[0] != place.id:
            continue
        if not stays or stays[-1][0] != room:
            stays.append((room, []))
        stays[-1][1].append(name)
    rows: list[tuple[int, RoomRow]] = []
    for room, names in stays:
        slots = [slot for slot in line.slots if slot.setup in names and slot.kind in ("rig", "spare", "shoot", "move")]
        when, until = (slots[0].start, slots[-1].end) if slots else (None, None)
        row = RoomRow(say.clock(when), say.clock(until), say.set(room), "; ".join(_done(desk, names)))
        rows.append((0 if when is None else when, row))
    if place.id == (line.day.location or place.id):
        common = {"load-in": _("we carry in"), "meal": _("meal"), "wrap-out": _("we pack and put everything back")}
        where = line.day.meal.where or "" if line.day.meal else ""
        rows += [
            (s.start, RoomRow(say.clock(s.start), say.clock(s.end), where if s.kind == "meal" else "", common[s.kind]))
            for s in line.slots if s.kind in common
        ]  # fmt: skip
    yield from (row for _start, row in sorted(rows, key=lambda r: r[0]))


def _restore(desk: Desk, line: DayLine, place: Location) -> Iterator[str]:
    """What goes back as it was: as agreed, what was switched off for the takes, and the windows."""
    _ = desk.words
    yield from place.restore
    for noise in place.noise.values():
        if noise.silenced_by and noise.when is None:
            yield _("{what}: on again", what=noise.what or plain(noise.id))
    setups = (desk.shoot.plan.setups[name] for name in line.setups)
    rooms = [s for s in setups if (s.set or "").split("/")[0] == place.id]
    bare = dict.fromkeys(
        desk.say.opening(window)
        for setup in rooms for window, how in setup.windows.items() if how.black_out or how.tent or how.layers
    )  # fmt: skip
    if bare:
        yield _("windows bare again: {windows}", windows=", ".join(bare))


def _done(desk: Desk, names: list[str]) -> Iterator[str]:
    """What happens in a room in words anybody understands, each once."""
    _ = desk.words
    plan = desk.shoot.plan
    said: dict[str, None] = {}
    for setup in (plan.setups[name] for name in names):
        room = plan.set_of(setup.id)
        said[_("filming outside") if room and room.outdoors else _("filming")] = None
        for window, treated in setup.windows.items():
            name = desk.say.opening(window)
            if treated.tent:
                where = _("outside") if treated.side == "outside" else _("inside")
                deep = desk.say.value("length", treated.depth)
                said[_("black tent before {window} ({side}), {depth} deep", window=name, side=where, depth=deep) if deep
                     else _("black tent before {window} ({side})", window=name, side=where)] = None
            elif treated.black_out:
                side = _("outside") if treated.side == "outside" else _("inside")
                said[_("{window} covered with black cloth ({side})", window=name, side=side)] = None
            elif treated.layers:
                side = _("outside") if treated.side == "outside" else _("inside")
                said[_("foil on the glass of {window} ({side})", window=name, side=side)] = None
        said.update(dict.fromkeys(flames(desk, setup)))
        if any(light.effect for light in setup.lights.values()):
            said[_("flashing or flickering light")] = None
        for shot in plan.shots_of(setup.id):
            for effect in plan.scenes[plan.scene_of[shot.id]].effects:
                said[effect] = None
    yield from said
    dressed = dict.fromkeys(text for name in names for text in plan.setups[name].dressing)
    if dressed:
        yield _("set dressing: {what}", what=", ".join(dressed))


def _quiet(desk: Desk, line: DayLine) -> Iterator[str]:
    """When the house must be still."""
    _ = desk.words
    for slot in line.slots:
        if slot.kind == "room-tone":
            yield desk.say.clock(slot.start)


def _asked(desk: Desk, place: Location) -> Iterator[Pair]:
    """What we ask of the house: things that hum, and what is on the circuits already."""
    _ = desk.words
    for noise in place.noise.values():
        words = join(" · ", (desk.say.value("clock-range", noise.when), noise.silenced_by or ""))
        yield Pair(noise.what or plain(noise.id), words or _("at any hour"))


def _loads(desk: Desk, line: DayLine, place: Location) -> Iterator[Pair]:
    """The most that each circuit carries on this day, what hangs there already included."""
    _ = desk.words
    fullest: dict[str, load.LoadLine] = {}
    ours = {desk.say.circuit(circuit.id) for circuit in place.circuits.values() if stations.ours(circuit)}
    for name in line.setups:
        if (desk.shoot.plan.setups[name].set or "").split("/")[0] == place.id:
            for row in load.of_setup(desk, desk.shoot.plan.setups[name]):
                if row.name not in fullest or row.share > fullest[row.name].share:
                    fullest[row.name] = row
    for name, row in fullest.items():
        if name not in ours:
            yield Pair(name, _("at most {load}", load=row.words))


def _brought(desk: Desk, line: DayLine, place: Location) -> Iterator[Pair]:
    """Generators and battery stations: what they give, when they run, and that an engine is heard."""
    _ = desk.words
    say = desk.say
    for circuit in place.circuits.values():
        hours = [
            (mine[0].start, mine[-1].end)
            for name in line.setups
            if any(m.setup == name and m.circuit.id == circuit.id for m in desk.shoot.facts.circuit_moments)
            and (mine := [s for s in line.slots if s.setup == name and s.kind in ("rig", "shoot")])
        ]
        used = any(m.circuit.id == circuit.id and m.setup in line.setups for m in desk.shoot.facts.circuit_moments)
        if not stations.ours(circuit) or not used:
            continue
        runs = ", ".join(f"{say.clock(a)}-{say.clock(b)}" for a, b in stations.joined(hours))
        engine = circuit.runs is not None and circuit.holds is None
        yield Pair(say.circuit(circuit.id), join(" · ", (
            stations.rating(desk, place, circuit),
            _("runs {hours}", hours=runs) if runs else "",
            _("an engine, heard while it runs; it stands outdoors, its exhaust away from windows") if engine else "",
            *circuit.note,
        )))  # fmt: skip
