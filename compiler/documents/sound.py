"""Sound sheet: what is recorded when, from which side, what hums and who silences it, and where a room tone is due."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ..facts import hours
from ..plan.scene import Shot
from ..plan.setup import Setup
from ..record import record, replace
from ..source.quantities import ClockRange
from .desk import Desk
from .say import join, side_words
from .shoot import DayLine
from .view import Mark, Pair, Sheet


@record
class Take:
    """A shot and how its sound is taken."""

    number: str
    how: str
    words: str
    marks: tuple[Mark, ...]


@record
class SoundState:
    """The sound of one setup."""

    when: str
    title: str
    id: str
    where: str
    plan: tuple[Pair, ...]
    loud: tuple[str, ...]
    takes: tuple[Take, ...]
    notes: tuple[str, ...]
    marks: tuple[Mark, ...]


@record
class Tone:
    """A room tone or a wild line to be recorded."""

    when: str
    words: str


@record
class SoundSheet:
    """The sheet."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    noise: tuple[Pair, ...]
    states: tuple[SoundState, ...]
    tones: tuple[Tone, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day on which sound is taken or the place makes noise."""
    _ = desk.words
    people = desk.workers("sound", "boom", "recordist", "mixer")
    for line in desk.shoot.days:
        if any(_heard(desk, name) for name in line.setups):
            head = desk.head(_("Sound"), line)
            yield Sheet("sound", f"{desk.folder(line)}/sound", head, partial(view, desk, line), line.day.id, people)


def view(desk: Desk, line: DayLine) -> SoundSheet:
    """Noise first, for it must be silenced before anything is recorded; then the setups in order."""
    _ = desk.words
    states = _once([_state(desk, line, name) for name in line.setups], desk)
    first = next((s for s in states if s.plan), states[0])
    return SoundSheet(
        first.when, join(": ", (_("First sound"), first.title)), desk.say.place_of(first.id), line.why,
        tuple(_noise(desk, line)), states, tuple(_tones(desk, line)),
    )  # fmt: skip


def _once(states: list[SoundState], desk: Desk) -> tuple[SoundState, ...]:
    """Boom and recorder are said again only where something of them changes."""
    _ = desk.words
    kept: list[SoundState] = []
    before: tuple[Pair, ...] = ()
    for state in states:
        same = bool(state.plan) and state.plan == before
        kept.append(replace(state, plan=(Pair("", _("sound as before")),)) if same else state)
        before = state.plan or before
    return tuple(kept)


def _heard(desk: Desk, name: str) -> bool:
    plan = desk.shoot.plan
    said = [shot.sound or plan.scenes[plan.scene_of[shot.id]].sound for shot in plan.shots_of(name)]
    return plan.setups[name].sound is not None or any(said)


def _state(desk: Desk, line: DayLine, name: str) -> SoundState:
    plan, say = desk.shoot.plan, desk.say
    setup = plan.setups[name]
    sound = setup.sound
    return SoundState(
        when=say.clock(line.rolling(name)), title=say.setup(name), id=name, where=desk.room_of(line, name),
        plan=tuple(_plan(desk, setup)), loud=tuple(_loud(desk, line, setup)),
        takes=tuple(_take(desk, shot) for shot in plan.shots_of(name)), notes=sound.note if sound else (),
        marks=desk.marking.under(f"{setup.path}.sound"),
    )  # fmt: skip


def _plan(desk: Desk, setup: Setup) -> Iterator[Pair]:
    _ = desk.words
    say, sound = desk.say, setup.sound
    if sound is None:
        return
    rows = (
        ("", say.thing(sound.boom) if sound.boom else ""), (_("by"), say.person(sound.by) if sound.by else ""),
        (_("from the"), side_words(say, sound.side)), (_("head"), say.value("length", sound.height)),
        (_("on the body"), say.things(sound.wireless)), (_("recorder"), say.thing(sound.recorder or "")),
    )  # fmt: skip
    yield from (Pair(name, words) for name, words in rows if words)


def _loud(desk: Desk, line: DayLine, setup: Setup) -> Iterator[str]:
    """What makes noise while it is shot: the place, at the hours of the noise, and lamps with fans."""
    _ = desk.words
    plan = desk.shoot.plan
    place = plan.location_of(setup.id)
    for noise in place.noise.values() if place else ():
        if (not noise.sets or setup.set in noise.sets) and _meets(line, setup.id, noise.when):
            yield noise.what or noise.id
    for name in dict.fromkeys(light.lamp[0] for light in setup.lights.values() if light.lamp):
        gear = plan.gear.get(name)
        if gear is not None and gear.fan == "loud":
            yield _("{lamp}: loud fan", lamp=desk.say.thing(name))


def _meets(line: DayLine, setup: str, when: ClockRange | None) -> bool:
    """Whether a noise falls into the takes of a setup; without its hours or those of the day it may."""
    slot = line.of_setup(setup, "shoot")
    if when is None or slot is None:
        return True
    return any(when.start + night < slot.end and slot.start < when.end + night for night in (0, hours.NIGHT))


def _take(desk: Desk, shot: Shot) -> Take:
    _ = desk.words
    plan = desk.shoot.plan
    how = {"sync": _("SYNC"), "mos": _("without sound"), "wild": _("WILD afterwards")}
    word = shot.sound or plan.scenes[plan.scene_of[shot.id]].sound or ""
    return Take(shot.id, how.get(word, _("not said")), shot.does or "", desk.marking.at(f"{shot.path}.sound"))


def _noise(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """What the places of the day sound like, and who sees to it."""
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    places = dict.fromkeys((plan.setups[name].set or line.day.location or "").split("/")[0] for name in line.setups)
    for place in (plan.locations[name] for name in places if name in plan.locations):
        for noise in place.noise.values():
            words = join(" · ", (
                say.value("clock-range", noise.when), ", ".join(say.set(room) for room in noise.sets),
                noise.silenced_by or _("NOBODY NAMED to silence it"), *noise.note,
            ))  # fmt: skip
            yield Pair(noise.what or noise.id, words)


def _tones(desk: Desk, line: DayLine) -> Iterator[Tone]:
    """Room tones in the agreed order, else one for each set that needs it; then the wild lines."""
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    agreed = False
    for step in line.replayed.steps if line.replayed else ():
        if step.kind == "room-tone":
            agreed = True
            yield Tone(say.clock(step.start), join(": ", (_("room tone"), say.set(step.room))))
    if not agreed:
        rooms = dict.fromkeys(plan.setups[n].set or "" for n in line.setups if hours.needs_tone(plan, n))
        yield from (Tone("", join(": ", (_("room tone"), say.set(room)))) for room in rooms)
    for name in line.setups:
        for shot in plan.shots_of(name):
            if shot.sound == "wild":
                yield Tone("", _("wild: {shot} {does}", shot=shot.id, does=shot.does or ""))
