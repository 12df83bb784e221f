"""A thing or a cloth is in the plan, and nothing in it is shot with it.

On set: it is fetched, carried up the stairs, insured and brought back, and nobody opens the case.

How it is decided: cameras, lenses, filters, lights, modifiers, grip things, props and furniture that no setup, shot,
scene, room or other thing names; stock of which the size is said and not what it is 'for:'. Left out is what a chain, a
stand, a lamp, a body or a sound plan may draw on unnamed: adapters, supports, leads, batteries, chargers, cards,
readers, drives, sound, monitors, tools, wardrobe. Silent while the plan has no setup. Source: counting.

Fix: use it, leave it at home, or say in a note what it is carried for.

When to accept it: a spare that is meant to stay in the car.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import names_used
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "unused-item"
SEVERITY: Final = "note"
TITLE = "a thing is carried and never used"

TRIGGERS = """
hotset: 1
gear:
  panel: {kind: light}
  tube: {kind: light}  # <- here
setups:
  wide: {lights: {key: {lamp: panel}}}
"""
PASSES = TRIGGERS.replace("  # <- here", "").replace("lamp: panel", "lamp: [panel, tube]")
_COUNTED = ("camera", "lens", "filter", "light", "modifier", "grip", "prop", "furniture")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    if not plan.setups:
        return
    used = names_used.things(plan)
    idle = [g.id for g in plan.gear.values() if g.kind in _COUNTED and g.id not in used and not g.note]
    idle += [
        s.id for s in plan.stock.values() if (s.roll or s.pieces) and not s.for_ and not s.note and s.id not in used
    ]
    misspelt = names_used.meant(plan, idle)
    for name in idle:
        if name in misspelt:
            continue
        family = "gear" if name in plan.gear else "stock"
        yield finding(
            plan,
            (RULE, SEVERITY),
            f"{family}.{name}",
            f"'{name}' is in the plan, and no setup uses it",
            ("use it, or leave it at home", "or say in a 'note:' what it is carried for"),
            (("item", name),),
        )
