"""Which plugs to move so that every circuit of a place holds: the fewest, found by looking.

A plug is one place of the text: what setups inherit moves with it. A circuit holds when at no moment of the plan more
flows on it than its limit; every moment of the place counts, held sets included.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from . import loads, reach

if TYPE_CHECKING:
    from ..plan.location import Circuit, Location
    from ..plan.setup import Setup
    from . import Facts

MOST_MOVES = 3
MOST_LOOKED_AT = 100_000
"""Loads that are added up before the search gives up: some hundredths of a second, whatever the plan."""


class Move(NamedTuple):
    """A plug on another circuit: the load that moves, the circuit it goes to, and the amperes free there then."""

    load: loads.Load
    to: Circuit
    free: float


class _Row(NamedTuple):
    """A load in a moment: which plug it is, amperes, and the circuit it hangs on as written."""

    plug: str
    amperes: float
    circuit: str
    load: loads.Load


class _Search:
    def __init__(self, facts: Facts, place: Location, share: float) -> None:
        self.facts, self.place = facts, place
        volts = loads.volts(place) or 1.0
        self.limits: dict[str, float] = {}
        for circuit in place.circuits.values():
            rating = loads.rating(circuit, volts)
            if rating > 0:
                self.limits[circuit.id] = rating * share - float(circuit.already or 0.0) / volts
        by_setup: dict[str, dict[str, list[_Row]]] = {}
        for moment in facts.circuit_moments:
            if moment.circuit.id in place.circuits or moment.circuit.id.startswith(f"{place.id}/"):
                rows = by_setup.setdefault(moment.setup, {}).setdefault(moment.circuit.id, [])
                rows += [_Row(self._plug(x), x.amperes, x.circuit, x) for x in moment.loads]
        self.moments = [[row for rows in one.values() for row in rows] for one in by_setup.values()]
        self._before = self.flows({})
        self.left = MOST_LOOKED_AT
        self.given_up: frozenset[str] = frozenset()

    def _plug(self, load: loads.Load) -> str:
        at = self.facts.plan.where(f"{load.path}.circuit")
        return f"{at.file}:{at.line}:{at.column}"

    def flows(self, moved: dict[str, str]) -> list[dict[str, float]]:
        """Amperes of lamps on every circuit in every moment, with some plugs moved."""
        found = []
        for rows in self.moments:
            sums: dict[str, float] = {}
            for row in rows:
                name = moved.get(row.plug, row.circuit)
                sums[name] = sums.get(name, 0.0) + row.amperes
            found.append(sums)
        return found

    def over(self, moved: dict[str, str]) -> tuple[int, str] | None:
        """The first moment in which a circuit is over its limit, and which."""
        for number, sums in enumerate(self.flows(moved)):
            for name in sorted(sums):
                bound = self.limits.get(name)
                if bound is not None and name in self.given_up:
                    bound = max(bound, self._before[number].get(name, 0.0))
                if bound is not None and sums[name] > bound + 1e-9:
                    return number, name
        return None

    def solve(self, moved: dict[str, str], moves: int) -> dict[str, str] | None:
        """Plugs to move beside those moved already, at most so many, after which everything holds."""
        self.left -= 1 + sum(map(len, self.moments))
        worst = self.over(moved)
        if worst is None:
            return moved
        if moves == 0 or self.left <= 0:
            return None
        number, full = worst
        here = [row for row in self.moments[number] if moved.get(row.plug, row.circuit) == full]
        for row in sorted(here, key=lambda r: (r.amperes, r.load.path)):
            if row.plug in moved:
                continue
            for other in self.limits:
                if other != full and comes_to(self.facts, row.load, self.circuit(other)):
                    found = self.solve({**moved, row.plug: other}, moves - 1)
                    if found is not None:
                        return found
        return None

    def circuit(self, name: str) -> Circuit:
        return next(c for c in self.place.circuits.values() if c.id == name)


def fewest(facts: Facts, place: Location, share: float, circuit: str = "") -> tuple[Move, ...]:
    """The fewest plugs to move so that every circuit of the place stays below a share of its rating at every moment.

    Where up to three moves do not do that, the fewest after which one `circuit` does, and no other carries more than it
    may, or than it carries now; empty where there are none either, or more would have to be looked at than is sensible.
    """
    search = _Search(facts, place, share)
    others = frozenset(search.limits) - {circuit}
    for given_up, most in [(g, n) for g in (frozenset[str](), others) for n in range(1, MOST_MOVES + 1)]:
        if given_up and not circuit:
            break
        if most == 1:
            search.given_up, search.left = given_up, MOST_LOOKED_AT
        moved = search.solve({}, most)
        if moved:
            rows = {row.plug: row.load for moment in search.moments for row in moment}
            top: dict[str, float] = {}
            for sums in search.flows(moved):
                for name, amperes in sums.items():
                    top[name] = max(top.get(name, 0.0), amperes)
            return tuple(
                Move(rows[plug], search.circuit(to), search.limits[to] - top[to]) for plug, to in moved.items()
            )
    return ()


def comes_to(facts: Facts, load: loads.Load, other: Circuit) -> bool:
    """Whether a circuit comes to the lamp's room: as its 'feeds:' or the room's sockets say; yes where nobody says."""
    plan = facts.plan
    told = {room.id for room in plan.sets.values() for box in room.outlets.values() if box.circuit == other.id}
    told |= set(other.feeds)
    setup = plan.setups[load.setup]
    light = setup.lights.get(load.path.rsplit(".", 1)[1])
    rooms = {setup.set} if light is None else {light.in_ or (light.outside or "").rpartition("/")[0] or setup.set}
    return not told or bool(rooms & told)


class Reach(NamedTuple):
    """Whether a lamp's leads come to a socket of a circuit (None: the plan does not place both), metres of cable that
    are wanted, metres there are, and the leads of the plan that would make it reach."""

    reaches: bool | None
    wanted: float
    there: float
    leads: tuple[str, ...]


def reaching(facts: Facts, load: loads.Load, other: Circuit) -> Reach:
    """How a lamp's lead comes to another circuit: its own with the leads it names, then one more of the plan."""
    plan = facts.plan
    setup: Setup = plan.setups[load.setup]
    light = setup.lights.get(load.path.rsplit(".", 1)[1])
    lamp = plan.gear.get(light.lamp[0]) if light is not None and light.lamp else None
    way = reach.way_to(plan, setup, light, other.id) if light is not None else None
    if light is None or lamp is None or lamp.lead is None or way is None:
        return Reach(None, 0.0, 0.0, ())
    owned = {name: length for name, length, _ in reach.leads(plan)}
    there = float(lamp.lead) + sum(owned.get(name, 0.0) for name in light.lead)
    lacks = way.route - there
    more = tuple(name for name, length in owned.items() if name not in light.lead and length >= lacks - 1e-9)
    return Reach(lacks <= 1e-9, way.route, there, more if lacks > 1e-9 else ())
