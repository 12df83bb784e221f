"""There are not enough sand bags for the stands of a setup.

On set: somebody walks into the cable, and the stand follows.

How it is decided: the 'bags:' of every stand, boom and lamp that a setup takes, with those of sets held hot meanwhile,
against the sand bags in the gear (things of kind grip with 'bag' in their name or words). Stands that say no 'bags:'
count none. Source: one bag a stand, two with a boom, is common practice, no source; the plan's own figures decide here.

Fix: bring more bags, or water canisters with a strap, or strike what is not in use.

When to accept it: the stand is tied to the house.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts.occupancy import owned
from .words import counted, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "no-sandbag"
SEVERITY: Final = "warning"
TITLE = "not enough sand bags for the stands"

TRIGGERS = """
hotset: 1
gear:
  panel: {kind: light, quantity: 2}
  boom-stand: {kind: support, bags: 2}
  light-stand: {kind: support, bags: 1}
  sand-bag: {kind: grip, quantity: 2}
setups:
  wide:  # <- here
    lights:
      key: {lamp: panel, on: boom-stand}
      fill: {lamp: panel, on: light-stand}
"""
PASSES = TRIGGERS.replace("sand-bag: {kind: grip, quantity: 2}", "sand-bag: {kind: grip, quantity: 3}").replace(
    "  # <- here", ""
)


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    if not any(g.bags for g in plan.gear.values()):
        return
    have = sum(owned(plan, g.id) for g in plan.gear.values() if g.kind == "grip" and "bag" in f"{g.id} {g.of or ''}")
    held = {m.setup: m.held for m in facts.moments}
    worst: tuple[int, str, list[str]] | None = None
    for name in plan.setups:
        taken = [u.thing for n in (name, *held.get(name, ())) for u in facts.uses[n]]
        need = sum(plan.gear[t].bags or 0 for t in taken)
        if need > have and (worst is None or need > worst[0]):
            worst = (need, name, [t for t in taken if plan.gear[t].bags])
    if worst is not None:
        need, name, stands = worst
        if not have and any(thing not in plan.gear for stand in stands for thing in plan.gear[stand].needs):
            return  # that what the stands need is not there has been said
        there = f"the plan has {have}" if have else "the plan has none"
        yield finding(
            plan,
            (RULE, SEVERITY),
            f"setups.{name}",
            f"'{name}' needs {counted(need, 'sand bag')} for {quoted(stands)}, and {there}",
            (f"bring {need - have} more, and say how many there are under the gear: 'sand-bag: {{kind: grip, ...}}'",),
            (("setup", name), ("needed", need), ("owned", have)),
            also=[(f"gear.{t}", "needs bags") for t in dict.fromkeys(stands)],
        )
