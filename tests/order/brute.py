"""Every order of a small day, tried one by one: an independent reading of the rules, with no bound and no search.

It shares the day's data with the engine and nothing else: changeovers, meals, windows and waiting are written again,
in the plainest way, and meals are pushed later by relaxing the time constraints of a finished order.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, permutations, product

from hotset.facts.numbers import IF_TIME, MEAL_TOUCHES, ROOM_TOUCHES, WANT, Day

Value = tuple[int, int, int, int, int]
Stand = tuple[tuple[int, ...], ...]
FAR = 1 << 40


def best(day: Day) -> tuple[tuple[int, ...], Value] | None:
    """(setups left out, (wrap, close, touches, waiting, turned)) of the best order, or None."""
    wants = [i for i, s in enumerate(day.setups) if s.priority == WANT]
    extras = [i for i, s in enumerate(day.setups) if s.priority == IF_TIME]
    for w in range(len(wants) + 1):
        for e in range(len(extras) + 1):
            champion: tuple[tuple[int, ...], Value] | None = None
            for some in combinations(reversed(wants), w):
                for more in combinations(reversed(extras), e):
                    dropped = tuple(sorted((*some, *more)))
                    kept = tuple(i for i in range(len(day.setups)) if i not in dropped)
                    value = Brute(day, kept).best()
                    if value is not None and (champion is None or value[0] < champion[1][0]):
                        champion = (dropped, value)
            if champion is not None:
                return champion
    return None


class Brute:
    """All orders of the kept setups."""

    def __init__(self, day: Day, kept: tuple[int, ...]) -> None:
        self.day = day
        self.kept = kept
        self.value: Value | None = None

    def best(self) -> Value | None:
        stand = tuple(tuple(sorted(g.start)) for g in self.day.groups)
        self._go((), stand, 0, 0, ())
        return self.value

    def _go(self, order: tuple[int, ...], stand: Stand, touched: int, eaten: int, log: tuple[Entry, ...]) -> None:
        if len(order) == len(self.kept):
            self._finish(order, touched, eaten, log)
            return
        for i in self.kept:
            if i in order or any(b == i and a in self.kept and a not in order for a, b in self.day.before):
                continue
            for after, rig, touches in self._rig(order, stand, i):
                room = self.day.setups[order[-1]].room if order else self.day.room
                target = self.day.setups[i].room
                trip = self.day.arrive[target] if room < 0 else self.day.travel[room][target]
                tone = self._tone((*order, i))
                for span in self._spans(i):
                    touches_ = touched + touches + (ROOM_TOUCHES if 0 <= room != target else 0)
                    shot: Entry = (i, (trip, *rig), self.day.setups[i].takes, span[0], span[1], tone)
                    self._try((*order, i), after, touches_, eaten, (*log, shot))
                    if eaten < len(self.day.meals):
                        meal = self.day.meals[eaten]
                        ate: Entry = (-1, (0, 0, 0, 0), meal.length, meal.earliest, meal.latest + meal.length, 0)
                        self._try((*order, i), after, touches_, eaten + 1, (*log, ate, shot))

    def _tone(self, order: tuple[int, ...]) -> int:
        setups, room = self.day.setups, self.day.setups[order[-1]].room
        left = [i for i in self.kept if i not in order and setups[i].tone and setups[i].room == room]
        return self.day.tone if setups[order[-1]].tone and not left else 0

    def _try(self, order: tuple[int, ...], stand: Stand, touched: int, eaten: int, log: tuple[Entry, ...]) -> None:
        ends = earliest(self.day, log)
        if ends is None:
            return
        least = ends[-1] + sum(self.day.setups[i].takes for i in self.kept if i not in order) + self.day.pack
        if least <= (self.day.latest_wrap if self.value is None else self.value[0]):
            self._go(order, stand, touched, eaten, log)

    def _spans(self, i: int) -> Iterator[tuple[int, int]]:
        choices = [w.spans for w in self.day.setups[i].windows]
        for combo in product(*choices):
            lo, hi = max((s[0] for s in combo), default=-FAR), min((s[1] for s in combo), default=FAR)
            if lo <= hi:
                yield lo, hi

    def _finish(self, order: tuple[int, ...], touched: int, eaten: int, log: tuple[Entry, ...]) -> None:
        meals = self.day.meals
        for more in range(len(meals) - eaten + 1):
            if any(m.must for m in meals[eaten + more :]):
                continue
            extra: tuple[Entry, ...] = tuple(
                (-1, (0, 0, 0, 0), m.length, m.earliest, m.latest + m.length, 0) for m in meals[eaten : eaten + more]
            )
            times = earliest(self.day, log + extra)
            if times is None or not fed_in_time(self.day, log + extra):
                continue
            wrap = times[-1] + (log + extra)[-1][5] + self.day.pack
            if wrap > self.day.latest_wrap:
                continue
            turned = sum(a > b for a, b in combinations(order, 2))
            food = MEAL_TOUCHES * sum(not m.must for m in meals[: eaten + more])
            value = (wrap, self._close(order), touched + food, self._waiting(log + extra, times), turned)
            if self.value is None or value < self.value:
                self.value = value

    def _close(self, order: tuple[int, ...]) -> int:
        agreed = self.day.agreed
        return sum(agreed.index(a) > agreed.index(b) for a, b in combinations(order, 2)) if agreed else 0

    def _waiting(self, log: tuple[Entry, ...], ends: list[int]) -> int:
        total = 0
        for c in range(len(self.day.cast)):
            mine = [
                (ends[k] - entry[2], ends[k])
                for k, entry in enumerate(log)
                if entry[0] >= 0 and c in self.day.setups[entry[0]].cast
            ]
            if mine:
                total += mine[-1][1] - mine[0][0] - sum(b - a for a, b in mine)
        return total

    def _rig(self, order: tuple[int, ...], stand: Stand, i: int) -> Iterator[tuple[Stand, tuple[int, int, int], int]]:
        """Every way to serve setup i: states afterwards, half-minutes, touches."""
        setup, groups = self.day.setups[i], self.day.groups
        goes_on = bool(order) and self.day.setups[order[-1]].part_of == setup.part_of >= 0
        for choice in product(*setup.needs):
            asks = [[s for g, s in choice if g == k] for k in range(len(groups))]
            away = [{s for g, s in setup.away if g == k} for k in range(len(groups))]
            for k, wanted in enumerate(asks):
                spots = {groups[k].places[s] for s in wanted}
                away[k] |= {s for s, spot in enumerate(groups[k].places) if spot in spots}
                away[k] -= set(wanted)
            held = self._held(order, i)
            per_group = [list(_ways(groups[k].cost, stand[k], asks[k], away[k], held[k])) for k in range(len(groups))]
            for combo in product(*per_group):
                tasks = [t for _, some in combo for t in some]
                work = sum(t * g.hands for g, (_, some) in zip(groups, combo, strict=True) for t in some)
                rig = (0, 0, 0) if setup.flat else (1, work, max(tasks, default=0))
                yield tuple(after for after, _ in combo), (0 if goes_on else setup.fixed, *rig[1:]), len(tasks)

    def _held(self, order: tuple[int, ...], i: int) -> list[set[int]]:
        held: list[set[int]] = [set() for _ in self.day.groups]
        for h in self.day.holds:
            live = h.first in order and h.until in self.kept and h.until not in order
            if live and i != h.until and i not in h.inside:
                for need in self.day.setups[h.first].needs:
                    for g, s in need:
                        held[g].add(s)
        return held


Entry = tuple[int, tuple[int, int, int, int], int, int, int, int]


def _ways(
    cost: tuple[tuple[int, ...], ...], standing: tuple[int, ...], wanted: list[int], away: set[int], held: set[int]
) -> Iterator[tuple[tuple[int, ...], list[int]]]:
    """(states afterwards, minutes of each task) for every choice of pieces."""
    missing, idle = [], list(standing)
    for s in wanted:
        if s in idle:
            idle.remove(s)
        else:
            missing.append(s)
    seen = set()
    for picked in permutations(range(len(idle)), len(missing)):
        moved = tuple(idle[p] for p in picked)
        rest = [s for p, s in enumerate(idle) if p not in picked]
        if (moved, tuple(rest)) in seen or any(s in held for s in moved) or any(s in held and s in away for s in rest):
            continue
        seen.add((moved, tuple(rest)))
        tasks = [cost[a][b] for a, b in zip(moved, missing, strict=True)]
        tasks += [cost[s][0] for s in rest if s in away]
        yield tuple(sorted([*wanted, *(0 if s in away else s for s in rest)])), tasks


def rigged(day: Day, time: int, rig: tuple[int, int, int, int]) -> int:
    """When everything stands, if the crew sets off at a time: at once, or rigging when all hands are back."""
    trip, fixed, work, longest = rig
    done = []
    for start in [time + trip, *(back for _, back, _ in day.absent if back > time + trip)]:
        away = sum(n for lo, hi, n in day.absent if lo <= start < hi)
        done.append(start + fixed + max(longest, -(-work // max(1, day.riggers - away))))
    return min(done)


def earliest(day: Day, log: tuple[Entry, ...]) -> list[int] | None:
    """When each entry ends if everything happens as early as it may; None where a window is missed."""
    time, ends = day.call, []
    for _, rig, length, lo, hi, tone in log:
        time = max(rigged(day, time, rig), lo) + length
        if time > hi:
            return None
        ends.append(time)
        time += tone
    return ends


def fed_in_time(day: Day, log: tuple[Entry, ...]) -> bool:
    """Whether meals can be put so that no one goes too long without, and the wrap stays where it is."""
    ends = earliest(day, log)
    if ends is None:
        return False
    if day.gap >= FAR:
        return True
    wrap = ends[-1] + log[-1][5] + day.pack
    begins = [day.call, *(e + entry[5] for e, entry in zip(ends, log, strict=True))]
    rigs = [rigged(day, b, entry[1]) - b for b, entry in zip(begins, log, strict=False)]
    starts = [e - entry[2] for e, entry in zip(ends, log, strict=True)]
    meals = [k for k, entry in enumerate(log) if entry[0] < 0]
    while True:
        previous, broken = day.call if day.fed is None else day.fed, None
        for k in meals:
            if starts[k] - previous > day.gap:
                broken = k
                break
            previous = starts[k] + log[k][2]
        else:
            if wrap - previous <= day.gap:
                return True
            broken = len(log)
        before = [k for k in meals if k < broken]
        if not before:
            return False
        target = (wrap if broken == len(log) else starts[broken]) - day.gap - log[before[-1]][2]
        starts[before[-1]] = target
        for k in range(before[-1], len(log)):
            _, _, length, lo, hi, _ = log[k]
            if k > before[-1]:
                starts[k] = max(starts[k], starts[k - 1] + log[k - 1][2] + log[k - 1][5] + rigs[k], lo)
            if starts[k] + length > hi:
                return False
        if starts[-1] + log[-1][2] + log[-1][5] + day.pack > wrap:
            return False
