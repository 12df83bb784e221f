"""A lamp needs the mains where no circuit reaches.

On set: the lamp is on its stand in the middle of the quay, and the nearest socket is behind a locked door.

How it is decided: a lamp or practical that says what it 'draws:' and runs on no battery needs a circuit that feeds its
set ('feeds:' of the circuit, or an outlet of it in the set), or a lead from another room that it names under 'lead:'.
A place whose circuits do not say what they feed is not judged. Source: common practice, no source.

Fix: run a lead from the circuit named and say so, or take a lamp that runs on a battery.

When to accept it: the house gives power that the plan does not list. Ask who may say so; local codes decide.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import loads
from ..findings import NotChecked
from .physics import Case, causes
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.location import Circuit, Location
    from ..plan.setup import Setup

    Met = tuple[str, Gear, str, str, Location]

RULE = "no-power-here"
SEVERITY: Final = "error"
TITLE = "a lamp needs the mains where no circuit reaches"

TRIGGERS = """
hotset: 1
locations:
  landing:
    mains: 230 V 50 Hz
    circuits: {ground-floor: {breaker: 16 A, feeds: office}}
    sets:
      office: {size: 4 m x 3 m x 2.4 m}
      quay: {size: 12 m x 6 m, outdoors: true}
gear:
  cob: {kind: light, draws: 180 W, factor: 0.95}
  reel: {kind: power, long: 25 m}
setups:
  quay-dark:
    set: quay
    lights:
      moon: {lamp: cob}  # <- here
"""
PASSES = TRIGGERS.replace("{lamp: cob}  # <- here", "{lamp: cob, circuit: ground-floor, lead: reel}")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        place = plan.location_of(setup.id)
        if place is None:
            continue
        for path, words, circuit, name in loads.plugged(plan, setup):
            gear = plan.gear.get(name)
            if gear is None or gear.draws is None or gear.runs is not None or gear.battery:
                continue
            room = _room(setup, words)
            if not place.circuits:
                yield NotChecked(RULE, f"location '{place.id}'", "'circuits:' of the place")
                continue
            if _reached(facts, setup, place, circuit, room, words):
                continue
            cases.append(Case(path, setup.id, 0.0, (words, gear, circuit, room, place)))
    for cause in causes(plan, cases):
        words, gear, circuit, room, place = cause.worst.what
        near = [c for c in place.circuits.values() if _feeds(facts, c, room)]
        short = room.rsplit("/", 1)[-1]
        ways = [f"hang it on '{_short(near[0])}', which feeds '{short}'"] if near else []
        ways.append("run a lead from a room that has power, and name it under 'lead:' with its 'circuit:'")
        ways += [f"or take {quoted(cordless, 'or')}, on a battery" for cordless in [_cordless(facts)] if cordless]
        which = f"'{circuit.rsplit('/', 1)[-1]}' does not feed '{short}'" if circuit else f"no circuit feeds '{short}'"
        yield finding(
            plan,
            (RULE, SEVERITY),
            f"{cause.worst.path}.circuit" if circuit else cause.worst.path,
            f"'{words}' draws {float(gear.draws or 0):g} W from the mains, and {which}{cause.also}",
            tuple(ways),
            (("setup", cause.worst.who), ("lamp", gear.id), ("watts", float(gear.draws or 0)), ("set", room)),
            also=[(c.path, f"feeds {quoted(f.rsplit('/', 1)[-1] for f in c.feeds)}") for c in place.circuits.values()][
                :3
            ],
        )


def _short(circuit: Circuit) -> str:
    return circuit.id.rsplit("/", 1)[-1]


def _room(setup: Setup, words: str) -> str:
    light = setup.lights.get(words)
    if light is not None and light.outside is not None:
        return light.outside.rsplit("/", 1)[0]
    return (light.in_ if light is not None else None) or setup.set or ""


def _feeds(facts: Facts, circuit: Circuit, room: str) -> bool | None:
    """Whether a circuit feeds a set; None where the plan does not say."""
    place = facts.plan.sets.get(room)
    if place is not None and any(o.circuit == circuit.id for o in place.outlets.values()):
        return True
    if not circuit.feeds:
        return None
    return any(room in (f, f.rsplit("/", 1)[-1]) or f == room.rsplit("/", 1)[-1] for f in circuit.feeds)


def _reached(facts: Facts, setup: Setup, place: Location, circuit: str, room: str, words: str) -> bool:
    if circuit:
        if circuit not in {c.id for c in place.circuits.values()}:
            return True  # a battery station or a name that is reported elsewhere
        light = setup.lights.get(words)
        known = _feeds(facts, next(c for c in place.circuits.values() if c.id == circuit), room)
        return known is not False or bool(light is not None and light.lead)
    return any(_feeds(facts, c, room) is not False for c in place.circuits.values())


def _cordless(facts: Facts) -> list[str]:
    return [g.id for g in facts.plan.gear.values() if g.kind == "light" and (g.runs is not None or g.battery)]
