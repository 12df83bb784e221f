"""Batteries: energy, run time, and a day of swaps and charging.

Watts, watt hours, minutes.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, inf
from typing import NamedTuple

#: Part of the printed energy that is there on the day: age, cold and the last few per cent (common practice, no
#: source).
USABLE = 0.8


class Use(NamedTuple):
    """A span in which something draws from a kind of battery: from and to in minutes, watts."""

    start: float
    end: float
    watt: float


class Day(NamedTuple):
    """A day on batteries: when each swap is due (minutes), whether it lasts, and when the last is flat if it does
    not.
    """

    swaps: tuple[float, ...]
    lasts: bool
    flat_at: float | None
    left_watt_hours: float


def energy(volt: float, ampere_hours: float) -> float:
    """Watt hours of a battery: V Ah."""
    return volt * ampere_hours


def run_time(watt_hours: float, watt: float, usable: float = USABLE) -> float:
    """Minutes a battery runs a load; infinite for none."""
    return inf if watt <= 0.0 else watt_hours * usable / watt * 60.0


def number_needed(watt: float, minutes: float, watt_hours: float, usable: float = USABLE) -> int:
    """Full batteries for a load and a time without charging."""
    return ceil(watt * minutes / 60.0 / (watt_hours * usable) - 1e-9)


def charge_time(watt_hours: float, charger_watt: float, efficiency: float = 0.85) -> float:
    """Minutes to fill an empty battery; the efficiency of charging is typical (common practice, no source)."""
    return watt_hours / (charger_watt * efficiency) * 60.0


def along_the_day(
    uses: Sequence[Use],
    watt_hours: float,
    count: int,
    charge_minutes: float | None = None,
    slots: int = 0,
    usable: float = USABLE,
) -> Day:
    """Run loads one after another from `count` equal batteries, full in the morning, one at a time in use.

    An emptied battery goes to a charger with a number of slots and is full again after `charge_minutes`; without a
    charger it stays empty. A charger's slot is taken in the order of need.
    """
    if count <= 0:
        first = min((u.start for u in uses if u.watt > 0.0 and u.end > u.start), default=None)
        return Day((), first is None, first, 0.0)
    full = watt_hours * usable
    level = full
    ready: list[float] = [-inf] * (count - 1)
    slot_free: list[float] = [-inf] * slots
    swaps: list[float] = []
    for use in sorted(uses):
        now = use.start
        while use.watt > 0.0 and use.end - now > 1e-9:
            lasts = level / use.watt * 60.0
            if now + lasts >= use.end - 1e-9:
                level = max(0.0, level - use.watt * (use.end - now) / 60.0)
                break
            now, level = now + lasts, 0.0
            if charge_minutes is not None and slot_free:
                begin = max(now, min(slot_free))
                slot_free[slot_free.index(min(slot_free))] = begin + charge_minutes
                ready.append(begin + charge_minutes)
            ready.sort()
            if not ready or ready[0] > now:
                return Day(tuple(swaps), False, now, 0.0)
            ready.pop(0)
            level = full
            swaps.append(now)
    last = max((u.end for u in uses), default=0.0)
    return Day(tuple(swaps), True, None, level + full * sum(r <= last for r in ready))
