"""Room by room the least that is left: each room is shot exactly, as a small day of its own.

What is rigged and shot in a room costs no less than the room alone does, its gear standing wherever it may have been
left, and leaving and coming back allowed for the shortest way back. The ways between the rooms come on top: one into
each room. Where the plan forces more of them, the rooms that leaving costs least pay for them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from ..facts.numbers import FOREVER, ROOM_TOUCHES
from .advance import QUICKLY, Moment, Rules
from .alone import Alone
from .bound import Bounds
from .leaving import Leaving
from .search import TIME, TOUCH, Found, Search
from .workspace import Gear

LOOK = 500
"""Moments opened for one room from one state of its gear; what is known after them is a bound all the same."""
TIGHT = 8
"""Where no more half-minutes than these are to spare, a room's touches are reckoned within them."""


class _RoomRules(Rules):
    """The rules of a room alone, where the crew may leave it and come back. What a search has shown of a moment is kept
    for the next (`learned`: half-minutes, touches)."""

    def __init__(self, alone: Alone, outer: Bounds) -> None:
        super().__init__(alone.space)
        self._alone, self.leaving = alone, Leaving(alone, self.bounds, outer)
        self.learned: tuple[dict[tuple[int, Gear], int], ...] = ({}, {})

    def least_end(self, at: Moment, closely: int = QUICKLY) -> int | None:
        if not at.rem:
            return at.time
        look = self.bounds.closely(at.rem, at.gear, 0) if closely else self.bounds.work(at.rem, at.gear)
        least = self.leaving.least(at.rem, at.gear, look[0])
        known = self.learned[0].get((at.rem, at.gear), 0)
        return at.time + (known if known > least else least)

    def learn(self, what: int, shown: Iterable[tuple[Moment, int]]) -> None:
        """Keep what is left at least from each moment: nothing that goes through it is less than the least there is."""
        learned = self.learned[what]
        for at, rest in shown:
            if rest > learned.get((at.rem, at.gear), 0):
                learned[at.rem, at.gear] = rest

    def least_touched(self, at: Moment, closely: int, latest: int) -> int:
        least = self.leaving.touched(at.rem, at.gear, super().least_touched(at, closely, latest))
        return max(least, self.learned[1].get((at.rem, at.gear), 0))

    def first(self, at: Moment) -> Iterator[Moment]:
        """What may be done before the next setup: leaving, and coming back."""
        if self.leaving.may_gain(at.rem, at.gear):
            gear = self._alone.abroad(at.rem, at.gear)
            clock = (at.time + self._alone.back, FOREVER, FOREVER)
            counts = (0, at.touch + ROOM_TOUCHES, 0, 0)
            yield Moment(at.rem, 0, 0, gear, clock, counts, at, at.step)


class _Room:
    """The least that is left of one room, cached."""

    def __init__(self, outer: Bounds, room: int) -> None:
        self.alone = Alone(outer, room)
        self.rules = _RoomRules(self.alone, outer)
        self._least: dict[tuple[int, Gear], int] = {}
        self._touched: dict[tuple[int, Gear, int], int] = {}
        self.opened = 0

    def least(self, rem: int, stands: Gear) -> int:
        """Half-minutes of takes, rigging and tones, and of leaving, from where everything stands."""
        key = (rem, stands)
        got = self._least.get(key)
        if got is None:
            got = self._least[key] = self._find(rem, stands)
        return got

    def _find(self, rem: int, stands: Gear) -> int:
        search, found = self._search(rem, stands, TIME, ())
        self.rules.learn(0, ((one, found.bound - one.time) for one in search.seen))
        at = found.best if found.proved else None
        while at is not None and at.parent is not None:  # the best way on from each moment of the best way
            at = at.parent
            self._least.setdefault((at.rem, at.gear), found.bound - at.time)
        return found.bound

    def touched(self, rem: int, stands: Gear, minutes: int) -> int:
        """Touches in no more than so many half-minutes."""
        key = (rem, stands, minutes)
        got = self._touched.get(key)
        if got is None:
            search, found = self._search(rem, stands, TOUCH, (minutes, 0))
            got = self._touched[key] = found.bound
            if minutes >= FOREVER:
                self.rules.learn(1, ((one, found.bound - one.touch) for one in search.seen))
        return got

    def _search(self, rem: int, stands: Gear, stage: int, limits: tuple[int, ...]) -> tuple[Search, Found]:
        start = Moment(rem, 0, 0, stands, (0, FOREVER, FOREVER), (0, 0, 0, 0), None, None)
        search = Search(self.rules, stage, limits, start=start)
        found = search.run(LOOK)
        self.opened += found.opened
        return search, found


@dataclass(frozen=True, slots=True)
class _Left:
    """What is left seen from a moment: in all, and by room with its setups, how the gear stands for it and its part;
    `ways` and `entries` are those into each room once."""

    least: int
    ways: int
    entries: int
    rooms: tuple[tuple[_Room, int, Gear, int], ...]


class ByRoom:
    """The rooms of a day, and what is left of all of them. `opened`: moments opened in the rooms so far."""

    def __init__(self, bounds: Bounds) -> None:
        self._bounds = bounds
        self._rooms: dict[int, _Room] = {}
        self._known: dict[tuple[int, Gear, int], _Left] = {}

    @property
    def opened(self) -> int:
        return sum(room.opened for room in self._rooms.values())

    def least(self, rem: int, gear: Gear, room: int) -> int:
        """Half-minutes left at least, the ways between the rooms with them, for a crew in a room."""
        return self._left(rem, gear, room).least

    def touched(self, rem: int, gear: Gear, room: int, minutes: int) -> int:
        """Touches left at least for all that must be done in so many half-minutes: what is not needed elsewhere is all
        that a room has more than it needs."""
        left = self._left(rem, gear, room)
        spare = minutes - left.ways - sum(least for _, _, _, least in left.rooms)
        if spare < 0:
            return FOREVER
        spare = 1 << spare.bit_length() if spare else 0  # what is asked with more is known for less
        return ROOM_TOUCHES * left.entries + sum(
            one.touched(inside, stands, least + spare if spare <= TIGHT else FOREVER)
            for one, inside, stands, least in left.rooms
        )

    def _left(self, rem: int, gear: Gear, room: int) -> _Left:
        key = (rem, gear, room)
        got = self._known.get(key)
        if got is None:
            got = self._known[key] = self._find(rem, gear, room)
        return got

    def _find(self, rem: int, gear: Gear, room: int) -> _Left:
        bounds, more = self._bounds, self._bounds.entered_more(room, rem)
        ways, touches = bounds.rooms(room, rem)
        ways -= more * bounds.nearest
        rooms: list[tuple[_Room, int, Gear, int]] = []
        forced: list[int] = []
        for r, mask in enumerate(bounds.space.in_room):
            left = rem & mask
            if not left:
                continue
            one = self._rooms.get(r)
            if one is None:
                one = self._rooms[r] = _Room(bounds, r)
            inside = one.alone.rest(left)
            stands = one.alone.stands(inside, gear, r == room or left == rem)
            cost = one.least(inside, stands)
            if more:
                loose = one.rules.leaving.loose(inside, stands)[0]
                cost = max(cost, loose)
                forced += [b - a for a, b in pairwise(max(cost, loose + k * bounds.nearest) for k in range(more + 1))]
            rooms.append((one, inside, stands, cost))
        least = ways + sum(cost for _, _, _, cost in rooms)
        return _Left(least + sum(sorted(forced)[:more]), ways, touches // ROOM_TOUCHES - more, tuple(rooms))
