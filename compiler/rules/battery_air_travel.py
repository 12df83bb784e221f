"""Somebody flies, and a battery of the plan is too large to go along without more ado.

On set: the bricks lie in a bin at the airport.

How it is decided: where somebody travels 'by-air:', every battery's watt-hours against what carriers let passengers
take: up to 100 Wh freely, above that to 160 Wh with the airline's approval and at most two spares, above that not at
all; spares in the cabin only. Source: carriers' guides to dangerous goods of 2024, read second hand; ask the airline.

Fix: send the batteries by road, hire them there, or take smaller ones; ask the airline in writing.

When to accept it: the batteries stay at home, or the airline has approved them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import cells
from ..facts.tables import table
from ..findings import NotChecked
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "battery-air-travel"
SEVERITY: Final = "warning"
TITLE = "a battery is too large to fly with as it is"

TRIGGERS = """
hotset: 1
people: {olek: {works: gaffer, by-air: true, emergency: "partner, 07700 900113"}}
gear:
  brick: {kind: battery, holds: 146 Wh, quantity: 4}  # <- here
"""
PASSES = TRIGGERS.replace("holds: 146 Wh", "holds: 98 Wh").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    flyers = [p.id for p in plan.people.values() if p.by_air]
    if not flyers:
        return
    rules = table("mains")["air-travel"]
    free, most = float(rules["free-watt-hours"]), float(rules["approval-watt-hours"])
    spares = int(rules["approval-spares"])
    for battery in cells.batteries(plan):
        holds = cells.energy(battery)
        if holds is None:
            yield NotChecked(RULE, f"'{battery.id}'", f"'holds:' of '{battery.id}', such as 98 Wh")
            continue
        if holds <= free:
            continue
        count = battery.quantity or 1
        if holds > most:
            words = f"above the {most:g} Wh that passengers may take at all"
            ways = ["send it by road or hire it there", f"or take batteries of {free:g} Wh or less"]
        else:
            words = f"above {free:g} Wh: the airline must approve it, and each flyer takes at most {spares} spares"
            ways = ["ask the airline in writing, and print its answer", f"or take batteries of {free:g} Wh or less"]
        yield finding(
            plan,
            (RULE, SEVERITY),
            battery.path,
            f"{quoted(flyers)} {'travels' if len(flyers) == 1 else 'travel'} by air, and '{battery.id}' "
            f"({count} of {holds:g} Wh) is {words}",
            tuple(ways),
            (("battery", battery.id), ("watt_hours", holds), ("count", count)),
            also=[(f"people.{flyers[0]}.by-air", "who flies")],
        )
