"""What a setup puts above the reach of somebody on the floor."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from . import walls

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.light import Grip, Light
    from ..plan.setup import Setup

REACH = 2.2
"""Metres; common practice, no source."""


class High(NamedTuple):
    """A thing above reach: the plan's path, words, and its height in metres where that is said."""

    path: str
    words: str
    height: float | None


def high(plan: Plan, setup: Setup) -> list[High]:
    """What hangs on the ceiling, what is above reach on no stand that is raised from the floor, and windows that are
    covered up to more than that."""
    found: list[High] = []
    items: list[Light | Grip] = [*setup.lights.values(), *setup.grip.values()]
    for item in items:
        height = None if item.height is None else float(item.height)
        if item.on == "ceiling":
            room = plan.set_of(setup.id)
            height = height or (walls.ceiling(room) if room else None)
            if height is None or height > REACH:
                found.append(High(item.path, f"'{item.id}'", height))
        elif height is not None and height > REACH and item.on and item.on not in plan.gear and not item.held_by:
            found.append(High(item.path, f"'{item.id}'", height))
    for cover in setup.windows.values():
        window = plan.windows.get(cover.id)
        top = float(window.sill or 0.0) + float(window.height or 0.0) if window else 0.0
        if window is not None and not cover.open and top > REACH:
            found.append(High(cover.path, f"covering window '{cover.id.rsplit('/', 1)[-1]}'", top))
    return found
