"""Cloth, flags, frames and boards of a setup as flat sheets: where they stand, which way they face, what they do to
light."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from ..source.quantities import Around
from . import places
from .tables import table

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.light import Grip
    from ..plan.setup import Setup
    from .places import XYZ
    from .walls import XY

BLACK = 0.2  # share of light given back below which a sheet takes rather than gives


class Sheet(NamedTuple):
    """A flat upright sheet: its four corners, middle, the unit vector it faces (None: not known), the share of light
    it gives back and the share it lets through (0: opaque), and whether its reflectance is a typical one."""

    item: Grip
    pane: tuple[XYZ, ...]
    middle: XYZ
    facing: XYZ
    reflects: float
    passes: float
    typical: bool


def sheets(plan: Plan, setup: Setup) -> tuple[Sheet, ...]:
    """Every sheet of a setup's grip that stands upright at a place and of which a size is known. One of which nothing
    says which way it faces is taken to face the mark of the key."""
    found = []
    for item in setup.grip.values():
        at = places.thing(plan, setup, item)
        sides = size(plan, item)
        if at is None or not sides or item.on in ("ceiling", "floor", "wall"):
            continue
        facing = _facing(plan, setup, item, (at[0], at[1]))
        if facing is None:
            continue
        dx, dy = -facing[1] * sides[0] / 2, facing[0] * sides[0] / 2
        low, high = at[2] - sides[1] / 2, at[2] + sides[1] / 2
        a, b = (at[0] - dx, at[1] - dy), (at[0] + dx, at[1] + dy)
        back, typical = reflectance(plan, item.use)
        pane = ((*a, low), (*b, low), (*b, high), (*a, high))
        found.append(Sheet(item, pane, at, (*facing, 0.0), back, passes(plan, item.use), typical))
    return tuple(found)


def size(plan: Plan, item: Grip) -> tuple[float, float] | None:
    """Width and height of a piece of grip: its own, or the two greatest sides of what is used."""
    if item.size:
        return float(item.size[0]), float(item.size[1])
    thing, stock = plan.gear.get(item.use or ""), plan.stock.get(item.use or "")
    sides = [float(s) for s in (thing.size if thing is not None and thing.size else ())]
    if stock is not None and stock.pieces and stock.pieces[0].size is not None:
        sides = [float(s) for s in stock.pieces[0].size]
    if len(sides) < 2:
        return None
    high, wide = sorted(sides)[-2:]
    return wide, high


def reflectance(plan: Plan, name: str | None) -> tuple[float, bool]:
    """The share of light a thing gives back, and whether it is a typical value: black cloth next to nothing, boards
    and white cloth most of it, diffusion a third."""
    thing, stock = plan.gear.get(name or ""), plan.stock.get(name or "")
    if stock is not None and stock.reflects is not None:
        return float(stock.reflects), False
    usual = table("light")["sheets"]
    said = f"{name or ''} {(thing.of if thing else '') or ''} {(stock.of if stock else '') or ''}".lower()
    colour = (stock.colour if stock is not None else None) or ""
    if "black" in f"{said} {colour}".lower() or "negative" in said or (stock is not None and stock.opaque):
        return float(usual["black"]), True
    if any(w in said for w in ("white", "bounce", "board", "reflector", "muslin")):
        return float(usual["white"]), True
    return float(usual["diffusion" if passes(plan, name) > 0 else "other"]), True


def passes(plan: Plan, name: str | None) -> float:
    """The share of light a thing lets through: diffusion by its loss, all else nothing."""
    thing, stock = plan.gear.get(name or ""), plan.stock.get(name or "")
    if stock is not None and stock.opaque:
        return 0.0
    loses = stock.loses if stock is not None else thing.loses if thing is not None else None
    board = thing is not None and thing.kind == "grip" and thing.loses is None
    if loses is None or board or (stock is not None and stock.reflects is not None):
        return 0.0
    return float(2.0 ** -float(loses))


def _facing(plan: Plan, setup: Setup, item: Grip, at: XY) -> XY | None:
    """As turned, towards its aim, towards the mark it is told from, else towards the mark of the key."""
    if item.turned is not None:
        turn = math.radians(float(item.turned))
        return math.sin(turn), math.cos(turn)
    aim = places.spot(plan, setup, item.aim.at) if item.aim else None
    if aim is None and isinstance(item.at, Around):
        aim = places.named(plan, setup.set or "", item.at.mark)
    if aim is None and setup.key_at is not None:
        aim = places.named(plan, setup.set or "", setup.key_at)
    far = math.dist(at, aim) if aim is not None else 0.0
    return ((aim[0] - at[0]) / far, (aim[1] - at[1]) / far) if aim is not None and far > 1e-6 else None


def crosses(sheet: Sheet, start: XYZ, end: XYZ) -> bool:
    """Whether the straight line between two points goes through a sheet, and not merely ends on it."""
    fx, fy, _ = sheet.facing
    mx, my, _ = sheet.middle
    first = (start[0] - mx) * fx + (start[1] - my) * fy
    last = (end[0] - mx) * fx + (end[1] - my) * fy
    if first * last >= 0 or min(abs(first), abs(last)) < 0.02:
        return False
    share = first / (first - last)
    x, y, z = (start[i] + share * (end[i] - start[i]) for i in range(3))
    (ax, ay, low), (bx, by, _), (_, _, high), _ = sheet.pane
    run = math.dist((ax, ay), (bx, by))
    along = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / run
    return 0.0 <= along <= run and low <= z <= high
