"""A scene of the script has no shots.

On set: the scene stands in the script and in nobody's day.

How it is decided: a scene without an entry under 'shots:', in a plan in which another scene has some. Source: counting.

Fix: write its shots, even if only one, or take the scene out.

When to accept it: the scene is told by another one, or shot later by somebody else.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "scene-without-shots"
SEVERITY: Final = "note"
TITLE = "a scene has no shots"

TRIGGERS = """
hotset: 1
setups: {wide: {takes: 10 min}}
scenes:
  4: {shots: {4A: {setup: wide}}}
  5: {heading: EXT. QUAY - DUSK}  # <- here
"""
PASSES = TRIGGERS.replace("DUSK}  # <- here", "DUSK, shots: {5A: {setup: wide}}}")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    if not plan.shots:
        return
    for scene in plan.scenes.values():
        written = plan.value_at(f"{scene.path}.shots")
        if not scene.shots and not getattr(written, "entries", None):
            words = f" ({scene.heading})" if scene.heading else ""
            yield finding(
                plan,
                (RULE, SEVERITY),
                scene.path,
                f"scene '{scene.id}'{words} has no shots",
                ("write its shots under 'shots:'", "or take the scene out of this plan"),
                (("scene", scene.id),),
            )
