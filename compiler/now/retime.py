"""An order that was followed once, timed anew: the same pieces move, only takes and starting times are others."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.follow import LONGEST, Leg, fed
from ..facts.numbers import Day, meet

if TYPE_CHECKING:
    from collections.abc import Iterable


def retimed(day: Day, legs: Iterable[Leg]) -> tuple[Leg, ...]:
    """The legs with the takes of `day`; rigging and travel are as long as they were."""
    time, limit = day.call, min(day.latest_wrap, day.call + LONGEST)
    found: list[Leg] = []
    for leg in legs:
        start, missed, length = time + leg.travel + leg.rig, False, leg.end - leg.start
        if leg.entry.setup >= 0:
            setup = day.setups[leg.entry.setup]
            length, ready, missed = setup.takes, start, True
            for lo, hi in meet(setup.windows):
                if max(ready, lo) + length <= hi and lo <= max(limit, ready):
                    start, missed = max(ready, lo), False
                    break
        elif leg.entry.meal >= 0:
            start = max(time, day.meals[leg.entry.meal].earliest)
        found.append(Leg(leg.entry, time, leg.travel, leg.rig, start, start + length, leg.moves, missed))
        time = start + length
    return fed(day, tuple(found))
