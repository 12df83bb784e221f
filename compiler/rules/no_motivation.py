"""A key light pretends to be nothing.

On set: somebody asks where this light comes from, and nobody knows.

How it is decided: in a plan that says of at least one lamp what its light pretends to be ('motivated-by:'), a lamp with
the role key that does not. A plan that says it nowhere is left alone. Source: common practice, no source.

Fix: write 'motivated-by:' (a window, a lantern, the moon), so that everybody lights the same idea.

When to accept it: the light is meant to come from nowhere.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import Once, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "no-motivation"
SEVERITY: Final = "note"
TITLE = "a key light pretends to be nothing"

TRIGGERS = """
hotset: 1
gear: {panel: {kind: light, quantity: 2}}
setups:
  office-wide: {lights: {moon: {lamp: panel, role: key, motivated-by: moon over the water}}}
  office-close:
    lights:
      face: {lamp: panel, role: key}  # <- here
"""
PASSES = TRIGGERS.replace("role: key}  # <- here", "role: key, motivated-by: the desk lamp}")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    fresh = Once(plan)
    lamps = [(setup, item) for setup in plan.setups.values() for item in setup.lights.values()]
    if not any(item.motivated_by for _, item in lamps):
        return
    for setup, item in lamps:
        key = (item.role or "").lower().split(" ")[0] == "key"
        if key and not item.motivated_by and item.bounce is None and fresh(item.path):
            yield finding(
                plan,
                (RULE, SEVERITY),
                item.path,
                f"key '{item.id}' in '{setup.id}' does not say what its light pretends to be",
                ("write 'motivated-by:', such as the window, the moon, a lamp in the picture",),
                (("setup", setup.id), ("light", item.id)),
            )
