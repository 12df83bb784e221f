"""A boom arm that needs a counterweight is used, and the plan has none.

On set: the lamp hangs over the actor, and only a hand keeps the stand from tipping.

How it is decided: a support or grip thing with 'counterweight: yes' that a setup takes, in a plan without a thing whose
name or words hold 'counterweight' or 'weight' and without sand bags beyond those that the stands need. Source: common
practice, no source.

Fix: bring the counterweight, or a sand bag of the same weight, and hang it before the lamp goes on.

When to accept it: the arm is clamped to the house at both ends. Nobody stands under a boom.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import Once, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "boom-without-counterweight"
SEVERITY: Final = "warning"
TITLE = "a boom arm without its counterweight"

TRIGGERS = """
hotset: 1
gear:
  panel: {kind: light}
  boom-arm: {kind: support, counterweight: yes}
setups:
  wide:
    lights:
      key: {lamp: panel, on: boom-arm}  # <- here
"""
PASSES = TRIGGERS.replace("counterweight: yes}", "counterweight: yes}\n  counterweight: {kind: grip}").replace(
    "  # <- here", ""
)


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    if any(g.kind in ("grip", "tool") and "weight" in f"{g.id} {g.of or ''}" for g in plan.gear.values()):
        return
    needed = sum(g.bags or 0 for g in plan.gear.values())
    bags = sum(
        1 if g.quantity is None else g.quantity
        for g in plan.gear.values()
        if g.kind == "grip" and "bag" in f"{g.id} {g.of or ''}"
    )
    if bags > needed:
        return
    fresh = Once(plan)
    for name, uses in facts.uses.items():
        for use in uses:
            if plan.gear[use.thing].counterweight and fresh(use.path):
                yield finding(
                    plan,
                    (RULE, SEVERITY),
                    use.path,
                    f"'{use.thing}' needs a counterweight for {use.who} in '{name}', and the plan has none",
                    ("add the counterweight to the gear, or a sand bag of the same weight",),
                    (("thing", use.thing), ("setup", name)),
                )
