"""The camera of a setup through its move: how solids stand to its frame, worked out once for each part of the move."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..science import camera as cameras
from ..science import sight

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..science.geometry import Prism
    from .views import Blocker

SAMPLES = 16


class Eye:
    """A camera at one place, or between the two ends of a move, with what stands in its way."""

    def __init__(self, ends: Sequence[cameras.Camera], blockers: Sequence[Blocker]) -> None:
        self._ends = ends
        self._blockers = blockers
        self._cameras: dict[float, cameras.Camera] = {}
        self._in_the_way: dict[float, list[sight.InTheWay]] = {}

    def look(self, solid: Prism) -> tuple[float, cameras.View]:
        """The part (0 to 1) of the move at which a solid comes furthest into the frame, and how it stands there."""
        if len(self._ends) == 1:
            return 0.0, self._view(solid, 0.0)
        return sight.worst_along(lambda part: self._view(solid, part), SAMPLES)

    def sees(self, solid: Prism) -> bool:
        """Whether a solid is in the frame at any part of the move that is looked at."""
        if len(self._ends) == 1:
            return self._view(solid, 0.0).seen
        return any(self._view(solid, n / SAMPLES).seen for n in range(SAMPLES + 1))

    def _view(self, solid: Prism, part: float) -> cameras.View:
        camera = self._cameras.get(part)
        if camera is None:
            ends = self._ends
            camera = self._cameras[part] = ends[0] if len(ends) == 1 else cameras.between(ends[0], ends[1], part)
        return sight.seen_past(camera, solid, lambda: self._way(part, camera))

    def _way(self, part: float, camera: cameras.Camera) -> list[sight.InTheWay]:
        known = self._in_the_way.get(part)
        if known is None:
            known = self._in_the_way[part] = sight.in_the_way(camera, self._blockers)
        return known
