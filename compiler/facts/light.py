"""What light of each lamp arrives at a mark: by distance, size, beam, level, what is before it, and bounces.

Lux on a surface turned to the lamp. A lamp told by lux at a distance or candela is measured; one told by lumens and an
angle is an estimate, a stop to either side. Dimming is taken as linear in light.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from ..plan.light import Light
from ..plan.spots import Named
from ..science import light
from . import places
from .lamp import NARROW, Source, axis, beam_share, source_of
from .passing import ALL, Loss, on_the_way

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.setup import Setup
    from .places import XYZ

BOARD = 0.85  # reflectance of a white board of which none is said; common practice, no source
BEYOND = 1.0  # metres behind the aim at which a board stands of which no place is said


class Arrival(NamedTuple):
    """The light of one lamp at the mark: lux, the unit vector towards where it comes from, metres to there, the part
    that is left of the lamp's full light on its axis, whether it is bounced, what of it is typical, what takes
    light from it, the greatest first, the place of the lamp or of its board, and whether it
    shines to all sides, as a bulb in a practical does."""

    item: Light
    lamp: Gear
    lux: float
    towards: XYZ
    metres: float
    source: Source
    part: float
    bounced: bool
    typical: tuple[str, ...]
    losses: tuple[Loss, ...] = ()
    here: XYZ = (0.0, 0.0, 0.0)
    everywhere: bool = False

    def lux_from(self, distance: float) -> float:
        """Lux if the lamp stood at another distance in the same direction; bounced light has none."""
        return self.source.at(distance) * self.part


class Unknown(NamedTuple):
    """A lamp whose light at the mark is not known, and the detail that is wanting."""

    item: Light
    wants: str


def spot_of(plan: Plan, setup: Setup, mark: str) -> XYZ | None:
    """A mark at the height of the eyes there, in the setup's set."""
    at, eyes = places.spot(plan, setup, Named(mark)), places.mark_eyes(plan, setup, mark)
    return None if at is None or eyes is None else (at[0], at[1], eyes)


def arrivals(plan: Plan, setup: Setup, at: XYZ) -> Iterator[Arrival | Unknown]:
    """Every lamp of a setup at a point of its set."""
    for item in setup.lights.values():
        lamp = plan.gear.get(item.lamp[0]) if item.lamp else None
        if lamp is not None:
            yield _arrival(plan, setup, item, lamp, at)


def practicals(plan: Plan, setup: Setup, at: XYZ) -> Iterator[Arrival]:
    """Every practical of which the plan says what its bulb or prop gives, and where it stands: lumens without a beam
    shine to all sides, I = lm / 4 pi."""
    for one in setup.practicals.values():
        names = [n for n in (one.bulb, one.prop) if n is not None and n in plan.gear]
        bulb = next((plan.gear[n] for n in names if plan.gear[n].gives), None)
        here = places.thing(plan, setup, one)
        if bulb is None or here is None:
            continue
        output = next(iter(bulb.gives.values()))
        lux, metres = axis(output, bulb)
        if lux is None:
            lux = float(output.value) / (4.0 * math.pi)
        source = Source(lux, metres, 0.0, None, None, output.unit == "lm", ("the bulb shines to all sides",))
        item = Light(id=one.id, path=one.path, lamp=(bulb.id,), level=one.level, effect=one.effect, role="practical")
        level = 1.0 if one.level is None else float(one.level)
        way = on_the_way(plan, setup, item, here, at)
        part, far = level * passed(way), max(math.dist(here, at), 0.05)
        yield Arrival(item, bulb, source.at(far) * part, unit(at, here), far, source, part, False, source.typical,
                      _losses(item, source, level, way), here, True)  # fmt: skip


def _arrival(plan: Plan, setup: Setup, item: Light, lamp: Gear, at: XYZ) -> Arrival | Unknown:
    source = source_of(plan, item, lamp)
    if isinstance(source, str):
        return Unknown(item, source)
    here = places.light(plan, setup, item)
    if here is None:
        known = places.light_xy(plan, setup, item) is not None
        return Unknown(item, "'height:' of the lamp" if known else "the place of the lamp ('at:')")
    aim = places.light_aim(plan, setup, item)
    typical = source.typical + (("aimed at the mark",) if aim is None else ())
    level = 1.0 if item.level is None else float(item.level)
    if item.bounce is not None:
        return _bounced(plan, setup, item, lamp, source, here, aim, at, level, typical)
    off = 0.0 if aim is None else angle(here, aim, at)
    share = beam_share(source, off)
    if share is None:
        return Unknown(item, f"'beam:' of '{lamp.id}' (the mark lies {off:.0f} deg off its axis)")
    if source.beam is not None and lamp.beam is not None and lamp.beam.lo < lamp.beam.hi and off > NARROW:
        typical = (*typical, f"'{lamp.id}' at its widest beam")
    way = on_the_way(plan, setup, item, here, at)
    part = level * share * passed(way)
    metres = max(math.dist(here, at), 0.05)
    losses = _losses(item, source, level, way, share, off)
    return Arrival(
        item, lamp, source.at(metres) * part, unit(at, here), metres, source, part, False, typical, losses, here
    )


def passed(way: tuple[Loss, ...]) -> float:
    """The part of the light that is left behind every loss: nothing behind what is opaque."""
    return 0.0 if any(x.stops >= ALL for x in way) else float(2.0 ** -sum(x.stops for x in way))


def _losses(
    item: Light, source: Source, level: float, way: tuple[Loss, ...], share: float = 1.0, off: float = 0.0
) -> tuple[Loss, ...]:
    """All that takes light from a lamp, the greatest first."""
    found = [Loss(f"'{name}' before it", stops, f"{item.path}.with", off=True) for name, stops in source.before]
    found += way
    if 0 < level < 1:
        found.append(Loss(f"its level of {level * 100:.0f} %", -math.log2(level), f"{item.path}.level", off=False))
    if 0 < share < 1:
        found.append(Loss(f"the mark {off:.0f} deg off its axis", -math.log2(share), f"{item.path}.aim", off=False))
    return tuple(sorted((x for x in found if x.stops > 0.05), key=lambda x: -x.stops))


def _bounced(
    plan: Plan,
    setup: Setup,
    item: Light,
    lamp: Gear,
    source: Source,
    here: XYZ,
    aim: XYZ | None,
    at: XYZ,
    level: float,
    typical: tuple[str, ...],
) -> Arrival | Unknown:
    """Two steps: lux on the board, then the board as a matt rectangle that faces the mark."""
    assert item.bounce is not None
    name = item.bounce.use or ""
    board = plan.gear.get(name)
    stock = plan.stock.get(name)
    sides = [float(s) for s in (board.size if board and board.size else ())]
    if stock is not None and stock.pieces and stock.pieces[0].size is not None:
        sides = [float(s) for s in stock.pieces[0].size]
    if len(sides) < 2:
        return Unknown(item, f"'size:' of '{name}'")
    width, height = sorted(sides)[-2:]
    spot = places.spot(plan, setup, item.bounce.at) if item.bounce.at is not None else None
    high = item.bounce.height
    if spot is not None:
        place: XYZ = (spot[0], spot[1], float(high) if high is not None else (aim or at)[2])
    elif aim is not None:
        way = unit(here, aim)
        place = (aim[0] + way[0] * BEYOND, aim[1] + way[1] * BEYOND, aim[2] + way[2] * BEYOND)
        typical = (*typical, "the board a metre behind the aim")
    else:
        return Unknown(item, "the place of the board ('bounce: {use: ..., at: ...}')")
    reflects = float(stock.reflects) if stock is not None and stock.reflects is not None else BOARD
    if reflects == BOARD:
        typical = (*typical, "reflectance of the board")
    metres = max(math.dist(place, at), 0.05)
    on_board = source.at(max(math.dist(here, place), 0.05)) * level
    factor = light.rectangle_factor(width, height, metres)
    lux = light.bounced(on_board, reflects, factor)
    past = on_the_way(plan, setup, item, place, at)
    lost = [
        Loss(f"the bounce off '{name}'", -math.log2(max(reflects * factor, 1e-9)), f"{item.path}.bounce", off=False)
    ]
    losses = (*_losses(item, source, level, past), *lost)
    return Arrival(item, lamp, lux * passed(past), unit(at, place), metres, source, level, True, typical,
                   tuple(sorted(losses, key=lambda x: -x.stops)), place)  # fmt: skip


def angle(here: XYZ, aim: XYZ, at: XYZ) -> float:
    """Degrees at a lamp between what it points at and another point."""
    cosine = sum(a * b for a, b in zip(unit(here, aim), unit(here, at), strict=True))
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))


def unit(start: XYZ, end: XYZ) -> XYZ:
    """The unit vector from one point to another."""
    way = (end[0] - start[0], end[1] - start[1], end[2] - start[2])
    length = math.hypot(*way) or 1.0
    return way[0] / length, way[1] / length, way[2] / length
