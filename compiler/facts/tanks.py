"""Circuits that run out: battery stations ('holds:') and generators ('runs:' with 'gives:') along an agreed day.

Lamps burn while their setup's takes run and some minutes before, dimmed in proportion, those of held sets with them;
what the circuit already feeds draws from the call to the wrap. A generator's engine runs from the first of these to
the last, idling between.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from ..science import tanks
from . import loads
from .cells import BEFORE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan.light import Light, Practical
    from ..plan.location import Circuit
    from ..plan.setup import Setup
    from . import Facts


class Burn(NamedTuple):
    """What a setup takes from a circuit: from and to in half-minutes, watts."""

    setup: str
    start: int
    end: int
    watts: float


class Pause(NamedTuple):
    """A time at which a store can be filled or changed: half-minutes, and the setup that is over then ("": a meal)."""

    time: int
    after: str


class Day(NamedTuple):
    """A circuit that runs out on a day: what burns on it, what is used in full stations or tanks, when the first is
    empty (half-minutes; None where it lasts), in which setup, and the fewest pauses in which it has to be filled or
    changed (None: one setup alone takes more than a full one). `between` are the setups before and after, where it is
    empty while nothing burns on it."""

    circuit: Circuit
    burns: tuple[Burn, ...]
    used: float
    dry: float | None
    setup: str
    fills: tuple[Pause, ...] | None
    between: tuple[str, str] | None = None


def engine(circuit: Circuit) -> bool:
    """Whether it burns fuel."""
    return circuit.runs is not None


def runs_out(circuit: Circuit) -> bool:
    """Whether a circuit has a store that can be empty."""
    return circuit.holds is not None or circuit.runs is not None


def lacks(circuit: Circuit) -> str:
    """The detail without which it is not known how long a store lasts; "" where nothing lacks."""
    name = circuit.id.rpartition("/")[2]
    return f"'gives:' of '{name}', such as 2000 W" if engine(circuit) and not circuit.gives else ""


def drawn(facts: Facts, setup: Setup, circuit: str) -> float:
    """Watts a setup takes from a circuit, its lamps at their levels."""
    sources: list[Light | Practical] = [*setup.lights.values(), *setup.practicals.values()]
    levels = {one.path: one.level for one in sources}
    watts = 0.0
    for load in loads.of_setup(facts.plan, setup):
        level = levels.get(load.path)
        watts += load.watts * (1.0 if level is None else float(level)) if load.circuit == circuit else 0.0
    return watts


def of_day(facts: Facts, day_id: str, circuit: Circuit) -> Day | None:
    """A circuit's day; None where nothing hangs on it, or no order is agreed."""
    line = facts.timelines.get(day_id)
    burns = tuple(_burns(facts, day_id, circuit.id))
    if line is None or not burns or lacks(circuit) or not runs_out(circuit):
        return None
    spans = _spans(circuit, burns, line.call, line.wrap)
    minutes = [(a / 2, b / 2, rate) for a, b, rate in spans]
    empty = tanks.dry(minutes)
    at = None if empty is None else empty * 2
    inside = next((b.setup for b in burns if at is not None and at <= b.end), "")
    gap = next(((a.setup, b.setup) for a, b in pairwise(burns) if at is not None and a.end < at < b.start), None)
    meals = [Pause(s.start, "") for s in line.steps if s.kind == "meal"]
    pauses = sorted([*meals, *(Pause(b.end, b.setup) for b in burns[:-1])])
    return Day(circuit, burns, tanks.taken(minutes, line.wrap / 2), at, inside, _fills(minutes, pauses), gap)


def _fills(spans: list[tuple[float, float, float]], pauses: list[Pause]) -> tuple[Pause, ...] | None:
    """Always in the last pause before it would be empty: no other choice takes fewer."""
    found: list[Pause] = []
    now = float("-inf")
    while True:
        empty = tanks.dry(tanks.since(spans, now))
        if empty is None:
            return tuple(found)
        pause = next((p for p in reversed(pauses) if now < p.time / 2 <= empty), None)
        if pause is None:
            return None
        found.append(pause)
        now = pause.time / 2


def _burns(facts: Facts, day_id: str, circuit: str) -> Iterator[Burn]:
    held = {m.setup: m.held for m in facts.moments if m.day == day_id}
    line, until = facts.timelines.get(day_id), 0
    for step in line.steps if line else ():
        if step.kind != "setup" or step.setup not in facts.plan.setups:
            continue
        names = (step.setup, *held.get(step.setup, ()))
        watts = sum(drawn(facts, facts.plan.setups[name], circuit) for name in names)
        if watts > 0:
            start = max(step.start - BEFORE, until)
            yield Burn(step.setup, start, step.end, watts)
        until = step.end


def _spans(circuit: Circuit, burns: tuple[Burn, ...], call: int, wrap: int) -> list[tuple[float, float, float]]:
    """(from, to, part of a full store a minute takes), without gaps for what runs all the time."""
    house = float(circuit.already or 0.0)
    first, last = burns[0].start, burns[-1].end
    edges = [(b.start, b.end, b.watts + house) for b in burns]
    gaps = list(zip([first, *(b.end for b in burns)], [*(b.start for b in burns), last], strict=True))
    edges += [(a, b, house) for a, b in gaps]
    if house:
        edges += [(call, first, house), (last, wrap, house)]
    return [(a, b, _rate(circuit, watts)) for a, b, watts in sorted(edges) if b > a and (watts or engine(circuit))]


def _rate(circuit: Circuit, watts: float) -> float:
    if circuit.runs is not None and circuit.gives is not None:
        return tanks.engine_rate(watts, float(circuit.gives), float(circuit.runs) / 60.0)
    return tanks.station_rate(watts, float(circuit.holds or 0.0))
