"""Quantities as the crew writes them: `parse(kind, text)` reads one, `show(kind, value)` writes one that reads back."""

from __future__ import annotations

from .kinds import KINDS, Kind, parse, show
from .values import (
    Around,
    ClockRange,
    Coordinates,
    Mains,
    Moment,
    Money,
    Output,
    QuantityError,
    Range,
    Shutter,
    Stop,
    Towards,
)

__all__ = [
    "KINDS",
    "Around",
    "ClockRange",
    "Coordinates",
    "Kind",
    "Mains",
    "Moment",
    "Money",
    "Output",
    "QuantityError",
    "Range",
    "Shutter",
    "Stop",
    "Towards",
    "parse",
    "show",
]
