"""Risk sheet: what can hurt somebody on a day, with its numbers, the usual measures, and who took which risk.

The sheet is a reminder for those responsible. It clears nothing: local codes and those licensed for the work decide.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ..plan.location import Location, Paper
from ..plan.setup import Setup
from ..record import record
from . import load
from .call_sheet import help_rows
from .desk import Desk
from .light_words import effect_words
from .say import join, plain
from .shoot import DayLine
from .view import Mark, Pair, Sheet

# From these heights on a lamp is hung or reached from a ladder (metres). Common practice, no source.
LADDER = 2.0
LONG_DAY = 10 * 120  # half-minutes; 12 h at most, common practice


@record
class Hazard:
    """One kind of danger: where it is on this day, and what is usually done."""

    title: str
    where: tuple[str, ...]
    measures: tuple[str, ...]
    marks: tuple[Mark, ...] = ()


@record
class Taken:
    """A risk that the plan takes in public."""

    rule: str
    sentence: str
    reason: str
    who: str


@record
class Risk:
    """The sheet."""

    help: tuple[Pair, ...]
    hazards: tuple[Hazard, ...]
    taken: tuple[Taken, ...]
    open: tuple[Mark, ...]
    papers: tuple[Pair, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day."""
    _ = desk.words
    people = desk.workers("director", "direction", "producer", "first-ad", "first-assistant", "production", "safety")
    for line in desk.shoot.days:
        if line.day.id:
            head = desk.head(_("Risks"), line)
            yield Sheet("risk", f"{desk.folder(line)}/risk", head, partial(view, desk, line), line.day.id, people)


def view(desk: Desk, line: DayLine) -> Risk:
    """Hazards that the plan shows, risks taken, and what is still open in the day's setups."""
    plan = desk.shoot.plan
    kinds = (_power, _fuel, _heat, _height, _flashing, _dark, _effects, _things, _hours, _batteries)
    hazards = [hazard for kind in kinds for hazard in kind(desk, line) if hazard.where]
    paths = [line.day.path, *(plan.setups[s].path for s in line.setups)]
    location = plan.locations.get(line.day.location or "")
    if location:
        paths += [location.path]
    return Risk(
        help=tuple(help_rows(desk, line)), hazards=tuple(hazards), taken=tuple(_taken(desk)),
        open=tuple(m for m in desk.marking.under(*paths) if not m.accepted and m.kind != "note"),
        papers=(*papers(desk, location), *_rights(desk, line)),
    )  # fmt: skip


def _setups(desk: Desk, line: DayLine) -> Iterator[Setup]:
    yield from (desk.shoot.plan.setups[name] for name in line.setups)


def _grouped(where: dict[str, list[str]]) -> tuple[str, ...]:
    """Each danger once, with the setups that have it."""
    return tuple(f"{words} ({', '.join(setups)})" for words, setups in where.items())


def _power(desk: Desk, line: DayLine) -> Iterator[Hazard]:
    _ = desk.words
    where: dict[str, list[str]] = {}
    for setup in _setups(desk, line):
        for row in load.of_setup(desk, setup):
            words = _("circuit {circuit}, {load}", circuit=row.name, load=row.words)
            where.setdefault(words, []).append(desk.say.setup(setup.id))
    plan = desk.shoot.plan
    paths = [c.path for place in plan.locations.values() for c in place.circuits.values()]
    yield Hazard(_("Mains"), _grouped(where), (
        _("one person owns the loads, nobody else plugs in; leads whole, unwound, dry, taped down where people walk"),
        _("only those licensed for it open or extend an installation"),
    ), desk.marking.under(*paths))  # fmt: skip


def _fuel(desk: Desk, line: DayLine) -> Iterator[Hazard]:
    _ = desk.words
    setups = tuple(_setups(desk, line))
    used = {i.circuit for s in setups for i in s.lights.values()}
    used |= {p.circuit for s in setups for p in s.practicals.values()}
    circuits = [c for place in desk.shoot.plan.locations.values() for c in place.circuits.values()]
    where = tuple(desk.say.circuit(c.id) for c in circuits if c.runs is not None and c.id in used)
    yield Hazard(_("Generator and fuel"), where, (
        _("stop the engine, let it cool before it is refuelled, outdoors, away from flames; an extinguisher beside it"),
        _("exhaust never indoors, under a tent or by a window or vent: carbon monoxide cannot be smelt"),
    ))  # fmt: skip


def _heat(desk: Desk, line: DayLine) -> Iterator[Hazard]:
    _ = desk.words
    plan = desk.shoot.plan
    where: dict[str, None] = {}
    for setup in _setups(desk, line):
        for name in (lamp for light in setup.lights.values() for lamp in light.lamp):
            gear = plan.gear.get(name)
            if gear and gear.hot_within:
                far = desk.say.value("length", gear.hot_within)
                where[_("{lamp}: keep everything {far} away", lamp=desk.say.thing(name), far=far)] = None
    yield Hazard(_("Heat"), tuple(where), (
        _("gloves; lamps cool before they are packed; a fire extinguisher that suits the fire at hand, exits clear"),
    ))  # fmt: skip


def _height(desk: Desk, line: DayLine) -> Iterator[Hazard]:
    _ = desk.words
    where: dict[str, list[str]] = {}
    for setup in _setups(desk, line):
        for name, light in setup.lights.items():
            if light.height is not None and light.height >= LADDER:
                high = desk.say.value("length", light.height)
                words = _("lamp {lamp} at {high}", lamp=desk.say.light_name(name), high=high)
                where.setdefault(words, []).append(desk.say.setup(setup.id))
    yield Hazard(_("Ladders and things overhead"), _grouped(where), (
        _("somebody holds the ladder, nobody on its top steps; a sand bag on each stand, two with a boom arm"),
        _("safety bond on what hangs; nobody stands or waits under a boom arm"),
    ))  # fmt: skip


def _flashing(desk: Desk, line: DayLine) -> Iterator[Hazard]:
    _ = desk.words
    where: dict[str, list[str]] = {}
    for setup in _setups(desk, line):
        for name, light in setup.lights.items():
            if light.effect:
                does = effect_words(desk, light.effect.flashes, light.effect.flickers)
                words = _("lamp {lamp} {does}", lamp=desk.say.light_name(name), does=does)
                where.setdefault(words, []).append(desk.say.setup(setup.id))
    yield Hazard(_("Flashing light"), _grouped(where), (
        _("everybody is asked and warned before it is switched on, whoever wants to leaves; one person at the switch"),
    ))  # fmt: skip


def _dark(desk: Desk, line: DayLine) -> Iterator[Hazard]:
    _ = desk.words
    where = ", ".join(
        desk.say.setup(setup.id)
        for setup in _setups(desk, line)
        if setup.needs in ("dark", "dusk") or any(t.black_out or t.tent for t in setup.windows.values())
    )
    yield Hazard(_("Darkness"), (where,) if where else (), (
        _("ways and exits lit or marked, cables off them; working light between takes; say aloud when it goes off"),
    ))  # fmt: skip


def _effects(desk: Desk, line: DayLine) -> Iterator[Hazard]:
    _ = desk.words
    plan = desk.shoot.plan
    scenes = dict.fromkeys(plan.scene_of[shot.id] for name in line.setups for shot in plan.shots_of(name))
    where = tuple(
        _("Scene {scene}: {effect}", scene=number, effect=effect)
        for number in scenes
        for effect in plan.scenes[number].effects
    )
    yield Hazard(_("Effects"), where, (
        _("fire, water, smoke and stunts only under somebody trained and, where the law asks, licensed for them"),
        _("the data sheet of what is sprayed, burnt or smoked is on set; air the room; ask about asthma"),
    ))  # fmt: skip


def _things(desk: Desk, line: DayLine) -> Iterator[Hazard]:
    _ = desk.words
    plan = desk.shoot.plan
    scenes = {plan.scene_of[shot.id] for name in line.setups for shot in plan.shots_of(name)}
    props = dict.fromkeys(prop for number in plan.scenes if number in scenes for prop in plan.scenes[number].props)
    where = tuple(desk.say.thing(p) for p in props if p in plan.gear and plan.gear[p].weapon)
    yield Hazard(_("What looks like a weapon"), where, (
        _("one named person keeps it, shows it empty or blunt, and takes it back after each take"),
        _("neighbours and police told beforehand where it can be seen from outside"),
    ))  # fmt: skip


def _hours(desk: Desk, line: DayLine) -> Iterator[Hazard]:
    _ = desk.words
    day = line.day
    where = []
    if day.call is not None and day.wrap is not None and day.wrap - day.call > LONG_DAY:
        where.append(_("call {call}, wrap {wrap}: {long}", call=desk.say.clock(day.call), wrap=desk.say.clock(day.wrap),
                       long=desk.say.minutes(day.wrap - day.call)))  # fmt: skip
    yield Hazard(_("Tiredness"), tuple(where), (
        _("meal within 6 h of the call, 11 h of rest before the next day; nobody tired drives or climbs"),
    ), desk.marking.under(f"{day.path}.hours"))  # fmt: skip


def _batteries(desk: Desk, line: DayLine) -> Iterator[Hazard]:
    _ = desk.words
    where = ", ".join(
        _("{n} × {battery}", n=gear.quantity or 1, battery=desk.say.thing(gear.id))
        for gear in desk.shoot.plan.gear.values()
        if gear.kind == "battery" and line.setups
    )
    yield Hazard(_("Batteries"), (where,) if where else (), (
        _("charged in sight, on what does not burn, never on a way out; none swollen or wet; contacts covered"),
    ))  # fmt: skip


def _taken(desk: Desk) -> Iterator[Taken]:
    """Accepted risks with what they are about; one that matches nothing any more is still somebody's word."""
    plan = desk.shoot.plan
    sentences = {accepted.path: finding.sentence for finding, accepted in desk.shoot.accepted}
    for accepted in plan.film.accepted:
        who = ", ".join(desk.say.person(name) for name in accepted.agreed_by)
        where = join(" · ", (accepted.rule or "", accepted.at or ""))
        reason = join(" · ", (accepted.because or "", *accepted.note))
        yield Taken(where, sentences.get(accepted.path, ""), reason, who)


def papers(desk: Desk, location: Location | None) -> Iterator[Pair]:
    """Permission and insurance of the place."""
    _ = desk.words
    if location is not None:
        yield Pair(_("permission"), _paper(desk, location.permission))
        yield Pair(_("insurance"), _paper(desk, location.insurance))


def _rights(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """Rights that the day's scenes need, and releases of those who play."""
    _ = desk.words
    plan = desk.shoot.plan
    scenes = dict.fromkeys(plan.scene_of[shot.id] for name in line.setups for shot in plan.shots_of(name))
    for number in scenes:
        for name, paper in plan.scenes[number].rights.items():
            yield Pair(_("Scene {number}", number=number), join(": ", (plain(name), _paper(desk, paper))))
    for person in plan.people.values():
        if person.release is not None and desk.here_on(line, person.id):
            yield Pair(desk.say.person(person.id), _("release {state}", state=_paper(desk, person.release)))


def _paper(desk: Desk, paper: Paper | None) -> str:
    """The state of a paper in words."""
    _ = desk.words
    states = {
        "granted": _("granted"), "asked": _("asked, not granted yet"), "missing": _("MISSING"),
        "not-needed": _("not needed"),
    }  # fmt: skip
    if paper is None:
        return _("not in the plan")
    return join(", ", (states.get(paper.state or "", ""), paper.by or "", paper.paper or "", *paper.note))
