"""A thing is heavier than one person should lift.

On set: the case goes up the stairs in one pair of arms, and the back is gone for the day.

How it is decided: 'weight:' of a thing above 25 kg. Silent where two of the crew say under 'lifts:' that together they
lift it. Source: 25 kg held close at waist height is the guideline figure for men in HSE leaflet INDG143 (from memory;
16 kg for women; less at arm's length, on stairs and when it is done often); local rules decide.

Fix: carry it by two or on wheels, or split it into two cases.

When to accept it: it stays on wheels from the van to the set.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from ..source.quantities import show
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "heavy-lift"
SEVERITY: Final = "warning"
TITLE = "a thing is heavier than one person should lift"

TRIGGERS = """
hotset: 1
gear:
  big-lamp: {kind: light, weight: 31 kg}  # <- here
"""
PASSES = TRIGGERS.replace("31 kg}  # <- here", "25 kg}")
MOST = 25.0  # kilograms


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    strong = sorted(float(p.lifts) for p in plan.people.values() if p.lifts is not None and hands.is_crew(p))[-2:]
    for gear in plan.gear.values():
        weight = float(gear.weight) if gear.weight is not None else 0.0
        if weight > MOST and not (len(strong) == 2 and sum(strong) >= weight):
            yield finding(
                plan,
                (RULE, SEVERITY),
                f"{gear.path}.weight",
                f"'{gear.id}' weighs {show('weight', weight)}, more than the {MOST:g} kg that one person should lift",
                ("carry it by two or on wheels, and name two people who can ('lifts:')", "or split it into two cases"),
                (("thing", gear.id), ("weight_kg", weight), ("limit_kg", MOST)),
            )
