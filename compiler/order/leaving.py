"""What leaving a room, and coming back to it, can save of what its setups cost while the crew stays."""

from __future__ import annotations

from ..facts.numbers import FOREVER, ROOM_TOUCHES
from ..facts.pieces import CASE
from .alone import Alone
from .bound import Bounds
from .rest import NOTHING
from .workspace import Gear

_Key = tuple[int, int, bool, frozenset[int]]


class Leaving:
    """What is known of leaving a room, cached. All is in half-minutes and in the numbers of the room."""

    def __init__(self, alone: Alone, bounds: Bounds, outer: Bounds) -> None:
        """`bounds`: those of the room alone; `outer`: those of the whole day."""
        self.alone, self.bounds, self.outer = alone, bounds, outer
        self._gains: dict[tuple[int, Gear], int] = {}
        self._saves: dict[tuple[int, Gear], int] = {}
        self._by_group: dict[_Key, int] = {}
        self._far: dict[tuple[int, int, int], int] = {}
        self._loose: dict[tuple[int, Gear], tuple[int, int]] = {}

    def least(self, rem: int, gear: Gear, staying: int) -> int:
        """No less is left to do than this, where no less than `staying` is without leaving: each time the crew leaves
        costs the way back, and spares what is saved at most."""
        back, saves = self.alone.back, self.saves(rem, gear)
        if saves <= back:
            return staying
        loose, least, times = self.loose(rem, gear)[0], staying, 0
        while staying - times * saves > loose:
            times += 1
            least = min(least, max(staying - times * saves, loose) + times * back)
        return least

    def may_gain(self, rem: int, gear: Gear) -> bool:
        """Whether leaving now could be of use."""
        if self.gains(rem, gear) > self.alone.back:
            return True
        return sum(all_of for all_of, _ in self._in_doubt(rem, gear)) > ROOM_TOUCHES

    def gains(self, rem: int, gear: Gear) -> int:
        """The most that is saved by leaving now: whoever stays does the same and pays for each piece what it is
        farther from where it is wanted next."""
        got = self._gains.get((rem, gear))
        if got is None:
            got = self._gains[rem, gear] = sum(self._farther(k, gear[k], rem) for k in range(len(self.alone.used)))
        return got

    def _farther(self, k: int, sid: int, rem: int) -> int:
        space = self.bounds.space
        left = rem & (space.users[k] | space.clearers[k])
        if not left or not self.alone.touched(k):
            return 0
        got = self._far.get((k, sid, left))
        if got is None:
            got = self._far[k, sid, left] = self._find_farther(k, sid, left)
        return got

    def _find_farther(self, k: int, sid: int, rem: int) -> int:
        space = self.bounds.space
        users = rem & space.users[k]
        group, n, more = space.day.groups[k], self.alone.states(k), 0
        away = space.asked_away(k, rem)
        wanted = {t for i, states in self.bounds.possible[k].items() if users >> i & 1 for t in states}
        for s in space.states[k][sid]:
            if s < n:
                cost, struck = group.cost[s], group.cost[CASE]
                dear = {t: max(cost[t], struck[t]) if s in away else cost[t] for t in wanted}
                worst = max((d - group.cost[s + n][t] for t, d in dear.items()), default=0)
                more += max(0, worst) + (cost[CASE] if s in away else 0)
        return more * (group.hands if group.hands > space.day.riggers else 1)

    def saves(self, rem: int, gear: Gear) -> int:
        """The most by which one time of leaving may undercut what the bounds charge whoever stays. Of each piece that
        is the first move after coming back, which enters one state, and so every set of states around it."""
        got = self._saves.get((rem, gear))
        if got is None:
            got, space = 0, self.bounds.space
            for k in range(len(self.alone.used)):
                users = rem & space.users[k]
                if users and self.alone.touched(k):
                    pieces = space.states[k][gear[k]]
                    case = bool(rem & space.clearers[k]) or CASE in pieces
                    got += len(pieces) * self._undercut(k, users, case, self.bounds.rests.astray(k, pieces))
            self._saves[rem, gear] = got
        return got

    def _undercut(self, k: int, users: int, case: bool, astray: frozenset[int]) -> int:
        key = (k, users, case, astray)
        got = self._by_group.get(key)
        if got is None:
            got, group = 0, self.bounds.space.day.groups[k]
            visits = [v for v in self.bounds.rests.visits(k, case, astray) if v.sure & users]
            for t in {t for v in visits for t in v.states}:
                around = [v for v in visits if t in v.states]
                cheap = min((group.cost[x][t] for x in self.alone.away[k]), default=FOREVER)
                work = (sum(v.charged for v in around) - cheap) * group.hands
                peak = max(v.price for v in around) - cheap
                got = max(got, peak, -(-work // self.bounds.space.day.riggers))
            self._by_group[key] = got
        return got

    def touched(self, rem: int, gear: Gear, staying: int) -> int:
        """No fewer touches are left than this, where no fewer than `staying` are without leaving and with every piece
        where it stands: what stands nobody knows where may stand where it is wanted."""
        loose, pieces = self.loose(rem, gear)[1], self._in_doubt(rem, gear)
        if sum(all_of for all_of, _ in pieces) > ROOM_TOUCHES:
            return loose
        return max(loose, staying - sum(left for _, left in pieces))

    def _in_doubt(self, rem: int, gear: Gear) -> list[tuple[int, int]]:
        """(pieces, how many of them stand nobody knows where) of each group that is left to use."""
        space, found = self.bounds.space, []
        for k in range(len(self.alone.used)):
            if rem & space.users[k] and self.alone.touched(k):
                pieces = space.states[k][gear[k]]
                found.append((len(pieces), sum(1 for s in pieces if s >= self.alone.states(k))))
        return found

    def loose(self, rem: int, gear: Gear) -> tuple[int, int]:
        """(half-minutes of takes, rigging and tones, touches) left at least, however often the crew leaves: whatever is
        wanted in another room too may stand there."""
        got = self._loose.get((rem, gear))
        if got is None:
            alone, space, rests = self.alone, self.bounds.space, []
            for k, g in enumerate(alone.used):
                users = alone.of_day(rem & space.users[k])
                if users:
                    n = alone.states(k)
                    pieces = tuple([s if s < n else s - n for s in space.states[k][gear[k]]])
                    rests.append(self.outer.rests.find(g, pieces, users, alone.touched(k), alone.wanted[k]))
                else:
                    rests.append(NOTHING)
            got = self._loose[rem, gear] = self.outer.left_of(rests, alone.of_day(rem))
        return got
