"""A softbox, grid or frame does not fit the lamp it is to go onto.

On set: the softbox is unpacked, the ring has three claws and the lamp has two slots.

How it is decided: what stands under 'with:' is taken from the lamp outwards. Each piece must name under 'fits:' the
mount or the name of what is before it, or the lamp itself; an adapter between the two mounts that the plan owns, or
that stands in the chain, will do. Gels and other stock need no mount. Source: the mounts the plan names.

Fix: take a lamp or a modifier with the right mount, or get the adapter that is named.

When to accept it: you have tried it and it holds.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts.fits import fits_on
from ..findings import NotChecked
from .words import Once, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.light import Light

RULE = "modifier-does-not-fit"
SEVERITY: Final = "error"
TITLE = "a modifier does not fit its lamp"

TRIGGERS = """
hotset: 1
gear:
  fresnel: {kind: light, mount: bayonet-a}
  soft-60: {kind: modifier, fits: bayonet-b}
setups:
  wide:
    lights:
      key:
        lamp: fresnel
        with: soft-60  # <- here
"""
PASSES = TRIGGERS.replace("bayonet-b}", "bayonet-b}\n  ring: {kind: adapter, from: bayonet-a, to: bayonet-b}").replace(
    "  # <- here", ""
)


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    fresh = Once(facts.plan)
    for setup in facts.plan.setups.values():
        for light in setup.lights.values():
            if light.with_ and light.lamp:
                yield from _chain(facts, light, setup.id, fresh)


def _chain(facts: Facts, light: Light, setup: str, fresh: Once) -> Iterator[Finding | NotChecked]:
    """The first piece that fits none of the lamps that may be taken."""
    plan = facts.plan
    before: Gear | None = None
    for i, name in enumerate(light.with_):
        outer = plan.gear.get(name)
        if outer is None or outer.kind not in ("modifier", "grip", "adapter"):
            continue
        lamps = [plan.gear[lamp] for lamp in light.lamp if lamp in plan.gear]
        answers = [_one(facts, outer, before or lamp, lamp) for lamp in lamps]
        path = f"{light.path}.with.{i}"
        if answers and all(answer is False for answer in answers):
            if fresh(path):
                yield _no_fit(facts, light, setup, path, outer, [before] if before else lamps)
            return
        if None in answers and True not in answers:
            on = before or lamps[answers.index(None)]
            wants = f"'mount:' of '{on.id}'" if outer.fits or outer.kind == "adapter" else f"'fits:' of '{name}'"
            if on.mount or outer.fits or outer.from_:
                yield NotChecked(RULE, f"'{name}' on '{light.id}' in '{setup}'", wants)
            return
        before = outer


def _one(facts: Facts, outer: Gear, inner: Gear, lamp: Gear) -> bool | None:
    if outer.kind == "adapter":
        return None if not outer.from_ or not inner.mount else outer.from_ == inner.mount
    if inner.kind == "adapter":
        return None if not inner.to or not outer.fits else inner.to in outer.fits
    return fits_on(facts.plan, outer, inner, lamp)


def _no_fit(facts: Facts, light: Light, setup: str, path: str, outer: Gear, onto: list[Gear]) -> Finding:
    plan = facts.plan
    inner = onto[0]
    side = (inner.to if inner.kind == "adapter" else inner.mount) or inner.id
    needs = (outer.from_ or "") if outer.kind == "adapter" else outer.fits[0]
    fitting = [g.id for g in plan.gear.values() if g.kind == "light" and g.mount and g.mount in outer.fits]
    ways = [f"an adapter from '{side}' to '{needs}' would do"]
    if fitting:
        ways.append(f"or take {quoted(fitting, 'or')}, which it fits")
    others = [
        g.id for g in plan.gear.values() if g.kind == "modifier" and g.id != outer.id and {side, inner.id} & set(g.fits)
    ]
    if others:
        ways.append(f"or take {quoted(others, 'or')}, which fits '{inner.id}'")
    return finding(
        plan,
        (RULE, SEVERITY),
        path,
        f"'{outer.id}' does not fit '{inner.id}': it fits {quoted(outer.fits or (needs,))}, and '{inner.id}' has "
        f"'{side}'",
        tuple(ways),
        (("setup", setup), ("light", light.id), ("modifier", outer.id), ("has", side), ("fits", ", ".join(outer.fits))),
        also=[(f"gear.{outer.id}", "what it fits"), (f"gear.{inner.id}", "its mount")],
    )
