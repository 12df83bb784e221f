"""A stand, head or boom carries more than it is made for.

On set: the stand creeps down during the take, or falls.

How it is decided: 'carries:' of the support under 'on:' against the 'weight:' of what a setup puts on it: the lamp (the
best liked of those that may be taken) and its modifiers; the camera with its lens, filters, adapters and battery; a
flag or frame. Weights that are not said count nothing, so a finding is sure. Source: the maker's figures in the plan.

Fix: take a stronger support, or a lighter lamp or modifier.

When to accept it: never; what carries less than it must can fall on somebody.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from ..source.quantities import show
from .words import Once, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.setup import Setup

RULE = "support-overloaded"
SEVERITY: Final = "warning"
TITLE = "a support carries more than it is made for"

TRIGGERS = """
hotset: 1
gear:
  big-lamp: {kind: light, weight: 7 kg}
  softbox: {kind: modifier, weight: 1.5 kg}
  light-stand: {kind: support, carries: 8 kg}
setups:
  wide:
    lights:
      key: {lamp: big-lamp, with: softbox, on: light-stand}  # <- here
"""
PASSES = TRIGGERS.replace("carries: 8 kg", "carries: 8.5 kg").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    fresh = Once(plan)
    for setup in plan.setups.values():
        for on, path, what in _loads(setup):
            support = plan.gear.get(on or "")
            if support is None or support.carries is None:
                continue
            weights = [(n, plan.gear[n].weight) for n in what if n in plan.gear]
            total = sum(float(w) for _, w in weights if w is not None)
            silent = [n for n, w in weights if w is None]
            if total > float(support.carries) + 1e-9:
                if fresh(path):
                    names = [n for n, w in weights if w is not None]
                    yield finding(
                        plan,
                        (RULE, SEVERITY),
                        path,
                        f"'{support.id}' carries {show('weight', support.carries)}, and in '{setup.id}' "
                        f"{quoted(names)} on it {'weighs' if len(names) == 1 else 'weigh'} {show('weight', total)}",
                        ("take a stronger support", "or a lighter lamp or modifier"),
                        (("setup", setup.id), ("support", support.id), ("carries_kg", float(support.carries)),
                         ("load_kg", round(total, 2))),
                        also=[(f"gear.{support.id}", "what it carries")],
                    )  # fmt: skip
            elif silent:
                yield NotChecked(RULE, f"'{support.id}' in '{setup.id}'", f"'weight:' of {quoted(silent)}")


def _loads(setup: Setup) -> Iterator[tuple[str | None, str, tuple[str, ...]]]:
    """Support, where it is named, and what stands on it."""
    camera = setup.camera
    if camera is not None and camera.on:
        parts = (camera.body, camera.lens, *camera.filters, *camera.adapters, camera.battery)
        yield camera.on, f"{camera.path}.on", tuple(p for p in parts if p)
    for light in setup.lights.values():
        if light.on and light.lamp:
            yield light.on, f"{light.path}.on", (light.lamp[0], *light.with_)
    for grip in setup.grip.values():
        if grip.on and grip.use:
            yield grip.on, f"{grip.path}.on", (grip.use,)
