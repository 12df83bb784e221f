"""The cast wait at least this much: who has begun is needed until the last of their setups, and what opens late or is
rigged between holds them."""

from __future__ import annotations

from ..facts.numbers import FOREVER
from .bound import Bounds
from .workspace import Gear


class CastWaits:
    """Lower bounds of the waiting of the cast, cached."""

    def __init__(self, bounds: Bounds) -> None:
        self.bounds, self.space = bounds, bounds.space
        self._ends: dict[int, int] = {}
        self._takes: dict[int, int] = {}
        self._coming: dict[int, int] = {}

    def least(self, rem: int, meals: int, room: int, gear: Gear, time: int, cap: int) -> int:
        """Half-minutes of waiting from this time on, after so many meals, seen from where everything stands; the next
        meal, or the wrap, is no later than `cap`."""
        found = 0
        for mine in self.space.casts:
            left = mine & rem
            if not left:
                continue
            if not mine & ~rem:
                found += self._yet_to_come(left)
                continue
            end = time + self.bounds.by_then(left, rem, room, gear)
            if meals < len(self.space.day.meals):
                meal = self.space.day.meals[meals]
                if meal.must and end > min(meal.latest, cap):
                    end += meal.length
            opened = self._end(left)
            found += (opened if opened > end else end) - time - self._of_takes(left)
        return found

    def _of_takes(self, mask: int) -> int:
        got = self._takes.get(mask)
        if got is None:
            got = self._takes[mask] = sum(self.space.takes[i] for i in self.space.members if mask >> i & 1)
        return got

    def _yet_to_come(self, mask: int) -> int:
        """Waiting of somebody who has not begun: between the first of their setups and the last."""
        got = self._coming.get(mask)
        if got is None:
            got = self._coming[mask] = max(0, self.bounds.between(mask) - self._of_takes(mask))
        return got

    def _end(self, mask: int) -> int:
        """No end of the last of these setups before this, whatever stands where: some open late."""
        got = self._ends.get(mask)
        if got is None:
            bounds, got, late, total, widest = self.bounds, -FOREVER, 0, 0, 0
            for i in sorted(self.space.members, key=lambda i: -bounds.opens[i]):
                if mask >> i & 1:
                    late |= 1 << i
                    total += self.space.takes[i] + bounds.least[i]
                    widest = max(widest, bounds.least[i])
                    got = max(got, bounds.opens[i] + max(total - widest, bounds.between(late)))
            self._ends[mask] = got
        return got
