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
    """A span in which something draws from a battery of its own: from and to in minutes, watts, and what it is."""

    start: float
    end: float
    watt: float
    what: str = ""


class Swap(NamedTuple):
    """An empty battery changed for a full one: when (minutes), and in what."""

    time: float
    what: str


class Spell(NamedTuple):
    """A stretch in the day of one battery, counted from 0: from and to in minutes, its energy (Wh) at both, and what it
    feeds; "" while it charges. In between nothing happens to it."""

    cell: int
    start: float
    end: float
    before: float
    after: float
    what: str = ""


class Day(NamedTuple):
    """A day on one kind of battery: the swaps due, whether it lasts, and if not when and in what the last one is flat.

    `left` is the energy (Wh) in charged batteries at the end of the last use; `spells` what happens to each battery,
    in order of time.
    """

    swaps: tuple[Swap, ...]
    lasts: bool
    flat: Swap | None
    left: float
    spells: tuple[Spell, ...] = ()


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


class _Pool:
    """Batteries not in use: when each is full, and when each slot of the charger is free."""

    def __init__(self, count: int, slots: int, charge_minutes: float | None) -> None:
        self.ready = [(-inf, cell) for cell in range(count)]
        self.slots = [-inf] * (slots if charge_minutes is not None else 0)
        # A charger that takes no time would let the day swap for ever.
        self.charge = max(charge_minutes or 0.0, 1.0)

    def give_back(self, now: float, cell: int) -> tuple[float, float] | None:
        """An emptied battery goes to the slot that is free first: from when to when; without a charger it stays
        empty."""
        if not self.slots:
            return None
        slot = self.slots.index(min(self.slots))
        start = max(now, self.slots[slot])
        self.slots[slot] = start + self.charge
        self.ready.append((self.slots[slot], cell))
        return start, self.slots[slot]

    def take(self, now: float) -> int | None:
        """A full battery if there is one."""
        if not self.ready or min(self.ready)[0] > now + 1e-9:
            return None
        first = min(self.ready)
        self.ready.remove(first)
        return first[1]


def along_the_day(
    uses: Sequence[Use],
    watt_hours: float,
    count: int,
    charge_minutes: float | None = None,
    slots: int = 0,
    usable: float = USABLE,
) -> Day:
    """Run a day's uses from `count` equal batteries, all full in the morning.

    Each thing keeps its battery, half empty or not, until it is flat; then it takes a full one and the flat one goes
    to a charger with a number of slots, full again after `charge_minutes`. Uses of the same thing must not overlap.
    """
    full = watt_hours * usable
    pool = _Pool(count, slots, charge_minutes)
    level: dict[str, float] = {}
    inside: dict[str, int] = {}
    swaps: list[Swap] = []
    spells: list[Spell] = []
    # Spans still to run, as (now, end, watt, what); the earliest next event is always taken first.
    waiting = sorted((u.start, u.end, u.watt, u.what) for u in uses if u.watt > 0.0 and u.end > u.start)
    while waiting:
        flats = [(_flat_time(span, level.get(span[3], 0.0)), span) for span in waiting]
        time, span = min(flats)
        what, before = span[3], level.get(span[3], 0.0)
        if time >= span[1] - 1e-9:
            level[what] = max(0.0, before - span[2] * (span[1] - span[0]) / 60.0)
            spells.append(Spell(inside[what], span[0], span[1], before, level[what], what))
            waiting.remove(span)
            continue
        old = inside.get(what)
        if old is not None:
            if time > span[0]:
                spells.append(Spell(old, span[0], time, before, 0.0, what))
            charged = pool.give_back(time, old)
            if charged is not None:
                spells.append(Spell(old, *charged, 0.0, full))
        fresh = pool.take(time)
        if fresh is None:
            return Day(tuple(swaps), False, Swap(time, what), 0.0, tuple(spells))
        if old is not None:
            swaps.append(Swap(time, what))
        level[what], inside[what] = full, fresh
        waiting[waiting.index(span)] = (time, *span[1:])
    last = max((u.end for u in uses), default=0.0)
    left = sum(level.values()) + full * sum(ready <= last for ready, _cell in pool.ready)
    return Day(tuple(swaps), True, None, left, tuple(spells))


def _flat_time(span: tuple[float, float, float, str], level: float) -> float:
    """When a span's battery is flat, or the span ends."""
    start, end, watt, _ = span
    return min(end, start + level / watt * 60.0)
