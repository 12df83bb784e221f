"""A battery station or a generator's tank is empty before the day is over.

On set: the generator coughs in the middle of the take, and somebody runs to a hot engine with a can of petrol.

How it is decided: along the agreed order. Lamps on the circuit burn while their takes run and 10 minutes before, at
their level, held sets with them; what the circuit already feeds draws from call to wrap. A station ('holds:') gives
four fifths of its watt-hours. A generator ('runs:' at full power, with 'gives:') has its engine on from the first lamp
to the last; idling it takes three tenths of what it takes at full power, and a straight line between. Source:
arithmetic; the 10 minutes, the four fifths and the three tenths are common practice, no source: measure yours.

Fix: refuel or charge in the pause that is named, bring another, dim, or hang lamps on the house. Fuel: stop the engine
and let it cool before you refuel, outdoors, away from flames and lamps, with an extinguisher beside you; the exhaust
never indoors, under a tent or by a window (carbon monoxide cannot be smelt). Local codes and the maker's book decide.

When to accept it: somebody is named who refuels, and the pause is in the order.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from .words import AGREED, clock, counted, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts, tanks
    from ..facts.timeline import Timeline
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
    fills = int(found.used - 1e-9)
    top = max(burn.watts for burn in found.burns) + float(circuit.already or 0.0)
    store = f"a full tank of {float(circuit.runs or 0.0) / 3600:g} h at {float(circuit.gives or 0.0):g} W"
    store = store if engine else f"its {float(circuit.holds or 0.0):g} Wh"
    verb = "refuel it" if engine else "charge or change it"
    pause = _pause(facts.timelines[day], dry)
    what = counted(fills, "tank" if engine else "station")
    more = f"; the day takes {counted(fills, 'fill')} more" if engine else f"; the day takes {what} more"
    ways = [f"{verb} {pause}{more}" if pause else f"bring {what} more"]
    ways.append("or dim, switch lamps off between the setups, or hang them on the house")
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        circuit.path,
        f"'{name}' runs dry at {clock(dry)} on day {day}, in '{found.setup}': {store} {'is' if engine else 'are'} used "
        f"up by then, up to {top:g} W at a time ({quoted(b.setup for b in found.burns)})",
        (*ways, *([FUEL] if engine else [])),
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


def _pause(line: Timeline, dry: float) -> str:
    """The last pause before a time, in words: a meal, or before a setup is rigged; "" where there is none."""
    shot = [step for step in line.steps if step.kind == "setup" and step.start < dry]
    meal = next((s for s in reversed(line.steps) if s.kind == "meal" and shot and shot[0].end <= s.start < dry), None)
    if meal is not None:
        return f"at the meal at {clock(meal.start)}"
    if len(shot) > 1:
        return f"after '{shot[-2].setup}', before '{shot[-1].setup}' begins at {clock(shot[-1].start)}"
    return ""
