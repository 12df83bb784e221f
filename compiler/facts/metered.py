"""What the meter reads at a setup's mark, all light together, and the stop that it gives.

Lamps, the room's own light and daylight add up on a flat meter turned to the key; with shutter, ISO and filters they
give a stop (ISO 2720, `science.exposure`).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..science import exposure as optics
from . import backdrop, exposure

if TYPE_CHECKING:
    from ..plan.setup import Setup
    from . import Facts
    from .backdrop import Backdrop
    from .exposure import Reading


class Stop(NamedTuple):
    """Lux on the meter, the stop number they give behind the filters, its number as it is engraved (None: it lies
    between), stops over (positive) or under what the camera is set to."""

    lux: float
    number: float
    engraved: float | None
    over: float


class Metered(NamedTuple):
    """What the meter reads. `wanted` lux for the camera's stop, behind `filters` stops; `stops` for the light there is,
    or for the least and the most of it where daylight comes in; `lacks` the detail of the camera that is wanting."""

    wanted: float | None
    filters: float
    stops: tuple[Stop, ...]
    lacks: str


def metered(facts: Facts, setup: Setup) -> Metered:
    """The reading of a setup; without stops where nothing is lit or the camera says too little."""
    plan, camera, time = facts.plan, setup.camera, exposure.shutter(setup)
    lacks, wanted = exposure.missing(setup), exposure.wanted(plan, setup)
    if lacks or wanted is None or camera is None or time is None:
        return Metered(None, 0.0, (), lacks)
    behind = exposure.filter_stops(plan, setup)
    found = []
    for lux in ends(facts, setup):
        number = optics.stop_for(lux * optics.transmittance(behind), time, float(camera.iso or 1))
        found.append(Stop(lux, number, optics.marked(number), optics.stops_over(lux, wanted)))
    return Metered(wanted, behind, tuple(found), "")


def ends(facts: Facts, setup: Setup) -> tuple[float, ...]:
    """Lux on the meter: one number, or the least and the most where daylight comes in; none where nothing is lit."""
    reading, day, room = facts.readings.get(setup.id), facts.daylights.get(setup.id), facts.room_light(setup.id)
    lamps = (reading.lux if reading is not None else 0.0) + (room.key if room is not None else 0.0)
    both = (lamps,) if day is None or isinstance(day, str) else (lamps + day.least.key, lamps + day.most.key)
    return tuple(lux for lux in both if lux > 0)


def fill(facts: Facts, setup: Setup, reading: Reading) -> float:
    """Lux of the fill at the mark: the fill lamps and what the room gives back."""
    room = facts.room_light(setup.id)
    return sum(a.lux for a in reading.of_role("fill")) + (room.fill if room is not None else 0.0)


def behind(facts: Facts, setup: Setup) -> Backdrop | None:
    """What the camera sees behind the mark; None where no mark is metered."""
    reading = facts.readings.get(setup.id)
    return None if reading is None else backdrop.behind(facts.plan, setup, reading)
