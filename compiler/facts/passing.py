"""What stands between a lamp and a point: walls with their openings, glass, layers and cloth on windows, sheets of
grip. Each with the stops it takes, so that the greatest can be named."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from ..science import geometry
from . import boards, views, walls

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan import Plan
    from ..plan.light import Light
    from ..plan.setup import Setup
    from .places import XYZ

ALL = 99.0  # stops of what lets nothing through


class Loss(NamedTuple):
    """What takes light from a lamp on its way: in words, the stops, the plan path that says it, and whether it can be
    taken off (`off`): a level or an angle cannot."""

    words: str
    stops: float
    path: str
    off: bool


def loss_of(plan: Plan, name: str) -> float | None:
    """Stops that something before a lamp takes."""
    thing = plan.gear.get(name) or plan.stock.get(name)
    return None if thing is None or thing.loses is None else float(thing.loses)


def on_the_way(plan: Plan, setup: Setup, item: Light, here: XYZ, at: XYZ) -> tuple[Loss, ...]:
    """Every loss between lamp and point."""
    found = [*_sheets(plan, setup, item, here, at)]
    room = plan.set_of(setup.id)
    if room is None or room.outdoors:
        return tuple(found)
    found += window_losses(plan, setup, item)
    if not any(x.stops >= ALL for x in found) and _walled(plan, setup, item, here, at):
        found.append(Loss("a wall", ALL, item.path, off=False))
    return tuple(found)


def _sheets(plan: Plan, setup: Setup, item: Light, here: XYZ, at: XYZ) -> Iterator[Loss]:
    """Flags, cloth and frames of the setup that the straight line goes through."""
    for sheet in boards.sheets(plan, setup):
        used = item.bounce is not None and item.bounce.use == sheet.item.use
        if not used and boards.crosses(sheet, here, at):
            stops = -math.log2(sheet.passes) if sheet.passes > 0 else ALL
            words = f"'{sheet.item.id}' of '{sheet.item.use}'" if sheet.item.use else f"'{sheet.item.id}'"
            yield Loss(words, stops, sheet.item.path, off=True)


def window_losses(plan: Plan, setup: Setup, item: Light) -> Iterator[Loss]:
    """Glass, layers and cloth of the window a lamp shines through from outside."""
    name = item.outside
    if name is None or name not in plan.windows:
        return
    short = name.rsplit("/", 1)[-1]
    glass = plan.windows[name].loses
    if glass:
        yield Loss(f"the glass of '{short}'", float(glass), plan.windows[name].path, off=False)
    cover = next((t for t in setup.windows.values() if t.id == name), None)
    if cover is None:
        return
    if cover.black_out:
        yield Loss(f"the cloth '{cover.black_out}' on '{short}'", ALL, cover.path, off=True)
    for layer in cover.layers:
        stock = plan.stock.get(layer)
        stops = ALL if stock is not None and stock.opaque else loss_of(plan, layer) or 0.0
        if stops > 0:
            yield Loss(f"'{layer}' on '{short}'", stops, cover.path, off=True)


def _walled(plan: Plan, setup: Setup, item: Light, here: XYZ, at: XYZ) -> bool:
    """Whether a wall without an opening there stands between."""
    room = plan.set_of(setup.id)
    assert room is not None
    for wall in walls.walls(room):
        met = geometry.crossing(here[:2], at[:2], wall.start, wall.end)
        if met is None or min(math.dist(met, here[:2]), math.dist(met, at[:2])) < 0.02:
            continue
        along = math.dist(wall.start, met)
        run = math.dist(here[:2], at[:2]) or 1.0
        height = here[2] + (at[2] - here[2]) * math.dist(here[:2], met) / run
        holes = list(views.holes(plan, setup, room, wall))
        own = walls.window_opening(plan, item.outside) if item.outside else None
        inside = own is not None and own.low <= height <= own.high and _between(met, own.start, own.end)
        if not inside and not any(h.start <= along <= h.end and h.bottom <= height <= h.top for h in holes):
            return True
    return False


def _between(p: walls.XY, a: walls.XY, b: walls.XY) -> bool:
    return math.dist(p, a) + math.dist(p, b) <= math.dist(a, b) + 1e-6
