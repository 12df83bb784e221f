"""A battery station or a generator's tank is empty before the day is over.

On set: the generator coughs in the middle of the take, and somebody runs to a hot engine with a can of petrol.

How it is decided: along the agreed order. Lamps on the circuit burn while their takes run and 10 minutes before, at
their level, held sets with them (a breaker is checked at full power, since the crew may dim up again); what the
circuit already feeds draws from call to wrap. A station ('holds:') gives four fifths of its watt-hours. A generator
('runs:' at full power, with 'gives:') has its engine on from the first lamp to the last; idling it takes three tenths
of what it takes at full power, and a straight line between. Source: arithmetic; the 10 minutes, the four fifths and
the three tenths are common practice, no source: measure yours.

Fix: refuel or change it in the pauses that are named (the fewest that do), bring another, dim, or hang lamps on the
house. Fuel: stop the engine and let it cool before you refuel, outdoors, away from flames and lamps, with an
extinguisher beside you; the exhaust never indoors, under a tent or by a window (carbon monoxide cannot be smelt). Local
codes and the maker's book decide.

When to accept it: somebody is named who refuels, and the pause is in the order.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from .words import AGREED, clock, counted, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts, tanks
    from ..findings import Finding

RULE = "station-runs-dry"
SEVERITY: Final = "warning"
TITLE = "a battery station or a generator's tank is empty before the day is over"

TRIGGERS = """
hotset: 1
days: {1: {call: "08:00", wrap: "16:00", load-in: 30 min, wrap-out: 30 min, order: [wide, close]}}
locations:
  quay:
    mains: 230 V 50 Hz
    circuits:
      generator: {gives: 2000 W, runs: 3 h}  # <- here
    sets: {pier: {size: 12 m x 6 m, outdoors: true}}
gear: {big-lamp: {kind: light, draws: 1500 W, factor: 1}}
setups:
  wide:
    set: pier
    takes: 120 min
    lights: {moon: {lamp: big-lamp, circuit: generator}}
  close:
    set: pier
    takes: 120 min
    lights: {moon: {lamp: big-lamp, circuit: generator}}
scenes: {4: {shots: {4A: {setup: wide}, 4B: {setup: close}}}}
"""
PASSES = TRIGGERS.replace("runs: 3 h", "runs: 5 h").replace("  # <- here", "")
FUEL = (
    "stop the engine and let it cool before you refuel, outdoors, away from flames; exhaust never by a window or tent"
)


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    for place in plan.locations.values():
        for circuit in place.circuits.values():
            if circuit.holds is None and circuit.runs is None:
                continue
            from ..facts import tanks

            name = circuit.id.rpartition("/")[2]
            fed = {facts.day_of[s.id] for s in plan.setups.values() if tanks.drawn(facts, s, circuit.id) > 0}
            if fed and tanks.lacks(circuit):
                yield NotChecked(RULE, f"circuit '{name}'", tanks.lacks(circuit))
                continue
            for day in plan.days:
                if day in fed and day not in facts.timelines:
                    yield NotChecked(RULE, f"circuit '{name}' on day {day}", AGREED)
                found = tanks.of_day(facts, day, circuit)
                if found is not None and found.dry is not None:
                    yield _finding(facts, day, found)


def _finding(facts: Facts, day: str, found: tanks.Day) -> Finding:
    from ..facts import tanks

    circuit, dry = found.circuit, (found.dry or 0.0) // 2 * 2  # it is empty by then, so the minute before counts
    name, engine = circuit.id.rpartition("/")[2], tanks.engine(circuit)
    top = max(burn.watts for burn in found.burns) + float(circuit.already or 0.0)
    store = f"a full tank of {float(circuit.runs or 0.0) / 3600:g} h at {float(circuit.gives or 0.0):g} W is"
    store = store if engine else f"its {float(circuit.holds or 0.0):g} Wh are"
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        circuit.path,
        f"'{name}' runs dry at {clock(dry)} on day {day}, {_when(found, engine)}: {store} used up by then, up to "
        f"{top:g} W at a time{_undimmed(facts, found, top)} ({quoted(b.setup for b in found.burns)})",
        (
            *_fill(found, engine),
            "or dim, switch lamps off between the setups, or hang them on the house",
            *([FUEL] if engine else []),
        ),
        (
            ("day", day),
            ("circuit", circuit.id),
            ("setup", found.setup),
            ("at", clock(dry)),
            ("watts", round(top, 1)),
            ("fills_needed", round(found.used, 2)),
        ),
        typical=(
            "lamps on 10 min before the takes",
            "an idling engine takes three tenths" if engine else "four fifths of the energy usable",
        ),
    )


def _when(found: tanks.Day, engine: bool) -> str:
    """In which setup, or between which."""
    if found.between is None:
        return f"in '{found.setup}'"
    before, after = found.between
    starts = next(b.start for b in found.burns if b.setup == after)
    lit = f", whose lamps are lit from {clock(starts)} on"
    return f"{'idling' if engine else 'standing'} between '{before}' and '{after}'{lit}"


def _undimmed(facts: Facts, found: tanks.Day, top: float) -> str:
    """That the lamps count at their levels here, where it makes a difference to what the other sheets say."""
    lit = {b.setup for b in found.burns}
    moments = [m for m in facts.circuit_moments if m.circuit.id == found.circuit.id and m.setup in lit]
    house = float(found.circuit.already or 0.0)
    full = max((sum(load.watts for load in m.loads) for m in moments), default=0.0) + house
    return f" at their levels, {full:g} W at full power" if full > 1.01 * top else ""


def _fill(found: tanks.Day, engine: bool) -> tuple[str, ...]:
    """When to refuel or change it, or what to bring where no pause comes early enough."""
    stop: tuple[str, ...] = ()
    if engine and found.between is not None:
        before, after = found.between
        stop = (f"stop the engine between '{before}' and '{after}', and look at the tank before it starts again",)
    if found.fills is None:
        if stop:
            return stop
        what = "a larger tank or a second generator" if engine else "a larger station, or more of them"
        alone = "no pause comes before it is empty" if found.between else "one setup alone takes more than a full one"
        return (f"bring {what}: {alone}",)
    pauses = [
        f"after '{p.after}' at {clock(p.time)}" if p.after else f"at the meal at {clock(p.time)}" for p in found.fills
    ]
    said = f"{', '.join(pauses[:-1])} and {pauses[-1]}" if len(pauses) > 1 else pauses[0]
    if engine:
        return (*stop, f"{'or ' if stop else ''}refuel it {said}")
    return (f"bring {counted(len(pauses), 'full one', 'full ones')} more, and change it {said}",)
