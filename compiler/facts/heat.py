"""How far cloth hangs from a lamp's surface: the tent it stands in, cloth on windows, flags, cloth under a ceiling.

A lamp counts as reaching half its greatest side to every side of its place.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from ..science import geometry
from . import cloth, places, walls

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.light import Light, Treatment
    from ..plan.setup import Setup

ROOF = "the roof of the tent"


class Gap(NamedTuple):
    """Metres between a lamp's surface and cloth, what the cloth is, its plan path."""

    metres: float
    words: str
    path: str


def gaps(plan: Plan, setup: Setup, light: Light, lamp: Gear) -> Iterator[Gap]:
    """Every cloth that hangs about a lamp of a setup, and how far from the lamp's surface."""
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
    """Back, sides and roof of the tent a lamp stands in; the roof hangs at the upper edge of the window's cloth."""
    away = float(light.away if light.away is not None else places.OUTSIDE_AWAY)
    depth = float(cover.depth or 0.0)
    yield Gap(depth - away - half, "the back of the tent", cover.path)
    window, stock = plan.windows.get(cover.id), plan.stock.get(cover.tent or "")
    if window is not None and window.width is not None and stock is not None:
        said = cloth.overlap(plan, stock, cover)
        over = cloth.OVERLAP if said is None else said
        side = float(window.width) / 2 + over - abs(float(light.along or 0.0)) - half
        yield Gap(side, "the side of the tent", cover.path)
        if light.height is not None and window.sill is not None and window.height is not None:
            roof = float(window.sill) + float(window.height) + over
            yield Gap(roof - float(light.height) - half, ROOF, cover.path)


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
