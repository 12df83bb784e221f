"""Lighting sheet: all setups of a day in order for the gaffer, changes only, with loads and colours."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from markupsafe import Markup

from ..plan.light import Grip, Treatment
from ..plan.location import Location
from ..plan.setup import Setup
from ..record import record, replace
from . import load, stations
from .changes import LampStep, ThingStep, before_in_set, lamp_numbers, lamp_steps, thing_steps
from .csvtext import csv_text
from .desk import Desk
from .drawings.from_day import load_bars
from .drawings.from_hours import battery_lines, circuit_hours, window_hours
from .light_words import bulb_seen, care, changed_words, grip_words, practical_words, seen_of, settings
from .load import LoadLine
from .marking import once
from .meter_words import meter_words
from .say import join, plain
from .shoot import DayLine
from .standing import Leaving, leaving
from .swatch import patch
from .view import Mark, Pair, Sheet

BARS = 460.0  # points, the width of the bars of the circuits
WIDE = 520.0  # points, the width of what runs along the hours


@record
class LampRow:
    """A lamp in a setup: what to do with it and everything needed to do it."""

    step: str
    number: int
    name: str
    lamp: str
    place: str
    settings: str
    changed: str
    care: str
    marks: tuple[Mark, ...]
    swatch: Markup = Markup("")


@record
class OtherRow:
    """A window, a cloth, a practical: what to do with it."""

    step: str
    name: str
    words: str
    marks: tuple[Mark, ...]


@record
class LightState:
    """The light of one setup against the one before in the same set."""

    when: str
    title: str
    id: str
    where: str
    fresh: bool
    lamps: tuple[LampRow, ...]
    kept: str
    others: tuple[OtherRow, ...]
    loads: tuple[LoadLine, ...]
    notes: tuple[str, ...]
    marks: tuple[Mark, ...]
    meter: str = ""
    bars: Markup = Markup("")
    leaving: Leaving | None = None


@record
class ColourRow:
    """A lamp's colour at the white balance of a setup; a lamp in the picture has no number."""

    number: int | None
    name: str
    colour: str
    white: str
    shift: str
    swatch: Markup


@record
class Lighting:
    """The sheet."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    states: tuple[LightState, ...]
    colours: tuple[ColourRow, ...]
    circuits: tuple[Pair, ...]
    cells: Markup
    windows: Markup
    flows: Markup


def table(desk: Desk, line: DayLine) -> str:
    """The lamps of the day as a table: one row a lamp and setup, with what is to be done."""
    _ = desk.words
    head = [_("from"), _("setup"), _("no."), _("step"), _("name"), _("lamp"), _("place"), _("set to"), _("new here")]
    steps = {"keep": _("keep"), "new": _("NEW"), "move": _("MOVE"), "change": _("CHANGE"), "remove": _("remove")}
    rows = []
    for name in line.setups:
        setup = desk.shoot.plan.setups[name]
        numbers = lamp_numbers(desk.shoot.plan, line.setups)
        for step in lamp_steps(setup, before_in_set(desk.shoot.plan, line.setups, name)):
            row = lamp_row(desk, setup, step, numbers[setup.set or "", step.name])
            rows.append([desk.say.clock(line.start_of(name)), desk.say.setup(name), str(row.number), steps[row.step],
                         row.name, row.lamp, row.place, row.settings, row.changed])  # fmt: skip
    return csv_text(head, rows)


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day on which something is lit or darkened."""
    _ = desk.words
    people = desk.workers("light", "lights", "lighting", "gaffer", "electric", "grip")
    for line in desk.shoot.days:
        if any(_lit(desk.shoot.plan.setups[name]) for name in line.setups):
            head = desk.head(_("Lighting"), line)
            yield Sheet(
                "lighting", f"{desk.folder(line)}/lighting", head, partial(view, desk, line), line.day.id, people,
                csv=partial(table, desk, line),
            )  # fmt: skip


def _lit(setup: Setup) -> bool:
    treated = any(_treats(window) for window in setup.windows.values())
    return bool(setup.lights or setup.grip or setup.practicals or treated or setup.note)


def view(desk: Desk, line: DayLine) -> Lighting:
    """Every setup's light, then the colours and the circuits."""
    states = _loads_once(desk, [light_state(desk, line, name) for name in line.setups])
    first = states[0]
    return Lighting(
        first_when=first.when, first_what=first.title, first_where=desk.say.place_of(first.id), why=line.why,
        states=states, colours=_colours(desk, line), circuits=_circuits(desk, line),
        cells=Markup(battery_lines(desk.shoot.facts, line, False, desk.words, WIDE).svg),
        windows=Markup(window_hours(desk.shoot.plan, line, desk.words, WIDE).svg),
        flows=Markup(circuit_hours(desk.shoot.facts, line, desk.words, WIDE).svg),
    )  # fmt: skip


def _loads_once(desk: Desk, states: list[LightState]) -> tuple[LightState, ...]:
    """Loads stand where they change, as bars; what was found is said once."""
    seen: set[Mark] = set()
    kept = [replace(states[0], marks=once(states[0].marks, seen))]
    for before, state in pairwise(states):
        loads = () if state.loads == before.loads else state.loads
        kept.append(replace(state, loads=loads, marks=once(state.marks, seen)))
    facts, plan = desk.shoot.facts, desk.shoot.plan
    return tuple(
        replace(state, bars=Markup(load_bars(plan, facts.circuit_moments, state.id, desk.words, BARS).svg))
        if state.loads else state
        for state in kept
    )  # fmt: skip


def light_state(desk: Desk, line: DayLine, name: str) -> LightState:
    """The light of one setup, against what stands there from before."""
    plan, say = desk.shoot.plan, desk.say
    setup = plan.setups[name]
    before = before_in_set(plan, line.setups, name)
    numbers = lamp_numbers(plan, line.setups)
    steps = lamp_steps(setup, before)
    kept = [step for step in steps if step.step == "keep" and not desk.marking.under(step.light.path)]
    marks = desk.marking.about(setup.path, f"{setup.path}.lights", f"{setup.path}.needs")
    seen: set[Mark] = set(marks)  # a lamp and the cloth it is near to have one finding, which stands at the first
    rows = tuple(
        lamp_row(desk, setup, step, numbers[setup.set or "", step.name], _from(desk, line, setup, step))
        for step in steps
        if step not in kept
    )
    rows = tuple(replace(row, marks=once(row.marks, seen)) for row in rows)
    others = tuple(replace(row, marks=once(row.marks, seen)) for row in _others(desk, setup, before))
    names = [f"{numbers[setup.set or '', step.name]} {say.light_name(step.name)}" for step in kept]
    return LightState(
        when=say.clock(line.start_of(name)), title=say.setup(name), id=name, where=desk.room_of(line, name),
        fresh=before is None, lamps=rows, kept=", ".join(names), others=others,
        loads=load.of_setup(desk, setup), notes=(*setup.note, *_ahead(desk, line, name)),
        marks=marks,
        meter=meter_words(desk, setup), leaving=leaving(desk, line, name),
    )  # fmt: skip


def _ahead(desk: Desk, line: DayLine, name: str) -> Iterator[str]:
    """That a setup is rigged before its turn, by whom and when."""
    _ = desk.words
    say = desk.say
    for ahead in line.day.ahead:
        if ahead.setup == name:
            who = ", ".join(say.person(person) for person in ahead.by) or _("nobody named yet")
            hours = join(" – ", (say.clock(ahead.from_), say.clock(ahead.to)))
            yield join(" · ", (_("RIGGED AHEAD by {who}", who=who), hours, *ahead.note))


def lamp_row(desk: Desk, setup: Setup, step: LampStep, number: int, origin: str = "") -> LampRow:
    """Everything about a lamp in one row; a lamp that leaves needs no settings."""
    _ = desk.words
    say, light = desk.say, step.light
    lamp = join(" + ", (_(" or ").join(say.thing(n) for n in light.lamp), *(say.thing(n) for n in light.with_)))
    gone = step.step == "remove"
    place = "" if gone else join(" · ", (
        say.light_place(light, setup.set),
        _("{high} high", high=say.value("length", light.height)) if light.height is not None else "",
        _("to {aim}", aim=say.aim(light.aim, setup.set)) if light.aim else "",
    ))  # fmt: skip
    return LampRow(
        step=step.step, number=number,
        name=join(", ", (_called(desk, step), _was(desk, step), origin)), lamp=lamp,
        changed=changed_words(desk, step.changed) if step.step == "change" else "",
        place=place,
        settings="" if gone else settings(desk, setup, light),
        care="" if gone else care(desk, light), marks=() if gone else desk.marking.under(light.path),
        swatch=Markup("" if gone else patch(seen_of(desk, setup, light), _white(setup))),
    )  # fmt: skip


def _called(desk: Desk, step: LampStep) -> str:
    """The name of a lamp with what it does, where the name does not say that by itself."""
    name, role = desk.say.light_name(step.name), step.light.role or ""
    return name if role.casefold() in name.casefold().split() else join(", ", (name, role))


def _white(setup: Setup) -> float | None:
    return setup.camera.white_balance if setup.camera else None


def _was(desk: Desk, step: LampStep) -> str:
    _ = desk.words
    return _("the lamp that was '{name}'", name=desk.say.light_name(step.was)) if step.was else ""


def _from(desk: Desk, line: DayLine, setup: Setup, step: LampStep) -> str:
    """The other set that a lamp comes out of, where only one lamp of the kind there is."""
    _ = desk.words
    ready = line.replayed.preparing(setup.id) if line.replayed else None
    if ready is None or step.step != "new" or len(step.light.lamp) != 1:
        return ""
    rooms = [task.before.room for task in ready.tasks if task.piece in step.light.lamp and task.of == 1 and task.before]
    return _("comes from {room}", room=desk.say.set(rooms[0])) if rooms and rooms[0] != setup.set else ""


def _others(desk: Desk, setup: Setup, before: Setup | None) -> Iterator[OtherRow]:
    """Windows, cloth and flags, practicals: what changes, or all of it in a fresh set."""
    families = (
        (setup.windows, before.windows if before else {}),
        (setup.grip, before.grip if before else {}),
        (setup.practicals, before.practicals if before else {}),
    )
    for now, old in families:
        for step in thing_steps(now, old):
            marks = () if step.step == "remove" else desk.marking.under(step.thing.path)
            idle = step.step == "new" and isinstance(step.thing, Treatment) and not _treats(step.thing)
            if (step.step != "keep" and not idle) or marks:
                name = plain(step.name.rsplit("/", 1)[-1])
                yield OtherRow(step.step, name, _other_words(desk, step, setup), marks)


def _treats(treatment: Treatment) -> bool:
    """Whether anything is done to a window at all."""
    return bool(treatment.black_out or treatment.tent or treatment.layers)


def _other_words(desk: Desk, step: ThingStep, setup: Setup) -> str:
    _ = desk.words
    thing = step.thing
    if step.step == "remove":
        return _("back to bare") if isinstance(thing, Treatment) else ""
    if isinstance(thing, Treatment):
        return join(", ", (desk.say.treatment(thing), load.cloth_size(desk, step.name, thing), *thing.note))
    if isinstance(thing, Grip):
        return grip_words(desk, thing, setup.set)
    return practical_words(desk, setup, thing)


def _colours(desk: Desk, line: DayLine) -> tuple[ColourRow, ...]:
    """Each lamp and colour once, in order of number, with the white balance it is seen at."""
    plan, say = desk.shoot.plan, desk.say
    numbers = lamp_numbers(plan, line.setups)
    rows: dict[tuple[object, ...], ColourRow] = {}
    for name in line.setups:
        setup = plan.setups[name]
        white = _white(setup)
        for lamp, light in setup.lights.items():
            kelvin = seen_of(desk, setup, light)
            number = numbers[setup.set or "", lamp]
            row = ColourRow(number, join(", ", (say.light_name(lamp), say.set(setup.set))),
                            say.value("kelvin", kelvin and round(kelvin, -1)), say.value("kelvin", white),
                            say.against_white(kelvin, white),
                            Markup(patch(kelvin, white)))
            rows.setdefault((setup.set, number, kelvin, white), row)
        for lamp, practical in setup.practicals.items():
            kelvin = bulb_seen(desk, setup, practical)
            row = ColourRow(None, join(", ", (plain(lamp), say.set(setup.set))), say.value("kelvin", kelvin),
                            say.value("kelvin", white), say.against_white(kelvin, white), Markup(patch(kelvin, white)))
            if kelvin:
                rows.setdefault((setup.set, lamp, kelvin, white), row)
    return tuple(rows.values())


def _circuits(desk: Desk, line: DayLine) -> tuple[Pair, ...]:
    """What the breaker map of the day's places says."""
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    places = dict.fromkeys((plan.setups[s].set or "").split("/")[0] for s in line.setups)
    rows = []
    for place in places:
        location = plan.locations.get(place)
        for circuit in location.circuits.values() if location else ():
            outlets = (*circuit.outlets, *_outlets(desk, location, circuit.id))
            words = join(" · ", (
                say.value("current", circuit.breaker), stations.rating(desk, location, circuit) if location else "",
                _("{power} on it already", power=say.value("power", circuit.already)) if circuit.already else "",
                _("outlets: {outlets}", outlets=", ".join(outlets)) if outlets else "", *circuit.note,
            ))  # fmt: skip
            rows.append(Pair(say.circuit(circuit.id), words))
    return tuple(rows)


def _outlets(desk: Desk, place: Location | None, circuit: str) -> Iterator[str]:
    """The sockets of a circuit, with the room each is in."""
    for room in place.sets.values() if place else ():
        for name, outlet in room.outlets.items():
            if outlet.circuit == circuit:
                yield join(" ", (desk.say.opening(name), f"({desk.say.set(room.id)})", *outlet.note))
