"""A prop looks like a weapon.

On set: a neighbour sees a man with a pistol in the yard, and the police come running.

How it is decided: a prop with 'weapon: yes' in a plan that has setups. Source: common practice, no source; in many
places the law wants the police told, and somebody who alone hands such things out.

Fix: tell the police and the neighbours, keep it locked until the take, let one person hand it out, show everybody that
it is a prop, and say it on the call sheet.

When to accept it: all of that is done; name under 'agreed-by:' who hands it out.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "weapon-like-prop"
SEVERITY: Final = "warning"
TITLE = "a prop looks like a weapon"

TRIGGERS = """
hotset: 1
gear:
  flare-gun: {kind: prop, weapon: yes}  # <- here
setups: {wide: {practicals: {hand: {prop: flare-gun}}}}
"""
PASSES = TRIGGERS.replace(", weapon: yes}  # <- here", ", weapon: no}")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    for gear in plan.gear.values():
        if gear.weapon and plan.setups:
            outside = [s.id for s in plan.setups.values() if s.set and (room := plan.sets.get(s.set)) and room.outdoors]
            seen = f"; '{outside[0]}' is shot outdoors, where others see it" if outside else ""
            yield finding(
                plan,
                (RULE, SEVERITY),
                gear.path,
                f"'{gear.id}' looks like a weapon{seen}",
                (
                    "tell the police and the neighbours before the day, and say it on the call sheet",
                    "let one person keep it and hand it out, and accept the risk with their name",
                ),
                (("prop", gear.id), ("outdoors", int(bool(outside)))),
            )
