"""The day of a set or a circuit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .struck import Struck
from .whereabouts import Stretch, clock, held_during, not_agreed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from .facts import Facts


def room(facts: Facts, name: str, day_id: str) -> Iterator[Stretch]:
    """What happens in a set."""
    line = facts.timelines[day_id]
    seen = False
    struck = Struck(facts, day_id)
    for i, step in enumerate(line.steps):
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
            standing = sum(s.state.room == name for s in struck.standing(i))
            things = f"{standing} things stand in it" if standing > 1 else "one thing stands in it"
            words = things if standing and seen else "nothing of ours stands in it"
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
    """What a circuit carries while each setup is shot, its lamps at full power as a breaker has to carry them."""
    front, _, short = name.rpartition("/")
    house = facts.plan.locations[front].circuits[short].already
    by_setup = {m.setup: m for m in facts.circuit_moments if m.circuit.id == name}
    idle = f"only what it already feeds, {float(house):g} W" if house else "nothing of ours is on it"
    for step in facts.timelines[day_id].steps:
        moment = by_setup.get(step.setup) if step.kind in ("setup", "prepare", "wait") else None
        if moment is None:
            held = [by_setup[h] for h in held_during(facts, day_id, step) if h in by_setup]
            loads = ", ".join(f"'{load.words}' {load.watts:g} W" for m in held for load in m.loads)
            if held:
                yield Stretch(day_id, name, step.start, step.end, "held hot", words=loads)
            else:
                yield Stretch(day_id, name, step.start, step.end, "free", words=idle)
            continue
        loads = ", ".join(f"'{load.words}' {load.watts:g} W" for load in moment.loads)
        state = "in use" if step.kind == "setup" else "rigged"
        words = f"{moment.amperes:.1f} A of {round(moment.breaker, 1):g} A in '{step.setup}': {loads}"
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
