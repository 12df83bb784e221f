"""Cloth, gel or a tent hangs nearer to a lamp than its heat allows.

On set: a smell, a brown spot in the black cloth, and then a fire extinguisher that nobody has looked for before.

How it is decided: metres between the lamp's surface (its place less half its greatest side, where 'size:' is said) and
the cloth: the back, the sides and the roof of a tent it stands in, cloth and layers on a window, flags and frames of
cloth, cloth under a ceiling; against the lamp's 'hot-within:'. A flag whose angle is not said counts as turned to the
lamp; the roof of a tent hangs at the upper edge of its cloth on the window (sill + height + overlap). Source: the
maker's figure for the lamp.

Fix: move the lamp or the cloth to the distance named. Hot air gathers under a roof: leave the tent open at the top of
its back, and look at the cloth after the first minutes. Cloth is flame-retarded, an extinguisher stands by, and nobody
leaves a burning lamp alone; local codes decide.

When to accept it: never nearer than the maker says.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import heat
from ..findings import NotChecked
from .physics import Case, causes, fine
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.heat import Gap
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.light import Light

RULE = "cloth-near-heat"
SEVERITY: Final = "warning"
TITLE = "cloth hangs nearer to a lamp than its heat allows"

TRIGGERS = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        windows: {hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}}
gear: {fresnel: {kind: light, colour: 3200 K, size: 0.3 m x 0.3 m x 0.3 m, hot-within: 0.4 m}}
stock: {black-cloth: {opaque: true, roll: 3 m x 12 m}}
setups:
  office-wide:
    set: office
    windows: {hatch: {tent: black-cloth, depth: 1.2 m, side: outside}}
    lights:
      quay: {lamp: fresnel, outside: hatch, away: 0.9 m, height: 1.5 m}  # <- here
"""
PASSES = TRIGGERS.replace("depth: 1.2 m", "depth: 1.5 m").replace("  # <- here", "")
_NEAR = 0.5


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[tuple[Light, Gear, Gap]]] = []
    for setup in plan.setups.values():
        for light in setup.lights.values():
            lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
            gap = min(heat.gaps(plan, setup, light, lamp), default=None) if lamp else None
            if lamp is None or gap is None:
                continue
            if lamp.hot_within is None:
                if gap.metres < _NEAR and not _cool(lamp):
                    yield NotChecked(RULE, f"'{light.id}' near {gap.words}", f"'hot-within:' of '{lamp.id}'")
            elif gap.metres < float(lamp.hot_within) - 1e-6:
                cases.append(Case(light.path, setup.id, float(lamp.hot_within) - gap.metres, (light, lamp, gap)))
    for cause in causes(plan, cases):
        light, lamp, gap = cause.worst.what
        hot = float(lamp.hot_within or 0.0)
        yield finding(
            plan,
            (RULE, SEVERITY),
            light.path,
            f"'{light.id}' burns {fine(plan, max(gap.metres, 0.0))} from {gap.words} in '{cause.worst.who}', and "
            f"'{lamp.id}' wants {fine(plan, hot)}{cause.also}",
            (
                _apart(gap, fine(plan, hot - gap.metres)),
                "or take a lamp that stays cool, and look at the cloth after the first minutes in any case",
            ),
            (
                ("setup", cause.worst.who),
                ("light", light.id),
                ("gap_m", round(gap.metres, 3)),
                ("hot_within_m", hot),
            ),
            also=[(gap.path, "the cloth"), (f"{lamp.path}.hot-within", "the lamp")],
        )


def _apart(gap: Gap, by: str) -> str:
    if gap.words == heat.ROOF:
        return f"lower the lamp or raise the roof by {by}, and leave the top of the tent's back open"
    return f"bring the lamp and the cloth {by} further apart"


def _cool(lamp: Gear) -> bool:
    """Lamps that run on a battery or draw little do not scorch cloth beside them (common practice, no source)."""
    return lamp.runs is not None or bool(lamp.battery) or (lamp.draws is not None and float(lamp.draws) <= 60.0)
