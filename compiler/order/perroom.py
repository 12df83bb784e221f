"""What pieces that are few are wanted for in one room after another.

A crew that enters a room finds at most as many of the states it wants there as there are pieces. Every other one must
be entered while it is in the room, or the room be left and entered again. Of these entries, `rest` counts the first
into each state and set of states; what is here are the others.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from ..facts.numbers import ROOM_TOUCHES
from ..facts.pieces import CASE
from .firsts import Owed
from .rest import Rests, Visit
from .workspace import Workspace


@dataclass(frozen=True, slots=True)
class Again:
    """States, or sets of states, that are entered again: `count` entries at least, each one of the `items` (setups of
    a room, cheapest move, work); fewer by `pieces` whenever a room is entered more than once (0: not fewer). `inside`:
    sets within these, which may be entered with them. `lone`: no setup wants more than one piece of these groups.
    `touches`: every entry is a touch of its own."""

    groups: tuple[int, ...]
    count: int
    items: tuple[Owed, ...]
    inside: tuple[Owed, ...]
    pieces: int
    lone: bool
    touches: bool


def again_touched(entered: Iterable[Again]) -> int:
    """Touches by what is entered again; entering a room once more is touches too."""
    count, spare = 0, ROOM_TOUCHES
    for again in entered:
        if again.touches and again.pieces <= spare:
            count += again.count * len(again.groups)
            spare -= again.pieces
    return count


def fewer(entered: Iterable[Again], visits: int) -> list[Again]:
    """What is entered again where rooms must be entered so many times more anyway."""
    left = (replace(again, count=again.count - visits * again.pieces) for again in entered)
    return [again for again in left if again.count > 0]


class PerRoom:
    """What is entered again, for the groups of a workspace, cached."""

    def __init__(self, space: Workspace, rests: Rests) -> None:
        self.space, self.rests = space, rests
        variants = [v for i in space.members for v in space.variants[i]]
        most = [dict(zip(v.groups, map(len, v.wanted), strict=True)) for v in variants]
        self.lone = tuple(all(wanted.get(g, 0) < 2 for wanted in most) for g in range(len(space.day.groups)))
        self._cached: dict[tuple[int, int, int, int, bool], tuple[Again, ...]] = {}

    def find(self, g: int, sid: int, rem: int, room: int) -> tuple[Again, ...]:
        """For group g, standing as numbered, while `rem` is left and the crew is in a room."""
        users, may_clear = rem & self.space.users[g], bool(rem & self.space.clearers[g])
        key = (g, sid, users, room, may_clear)
        got = self._cached.get(key)
        if got is None:
            standing = self.space.states[g][sid]
            levels: dict[int, list[Visit]] = {}
            for visit in self.rests.visits(g, may_clear or CASE in standing, self.rests.astray(g, standing)):
                if visit.sure & users:
                    levels.setdefault(visit.level, []).append(visit)
            found = [
                self._level(g, standing, visits, users, room, [v for k in levels if k < level for v in levels[k]])
                for level, visits in levels.items()
            ]
            got = self._cached[key] = tuple(again for again in found if again.count > 0)
        return got

    def _level(
        self, g: int, standing: tuple[int, ...], visits: list[Visit], users: int, room: int, inner: list[Visit]
    ) -> Again:
        """The sets of one level lie apart, so a piece stands in one of them at most."""
        hands, pieces = self.space.day.groups[g].hands, len(standing)
        first = entered = 0
        items: list[Owed] = []
        there = [sum(1 for s in standing if s in v.states) for v in visits]
        for v, stands in zip(visits, there, strict=True):
            counts = [n for bit, n in v.counts if users & bit]
            first += max(0, max(counts, default=v.most) - stands)
        late: list[int] = []
        for r, here in enumerate(self.space.in_room):
            wanted = [(v, stands) for v, stands in zip(visits, there, strict=True) if v.sure & here & users]
            if r == room:
                wanted = [(v, stands) for v, stands in wanted if not stands]
            items += [(v.maybe & here & users, v.price, v.charged * hands) for v, _ in wanted]
            entered += len(wanted)
            if r != room:
                found = sum(1 for v, stands in wanted if stands or v.maybe & users & ~here)
                carried = found if found < pieces else pieces
                entered -= carried
                late.append(carried - min(carried, sum(1 for _, stands in wanted if stands)))
        if room < 0 and late:
            entered += min(late)
        inside = tuple((v.maybe & users, v.price, v.charged * hands) for v in inner)
        touches = all(v.alone for v in visits)
        return Again((g,), entered - first, tuple(items), inside, pieces, self.lone[g], touches)
