"""Best-first search over moments of the day, proven by its bounds; a beam of growing width where it gets too wide.

Work is counted in opened moments, never in seconds, so that one plan has one answer on every machine.
"""

from __future__ import annotations

from dataclasses import dataclass
from heapq import heapify, heappop, heappush

from ..facts.numbers import FOREVER, ROOM_TOUCHES
from .advance import BY_ROOM, CLOSELY, QUICKLY, Moment, Rules
from .workspace import Gear

TIME, CLOSE, TOUCH, WAIT, TURNED = 0, 1, 2, 3, 4
CROSS = 48
SOON, MANY = 400, 17
"""Moments opened before the rooms are looked at one by one, where there are not many setups: a small day is over before
that pays."""

TRIES, SELDOM = 64, 16
"""After so many looks room by room they are given up where not one in so many told more."""
LIGHTER = 4
"""So many moments of a room alone are as much work as one of the day."""


@dataclass(frozen=True, slots=True)
class Found:
    """What one search gave: the best end (None: there is none), the least value possible, moments opened.
    `bound` equals the value where the answer is proven; with `best` None and `proved`, there is no answer."""

    best: Moment | None
    bound: int
    opened: int
    proved: bool


class Search:
    """Minimise one part of the objective (`stage`) while the parts before it stay within `limits`."""

    def __init__(
        self,
        rules: Rules,
        stage: int,
        limits: tuple[int, ...] = (),
        known: Moment | None = None,
        least: bool = False,
        start: Moment | None = None,
    ) -> None:
        """`least`: no answer has less than the limits, so what could have is not lost where another has less.
        `start`: where to begin, if not in the morning; what is opened from there is kept in `seen`."""
        self.rules = rules
        self.least = least
        self.stage = stage
        self.limits = limits
        self.best = known
        self.ceiling = known.value()[stage] if known else FOREVER
        self.opened = 0
        self._looks, self._told, self._pays = 0, 0, True
        self.start, self.seen = start, list[Moment]()
        self._beside = rules.apart.opened if rules.apart is not None else 0
        self._all_back = max((back for _, back, _ in rules.day.absent), default=-FOREVER)
        self._heap: list[tuple[int, int, int, int, Moment, int]] | None = None
        self._serial = 0
        self._exact: dict[tuple[int, int, int, Gear], list[tuple[int, ...]]] = {}
        self._cross: dict[tuple[int, int, int], list[Moment]] = {}
        self._apart: dict[tuple[int, int, int, int], tuple[int, int]] = {}

    def take(self, guess: Moment | None) -> None:
        """Take a whole answer as the best so far, if it is."""
        if guess is not None and guess.value()[self.stage] < self.ceiling:
            self.best, self.ceiling = guess, guess.value()[self.stage]

    def estimate(self, at: Moment, closely: int = QUICKLY) -> int | None:
        """The least value of this stage from here; None where a limit or the day itself cannot be kept."""
        end = self.rules.least_end(at, closely)
        if end is None:
            return None
        if self.stage == TIME:
            return end
        if end > self.limits[TIME] or (self.stage > CLOSE and at.close > self.limits[CLOSE]):
            return None
        if self.stage == CLOSE:
            return at.close
        touch = at.touch
        if at.rem:
            look = closely if self.stage == TOUCH else min(closely, CLOSELY)  # later parts have no use for it
            touch += self.rules.least_touched(at, look, self.limits[TIME])
        if self.stage == TOUCH:
            return touch
        if touch > self.limits[TOUCH]:
            return None
        wait = at.wait + (self.rules.waits.least(at, self.limits[TIME], self.limits[TOUCH]) if at.rem else 0)
        if self.stage == WAIT:
            return wait
        return at.turned if wait <= self.limits[WAIT] else None

    def spent(self) -> int:
        """Moments opened, with what was opened room by room for them: that is less work each."""
        beside = self.rules.apart.opened - self._beside if self.rules.apart is not None else 0
        return self.opened + beside // LIGHTER

    def _nearer(self, at: Moment, closely: int) -> int | None:
        """As `estimate`, looked at closely and, where that is of use, room by room."""
        nearer = self.estimate(at, CLOSELY)
        if nearer is None or nearer >= self.ceiling or closely < BY_ROOM or not self._pays:
            return nearer
        by_room = self.estimate(at, BY_ROOM)
        self._looks += 1
        self._told += by_room is None or by_room > nearer
        self._pays = self._looks < TRIES or self._told * SELDOM > self._looks
        return by_room

    def _late(self) -> int:
        """An end from which on nothing is of use. Of one room alone none is known: coming back may be sooner than the
        bounds of whoever stays."""
        if self.start is not None:
            return FOREVER
        return self.ceiling if self.stage == TIME else self.limits[TIME] + 1

    def _hopeful(self, at: Moment) -> bool:
        guess = self.estimate(at)
        return guess is not None and guess < self.ceiling

    def run(self, limit: int) -> Found:
        """Search until proven or until `limit` moments are opened in all; may be called again to go on."""
        if self._heap is None:
            opening = self.start or self.rules.opening()
            first = self.estimate(opening)
            self._heap = [] if first is None else [(first, 0, 0, 0, opening, QUICKLY)]
        heap, soon = self._heap, 0 if self.rules.space.chosen.bit_count() >= MANY else SOON
        rooms = self.rules.apart is not None
        while heap:
            entry = heappop(heap)
            value, at = entry[0], entry[4]
            if value >= self.ceiling:
                break
            if self.rules.done(at):
                self.best, self.ceiling = at, value
                break
            if self.spent() >= limit:
                heappush(heap, entry)
                return Found(self.best, value, self.spent(), False)
            closely = BY_ROOM if rooms and self.opened >= soon else CLOSELY
            if entry[5] < closely:
                nearer = self._nearer(at, closely)
                if nearer is None or nearer >= self.ceiling:
                    continue
                if nearer > value:
                    heappush(heap, (nearer, *entry[1:5], closely))
                    continue
            if not self._fresh(at):
                continue
            self.opened += 1
            if self.start is not None:
                self.seen.append(at)
            for child in self.rules.after(at, self._hopeful, self._late()):
                guess = self.estimate(child)
                if guess is None or guess >= self.ceiling or not self._record(child):
                    continue
                self._serial += 1
                guess = max(guess, value)
                heappush(heap, (guess, child.rem.bit_count() - child.meals, child.time, self._serial, child, QUICKLY))
        heap.clear()
        return Found(self.best, self.ceiling, self.spent(), True)

    def any(self, limit: int) -> Found:
        """Any order at all, whatever its value: deepest first."""
        opening = self.rules.opening()
        first = self.estimate(opening)
        heap: list[tuple[int, int, int, Moment]] = [] if first is None else [(0, first, 0, opening)]
        serial = 0
        while heap:
            at = heappop(heap)[3]
            if self.rules.done(at):
                return Found(at, at.time, self.opened, True)
            if not self._fresh(at):
                continue
            if self.opened >= limit:
                return Found(None, 0, self.opened, False)
            self.opened += 1
            for child in self.rules.after(at, self._hopeful, self._late()):
                guess = self.estimate(child)
                if guess is not None and self._record(child):
                    serial += 1
                    heappush(heap, (child.rem.bit_count(), guess, serial, child))
        return Found(None, FOREVER, self.opened, True)

    def beam(self, width: int, limit: int) -> None:
        """Widen the answer: keep the `width` most hopeful moments of every depth. Improves `best` only."""
        layer = [self.rules.opening()]
        while layer and self.opened < limit:
            ahead: dict[tuple[int, int, int, Gear], tuple[int, int, int, Moment]] = {}
            serial = 0
            for at in layer:
                self.opened += 1
                for child in self.rules.after(at, self._hopeful, self._late()):
                    guess = self.estimate(child)
                    if guess is None or guess >= self.ceiling:
                        continue
                    if self.rules.done(child):
                        self.best, self.ceiling = child, guess
                        continue
                    serial += 1
                    key = (child.rem, child.meals, self.rules.stands(child), child.gear)
                    entry = (guess, child.time, serial, child)
                    if key not in ahead or entry[:2] < ahead[key][:2]:
                        ahead[key] = entry
            ranked = list(ahead.values())
            heapify(ranked)
            layer = [heappop(ranked)[3] for _ in range(min(width, len(ranked)))]

    def _components(self, at: Moment) -> tuple[int, ...]:
        """What must all be no worse for one moment to stand in for another of the same place: small is good."""
        if at.cap >= FOREVER:
            return (at.time, *at.value()[1 : self.stage + 1])
        return (at.time, -at.cap, *at.value()[1 : self.stage + 1])

    def _record(self, at: Moment) -> bool:
        """Remember a moment; False where one just as good is known already."""
        key = (at.rem, at.meals, self.rules.stands(at), at.gear)
        mine = (*self._components(at), at.due)
        kept = self._exact.get(key)
        if kept is None:
            self._exact[key] = [mine]
            return True
        if any(self._covers(k, mine, at) for k in kept):
            return False
        kept[:] = [k for k in kept if not self._covers(mine, k, at)]
        kept.append(mine)
        return True

    def _covers(self, a: tuple[int, ...], b: tuple[int, ...], at: Moment) -> bool:
        """a, in the same place as b, is at least as good whatever follows."""
        early = b[0] - a[0]
        if early < 0:
            return False
        first = 1
        if at.cap < FOREVER:
            if a[1] > b[1] or min(a[-1] + early, -a[1]) < b[-1]:
                return False
            first = 2
        if self.stage < WAIT:
            return self._no_more(a[first:-1], b[first:-1])
        if early and a[0] < self._all_back:
            return False
        later = WAIT - 1 + first
        waited = a[later] + early * self.rules.pledged(at.rem)
        return self._no_more((*a[first:later], waited, *a[later + 1 : -1]), b[first:-1])

    def _no_more(self, one: tuple[int, ...], two: tuple[int, ...]) -> bool:
        """Whether the parts of the objective so far, the last of them this stage's, are no worse."""
        return one <= two if self.least else all(x <= y for x, y in zip(one, two, strict=True))

    def _fresh(self, at: Moment) -> bool:
        """False where a moment has since been beaten, here or by one whose gear stands elsewhere."""
        mine = (*self._components(at), at.due)
        stands = self.rules.stands(at)
        kept = self._exact.get((at.rem, at.meals, stands, at.gear), [])
        if kept and mine not in kept:
            return False
        if self.rules.space.binding(at.rem):
            return True
        rivals = self._cross.setdefault((at.rem, at.meals, min(stands, -1)), [])
        if any(self._stands_in(r, at) for r in rivals):
            return False
        if len(rivals) < CROSS:
            rivals.append(at)
        return True

    def _stands_in(self, a: Moment, b: Moment) -> bool:
        """a is no later than b even after paying, piece by piece, the most its stand could cost more."""
        spare = early = b.time - a.time
        if early < 0 or a.close > b.close or a.time < self._all_back:
            return False
        touches = 0
        if a.room != b.room:
            spare -= self._rooms_apart(a.room, b.room, a.rem)
            touches += ROOM_TOUCHES
        for g, (one, two) in enumerate(zip(a.gear, b.gear, strict=True)):
            if one != two:
                minutes, touched = self._gear_apart(g, one, two, a.rem)
                spare -= minutes
                touches += touched
                if spare < 0:
                    return False
        if spare < 0 or (a.cap < FOREVER and (min(a.due + spare, a.cap) < b.due or a.cap < b.cap)):
            return False
        if self.stage < TOUCH:
            return True
        mine, other = (a.close, a.touch + touches), (b.close, b.touch)
        if self.stage == TOUCH:
            return self._no_more(mine, other)
        waited = a.wait + early * self.rules.pledged(a.rem)
        more = self.stage - WAIT
        return self._no_more((*mine, waited, a.turned)[: 3 + more], (*other, b.wait, b.turned)[: 3 + more])

    def _rooms_apart(self, a: int, b: int, rem: int) -> int:
        space = self.rules.space
        rooms = {space.rooms[i] for i in space.members if rem >> i & 1}
        return max((max(0, space.travel(a, r) - space.travel(b, r)) for r in rooms), default=0)

    def _gear_apart(self, g: int, one: int, two: int, rem: int) -> tuple[int, int]:
        """The most that group g standing as `one` can cost more than as `two`, and touch more. Groups of several
        pieces are only compared when they stand alike."""
        space = self.rules.space
        key = (g, one, two, rem & (space.users[g] | space.clearers[g]))
        got = self._apart.get(key)
        if got is not None:
            return got
        here, there = space.states[g][one], space.states[g][two]
        got = self._single_apart(g, here[0], there[0], rem) if len(here) == 1 else (FOREVER, 1)
        self._apart[key] = got
        return got

    def _single_apart(self, g: int, here: int, there: int, rem: int) -> tuple[int, int]:
        space, cost = self.rules.space, self.rules.day.groups[g].cost
        away = space.asked_away(g, rem)
        wanted = {s for i, states in self.rules.bounds.possible[g].items() if rem >> i & 1 for s in states}
        worst = 0
        for t in wanted:
            dear = max(cost[here][t], cost[0][t]) if here in away else cost[here][t]
            cheap = min(cost[there][t], cost[0][t]) if there in away else cost[there][t]
            worst = max(worst, dear - cheap)
        if here in away:
            worst += cost[here][0]
        people = self.rules.day.groups[g].hands
        return worst * (people if people > self.rules.day.fewest_hands() else 1), 1 + (here in away)
