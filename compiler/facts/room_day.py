"""The day of a person, a set or a circuit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import replace
from . import errands, hands, hours
from .whereabouts import Stretch, clock, held_during, not_agreed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan.person import Person
    from .facts import Facts
    from .timeline import Step


def person(facts: Facts, name: str, day_id: str) -> Iterator[Stretch]:
    """What somebody does on a day with an agreed order: called, made up, in front of the camera or at a job, rigging,
    at the meal, waiting."""
    line = facts.timelines[day_id]
    drives = _errands(facts, name, day_id)
    early = [start for _, start, _ in drives if start < line.call]
    late = [end for _, _, end in drives if end > line.wrap]
    day = list(_on_set(facts, name, day_id))
    if early:
        day.insert(0, Stretch(day_id, name, early[0], line.call, "away", words="not called yet"))
    if late:
        day.append(Stretch(day_id, name, line.wrap, late[-1], "away", words="has left"))
    for one in day:
        yield from _with_errands(facts, name, day_id, one)


def _errands(facts: Facts, name: str, day_id: str) -> list[tuple[errands.Drive, int, int]]:
    """What somebody fetches or brings back on a day, in order."""
    day = facts.plan.days[day_id]
    mine = [(d, d.trips[0].on(day)) for d in errands.drives(facts.plan, name)]
    return [(d, *when) for d, when in mine if when is not None]


def _with_errands(facts: Facts, name: str, day_id: str, one: Stretch) -> Iterator[Stretch]:
    """A stretch, with the errands that fall into it."""
    at = one.start
    for drive, start, end in _errands(facts, name, day_id):
        a, b = max(start, at), min(end, one.end)
        if a < b:
            yield replace(one, start=at, end=a)
            yield Stretch(day_id, name, a, b, "away", words=drive.words)
            at = b
    yield replace(one, start=at)


def _on_set(facts: Facts, name: str, day_id: str) -> Iterator[Stretch]:
    plan, line = facts.plan, facts.timelines[day_id]
    who, day = plan.people[name], plan.days[day_id]
    if not hands.present(plan, who, day_id):
        yield Stretch(day_id, name, line.call, line.wrap, "away", words="is not there on this day")
        return
    call = int(day.call or 0)
    here = hands.hours(who, day_id)
    start, end = hours.shifted(here, call) if here is not None else (line.call, line.wrap)
    own = who.days.get(day_id)
    said = own.call if own is not None and own.call is not None else who.call
    start = max(start, hours.later(int(said), min(call, int(said)))) if said is not None else start
    ready = start + (round(float(who.before) / 30) if who.before is not None else 0)
    yield Stretch(day_id, name, min(line.call, start), start, "away", words="not called yet")
    yield Stretch(day_id, name, start, min(ready, end), "called", words="makes ready")
    for step in line.steps:
        a, b = max(step.start, ready), min(step.end, end)
        if a < b:
            state, words = _does(facts, who, step)
            yield Stretch(day_id, name, a, b, state, step.room, words)
    yield Stretch(day_id, name, min(end, line.wrap), line.wrap, "away", words="has left")


def _does(facts: Facts, who: Person, step: Step) -> tuple[str, str]:
    plan = facts.plan
    setup = plan.setups.get(step.setup)
    if step.kind == "meal":
        return "meal", ""
    if step.kind == "setup" and setup is not None:
        parts: dict[str, list[str]] = {}
        for shot in facts.shots_of.get(setup.id) or (None,):
            for character, person_ in hands.cast(plan, setup, shot, facts.players):
                if person_ == who.id:
                    parts.setdefault(f"plays {character}", []).append(shot.id if shot else "")
            for job in (*hands.jobs(plan, setup, shot), *_watchers(facts, setup.id, who.id)):
                if job.who == who.id:
                    parts.setdefault(job.words, [])
        said = [f"{words} in {', '.join(shots)}" if shots and shots[0] else words for words, shots in parts.items()]
        if said:
            return "in use", f"{', '.join(said)} ('{setup.id}')"
        return "free", f"not needed in '{setup.id}'"
    if step.kind in ("prepare", "load-in", "wrap", "move") and hands.is_crew(who):
        words = {"load-in": "loads in", "wrap": "packs up", "move": "moves"}.get(step.kind, f"rigs for '{step.setup}'")
        return "rigged", words if "rig" in who.skills or step.kind != "prepare" else f"while '{step.setup}' is rigged"
    return "free", {"room-tone": "room tone", "wait": f"waits: {step.words}"}.get(step.kind, "waits")


def _watchers(facts: Facts, setup: str, who: str) -> list[hands.Job]:
    """Jobs that take only eyes, which no count of hands holds."""
    named = facts.plan.setups[setup].hands
    mine = [job for job, person_ in named.items() if person_ == who and hands.group_of(job) == "eyes"]
    return [hands.Job("eyes", f"'{job}'", "", who) for job in mine]


def known_person(facts: Facts, name: str, day_id: str) -> Iterator[str]:
    """Hours, and without an order the setups somebody is in."""
    plan = facts.plan
    who = plan.people[name]
    here = hands.hours(who, day_id)
    for drive in errands.drives(plan, name):
        first = drive.trips[0]
        yield f"{first.date} {clock(first.start)}-{clock(first.end)}: {drive.words}"
    if not hands.present(plan, who, day_id):
        yield f"day {day_id}: not there"
        return
    if here is not None:
        yield f"day {day_id}: there from {clock(here.start)} to {clock(here.end)}"
    if day_id not in facts.timelines:
        setups = [s for s in plan.setups if facts.day_of[s] == day_id and name in hours.people_of(plan, s)]
        if setups:
            yield f"day {day_id}: needed in " + ", ".join(f"'{s}'" for s in setups)
        yield not_agreed(day_id)


def room(facts: Facts, name: str, day_id: str) -> Iterator[Stretch]:
    """What happens in a set."""
    line = facts.timelines[day_id]
    seen = False
    for step in line.steps:
        held = [h for h in held_during(facts, day_id, step) if facts.plan.setups[h].set == name]
        if step.room == name and step.kind in ("prepare", "setup", "room-tone"):
            seen = True
            state = {"prepare": "rigged", "setup": "in use"}.get(step.kind, "in use")
            words = "room tone" if step.kind == "room-tone" else f"'{step.setup}'"
            yield Stretch(day_id, name, step.start, step.end, state, words=words)
        elif held:
            words = ", ".join(f"'{h}'" for h in held)
            yield Stretch(day_id, name, step.start, step.end, "held hot", words=words)
        else:
            standing = sum(s.state.room == name for s in step.standing)
            words = f"{standing} things stand in it" if standing and seen else "nothing of ours stands in it"
            yield Stretch(day_id, name, step.start, step.end, "free", words=words)


def known_room(facts: Facts, name: str, day_id: str) -> Iterator[str]:
    """Access, and without an order the setups of the day in the set."""
    plan = facts.plan
    place = plan.locations[name.split("/")[0]]
    if place.access is not None:
        yield f"the crew may be there from {clock(place.access.start)} to {clock(place.access.end)}"
    if day_id not in facts.timelines:
        setups = [s.id for s in plan.setups.values() if s.set == name and facts.day_of[s.id] == day_id]
        if setups:
            yield f"day {day_id}: " + ", ".join(f"'{s}'" for s in setups)
        yield not_agreed(day_id)


def circuit(facts: Facts, name: str, day_id: str) -> Iterator[Stretch]:
    """What a circuit carries while each setup is shot."""
    by_setup = {m.setup: m for m in facts.circuit_moments if m.circuit.id == name}
    for step in facts.timelines[day_id].steps:
        moment = by_setup.get(step.setup) if step.kind in ("setup", "prepare", "wait") else None
        if moment is None:
            held = [by_setup[h] for h in held_during(facts, day_id, step) if h in by_setup]
            loads = ", ".join(f"'{load.words}' {load.watts:g} W" for m in held for load in m.loads)
            if held:
                yield Stretch(day_id, name, step.start, step.end, "held hot", words=loads)
            else:
                yield Stretch(day_id, name, step.start, step.end, "free", words="only what the house draws")
            continue
        loads = ", ".join(f"'{load.words}' {load.watts:g} W" for load in moment.loads)
        state = "in use" if step.kind == "setup" else "rigged"
        words = f"{moment.amperes:.1f} A of {moment.breaker:g} A in '{step.setup}': {loads}"
        yield Stretch(day_id, name, step.start, step.end, state, words=words)


def known_circuit(facts: Facts, name: str, day_id: str) -> Iterator[str]:
    """What it is made for, and without an order the fullest moment."""
    front, _, short = name.rpartition("/")
    own = facts.plan.locations[front].circuits[short]
    if own.breaker is not None:
        house = f", of which the house takes {float(own.already):g} W" if own.already else ""
        yield f"breaker of {float(own.breaker):g} A{house}"
    if day_id not in facts.timelines:
        here = [m for m in facts.circuit_moments if m.circuit.id == name and facts.day_of[m.setup] == day_id]
        for moment in sorted(here, key=lambda m: -m.amperes)[:1]:
            yield f"day {day_id}: at most {moment.amperes:.1f} A, in '{moment.setup}'"
        yield not_agreed(day_id)
