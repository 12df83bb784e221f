"""How much a window must lose, or how late it must be, for its daylight to sit so many stops under the key."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from . import daylight, sky
from .open_sky import Hour
from .tables import table

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.set import Window
    from ..plan.setup import Setup

_WINDOW = table("light")["window"]
UNDER = float(_WINDOW["night-under"]["likely"])  # stops
GREY = float(_WINDOW["grey"]["likely"])
NOON = 1440


def over_grey(plan: Plan, setup: Setup, window: Window, hour: Hour, key: float) -> float | None:
    """Stops by which a window at one moment, its treatment counted, lies over the grey of the key in the picture; None
    where nothing comes through."""
    leaves = daylight.glass(plan, setup, hour, window)
    return math.log2(leaves / (GREY * key)) if leaves > 0 and key > 0 else None


def to_lose(over: float | None, under: float = UNDER) -> float:
    """Stops a window must lose to look so many stops under the key's grey."""
    return 0.0 if over is None else max(0.0, over + under)


def dark_enough(
    plan: Plan, setup: Setup, window: Window, day: str, place: str, key: float, under: float = UNDER
) -> int | None:
    """From when in the evening a window, as it is treated, looks that many stops under the key's grey and stays so
    until midnight: half-minutes, to the minute; 0 where it does all day; None where it does not before midnight."""
    condition = plan.days[day].sky or "clear"

    def enough(clock: int) -> bool:
        position = sky.sun_at(plan, day, place, clock)
        if position is None:
            return False
        free = position.elevation > max(0.0, sky.skyline(plan.locations[place], position.azimuth))
        hour = Hour(clock, position.elevation, position.azimuth, condition, free and condition != "overcast")
        leaves = daylight.glass(plan, setup, hour, window)
        return bool(leaves <= GREY * key * 2.0**-under)

    if all(enough(clock) for clock in range(0, sky.DAY, 60)):
        return 0
    late = [clock for clock in range(NOON, sky.DAY + 1, 20) if not enough(clock)]
    if not late:
        return NOON
    if late[-1] >= sky.DAY:
        return None
    return next(clock for clock in range(late[-1], late[-1] + 22, 2) if enough(clock))
