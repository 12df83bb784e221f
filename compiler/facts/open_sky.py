"""Light under the open sky at one moment: the key by sun or sky, the fill by sky, ground and boards."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..science import daylight as science
from ..science import light as optics
from ..science import sunlight
from . import boards, places, walls

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.set import Set
    from ..plan.setup import Setup
    from .places import XYZ


class Hour(NamedTuple):
    """The sky at one moment: half-minutes, the sun's height and bearing in degrees, the sky's condition, and whether
    the sun's disc stands free over the skyline."""

    clock: int
    height: float
    bearing: float
    condition: str
    disc: bool


class Level(NamedTuple):
    """Light at one moment: `key` on a meter turned to the key (the sun, a lamp, the brightest window, or the camera),
    `fill` on one turned away from the sun outdoors (0 indoors), `sun` the part of the key that is direct sun."""

    hour: Hour
    key: float
    fill: float
    sun: float


def level(plan: Plan, setup: Setup, room: Set, hour: Hour, at: XYZ | None, towards: XYZ | None) -> Level:
    """Under the open sky: a meter turned to the sun where it stands free, else upright and turned to the camera; the
    fill on an upright one turned away from the sun, with what boards give back."""
    away = science.upright(hour.height, 180.0, hour.condition, sun=hour.disc) + _boards(plan, setup, room, hour, at)
    if towards is not None:
        off = walls.outward_bearing(room, (towards[0], towards[1])) - hour.bearing
        key = science.upright(hour.height, off, hour.condition, sun=hour.disc)
        cosine = max(0.0, sunlight.incidence(hour.bearing, hour.height, off + hour.bearing)) if hour.disc else 0.0
        return Level(hour, key, away, science.direct(hour.height, hour.condition) * cosine)
    if hour.disc:
        disc = science.direct(hour.height, hour.condition)
        return Level(hour, science.turned_to_sun(hour.height, hour.condition), away, disc)
    key = science.upright(hour.height, _to_camera(plan, setup, room) - hour.bearing, hour.condition, sun=False)
    return Level(hour, key, key, 0.0)


def _boards(plan: Plan, setup: Setup, room: Set, hour: Hour, at: XYZ | None) -> float:
    """Lux that boards and white cloth give back of sun and sky on a meter turned away from the sun, at the key's mark
    or at what the camera looks at."""
    stand = places.camera(plan, setup) if at is None else None
    spot = at if at is not None else stand.aim if stand is not None and not stand.down else None
    if spot is None or not setup.grip:
        return 0.0
    sun = sunlight.sun_direction(hour.bearing, 0.0, float(room.north or 0.0))
    total = 0.0
    for sheet in boards.sheets(plan, setup):
        if sheet.reflects < boards.BLACK or sum((spot[i] - sheet.middle[i]) * sheet.facing[i] for i in range(3)) <= 0:
            continue
        off = walls.outward_bearing(room, (sheet.facing[0], sheet.facing[1])) - hour.bearing
        falls = science.upright(hour.height, off, hour.condition, sun=hour.disc)
        total += falls * sheet.reflects * optics.polygon_factor(sheet.pane, spot, (-sun[0], -sun[1], 0.0))
    return total


def _to_camera(plan: Plan, setup: Setup, room: Set) -> float:
    """Compass bearing from what the camera looks at to the camera; north where it is not known."""
    stand = places.camera(plan, setup)
    if stand is None or stand.down:
        return 0.0
    return walls.outward_bearing(room, (stand.at[0] - stand.aim[0], stand.at[1] - stand.aim[1]))
