"""The cast wait at least this much: who has begun is needed until the last of their setups, and what opens late or is
rigged between holds them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.numbers import FOREVER, ROOM_TOUCHES
from .bound import Bounds

if TYPE_CHECKING:
    from .advance import Moment


class CastWaits:
    """Lower bounds of the waiting of the cast, cached."""

    def __init__(self, bounds: Bounds) -> None:
        self.bounds, self.space = bounds, bounds.space
        self._ends: dict[int, int] = {}
        self._takes: dict[int, int] = {}
        self._coming: dict[tuple[int, int], int] = {}

    def least(self, at: Moment, latest: int, touches: int) -> int:
        """Half-minutes of waiting from this moment on, in a day whose last cut is no later than `latest` and in which
        no more `touches` are made."""
        found, rem = 0, at.rem
        whole = self._whole(at, latest, touches)
        for mine in self.space.casts:
            left = mine & rem
            if not left:
                continue
            if not mine & ~rem:
                found += self._yet_to_come(left, rem if whole else 0)
                continue
            end = at.time + self._until(left, at, whole)
            if at.meals < len(self.space.day.meals):
                meal = self.space.day.meals[at.meals]
                if meal.must and end > min(meal.latest, at.cap):
                    end += meal.length
            opened = self._end(left)
            found += (opened if opened > end else end) - at.time - self._of_takes(left)
        return found

    def _whole(self, at: Moment, latest: int, touches: int) -> bool:
        """Whether every room is shot whole before the next, because none can be entered once more."""
        bounds = self.bounds
        if bounds.entered_more(at.room, at.rem):
            return False
        minutes, touched = bounds.work(at.rem, at.gear)
        way, carried = bounds.rooms(at.room, at.rem)
        meals = sum(m.length for m in self.space.day.meals[at.meals :] if m.must)
        return (
            at.time + minutes + way + meals + bounds.nearest > latest
            or at.touch + touched + carried + ROOM_TOUCHES > touches
        )

    def _until(self, left: int, at: Moment, whole: bool) -> int:
        """Half-minutes until these setups of somebody are shot."""
        rem, gear, room = at.rem, at.gear, at.room
        if whole and room >= 0:
            here = self.space.in_room[room]
            if left & ~here:
                others = [mask & rem for r, mask in enumerate(self.space.in_room) if r != room and mask & left]
                first = here & rem | sum(others)
                return min(self.bounds.by_then(first & ~(last & ~left), rem, room, gear) for last in others)
        return self.bounds.by_then(left, rem, room, gear)

    def _of_takes(self, mask: int) -> int:
        got = self._takes.get(mask)
        if got is None:
            got = self._takes[mask] = sum(self.space.takes[i] for i in self.space.members if mask >> i & 1)
        return got

    def _yet_to_come(self, mask: int, rem: int) -> int:
        """Waiting of somebody who has not begun: between the first of their setups and the last. `rem`: what is left
        where every room is shot whole, else nothing; then all is shot of the rooms between the first and the last."""
        key = (mask, rem)
        got = self._coming.get(key)
        if got is None:
            got = self.bounds.between(mask) - self._of_takes(mask)
            rooms = [m for m in self.space.in_room if m & mask]
            if rem and len(rooms) > 2:
                wait = sum(self.bounds.least[i] for i in self.space.members if mask >> i & 1)
                wait -= max(self.bounds.least[i] for i in self.space.members if mask >> i & 1)
                others = sorted(self._brief(m & rem & ~mask) for m in rooms)
                got = max(got, wait + sum(others[:-2]) + (len(rooms) - 1) * self.bounds.nearest)
            self._coming[key] = got = max(0, got)
        return got

    def _brief(self, mask: int) -> int:
        return self._of_takes(mask) + sum(self.bounds.least[i] for i in self.space.members if mask >> i & 1)

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
