"""The light that a set's own walls, ceiling and floor give back at the key's mark, with what cloth takes of it.

An estimate: matt surfaces, the first bounce of every lamp followed, the later ones spread evenly, furniture and people
left out. Reflectances are the plan's, else those that lighting tables reckon with (ceiling 70, walls 50, floor 20 %).
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from ..science import light as optics
from ..science import room as science
from . import boards, light, places, walls
from .passing import window_losses
from .tables import table

if TYPE_CHECKING:
    from collections.abc import Callable

    from ..plan import Plan
    from ..plan.set import Set, Surface
    from ..plan.setup import Setup
    from .boards import Sheet
    from .exposure import Reading
    from .lamp import Source
    from .light import Arrival
    from .places import XYZ


class Shell(NamedTuple):
    """A set as an enclosure: its surfaces, their area (m2) and mean reflectance with the cloth in it, and the typical
    values that were used."""

    room: science.Enclosure
    area: float
    mean: float
    typical: tuple[str, ...]


class RoomLight(NamedTuple):
    """Lux that the room gives back: on the meter turned to the key, and on the one turned to the fill; of the fill what
    boards and white cloth give; the stops that black cloth takes from the fill of the room (0: none does); each
    lamp's part of the fill, without boards; lumens of the lamps that were counted, the lamps that could not be, the
    mean reflectance, and the typical values."""

    key: float
    fill: float
    boards: float
    cloth: float
    parts: tuple[tuple[str, float], ...]
    lumens: float
    left_out: tuple[str, ...]
    mean: float
    typical: tuple[str, ...]


def of(plan: Plan, setup: Setup, reading: Reading, fill: XYZ) -> RoomLight | None:
    """The room's own light at a reading, on meters turned to its key and in the direction of the fill; None outdoors
    and where the set's size is not said."""
    sheets = boards.sheets(plan, setup)
    shell = enclosure(plan, setup, sheets)
    if shell is None or reading.key is None:
        return None
    beams = [(a, *_beam(a)) for a in reading.arrivals]
    counted = [(a, beam, flux) for a, beam, flux in beams if beam is not None and flux > 0]
    each = [(a.item.id, _placed(plan, setup, shell.room, a, beam, flux)) for a, beam, flux in counted]
    key = sum(_at(shell, sheets, placed, reading.at, reading.key.towards) for _, placed in each)
    parts = tuple((name, _at(shell, sheets, placed, reading.at, fill)) for name, placed in each)
    own = sum(lux for _, lux in parts)
    given = _boards(plan, setup, sheets, reading, fill)
    cloth = 0.0
    if _black(plan, setup, sheets):
        bare = enclosure(plan, setup, (), clothed=False)
        without = sum(_at(bare, (), placed, reading.at, fill) for _, placed in each) if bare is not None else 0.0
        cloth = math.log2(without / own) if own > 0 and without > own else 0.0
    left = tuple(a.item.id for a, beam, _ in beams if beam is None)
    flux = sum(f for _, _, f in counted)
    return RoomLight(key, own + given, given, cloth, parts, flux, left, shell.mean, shell.typical)


def enclosure(plan: Plan, setup: Setup, sheets: tuple[Sheet, ...], *, clothed: bool = True) -> Shell | None:
    """The setup's set as surfaces, with its windows and their treatment, and `clothed` with its cloth."""
    place = plan.set_of(setup.id)
    high = walls.ceiling(place) if place is not None else None
    if place is None or place.outdoors or high is None or len(walls.corners(place)) < 3:
        return None
    typical: list[str] = []
    floor = _reflects(place.floor, "floor", typical)
    ceiling = _reflects(place.ceiling, "ceiling", typical)
    side = _reflects(place.walls, "walls", typical)
    corners = walls.corners(place)
    room = science.Enclosure(corners, high, floor, ceiling, (side,) * len(corners), _panels(plan, setup, place))
    room = _clothed(plan, setup, room) if clothed else room
    area, mean = science.surface(room)
    kept, whole = mean * area, area
    for sheet in sheets:
        size = math.dist(sheet.pane[0], sheet.pane[1]) * math.dist(sheet.pane[1], sheet.pane[2])
        kept, whole = kept + 2.0 * size * sheet.reflects, whole + 2.0 * size
    return Shell(room, whole, kept / whole, tuple(typical))


def _reflects(surface: Surface | None, what: str, typical: list[str]) -> float:
    """As the plan says, by its word for the colour, else as is usual."""
    if surface is not None and surface.reflects is not None:
        return min(max(float(surface.reflects), 0.0), 0.95)
    typical.append(f"reflectance of the {what}")
    said = (surface.colour or "").lower().split() if surface is not None else []
    known = table("light")
    return float(next((known["colours"][w] for w in said if w in known["colours"]), known["surfaces"][what]))


def _panels(plan: Plan, setup: Setup, place: Set) -> tuple[science.Panel, ...]:
    """Windows as panes or as the cloth before them, doors as holes that light comes in through."""
    found = []
    names = [w.name for w in walls.walls(place)]
    covers = {t.id: t for t in setup.windows.values()}
    pane = float(table("light")["window"]["glass-reflects"]["likely"])
    wood = float(table("light")["surfaces"]["walls"])
    for window in place.windows.values():
        opening = walls.window_opening(plan, window.id)
        cover = covers.get(window.id)
        if opening is None or window.wall not in names:
            continue
        dark = cover is not None and cover.black_out and cover.side != "outside"
        back = boards.reflectance(plan, cover.black_out)[0] if cover is not None and dark else pane
        lets = cover is None or not cover.black_out
        start, end = _along(place, names.index(window.wall), opening.start, opening.end)
        found.append(science.Panel(names.index(window.wall), start, end, opening.low, opening.high, back, lets))
    for door in plan.doors.values():
        home, there = door.id.rsplit("/", 1)[0] == place.id, door.leads_to == place.id and door.there is not None
        side = door if home else door.there if there else None
        if side is None or side.wall not in names or side.from_ is None or door.width is None:
            continue
        wall = walls.walls(place)[names.index(side.wall)]
        ends = wall.along(side.from_), wall.along(side.from_ + door.width)
        start, end = _along(place, names.index(side.wall), *ends)
        top = float(door.height or walls.DOOR_HEIGHT)
        found.append(science.Panel(names.index(side.wall), start, end, 0.0, top, wood, True))
    return tuple(found)


def _along(place: Set, index: int, a: walls.XY, b: walls.XY) -> tuple[float, float]:
    """Metres along an edge of the floor's outline, from its first corner."""
    first = walls.corners(place)[index]
    ends = sorted((math.dist(first, a), math.dist(first, b)))
    return ends[0], ends[1]


def _clothed(plan: Plan, setup: Setup, room: science.Enclosure) -> science.Enclosure:
    """Cloth and boards on ceiling, floor and walls, by the share of the surface that they cover."""
    ground = abs(sum(a[0] * b[1] - b[0] * a[1]
                     for a, b in zip(room.corners, (*room.corners[1:], room.corners[0]), strict=True))) / 2  # fmt: skip
    for item in setup.grip.values():
        sides = boards.size(plan, item)
        if sides is None or item.on not in ("ceiling", "floor", "wall"):
            continue
        back, cover = boards.reflectance(plan, item.use)[0], sides[0] * sides[1]
        if item.on == "ceiling":
            share = min(cover / ground, 1.0)
            room = room._replace(ceiling=room.ceiling + share * (back - room.ceiling))
        elif item.on == "floor":
            share = min(cover / ground, 1.0)
            room = room._replace(floor=room.floor + share * (back - room.floor))
        else:
            whole = science.surface(room)[0] - 2.0 * ground
            share = min(cover / whole, 1.0)
            room = room._replace(walls=tuple(r + share * (back - r) for r in room.walls))
    return room


def _beam(arrival: Arrival) -> tuple[Callable[[float], float] | None, float]:
    """How a lamp's light is spread, and its lumens at the level it is set to; a lit face without a beam shines by
    Lambert's law, a lamp of which neither is said is not counted."""
    source, item = arrival.source, arrival.item
    if item.lamp and arrival.everywhere:
        return _even, 4.0 * math.pi * source.lux * source.metres**2 * (1.0 if item.level is None else float(item.level))
    if arrival.bounced or (source.beam is None and source.radius > 0):
        profile: Callable[[float], float] = _lambert
    elif source.beam is not None and 0 < source.beam < 180:
        beam, field = source.beam, source.field
        profile = lambda off: optics.fall_off(off, beam, field)  # noqa: E731
    else:
        return None, 0.0
    level = 1.0 if item.level is None else float(item.level)
    candela = _candela(source) * level
    if arrival.bounced:
        candela = arrival.lux * arrival.metres**2
    return profile, science.lumens(candela, profile)


def _candela(source: Source) -> float:
    """Intensity on the axis from afar."""
    if source.radius > 0:
        far = 100.0 * source.radius
        return optics.candela(source.at(far), far)
    return optics.candela(source.lux, source.metres)


def _even(_off: float) -> float:
    return 1.0


def _lambert(off: float) -> float:
    return max(0.0, math.cos(math.radians(off)))


def _placed(
    plan: Plan, setup: Setup, room: science.Enclosure, arrival: Arrival, profile: Callable[[float], float],
    flux: float,
) -> list[science.Landing]:  # fmt: skip
    """Where a lamp's light lands first."""
    if arrival.everywhere:
        (down, spread), (up, _) = science.rays((0.0, 0.0, -1.0), profile), science.rays((0.0, 0.0, 1.0), profile)
        whole = [(way, share / 2.0) for way, share in (*down, *up)]
        return science.landings(room, arrival.here, whole, flux, spread)
    aim = None if arrival.bounced else places.light_aim(plan, setup, arrival.item)
    axis = light.unit(arrival.here, aim) if aim is not None else _back(arrival.towards)
    beam, spread = science.rays(axis, profile)
    way = tuple(window_losses(plan, setup, arrival.item))
    return science.landings(room, arrival.here, beam, flux * light.passed(way), spread)


def _back(way: XYZ) -> XYZ:
    return -way[0], -way[1], -way[2]


def _at(shell: Shell, sheets: tuple[Sheet, ...], placed: list[science.Landing], at: XYZ, facing: XYZ) -> float:
    """Lux at a point: from where light lands, past the sheets, and from all later bounces less what sheets hide."""
    seen = [p for p in placed if not any(boards.crosses(s, at, p.at) for s in sheets)] if sheets else placed
    later = science.later_bounces(science.given_back(shell.room, placed), shell.area, shell.mean)
    hidden = sum(optics.polygon_factor(s.pane, at, facing) * (1.0 - s.reflects) for s in sheets if s.passes == 0.0)
    return science.first_bounce(shell.room, seen, at, facing) + later * max(0.0, 1.0 - hidden)


def even(plan: Plan, setup: Setup, shell: Shell, reading: Reading) -> float:
    """Lux everywhere in the room from the second bounce of the lamps on."""
    beams = [(a, *_beam(a)) for a in reading.arrivals]
    placed = [x for a, beam, flux in beams if beam is not None for x in _placed(plan, setup, shell.room, a, beam, flux)]
    return science.later_bounces(science.given_back(shell.room, placed), shell.area, shell.mean)


def _boards(plan: Plan, setup: Setup, sheets: tuple[Sheet, ...], reading: Reading, facing: XYZ) -> float:
    """Lux from boards and white cloth that only give back what the lamps throw on them."""
    total = 0.0
    for sheet in sheets:
        factor = optics.polygon_factor(sheet.pane, reading.at, facing)
        before = sum((reading.at[i] - sheet.middle[i]) * sheet.facing[i] for i in range(3)) > 0
        if sheet.reflects < boards.BLACK or factor <= 0 or not before:
            continue
        others = [a for a in light.arrivals(plan, setup, sheet.middle) if isinstance(a, light.Arrival)]
        cosines = [(a, sum(x * y for x, y in zip(a.towards, sheet.facing, strict=True))) for a in others]
        total += factor * sheet.reflects * sum(a.lux * max(0.0, c) for a, c in cosines if a.item.effect is None)
    return total


def _black(plan: Plan, setup: Setup, sheets: tuple[Sheet, ...]) -> bool:
    """Whether anything in the setup takes light from the room."""
    flat = [i for i in setup.grip.values() if i.on in ("ceiling", "floor", "wall")]
    return any(s.reflects < boards.BLACK for s in sheets) or any(
        boards.reflectance(plan, i.use)[0] < boards.BLACK for i in flat
    )
