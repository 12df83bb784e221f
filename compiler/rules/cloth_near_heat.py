"""Cloth, gel or a tent hangs nearer to a lamp than its heat allows.

On set: a smell, a brown spot in the black cloth, and then a fire extinguisher that nobody has looked for before.

How it is decided: metres between the lamp's surface (its place less half its greatest side, where 'size:' is said) and
the cloth: the back and the sides of a tent it stands in, cloth and layers on a window, flags and frames of cloth, cloth
under a ceiling; against the lamp's 'hot-within:'. A flag whose angle is not said counts as turned to the lamp; the roof
of a tent hangs as high as you build it and is not counted. Source: the maker's figure for the lamp.

Fix: move the lamp or the cloth to the distance named. Cloth is flame-retarded, an extinguisher stands by, and nobody
leaves a burning lamp alone; local codes decide.

When to accept it: never nearer than the maker says.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final, NamedTuple

from ..facts import cloth, places, walls
from ..findings import NotChecked
from ..science import geometry
from .physics import Case, causes, fine
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.light import Light, Treatment
    from ..plan.setup import Setup

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


class Gap(NamedTuple):
    """Metres between a lamp's surface and cloth, what the cloth is, its plan path."""

    metres: float
    words: str
    path: str


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[tuple[Light, Gear, Gap]]] = []
    for setup in plan.setups.values():
        for light in setup.lights.values():
            lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
            gap = min(_gaps(plan, setup, light, lamp), default=None) if lamp else None
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
                f"bring the lamp and the cloth {fine(plan, hot - gap.metres)} further apart",
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


def _cool(lamp: Gear) -> bool:
    """Lamps that run on a battery or draw little do not scorch cloth beside them (common practice, no source)."""
    return lamp.runs is not None or bool(lamp.battery) or (lamp.draws is not None and float(lamp.draws) <= 60.0)


def _gaps(plan: Plan, setup: Setup, light: Light, lamp: Gear) -> Iterator[Gap]:
    half = max((float(s) for s in lamp.size or ()), default=0.0) / 2
    at = places.light(plan, setup, light)
    cover = setup.windows.get(light.outside or "") or next(
        (t for t in setup.windows.values() if t.id == light.outside), None
    )
    if cover is not None and cover.tent and cover.depth is not None:
        yield from _tent(plan, light, cover, half)
    if at is None:
        return
    for window in setup.windows.values():
        if window.open or (window.tent and window.id == light.outside):
            continue
        if (light.outside is None) == (window.side == "outside"):
            continue
        found = walls.window_opening(plan, window.id)
        if found is not None and window.id.startswith(f"{setup.set}/"):
            gap = _to_upright(at, found.start, found.end, found.low, found.high) - half
            yield Gap(gap, f"the cloth on '{window.id.rsplit('/', 1)[-1]}'", window.path)
    for grip in setup.grip.values():
        if grip.use not in plan.stock:
            continue
        middle = places.thing(plan, setup, grip)
        if grip.on == "ceiling":
            room = plan.set_of(setup.id)
            high = walls.ceiling(room) if room else None
            if high is not None and (middle is None or _over(at, middle, grip.size)):
                yield Gap(high - at[2] - half, f"'{grip.id}' under the ceiling", grip.path)
        elif middle is not None:
            yield Gap(math.dist(at, middle) - half, f"'{grip.id}'", grip.path)


def _tent(plan: Plan, light: Light, cover: Treatment, half: float) -> Iterator[Gap]:
    """Back and sides of the tent a lamp stands in."""
    away = float(light.away if light.away is not None else places.OUTSIDE_AWAY)
    depth = float(cover.depth or 0.0)
    yield Gap(depth - away - half, "the back of the tent", cover.path)
    window, stock = plan.windows.get(cover.id), plan.stock.get(cover.tent or "")
    if window is not None and window.width is not None and stock is not None:
        said = cloth.overlap(plan, stock, cover)
        over = cloth.OVERLAP if said is None else said
        side = float(window.width) / 2 + over - abs(float(light.along or 0.0)) - half
        yield Gap(side, "the side of the tent", cover.path)


def _to_upright(
    at: tuple[float, float, float], a: tuple[float, float], b: tuple[float, float], low: float, high: float
) -> float:
    flat = geometry.distance_to_segment((at[0], at[1]), a, b)
    return math.hypot(flat, max(low - at[2], at[2] - high, 0.0))


def _over(at: tuple[float, float, float], middle: tuple[float, float, float], size: tuple[float, float] | None) -> bool:
    """Whether cloth under the ceiling lies over a lamp; where its size is not said it does."""
    if size is None:
        return True
    return max(abs(at[0] - middle[0]), abs(at[1] - middle[1])) <= max(float(size[0]), float(size[1])) / 2
