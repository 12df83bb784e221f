"""A shot is not taken from any setup, so nobody knows where the camera stands for it.

On set: the shot is on the list and in no hour of the day; it is found in the evening that it was never made.

How it is decided: a shot without 'setup:' in a plan that has setups. In a plan without any this is reported as not
checked. Source: counting.

Fix: name its setup; several shots may share one.

When to accept it: the shot is made of others in post; write that under 'vfx:' and accept it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from .words import finding, quoted, written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "shot-without-setup"
SEVERITY: Final = "error"
TITLE = "a shot is not taken from any setup"

TRIGGERS = """
hotset: 1
setups: {wide: {takes: 10 min}}
scenes:
  4:
    shots:
      4A: {setup: wide}
      4B: {does: A knock at the hatch.}  # <- here
"""
PASSES = TRIGGERS.replace("{does: A knock at the hatch.}  # <- here", "{setup: wide}")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    lost = [s for s in plan.shots.values() if s.setup is None and not written(plan, f"{s.path}.setup")]
    if lost and not plan.setups:
        yield NotChecked(RULE, "the shots", "the setups they are taken from, under 'setups:'")
        return
    for shot in lost:
        yield finding(
            plan,
            (RULE, SEVERITY),
            shot.path,
            f"shot '{shot.id}' is not taken from any setup",
            (f"write 'setup:' under it, with one of {quoted(plan.setups, 'or')}", "or write a setup for it"),
            (("shot", shot.id), ("scene", plan.scene_of[shot.id])),
        )
