"""Light flashes more than three times in a second: it can bring on a seizure in people with photosensitive epilepsy.

On set: the effect runs for the fourth time, and somebody beside the camera falls. Viewers are at risk as well.

How it is decided: 'flashes:' or 'flickers:' of an effect above 3 per s; a flicker whose levels differ by less than
10 % of the maximum, or never go below 80 % of it, is no flash. Source: WCAG 2.2, success criterion 2.3.1 and its
definitions of general and red flash (no more than three flashes within any one-second period); the same figure is used
here for the people on set. Saturated red ('red: true') counts however little its brightness changes. Below the limit
nobody is proven safe.

Fix: slow the effect down to 3 per s or less, narrow 'between:', or make it in post.

When to accept it: everybody on set was asked and told before, the call sheet says it, someone at the switch can stop it
at once, and the film carries a warning.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..source.quantities import show
from .words import Once, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.light import Effect

RULE = "flashing-light"
SEVERITY: Final = "warning"
TITLE = "light flashes more than three times a second"

TRIGGERS = """
hotset: 1
gear: {tube: {kind: light}}
setups:
  quay:
    lights:
      siren: {lamp: tube, effect: {flashes: 4 per s}}  # <- here
"""
PASSES = TRIGGERS.replace("4 per s}}  # <- here", "3 per s}}")
LIMIT = 3.0  # flashes in any one second; WCAG 2.2, 2.3.1
_LEAST_CHANGE = 0.10  # of the maximum relative luminance; WCAG 2.2, definition of general flash
_DARKER_BELOW = 0.80


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    fresh = Once(plan)
    for setup in plan.setups.values():
        sources = [(x.id, x.effect) for x in setup.lights.values()]
        sources += [(x.id, x.effect) for x in setup.practicals.values()]
        for name, effect in sources:
            if effect is None:
                continue
            for key, rate in (("flashes", effect.flashes), ("flickers", effect.flickers)):
                if rate is not None and float(rate) > LIMIT and _is_flash(effect) and fresh(f"{effect.path}.{key}"):
                    yield finding(
                        plan,
                        (RULE, SEVERITY),
                        f"{effect.path}.{key}",
                        f"'{name}' in '{setup.id}' {key} {show('rate', rate)}{' in saturated red' * bool(effect.red)}, "
                        f"above the {LIMIT:g} per s that are held to be safe for people with photosensitive epilepsy",
                        (
                            "slow it to 3 per s or less, or make the effect in post",
                            "ask and tell cast and crew before the day, and print it on the call sheet",
                        ),
                        (("setup", setup.id), ("light", name), ("per_second", float(rate)), ("limit", LIMIT)),
                    )


def _is_flash(effect: Effect) -> bool:
    if effect.between is None or effect.red:
        return True  # a change to or from saturated red is a flash at any brightness: WCAG 2.2, red flash
    return effect.between.hi - effect.between.lo >= _LEAST_CHANGE and effect.between.lo < _DARKER_BELOW
