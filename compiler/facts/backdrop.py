"""What is behind the key's mark in the picture: the light on the wall, and how bright it looks against the key."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from ..science import room as science
from . import boards, light, places, room
from .night import GREY

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.setup import Setup
    from .exposure import Reading
    from .places import XYZ


class Backdrop(NamedTuple):
    """The surface behind the mark: a wall's name, floor or ceiling; where the camera's look meets it; lux of the lamps
    on it, each by name; the stops by which it looks brighter (positive) than the grey of the key."""

    what: str
    at: XYZ
    lux: float
    lamps: tuple[tuple[str, float], ...]
    stops: float


def behind(plan: Plan, setup: Setup, reading: Reading) -> Backdrop | None:
    """What the camera sees behind the mark; None outdoors, without a key, and where the camera's place is not known.
    An estimate: lamps by the cosine, and what the room gives back from its second bounce on."""
    stand = places.camera(plan, setup)
    shell = room.enclosure(plan, setup, boards.sheets(plan, setup))
    place = plan.set_of(setup.id)
    if stand is None or stand.down or shell is None or place is None or reading.key is None or reading.key.lux <= 0:
        return None
    met = science.struck(shell.room, reading.at, light.unit(stand.at, reading.at))
    if met is None:
        return None
    off = (met.at[0] + 0.01 * met.normal[0], met.at[1] + 0.01 * met.normal[1], met.at[2] + 0.01 * met.normal[2])
    found = []
    for arrival in light.arrivals(plan, setup, off):
        if isinstance(arrival, light.Arrival) and arrival.item.effect is None:
            cosine = sum(a * b for a, b in zip(arrival.towards, met.normal, strict=True))
            found.append((arrival.item.id, arrival.lux * max(0.0, cosine)))
    lux = sum(lux for _, lux in found) + room.even(plan, setup, shell, reading)
    from .walls import walls

    names = {science.FLOOR: "the floor", science.CEILING: "the ceiling"}
    names |= {i: f"the wall {wall.name}" for i, wall in enumerate(walls(place))}
    back = met.reflects(shell.room)
    stops = math.log2(max(lux * back, 1e-6) / (GREY * reading.key.lux))
    return Backdrop(names[met.surface], met.at, lux, tuple(found), stops)
