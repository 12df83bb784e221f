"""Days on which nothing but waiting depends on the order: a search over the sets of scenes that are shot.

What is still to be waited depends on nothing but which setups are left, so one value for each set is enough. Where no
rigging lies between, setups with the same cast follow each other in some best order and count as one (M. Garcia de la
Banda, P. J. Stuckey and G. Chu, "Solving talent scheduling with dynamic programming", INFORMS Journal on Computing 23
(2011)).
"""

from __future__ import annotations

from dataclasses import dataclass
from heapq import heappop, heappush

from ..facts.numbers import FOREVER
from .advance import Rules
from .bothends import MOST_BITS, from_both_ends

FEW = 8
"""With no more setups than this, the search that knows every rule is quick enough and breaks ties as well."""
DONE = 0
SETS = 10
"""So many sets are settled from both ends in the time in which one moment of a day is opened."""


@dataclass(frozen=True, slots=True)
class Waited:
    """An order of setups, the half-minutes waited in it, the least there can be, and sets of setups looked at."""

    order: tuple[int, ...]
    value: int
    bound: int
    opened: int


def only_waiting(rules: Rules) -> bool:
    """Whether every order of the day's setups ends at the same time with the same touches, and is allowed as far as
    `before` allows it."""
    day, space = rules.day, rules.space
    setups = [day.setups[i] for i in space.members]
    end = day.call + sum(s.takes + s.fixed for s in setups)
    if any(s.part_of >= 0 and s.fixed for s in setups):
        return False
    if len(setups) <= FEW or day.agreed or space.toned or any(m.must for m in day.meals):
        return False
    if len({s.room for s in setups} | ({day.room} - {-1})) > 1 or any(s.needs or s.away for s in setups):
        return False
    if day.arrive[setups[0].room] and day.room < 0:
        return False
    fed = day.call if day.fed is None else day.fed
    if end + day.pack > min(day.latest_wrap, fed + day.gap):
        return False
    return all(any(lo <= day.call and end <= hi for lo, hi in space.spans[i]) for i in space.members)


def least_waiting(rules: Rules, limit: int) -> Waited:
    """The order with the least waiting. `limit` counts the sets of setups looked at; then the best order met and a
    true bound."""
    scenes = _Scenes(rules)
    value, order = scenes.greedy()
    if any(scenes.fixed) or any(scenes.pred) or max(len(scenes.scenes), len(scenes.weight)) > MOST_BITS:
        return scenes.search(value, order, limit)
    ends = from_both_ends(scenes.takes, scenes.cast, scenes.weight, (value, order), limit * SETS)
    return Waited(scenes.setups(ends.order), ends.value, ends.bound, ends.settled // SETS)


class _Scenes:
    """Scenes (setups with one cast, shot one after the other) as bits; the cast in sorts that play in the same ones."""

    def __init__(self, rules: Rules) -> None:
        day, space = rules.day, rules.space
        sorts: dict[int, int] = {}
        for mine in space.casts:
            if mine & (mine - 1):
                sorts[mine] = sorts.get(mine, 0) + 1
        self.weight = tuple(sorts.values())
        casts = {i: sum(1 << k for k, mine in enumerate(sorts) if mine >> i & 1) for i in space.members}
        joined: dict[object, list[int]] = {}
        for i in space.members:
            bound = day.setups[i].fixed or any(i in pair for pair in day.before)
            joined.setdefault((i,) if bound else casts[i], []).append(i)
        self.scenes = tuple(tuple(s) for s in joined.values())
        self.cast = tuple(casts[s[0]] for s in self.scenes)
        self.takes = tuple(sum(day.setups[i].takes for i in s) for s in self.scenes)
        self.fixed = tuple(sum(day.setups[i].fixed for i in s) for s in self.scenes)
        at = {i: k for k, s in enumerate(self.scenes) for i in s}
        self.pred = [0] * len(self.scenes)
        for i in space.members:
            for j in space.members:
                if space.pred[i] >> j & 1:
                    self.pred[at[i]] |= 1 << at[j]
        self.all = (1 << len(self.scenes)) - 1
        self.plays = tuple(sum(1 << k for k, c in enumerate(self.cast) if c >> w & 1) for w in range(len(self.weight)))
        self._sum: dict[int, int] = {0: 0}
        self._least: dict[int, int] = {}

    def price(self, cast: int) -> int:
        """How many people these sorts are."""
        got = self._sum.get(cast)
        if got is None:
            got = self._sum[cast] = sum(w for k, w in enumerate(self.weight) if cast >> k & 1)
        return got

    def active(self, rem: int) -> int:
        """The sorts that have begun and still have something to do."""
        return sum(1 << k for k, mine in enumerate(self.plays) if mine & rem and mine & ~rem)

    def step(self, k: int, active: int) -> int:
        """Waiting while scene k is rigged and shot."""
        return self.fixed[k] * self.price(active) + self.takes[k] * self.price(active & ~self.cast[k])

    def next(self, rem: int, active: int) -> list[int]:
        """The scenes to go on with: one that takes just those who are here costs nothing and never waits."""
        ready = [k for k in range(len(self.scenes)) if rem >> k & 1 and not self.pred[k] & rem]
        for k in ready:
            if self.cast[k] == active and not self.fixed[k]:
                return [k]
        return ready

    def least(self, rem: int, active: int) -> int:
        """No less waiting than this is left. Of two who are here, one is done first, and until then the other waits
        through every scene of his own; a wait that several could claim is shared out among them."""
        got = self._least.get(rem)
        if got is None:
            got = self._least[rem] = self._pairs(rem, active) + self._between(rem)
        return got

    def _between(self, rem: int) -> int:
        """Rigging between two scenes of one sort is waited through by all of it."""
        if not any(self.fixed):
            return 0
        total = 0
        for k, mine in enumerate(self.plays):
            left = [self.fixed[s] for s in range(len(self.scenes)) if mine & rem & 1 << s]
            if left:
                total += self.weight[k] * (sum(left) - (0 if mine & ~rem else max(left)))
        return total

    def _pairs(self, rem: int, active: int) -> int:
        here = [k for k in range(len(self.weight)) if active >> k & 1]
        if len(here) < 2:
            return 0
        size = len(here)
        owed = [[0.0] * size for _ in here]
        for s in range(len(self.scenes)):
            if rem >> s & 1:
                inside = [a for a in range(size) if self.cast[s] >> here[a] & 1]
                if 0 < len(inside) < size:
                    share = self.takes[s] / len(inside)
                    for b in range(size):
                        if not self.cast[s] >> here[b] & 1:
                            for a in inside:
                                owed[a][b] += share * self.weight[here[b]]
        total = sum(min(owed[a][b], owed[b][a]) for a in range(size) for b in range(a))
        return int(total + 1 - 1e-9) if total > 1e-9 else 0

    def search(self, best: int, order: tuple[int, ...], limit: int) -> Waited:
        """Best first, from the value of a known order down."""
        known: dict[int, int] = {self.all: 0}
        came: dict[int, tuple[int, int]] = {}
        heap: list[tuple[int, int, int]] = [(0, len(self.scenes), self.all)]
        opened, bound = 0, best
        closed: set[int] = set()
        while heap:
            guess, _, rem = heappop(heap)
            if guess >= best:
                break
            if rem in closed:
                continue
            if rem == DONE:
                best, order = known[rem], self._back(came)
                break
            if opened >= limit:
                bound = guess
                return Waited(self.setups(order), best, bound, opened)
            opened += 1
            closed.add(rem)
            active = self.active(rem)
            for k in self.next(rem, active):
                after = rem & ~(1 << k)
                value = known[rem] + self.step(k, active)
                if value < known.get(after, FOREVER):
                    low = max(value + self.least(after, self.active(after)), guess)
                    if low < best:
                        known[after], came[after] = value, (rem, k)
                        closed.discard(after)
                        heappush(heap, (low, after.bit_count(), after))
        return Waited(self.setups(order), best, best, opened)

    def greedy(self) -> tuple[int, tuple[int, ...]]:
        """Always the scene after which the least is waited and sure to be waited."""
        rem, value, order = self.all, 0, []
        while rem:
            active = self.active(rem)
            tries = []
            for k in self.next(rem, active):
                after = rem & ~(1 << k)
                tries.append((self.step(k, active) + self.least(after, self.active(after)), k))
            _, k = min(tries)
            value += self.step(k, active)
            order.append(k)
            rem &= ~(1 << k)
        return value, tuple(order)

    def _back(self, came: dict[int, tuple[int, int]]) -> tuple[int, ...]:
        order, rem = [], DONE
        while rem in came:
            rem, k = came[rem]
            order.append(k)
        return tuple(reversed(order))

    def setups(self, order: tuple[int, ...]) -> tuple[int, ...]:
        return tuple(i for k in order for i in self.scenes[k])
