"""What would be in the picture: things of other setups that stand where a camera looks."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from . import views

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..plan import Plan
    from ..plan.setup import Setup
    from ..science.camera import Camera
    from .rig import State

HALF_WIDTH = 0.3  # metres to either side of a stand's middle; common practice, no source


def in_view(plan: Plan, setup: Setup, standing: Iterable[tuple[str, State]]) -> list[tuple[str, State]]:
    """Those that a camera of this setup would see at the start or the end of its move, counted on the floor plan: a
    stand reaches the floor, so only the width of the picture decides. Empty where the view cannot be worked out."""
    ends = views.ends(plan, setup)
    found: list[tuple[str, State]] = []
    if not ends:
        return found
    for piece, state in standing:
        if state.at is not None and state.get("held-by") == "" and any(_sees(end, state.at) for end in ends):
            found.append((piece, state))
    return found


def _sees(camera: Camera, at: tuple[float, float]) -> bool:
    ahead = (camera.forward[0], camera.forward[1])
    level = math.hypot(*ahead)
    if level < 0.2:  # looks down: what stands below it is set for it
        return False
    dx, dy = at[0] - camera.position[0], at[1] - camera.position[1]
    along = (dx * ahead[0] + dy * ahead[1]) / level
    across = abs(dx * ahead[1] - dy * ahead[0]) / level
    return bool(along > 0.1 and across <= along * camera.half_width + HALF_WIDTH)
