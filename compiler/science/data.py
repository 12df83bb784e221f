"""Recorded data: volumes, minutes on a card, copying.

Rates in Mbit/s (10^6 bit), volumes in GB (10^9 byte), times in minutes. The rate is the stated nominal one;
recordings of variable rate differ.
"""

from __future__ import annotations

from math import ceil, inf


def gigabytes(megabits: float, minutes: float) -> float:
    """Volume of a recording: Mbit/s x 60 / 8000 a minute, so Mbit/s x 0.45 GB an hour."""
    return megabits * minutes * 60.0 / 8000.0


def minutes_on(card: float, megabits: float, usable: float = 1.0) -> float:
    """Minutes a card of so many GB holds; `usable` 0.90 to 0.95 is common practice, no source."""
    return inf if megabits <= 0.0 else card * usable * 8000.0 / (megabits * 60.0)


def gibibytes(volume: float) -> float:
    """GB (10^9) as GiB (2^30), which some computers print as GB."""
    return volume * 1e9 / 2.0**30


def cards_needed(volume: float, card: float, usable: float = 1.0) -> int:
    """Cards of so many GB for a volume."""
    return ceil(volume / (card * usable) - 1e-9)


def copy_minutes(volume: float, megabytes: float, verified: bool = True) -> float:
    """Minutes to copy a volume at so many MB/s; reading it back to verify takes as long again."""
    return volume * 1000.0 / megabytes / 60.0 * (2.0 if verified else 1.0)


def card_is_fast_enough(megabits: float, card_megabytes: float) -> bool:
    """Whether a card that writes so many MB/s without pause takes a recording rate in Mbit/s."""
    return megabits / 8.0 <= card_megabytes


def uncompressed_megabits(width: int, height: int, bits: float, fps: float) -> float:
    """Rate of raw samples, Mbit/s: a bound no recording without compression goes below."""
    return width * height * bits * fps / 1e6
