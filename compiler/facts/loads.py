"""What hangs on which circuit while a setup is shot: its own lamps and practicals, those of sets held hot, and what
the circuit already feeds.

Amperes = watts / (volts x power factor), single phase. A lamp counts with its full draw, dimmed or not: the crew
dims up again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record
from .tables import table

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.light import Light
    from ..plan.location import Circuit, Location
    from ..plan.setup import Setup


@record
class Load:
    """One consumer on one circuit: the plan path that plugs it in, its name, watts, amperes, and whether the power
    factor is a typical one."""

    path: str
    words: str
    circuit: str
    watts: float
    amperes: float
    typical: bool
    setup: str


@record
class Moment:
    """A circuit while a setup is shot: everything on it, in amperes, against its breaker."""

    circuit: Circuit
    setup: str
    loads: tuple[Load, ...]
    already: float
    breaker: float

    @property
    def amperes(self) -> float:
        """All that flows."""
        return self.already + sum(load.amperes for load in self.loads)

    @property
    def share(self) -> float:
        """Part of the breaker's rating."""
        return self.amperes / self.breaker


@record
class Profile:
    """The rules of a country for one kind of mains: the part of the rating that may flow for hours, and whether it
    is the law or a house margin."""

    name: str
    share: float
    law: bool
    source: str


def volts(place: Location) -> float | None:
    """The place's mains voltage."""
    return None if place.mains is None else float(place.mains.volts)


def factor(said: float | None) -> tuple[float, bool]:
    """Power factor, and whether it is the typical one."""
    if said is not None and said > 0:
        return float(said), False
    return float(table("mains")["power-factor"]["unstated"]), True


def profile(place: Location) -> Profile | None:
    """The profile that the place names, or the one of its mains."""
    for name, row in table("mains")["profiles"].items():
        by_name = place.profile == name
        by_mains = (
            place.profile is None
            and place.mains is not None
            and abs(row["volt"] - place.mains.volts) <= 0.1 * row["volt"]
            and row["hertz"] == place.mains.hertz
        )
        if by_name or by_mains:
            rule = row["continuous"]
            return Profile(name, float(rule["share"]), bool(rule["law"]), rule["source"])
    return None


def of_setup(plan: Plan, setup: Setup) -> tuple[Load, ...]:
    """Everything that a setup plugs into a circuit and of which the plan says what it draws."""
    place = plan.location_of(setup.id)
    mains = volts(place) if place else None
    if not mains:
        return ()
    found = []
    for path, words, circuit, name in plugged(plan, setup):
        gear = plan.gear.get(name)
        if circuit and gear is not None and gear.draws is not None:
            pf, typical = factor(gear.factor)
            watts = float(gear.draws)
            found.append(Load(path, words, circuit, watts, watts / (mains * pf), typical, setup.id))
    return tuple(found)


def plugged(plan: Plan, setup: Setup) -> list[tuple[str, str, str, str]]:
    """Path, name, circuit ("" where none is said) and gear of every lamp and practical that runs on no battery. Of a
    practical it is the bulb that counts, where the plan says what that draws, otherwise the prop."""
    rows = [(i.path, i.id, i.circuit or "", i.lamp[0]) for i in setup.lights.values() if i.lamp and not i.battery]
    for p in setup.practicals.values():
        bulb = plan.gear.get(p.bulb or "")
        draws = p.bulb if bulb is not None and bulb.draws is not None else p.prop or p.bulb
        if not p.battery:
            rows.append((p.path, p.id, p.circuit or "", draws or ""))
    return rows


def moments(plan: Plan, held: dict[str, Sequence[str]]) -> list[Moment]:
    """Every circuit while every setup is shot. `held` names, for a setup, the setups that stay hot meanwhile."""
    found = []
    own = {s.id: of_setup(plan, s) for s in plan.setups.values()}
    for setup in plan.setups.values():
        place = plan.location_of(setup.id)
        mains = volts(place) if place else None
        if place is None or not mains:
            continue
        here = [load for name in (setup.id, *held.get(setup.id, ())) for load in own[name]]
        for circuit in place.circuits.values():
            on_it = tuple(load for load in here if load.circuit == circuit.id)
            breaker = rating(circuit, mains)
            if on_it and breaker > 0:
                found.append(Moment(circuit, setup.id, on_it, float(circuit.already or 0.0) / mains, breaker))
    return found


def rating(circuit: Circuit, mains: float) -> float:
    """Amperes a circuit is made for: its breaker, else what a station or generator gives; 0 where neither is said."""
    if circuit.breaker is not None:
        return float(circuit.breaker)
    return float(circuit.gives) / mains if circuit.gives is not None else 0.0


def leads(plan: Plan) -> Iterator[tuple[Setup, Light, Gear, float, bool]]:
    """Every lead between a socket and a lamp, setup by setup: (setup, lamp, lead, amperes through it, whether they rest
    on a typical power factor). A lead that lamps of a setup have to share is told once."""
    for setup in plan.setups.values():
        place = plan.location_of(setup.id)
        mains = volts(place) if place else None
        shared: set[str] = set()
        for light in setup.lights.values():
            for name in light.lead if mains is not None and light.circuit is not None else ():
                if name not in plan.gear or name in shared or mains is None:
                    continue
                if scarce(plan, setup, name):
                    shared.add(name)
                yield (setup, light, plan.gear[name], *through_lead(plan, setup, light, name, mains))


def through_lead(plan: Plan, setup: Setup, light: Light, lead: str, mains: float) -> tuple[float, bool]:
    """Amperes through a lead to a lamp at `mains` volts, and whether a power factor is a typical one.

    Where more lamps of the setup name the lead than there are pieces, some must share one: it is then the least that
    the fullest piece carries, however they are shared.
    """
    users = [one for one in setup.lights.values() if lead in one.lead]
    if not scarce(plan, setup, lead):
        users = [light]
    found = [_current(plan, one, mains) for one in users]
    pieces = plan.gear[lead].quantity or 1 if lead in plan.gear else 1
    return least_fullest([amperes for amperes, _ in found], pieces), any(guessed for _, guessed in found)


def scarce(plan: Plan, setup: Setup, lead: str) -> bool:
    """Whether more lamps of the setup name a lead than there are pieces of it."""
    users = sum(lead in one.lead for one in setup.lights.values())
    return lead in plan.gear and users > (plan.gear[lead].quantity or 1)


def _current(plan: Plan, light: Light, mains: float) -> tuple[float, bool]:
    gear = plan.gear.get(light.lamp[0]) if light.lamp else None
    if gear is None or gear.draws is None:
        return 0.0, False
    pf, typical = factor(gear.factor)
    return float(gear.draws) / (mains * pf), typical


def least_fullest(amperes: Sequence[float], pieces: int) -> float:
    """The least load of the fullest piece when loads are shared out whole; exact up to ten loads, beyond that the
    bound max(largest, sum / pieces), which never says too much."""
    bound = max([*amperes, sum(amperes) / pieces], default=0.0)
    if len(amperes) > 10 or len(amperes) <= pieces:
        return bound
    best = sum(amperes)
    order = sorted(amperes, reverse=True)

    def put(k: int, held: tuple[float, ...]) -> None:
        nonlocal best
        if k == len(order):
            best = min(best, held[-1])
            return
        for j in range(len(held)):
            if j and held[j] == held[j - 1]:
                continue  # pieces that carry alike are alike
            now = tuple(sorted((*held[:j], held[j] + order[k], *held[j + 1 :])))
            if now[-1] < best:
                put(k + 1, now)

    put(0, (0.0,) * pieces)
    return best
