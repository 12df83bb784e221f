"""Open flames in the picture, told by their name: a candle that has neither bulb nor circuit."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.light import Practical
    from ..plan.setup import Setup

# What burns by its name. Common practice, no source.
BURNS = frozenset(
    ("candle", "candles", "flame", "flames", "tealight", "tealights", "oil-lamp", "campfire")
)
NOT = frozenset(("led", "electric", "battery"))


def burning(plan: Plan, setup: Setup) -> tuple[Practical, ...]:
    """The practicals of a setup that are flames."""
    return tuple(one for one in setup.practicals.values() if _burns(plan, one))


def _burns(plan: Plan, one: Practical) -> bool:
    gear = plan.gear.get(one.prop or "")
    said = " ".join((one.id, one.prop or "", (gear.of or "") if gear is not None else "")).lower()
    words = set(re.split(r"[\s/,;:]+", said)) | set(re.split(r"[\W_]+", said))
    return bool(words & BURNS) and not words & NOT and not one.bulb and not one.circuit
