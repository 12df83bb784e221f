"""One room as a day of its own: its setups, and where the gear may stand when the crew comes.

The day has no hours, no meals and nothing held: what is left out can only make it longer. Beside every state of a group
stands one more: a piece that was left there when the crew went elsewhere, and that may stand since where any setup of
another room wants it, or in its case where one of them asks it to be gone.
"""

from __future__ import annotations

from ..facts.numbers import FOREVER, Day
from ..facts.pieces import CASE, NOWHERE, Group
from ..record import replace
from .bound import Bounds
from .workspace import Gear, Workspace


class Alone:
    """The setups of a room in a workspace of their own. Numbers of setups, groups and gear in it are its own; `k` is
    a group of the room, `g` the same group of the whole day."""

    def __init__(self, outer: Bounds, room: int) -> None:
        space = outer.space
        self.whole, mine = space, space.in_room[room]
        self._setups = tuple(i for i in space.members if mine >> i & 1)
        self.used = tuple(sorted({g for i in self._setups for g in space.touching[i]}))
        others = tuple(i for i in space.members if not mine >> i & 1)
        self.wanted = tuple(
            frozenset(s for i in others for s in outer.possible[g].get(i, frozenset())) for g in self.used
        )
        clears = [any(space.clearers[g] >> i & 1 for i in others) for g in self.used]
        self.away = tuple(
            wanted | {CASE} if cleared else wanted for wanted, cleared in zip(self.wanted, clears, strict=True)
        )
        """By group, the states that a piece may be brought to while the crew is elsewhere."""
        self.back = min(
            (space.travel(r, room) for r, mask in enumerate(space.in_room) if mask and r != room), default=0
        )
        """Half-minutes that leaving the room and coming back takes at least."""
        afoot = tuple(self.states(k) for k in range(len(self.used)))
        self.space = Workspace(self._day(outer.before), (1 << len(self._setups)) - 1, afoot)
        self._same = tuple(self._alike(k) for k in range(len(self.used)))
        self._abroad: dict[tuple[int, Gear], Gear] = {}

    def _day(self, before: list[int]) -> Day:
        day = self.whole.day
        number = {g: k for k, g in enumerate(self.used)}
        setups = tuple(
            replace(
                setup,
                room=0,
                needs=tuple(tuple((number[g], at) for g, at in need) for need in setup.needs),
                away=tuple((number[g], at) for g, at in setup.away),
                fixed=setup.surely,
                part_of=-1,
                windows=(),
                cast=(),
            )
            for setup in (day.setups[i] for i in self._setups)
        )
        pairs = tuple(
            (a, b) for b, j in enumerate(self._setups) for a, i in enumerate(self._setups) if before[j] >> i & 1
        )
        groups = tuple(self._group(k) for k in range(len(self.used)))
        return Day(day.name, setups, groups, ((0,),), (0,), day.riggers, 0, before=pairs, tone=day.tone, room=0)

    def _group(self, k: int) -> Group:
        group = self.whole.day.groups[self.used[k]]
        states = range(len(group.cost))
        left = [tuple(min(group.cost[x][t] for x in {a, *self.away[k]}) for t in states) for a in states]
        rows = [(*row, *(FOREVER for _ in states)) for row in group.cost]
        rows += [(*left[a], *(0 if a == b else FOREVER for b in states)) for a in states]
        places = (*group.places, *(NOWHERE for _ in states))
        return Group(group.name, places, tuple(rows), group.start, group.hands)

    def _alike(self, k: int) -> tuple[int, ...]:
        """By state, the first of those that are as far from all that is wanted here, and that nobody here wants or
        asks to be left."""
        cost = self.space.day.groups[k].cost
        targets = sorted({s for i in self.space.members for need in self.space.day.setups[i].needs for g, s in need
                          if g == k})  # fmt: skip
        apart = {*targets, *self.space.asked_away(k, self.space.chosen)}
        first: dict[tuple[int, ...], int] = {}
        return tuple(
            s if s in apart else first.setdefault(tuple(row[t] for t in targets), s) for s, row in enumerate(cost)
        )

    def touched(self, k: int) -> bool:
        """Whether anything is done with this group in another room."""
        return bool(self.away[k])

    def states(self, k: int) -> int:
        """How many states a group has; as many more stand for pieces that were left."""
        return len(self.whole.day.groups[self.used[k]].cost)

    def rest(self, left: int) -> int:
        """Of what is left of the day what is left here, in the numbers of the room."""
        return sum(1 << k for k, i in enumerate(self._setups) if left >> i & 1)

    def of_day(self, rem: int) -> int:
        """The setups of a mask of the room in the numbers of the day."""
        return sum(1 << i for k, i in enumerate(self._setups) if rem >> k & 1)

    def stands(self, rem: int, gear: Gear, here: bool) -> Gear:
        """How the gear of the whole day stands for this room; `here`: for a crew that is in it."""
        found = []
        for k, g in enumerate(self.used):
            pieces = self.whole.states[g][gear[g]]
            if not here and self.touched(k):
                pieces = tuple([s + self.states(k) for s in pieces])
            found.append(self._number(k, pieces, rem))
        return tuple(found)

    def abroad(self, rem: int, gear: Gear) -> Gear:
        """How gear that stands in this room's numbers may stand once the crew has been elsewhere."""
        got = self._abroad.get((rem, gear))
        if got is None:
            stands = list(gear)
            for k in range(len(self.used)):
                if self.touched(k) and rem & (self.space.users[k] | self.space.clearers[k]):
                    n = self.states(k)
                    pieces = self.space.states[k][gear[k]]
                    stands[k] = self._number(k, tuple([s if s >= n else s + n for s in pieces]), rem)
            got = self._abroad[rem, gear] = tuple(stands)
        return got

    def _number(self, k: int, pieces: tuple[int, ...], rem: int) -> int:
        same = self._same[k]
        return self.space.canon(k, self.space.number(k, tuple(sorted([same[s] for s in pieces]))), rem)
