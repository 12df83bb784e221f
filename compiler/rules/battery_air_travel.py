"""Somebody comes by air with batteries that may not fly, or only after asking.

On set: the batteries stay at the airport, and every lamp that ran on them too.

How it is decided: where a person is 'by-air: yes', every battery whose 'holds:' is above 100 Wh: up to 160 Wh two spare
ones may be carried in the cabin if the airline agrees, above that none. Spare batteries never go into checked luggage.
Source: IATA Dangerous Goods Regulations, provisions for passengers, lithium batteries (from memory; the airline
decides).

Fix: take batteries of up to 100 Wh, ask the airline, send them ahead by road, or rent there.

When to accept it: somebody else brings them by road; say who in a note and accept it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..source.quantities import QuantityError, parse
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "battery-air-travel"
SEVERITY: Final = "warning"
TITLE = "batteries that may not fly"

TRIGGERS = """
hotset: 1
people: {olek: {works: camera, by-air: yes}}
gear:
  brick: {kind: battery, holds: 147 Wh, quantity: 4}  # <- here
"""
PASSES = TRIGGERS.replace("147 Wh, quantity: 4}  # <- here", "98 Wh, quantity: 4}")
FREE, ASKED, SPARES = 100.0, 160.0, 2  # watt-hours, watt-hours, pieces


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    flying = [p.id for p in plan.people.values() if p.by_air]
    if not flying:
        return
    for gear in plan.gear.values():
        energy = _energy(gear.holds) if gear.kind == "battery" else 0.0
        if energy <= FREE:
            continue
        number = 1 if gear.quantity is None else gear.quantity
        limit = (
            f"above {ASKED:g} Wh no passenger may bring them"
            if energy > ASKED
            else f"above {FREE:g} Wh the airline must agree, and to {SPARES} spare ones at most"
        )
        yield finding(
            plan,
            (RULE, SEVERITY),
            f"{gear.path}.holds",
            f"{quoted(flying)} {'comes' if len(flying) == 1 else 'come'} by air, and '{gear.id}' ({number} of "
            f"{energy:g} Wh) may be among the luggage: {limit}",
            ("send them by road or rent them there", "or ask the airline, and carry them in the cabin, contacts taped"),
            (("battery", gear.id), ("watt_hours", energy), ("pieces", number)),
            also=[(f"people.{name}", "comes by air") for name in flying[:6]],
        )


def _energy(text: str | None) -> float:
    try:
        return float(parse("energy", text)) if text else 0.0
    except QuantityError:
        return 0.0
