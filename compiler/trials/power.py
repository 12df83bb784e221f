"""Where else a lamp can be plugged in when its circuit is dead."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import loads, reach
from ..facts.spare import Gap

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..plan.location import Circuit, Location
    from ..plan.setup import Setup


def gaps(facts: Facts, setup: Setup, lost: tuple[str, ...]) -> Iterator[Gap]:
    """Every lamp and practical of a setup on a lost circuit, with the circuit or battery that serves instead."""
    plan = facts.plan
    place = plan.location_of(setup.id)
    given: dict[str, float] = {}
    for path, words, circuit, name in loads.plugged(plan, setup):
        if circuit not in lost:
            continue
        serves, by = "", ""
        for other in place.circuits.values() if place is not None else ():
            need = _amperes(facts, name, place)
            if other.id not in lost and _sockets(facts, setup, other.id):
                free = _free(facts, setup, other, place) - given.get(other.id, 0.0)
                if need <= free + 1e-9:
                    given[other.id] = given.get(other.id, 0.0) + need
                    serves = f"circuit '{other.id.rsplit('/', 1)[-1]}', which has {free:.1f} A free"
                    by = other.id
                    break
        yield Gap(circuit, path, f"'{words}'", *((serves, by) if by else _battery(facts, name)))


def _amperes(facts: Facts, name: str, place: Location | None) -> float:
    gear = facts.plan.gear.get(name)
    volts = loads.volts(place) if place is not None else None
    if gear is None or gear.draws is None or not volts:
        return 0.0
    return float(gear.draws) / (volts * loads.factor(gear.factor)[0])


def _free(facts: Facts, setup: Setup, other: Circuit, place: Location | None) -> float:
    """Amperes a circuit has left while the setup is shot, below its rating."""
    busy = next((m for m in facts.circuit_moments if m.circuit.id == other.id and m.setup == setup.id), None)
    if busy is not None:
        return busy.breaker - busy.amperes
    volts = (loads.volts(place) if place is not None else None) or 1.0
    rating = float(other.breaker) if other.breaker is not None else float(other.gives or 0.0) / volts
    return rating - float(other.already or 0.0) / volts


def _sockets(facts: Facts, setup: Setup, circuit: str) -> bool:
    """Whether the set has a socket of that circuit; a set that tells of no sockets may have any."""
    room = facts.plan.set_of(setup.id)
    return room is None or not room.outlets or bool(reach.sockets(facts.plan, setup, circuit))


def _battery(facts: Facts, name: str) -> tuple[str, str]:
    gear = facts.plan.gear.get(name)
    if gear is None:
        return "", ""
    if gear.runs:
        return "its own battery", name
    plate = gear.battery
    found = next((b.id for b in facts.plan.gear.values() if b.kind == "battery" and plate in (b.plate, b.id)), "")
    return (f"battery '{found}'", found) if plate and found else ("", "")
