"""A setup is written, and no shot is taken from it.

On set: the lamps are moved for a picture that nobody asked for.

How it is decided: a setup that no shot names under 'setup:', in a plan that has shots; a setup that another is 'like:'
is a pattern and may stand alone. Source: counting.

Fix: name it under the shot it is for, or take it out.

When to accept it: pictures of opportunity, such as the empty room.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import names_used
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "setup-without-shots"
SEVERITY: Final = "note"
TITLE = "no shot is taken from a setup"

TRIGGERS = """
hotset: 1
setups:
  wide: {takes: 10 min}
  close: {takes: 10 min}  # <- here
scenes: {4: {shots: {4A: {setup: wide}}}}
"""
PASSES = TRIGGERS.replace("  # <- here", "").replace("4A: {setup: wide}", "4A: {setup: wide}, 4B: {setup: close}")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    if not plan.shots:
        return
    used = {shot.setup for shot in plan.shots.values()} | {setup.like for setup in plan.setups.values()}
    idle = [name for name in plan.setups if name not in used]
    misspelt = names_used.meant(plan, idle)
    for name in idle:
        if name not in misspelt:
            yield finding(
                plan,
                (RULE, SEVERITY),
                f"setups.{name}",
                f"no shot is taken from '{name}'",
                (f"write 'setup: {name}' under the shot it is for", "or take the setup out"),
                (("setup", name),),
            )
