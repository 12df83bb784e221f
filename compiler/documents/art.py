"""Art and props sheet: how each set is dressed, setup by setup, what changes, and what is put back for the house."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from ..plan.light import Practical
from ..plan.setup import Setup
from ..plan.spots import Named
from ..record import record, replace
from .changes import before_in_set, thing_steps
from .desk import Desk
from .flames import flames
from .light_words import practical_words
from .say import join, plain
from .shoot import DayLine
from .standing import Leaving, leaving
from .view import Mark, Pair, Sheet


@record
class DressState:
    """The set in one setup: everything the first time, afterwards what comes and what goes; `room` are the notes
    of the set itself."""

    when: str
    title: str
    id: str
    where: str
    fresh: bool
    comes: tuple[str, ...]
    goes: tuple[str, ...]
    stays: tuple[str, ...]
    practicals: tuple[Pair, ...]
    props: tuple[str, ...]
    story: tuple[str, ...]
    seen: tuple[str, ...]
    flames: tuple[str, ...]
    held: str
    room: tuple[str, ...]
    leaving: Leaving | None
    marks: tuple[Mark, ...]


@record
class PropRow:
    """A prop of the day: what, for which scenes, whose."""

    name: str
    id: str
    scenes: str
    whose: str
    care: str
    marks: tuple[Mark, ...]


@record
class Art:
    """The sheet."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    states: tuple[DressState, ...]
    props: tuple[PropRow, ...]
    restore: tuple[str, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day with a set to dress."""
    _ = desk.words
    people = desk.workers("art", "props", "dressing", "production-design")
    for line in desk.shoot.days:
        if any(_dressed(desk, name) for name in line.setups):
            head = desk.head(_("Art and props"), line)
            yield Sheet("art", f"{desk.folder(line)}/art", head, partial(view, desk, line), line.day.id, people)


def _dressed(desk: Desk, name: str) -> bool:
    """Whether the plan says anything of what stands in the set, or of the set that must be left as it was."""
    plan = desk.shoot.plan
    setup, place = plan.setups[name], plan.location_of(name)
    scenes = (plan.scenes[plan.scene_of[shot.id]] for shot in plan.shots_of(name))
    return bool(
        setup.dressing or setup.practicals or setup.held_until or (place and place.restore)
        or any(scene.props or scene.dressing or scene.note for scene in scenes)
    )  # fmt: skip


def view(desk: Desk, line: DayLine) -> Art:
    """The day's sets in order of shooting."""
    states = _once([_state(desk, line, name) for name in line.setups])
    first = states[0]
    where = desk.say.place_of(first.id)
    return Art(first.when, first.title, where, line.why, states, tuple(_props(desk, line)), _restore(desk, line))


def _once(states: list[DressState]) -> tuple[DressState, ...]:
    """The scene is said again only where it differs from that of the setup before."""
    kept = states[:1]
    for before, state in pairwise(states):
        story = () if state.story == before.story else state.story
        kept.append(replace(state, story=story))
    return tuple(kept)


def _state(desk: Desk, line: DayLine, name: str) -> DressState:
    plan, say = desk.shoot.plan, desk.say
    setup = plan.setups[name]
    before = before_in_set(plan, line.setups, name)
    old = before.dressing if before else ()
    scenes = tuple(dict.fromkeys(plan.scene_of[shot.id] for shot in plan.shots_of(name)))
    props = dict.fromkeys(prop for scene in scenes for prop in plan.scenes[scene].props)
    return DressState(
        when=say.clock(line.start_of(name)), title=say.setup(name), id=name, where=desk.room_of(line, name),
        fresh=before is None,
        comes=tuple(text for text in setup.dressing if text not in old),
        goes=tuple(text for text in old if text not in setup.dressing),
        stays=tuple(text for text in setup.dressing if text in old),
        practicals=tuple(_practicals(desk, setup, before)),
        props=tuple(say.thing(prop) for prop in props), story=tuple(_story(desk, scenes)),
        seen=tuple(_seen(desk, setup)), flames=tuple(flames(desk, setup)), held=held_words(desk, setup),
        room=tuple(_room(desk, setup)) if before is None else (),
        leaving=leaving(desk, line, name),
        marks=desk.marking.under(f"{setup.path}.dressing", f"{setup.path}.practicals"),
    )  # fmt: skip


def _room(desk: Desk, setup: Setup) -> Iterator[str]:
    """What the plan notes of a room and of what is in it."""
    room = desk.shoot.plan.set_of(setup.id)
    if room is None:
        return
    yield from room.note
    for surface in (room.walls, room.ceiling, room.floor):
        yield from surface.note if surface else ()
    for family in (room.doors, room.windows, room.mirrors, room.furniture, room.marks, room.walkways):
        for name, thing in family.items():
            for note in thing.note:
                yield f"{plain(name.rsplit('/', 1)[-1])}: {note}"


def _seen(desk: Desk, setup: Setup) -> Iterator[str]:
    """The things that this camera looks at, with the shots that show them."""
    plan, room = desk.shoot.plan, desk.shoot.plan.set_of(setup.id)
    things = {name for name, mark in room.marks.items() if mark.thing} if room else set()
    aim = setup.camera.aim.at if setup.camera and setup.camera.aim else None
    looked = {setup.key_at or "", aim.mark if isinstance(aim, Named) else ""}
    found: dict[str, list[str]] = {}
    for shot in plan.shots_of(setup.id):
        for name in dict.fromkeys((shot.of or "", *shot.marks, *sorted(looked if not shot.of else ()))):
            if name in things:
                found.setdefault(name, []).append(shot.id)
    for name, shots in found.items():
        yield f"{plain(name)} ({', '.join(shots)})"


def held_words(desk: Desk, setup: Setup) -> str:
    """That a set stays hot, and until when."""
    _ = desk.words
    if not setup.held_until:
        return ""
    return _("HOT SET until {setup}: nobody takes anything from it", setup=desk.say.setup(setup.held_until))


def _practicals(desk: Desk, setup: Setup, before: Setup | None) -> Iterator[Pair]:
    """Lamps in the picture that come, change or go."""
    for step in thing_steps(setup.practicals, before.practicals if before else {}):
        if step.step != "keep" and isinstance(step.thing, Practical):
            words = "" if step.step == "remove" else practical_words(desk, setup, step.thing, measured=False)
            yield Pair(step.step, join(" · ", (plain(step.name), words)))


def _story(desk: Desk, scenes: tuple[str, ...]) -> Iterator[str]:
    """Each scene's own dressing, with its day in the story."""
    _ = desk.words
    for number in scenes:
        scene = desk.shoot.plan.scenes[number]
        day = _("story: {day}", day=scene.story_day) if scene.story_day else ""
        yield join(" · ", (_("Scene {number}", number=number), scene.heading or "", day, *scene.dressing, *scene.note))


def _props(desk: Desk, line: DayLine) -> Iterator[PropRow]:
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    used: dict[str, dict[str, None]] = {}
    for name in line.setups:
        for shot in plan.shots_of(name):
            scene = plan.scene_of[shot.id]
            for prop in plan.scenes[scene].props:
                used.setdefault(prop, {})[scene] = None
        for lamp in plan.setups[name].practicals.values():
            if lamp.prop:
                used.setdefault(lamp.prop, {})
    for prop, scenes in used.items():
        gear = plan.gear.get(prop)
        if gear is None:
            continue
        whose = _("from {lender}", lender=gear.lent_by) if gear.lent_by else ""
        care = join(" · ", (
            _("used up in each take: have spares") if gear.breaks else "",
            _("LOOKS LIKE A WEAPON: one person holds it, nobody else touches it") if gear.weapon else "",
            _("bulb socket {socket}", socket=gear.bulb) if gear.bulb else "", *gear.note,
        ))  # fmt: skip
        name = f"{gear.quantity} × {say.thing(prop)}" if gear.quantity else say.thing(prop)
        yield PropRow(name, prop, ", ".join(scenes), whose, care, desk.marking.under(gear.path))


def _restore(desk: Desk, line: DayLine) -> tuple[str, ...]:
    """What the house wants back as it was."""
    plan = desk.shoot.plan
    places = dict.fromkeys((plan.setups[name].set or "").split("/")[0] for name in line.setups)
    return tuple(text for place in places if place in plan.locations for text in plan.locations[place].restore)
