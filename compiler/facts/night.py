"""How much a window must lose, or how late it must be, for its daylight to sit so many stops under the key."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from ..science import light as optics
from . import daylight, sky, sunpatch

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.set import Window
    from ..plan.setup import Setup
    from .daylight import Hour
    from .places import XYZ

UNDER = 4.0  # stops under the key at which a window no longer looks like day; common practice, no source
GREY = 0.18  # of the light falls back from the grey that a meter means
NOON = 1440


class Seen(NamedTuple):
    """A window against the key: lux that it throws on the key's meter, and the stops by which its own brightness lies
    over the grey of the key in the picture (None where nothing comes through)."""

    lux: float
    over_grey: float | None


def seen(plan: Plan, setup: Setup, window: Window, hour: Hour, at: XYZ, towards: XYZ, key: float) -> Seen:
    """A window at one moment: its treatment counted, direct sun on the mark left out."""
    pane = sunpatch.pane(plan, window.id)
    leaves = daylight.glass(plan, setup, hour, window)
    lux = optics.polygon_factor(pane, at, towards) * leaves if pane else 0.0
    return Seen(lux, math.log2(leaves / (GREY * key)) if leaves > 0 and key > 0 else None)


def to_lose(over_grey: float | None, under: float = UNDER) -> float:
    """Stops a window must lose to look so many stops under the key's grey."""
    return 0.0 if over_grey is None else max(0.0, over_grey + under)


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
        hour = daylight.Hour(clock, position.elevation, position.azimuth, condition, free and condition != "overcast")
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
