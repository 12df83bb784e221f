"""What is taken out of a plan: a piece of gear or stock, a person, a set, a circuit, by the names people write."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.occupancy import owned
from ..facts.spare import fewer
from ..record import field, record, replace

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from ..plan import Plan


@record
class Loss:
    """What is lost: how many pieces of which gear and stock, and whole names of people, sets and circuits."""

    gear: Mapping[str, int] = field(default_factory=dict)
    stock: Mapping[str, int] = field(default_factory=dict)
    people: tuple[str, ...] = ()
    sets: tuple[str, ...] = ()
    circuits: tuple[str, ...] = ()

    def words(self, plan: Plan) -> str:
        """In the crew's words: "one 'panel' of 2, 'mara'"."""
        said = []
        for family, lost in (("gear", self.gear), ("stock", self.stock)):
            for name, count in lost.items():
                have = owned(plan, name) if family == "gear" else plan.stock[name].quantity or 1
                one = "one" if count == 1 else str(count)
                said.append(f"{one} '{name}' of {have}" if have > 1 else f"'{name}'")
        said += [f"'{name}'" for name in (*self.people, *self.sets)]
        said += [f"circuit '{name}'" for name in self.circuits]
        return ", ".join(said)


class NoSuchThing(Exception):
    """A name that means nothing in the plan, or more than one thing; the text says which, and what to write."""


def understand(plan: Plan, names: Iterable[str]) -> Loss:
    """The loss that names mean. A name said twice loses two pieces; `gear.panel` tells which family is meant; a
    location loses all its sets. Raises `NoSuchThing`."""
    lost: dict[str, dict[str, int]] = {"gear": {}, "stock": {}, "people": {}, "sets": {}, "circuits": {}}
    for name in names:
        meant = _meanings(plan, name)
        if not meant:
            raise NoSuchThing(_nothing(plan, name))
        families = list(dict.fromkeys(family for family, _ in meant))
        if len(meant) > 1 and not (families == ["sets"] and name in plan.locations):
            said = ", ".join(f"'{family}.{full}'" for family, full in meant)
            raise NoSuchThing(f"'{name}' means more than one thing in this plan; write one of: {said}")
        for family, full in meant:
            lost[family][full] = lost[family].get(full, 0) + 1
    return Loss(lost["gear"], lost["stock"], tuple(lost["people"]), tuple(lost["sets"]), tuple(lost["circuits"]))


def _families(plan: Plan) -> dict[str, list[str]]:
    circuits = [c.id for place in plan.locations.values() for c in place.circuits.values()]
    return {
        "gear": list(plan.gear),
        "stock": list(plan.stock),
        "people": list(plan.people),
        "sets": list(plan.sets),
        "circuits": circuits,
    }


def _meanings(plan: Plan, name: str) -> list[tuple[str, str]]:
    families = _families(plan)
    front, _, rest = name.partition(".")
    if front in families and rest:
        return [(front, full) for full in families[front] if full == rest or full.endswith(f"/{rest}")]
    exact = [(family, name) for family, known in families.items() if name in known]
    if exact:
        return exact
    if name in plan.locations:
        return [("sets", room) for room in plan.sets if room.startswith(f"{name}/")]
    short = [(f, full) for f in ("sets", "circuits") for full in families[f] if full.endswith(f"/{name}")]
    if short:
        return short
    return [("people", p.id) for p in plan.people.values() if name in p.plays]


def _nothing(plan: Plan, name: str) -> str:
    from ..plan.speech import nearest

    known = {full.rsplit("/", 1)[-1] for names in _families(plan).values() for full in names}
    near = nearest(name, known)
    offer = f"did you mean '{near}'?" if near else "name a piece of gear or stock, a person, a set or a circuit"
    return f"there is no '{name}' in this plan; {offer}"


def without(plan: Plan, loss: Loss, *, gone: bool = False) -> Plan:
    """The plan after the loss. Of gear that is lost wholly nothing is left over; with `gone` it is not even known any
    more, so that what quietly counts on it (an adapter, a battery, a lead) is missed too."""
    left = fewer(plan, loss.gear)
    gear = {name: g for name, g in left.gear.items() if not (gone and name in loss.gear and owned(left, name) == 0)}
    stock = dict(left.stock)
    for name, count in loss.stock.items():
        rest = (stock[name].quantity or 1) - count
        if rest > 0:
            stock[name] = replace(stock[name], quantity=rest)
        else:
            stock[name] = replace(stock[name], quantity=0, roll=(0.0, 0.0), pieces=())
    people = {name: person for name, person in left.people.items() if name not in loss.people}
    return replace(left, gear=gear, stock=stock, people=people)
