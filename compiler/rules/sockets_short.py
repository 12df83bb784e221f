"""More plugs than sockets.

On set: the lamp stands, the circuit would carry it, and the last socket of the wall has the urn in it.

How it is decided: lamps and practicals on a circuit while a setup is shot, with those of sets held hot, against the
'sockets:' of that circuit's outlets. A lead takes one socket and offers its own 'sockets:'; a lamp that names no lead
must find its socket in its own set. Only circuits whose outlets all say how many they have are counted; a lead that
does not say is reported as not checked where it would decide. Source: counting. What the circuit carries has a rule of
its own.

Fix: a lead with more sockets, named under 'lead:', a lamp on a battery, or the socket of another room.

When to accept it: a multi-way that the plan does not list lies in the van. Local codes decide how many may be chained.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from .physics import Case, causes
from .words import counted, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.plugs import Sockets
    from ..findings import Finding

RULE = "sockets-short"
SEVERITY: Final = "warning"
TITLE = "more plugs than sockets"

TRIGGERS = """
hotset: 1
locations:
  landing:
    mains: 230 V 50 Hz
    circuits: {ground-floor: {breaker: 16 A}}
    sets:
      office: {size: 6 m x 4 m x 2.4 m, outlets: {by-hatch: {wall: east, from: 1 m, circuit: ground-floor, sockets: 2}}}
gear: {cob: {kind: light, draws: 180 W, factor: 0.95, quantity: 3}, stinger: {kind: power, sockets: 3, quantity: 2}}
setups:
  wide:
    set: office
    lights:
      one: {lamp: cob, circuit: ground-floor}
      two: {lamp: cob, circuit: ground-floor}
      three: {lamp: cob, circuit: ground-floor}  # <- here
"""
PASSES = TRIGGERS.replace("ground-floor}  # <- here", "ground-floor, lead: stinger}")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    if not any(o.sockets is not None for room in plan.sets.values() for o in room.outlets.values()):
        return
    from ..facts.plugs import fullest

    held = {m.setup: m.held for m in facts.moments}
    cases: list[Case[Sockets]] = []
    for setup in plan.setups.values():
        for one in fullest(plan, setup, held.get(setup.id, ())):
            if one.short and one.unsaid:
                yield NotChecked(RULE, f"setup '{setup.id}'", f"'sockets:' of {quoted(one.unsaid)}")
            elif one.short:
                cases.append(Case(one.plugs[-1].path, setup.id, one.short, one))
    for cause in causes(plan, cases):
        one = cause.worst.what
        name, short = one.circuit.rsplit("/", 1)[-1], one.room.rsplit("/", 1)[-1]
        where = f" in '{short}'" if one.room else ""
        lead = " that name no lead" if one.room else ""
        split = f" and {one.split} more on their leads" if one.split else ""
        stay = [p for p in one.plugs if p.setup != one.setup]
        hot = f", with {quoted(p.words for p in stay)} of what stays hot" if stay else ""
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"'{one.setup}' has {counted(len(one.plugs), 'plug')} on '{name}'{where}{lead} ("
            f"{quoted((p.words for p in one.plugs), most=6)}{hot}), and {counted(one.wall, 'socket')}{split} for them"
            f"{cause.also}",
            _ways(facts, one),
            (
                ("setup", one.setup),
                ("circuit", name),
                ("set", short),
                ("plugs", len(one.plugs)),
                ("sockets", one.wall + one.split),
                ("short", one.short),
            ),
            also=[(f"locations.{one.circuit.split('/')[0]}.circuits.{name}", "the circuit")],
        )


def _ways(facts: Facts, one: Sockets) -> tuple[str, ...]:
    many = [g.id for g in facts.plan.gear_of("power") if g.sockets is not None and g.sockets > one.short]
    last = one.plugs[-1].words
    ways = (
        [f"plug '{last}' into {quoted(many, 'or')} and name it under 'lead:'"] if many else ["bring a multi-way lead"]
    )
    return (*ways, "or run a lamp on a battery, or hang it on another circuit")
