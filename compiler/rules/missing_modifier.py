"""A lamp needs a thing that is not in the plan, or is to carry a thing that is no modifier.

On set: the lamp comes out of its case without its ballast, its reflector or the frame the gel goes into.

How it is decided: every name under 'needs:' of a thing that a setup takes must be a thing under 'gear:' or 'stock:' (or
the kind of one); and what stands under a lamp's 'with:' must be a modifier, a grip thing, a filter, an adapter or
stock. Source: common practice, no source.

Fix: add the missing thing to the gear, or take the wrong one out of 'with:'.

When to accept it: the thing is part of the house and named nowhere.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import Once, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "missing-modifier"
SEVERITY: Final = "error"
TITLE = "a lamp lacks a thing it cannot work without"

TRIGGERS = """
hotset: 1
gear:
  old-tube: {kind: light, needs: ballast}  # <- here
setups:
  wide: {lights: {key: {lamp: old-tube}}}
"""
PASSES = TRIGGERS.replace("  # <- here", "\n  ballast: {kind: power}")
_GOES_ON_A_LAMP = ("modifier", "grip", "filter", "adapter")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    known = {*plan.gear, *plan.stock, *(g.kind for g in plan.gear.values())}
    fresh = Once(plan)
    lacking: dict[str, dict[str, str]] = {}
    for uses in facts.uses.values():
        for use in uses:
            for i, need in enumerate(plan.gear[use.thing].needs):
                if need not in known:
                    lacking.setdefault(need, {}).setdefault(use.thing, f"gear.{use.thing}.needs.{i}")
    for need, things in lacking.items():
        first = next(iter(things))
        yield finding(
            plan,
            (RULE, SEVERITY),
            things[first],
            f"{quoted(things)} cannot work without '{need}', and the plan has none",
            (f"add '{need}' under 'gear:'", f"or take other things for {quoted(things)}"),
            (("thing", first), ("needs", need)),
            also=[(path, "needs it, too") for thing, path in things.items() if thing != first][:8],
        )
    for setup_ in plan.setups.values():
        for light in setup_.lights.values():
            for i, name in enumerate(light.with_):
                gear = plan.gear.get(name)
                if gear and gear.kind and gear.kind not in _GOES_ON_A_LAMP and fresh(f"{light.path}.with.{i}"):
                    yield finding(
                        plan,
                        (RULE, SEVERITY),
                        f"{light.path}.with.{i}",
                        f"'{name}' is to go onto '{light.id}', but it is a {gear.kind}, no modifier",
                        (f"take '{name}' out of 'with:'", "or write the modifier that is meant"),
                        (("thing", name), ("kind", gear.kind), ("setup", setup_.id)),
                    )
