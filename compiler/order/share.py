"""Sharing setups out among days: insertion where they cost least, then days freed and filled again while it helps.

Every day is put in order exactly by the same search that orders a single one; quick bounds decide which changes are
worth that. Work is counted in moments and bounds, so one plan has one answer on every machine.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from ..facts.numbers import FOREVER
from ..facts.slate import Slate
from .castdays import cast_days, sparing
from .every import every
from .floor import blocks, fewest, floor
from .ledger import Ledger

PATIENCE = 4_000
"""Moments and bounds after which a day that is to be closed keeps its setups, when one of them finds no room."""
Unit = tuple[int, ...]
Days = tuple[tuple[int, ...], ...]


@dataclass(frozen=True, slots=True)
class Shares:
    """The setups of each day by number, those for which no day has room, half-minutes from call to wrap in all, and
    the work that was done. No sharing of the same setups takes less than `bound`. `cast` are the days of all people of
    the cast together; `longer` and `spared` what sparing some of them costs and saves, against the shortest found."""

    days: Days
    left: tuple[int, ...]
    value: int
    bound: int
    opened: int
    cast: int = 0
    longer: int = 0
    spared: int = 0


def share(slate: Slate, limit: int, each: int, worth: int = 0) -> Shares:
    """The best sharing found. `limit` counts the work in all, `each` the moments opened for one day; `worth` are the
    half-minutes of the crew that a day less for one of the cast is worth."""
    work = _Work(slate, limit, Ledger(slate, each))
    days, left = work.fill(tuple(() for _ in slate.days), work.in_turn(range(len(slate.home))))
    days, left = work.descend(days, left)
    days, left = work.fewer(days, left)
    days, left = work.close(days, left)
    days, left = work.shake(days, left)
    days, left = work.close(days, left)
    days, bound = every(work.ledger, days, work.in_turn(tuple(i for on in days for i in on)), work.home)
    bound = max(bound, floor(slate, left))
    shortest, called = work.total(days), cast_days(slate, days)
    days = sparing(work.ledger, days, work.exchanges, worth, max(limit, work.ledger.opened) + limit // 4)
    value, cast = work.total(days), cast_days(slate, days)
    bound = min(value, bound)
    return Shares(days, left, value, bound, work.ledger.opened, cast, value - shortest, called - cast)


class _Work:
    """One sharing out: the units that move together, and the changes that are tried."""

    def __init__(self, slate: Slate, limit: int, ledger: Ledger) -> None:
        self.slate = slate
        self.limit = limit
        self.ledger = ledger
        self.unit = _units(slate)
        self.home = tuple(_common(slate, unit) for unit in self.unit)  # none where no day can have it
        self.setup = {i: slate.days[d].setups[k] for d, on in enumerate(slate.on) for k, i in enumerate(on)}
        self.room = tuple(
            {i: day.setups[k].room for k, i in enumerate(on)} for day, on in zip(slate.days, slate.on, strict=True)
        )
        self.shut: frozenset[int] = frozenset()
        self.earlier: dict[int, tuple[int, ...]] = {}
        self.later: dict[int, tuple[int, ...]] = {}
        for a, b in slate.before:
            self.earlier[b] = (*self.earlier.get(b, ()), a)
            self.later[a] = (*self.later.get(a, ()), b)

    @property
    def spent(self) -> bool:
        return self.ledger.opened >= self.limit

    def value(self, d: int, setups: tuple[int, ...]) -> int:
        got = self.ledger.length(d, setups).value
        return FOREVER if got is None else got

    def total(self, days: Days) -> int:
        return sum(self.value(d, on) for d, on in enumerate(days))

    def rank(self, i: int) -> int:
        return self.setup[i].priority if i in self.setup else 0

    def in_turn(self, setups: range | tuple[int, ...]) -> tuple[Unit, ...]:
        """The units of these setups in the order in which they look for a day: what the film needs most, then what
        has least choice; what comes before another looks first."""
        units = list(dict.fromkeys(self.unit[i] for i in setups))
        units.sort(key=lambda u: (min(map(self.rank, u)), len(self.home[u[0]]), max(self.home[u[0]], default=0)))
        done: dict[Unit, None] = {}

        def put(unit: Unit, above: tuple[Unit, ...]) -> None:
            for a in (a for i in unit for a in self.earlier.get(i, ())):
                if self.unit[a] in units and self.unit[a] not in (*above, *done):
                    put(self.unit[a], (*above, unit))
            done[unit] = None

        for unit in units:
            if unit not in done:
                put(unit, (unit,))
        return tuple(done)

    def open_days(self, unit: Unit, where: dict[int, int]) -> list[int]:
        """The days a unit may go to, seen from where the others are."""
        lo = max((where[a] for i in unit for a in self.earlier.get(i, ()) if a in where and a not in unit), default=0)
        hi = min((where[b] for i in unit for b in self.later.get(i, ()) if b in where and b not in unit), default=9999)
        return [d for d in self.home[unit[0]] if lo <= d <= hi and d not in self.shut]

    def fill(self, days: Days, units: tuple[Unit, ...], patience: int | None = None) -> tuple[Days, tuple[int, ...]]:
        """Put each unit where it costs least; where there is no room, another makes way for it if it can, as long as
        there is patience for that (opened moments, all told)."""
        left: list[int] = []
        for unit in units:
            more = self.put(days, unit)
            if more is None and (patience is None or self.ledger.opened < patience):
                more = self.squeeze(days, unit)
            if more is None:
                left += unit
            else:
                days = more
        return days, tuple(sorted(left))

    def put(self, days: Days, unit: Unit) -> Days | None:
        """The days with a unit where it costs least, or None where no day has room."""
        choices = []
        for d in self.open_days(unit, _where(days)):
            grown = tuple(sorted((*days[d], *unit)))
            bound = self.ledger.bound(d, grown)
            if bound < FOREVER:
                choices.append((bound - self.value(d, days[d]), d, grown))
        best: tuple[int, int, tuple[int, ...]] | None = None
        for bound, d, grown in sorted(choices):
            if best is not None and bound >= best[0]:
                break
            now = self.value(d, days[d])
            value = self.ledger.shorter(d, grown, FOREVER if best is None else best[0] + now)
            if value is not None:
                best = (value - now, d, grown)
        return None if best is None else _with(days, {best[1]: best[2]})

    def squeeze(self, days: Days, unit: Unit) -> Days | None:
        """The days with a unit put where another makes way for it, cheapest; None where that does not help."""
        best: tuple[int, Days] | None = None
        for d in self.open_days(unit, _where(days)):
            for other in self.units_on(days[d]):
                if len(self.home[other[0]]) < 2 or self.spent:
                    continue
                here = tuple(sorted({*days[d], *unit} - set(other)))
                if self.value(d, here) >= FOREVER:
                    continue
                moved = self.put(_with(days, {d: here}), other)
                if moved is not None and (best is None or self.total(moved) < best[0]):
                    best = (self.total(moved), moved)
        return best[1] if best else None

    def units_on(self, setups: tuple[int, ...]) -> tuple[Unit, ...]:
        return tuple(dict.fromkeys(self.unit[i] for i in setups))

    def parcels(self, d: int, setups: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
        """What moves from a day at once: each unit, and all of a room."""
        found = dict.fromkeys(self.units_on(setups))
        rooms: dict[int, tuple[int, ...]] = {}
        for i in setups:
            room = self.room[d][i]
            rooms[room] = (*rooms.get(room, ()), i)
        found.update(dict.fromkeys(rooms.values()))
        return tuple(found)

    def descend(self, days: Days, left: tuple[int, ...]) -> tuple[Days, tuple[int, ...]]:
        """Two days at a time: parcels moved and exchanged, while it helps."""
        n, better = len(days), True
        quiet: dict[tuple[tuple[int, ...], tuple[int, ...]], None] = {}
        while better and not self.spent:
            better = False
            for d, e in combinations([d for d in range(n) if d not in self.shut], 2):
                pair = ((d, *days[d]), (e, *days[e]))
                if pair in quiet:
                    continue
                found = self._pair(days, d, e)
                if found is None:
                    quiet[pair] = None
                else:
                    days, better = found, True
            if left:
                days, still = self.fill(days, self.in_turn(left))
                better, left = better or still != left, still
        return days, left

    def _pair(self, days: Days, d: int, e: int) -> Days | None:
        """The best exchange between two days, or None."""
        now = self.value(d, days[d]) + self.value(e, days[e])
        tries = []
        for one, two in self.exchanges(days, d, e):
            bound = self.ledger.bound(d, one)
            if bound < now:
                bound += self.ledger.bound(e, two)
                if bound < now:
                    tries.append((bound, one, two))
            if self.spent:
                break
        best: Days | None = None
        for bound, one, two in sorted(tries):
            if bound >= now or self.spent:
                break
            value = self.ledger.shorter(d, one, now - self.ledger.bound(e, two))
            other = None if value is None else self.ledger.shorter(e, two, now - value)
            if value is not None and other is not None:
                now, best = value + other, _with(days, {d: one, e: two})
        return best

    def exchanges(self, days: Days, d: int, e: int) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
        """Day d and day e with a parcel of either moved to the other, or two parcels exchanged."""
        there = [p for p in self.parcels(d, days[d]) if all(e in self.home[i] for i in p)]
        back = [p for p in self.parcels(e, days[e]) if all(d in self.home[i] for i in p)]
        for go in [(), *there]:
            for come in [(), *back]:
                if go or come:
                    one = tuple(sorted({*days[d], *come} - set(go)))
                    two = tuple(sorted({*days[e], *go} - set(come)))
                    if self._lawful(_with(days, {d: one, e: two}), (*go, *come)):
                        yield one, two

    def _lawful(self, days: Days, moved: tuple[int, ...]) -> bool:
        if not any(i in self.earlier or i in self.later for i in moved):
            return True
        where = _where(days)
        return all(where[a] <= where[b] for a, b in self.slate.before if a in where and b in where)

    def close(self, days: Days, left: tuple[int, ...]) -> tuple[Days, tuple[int, ...]]:
        """A whole day given up, the emptiest first, and its setups put on the others, while that helps: no exchange
        between two days gets there, for each costs until the last setup is gone."""
        better = True
        while better and not self.spent:
            better = False
            for d in sorted((d for d, on in enumerate(days) if on), key=lambda d: (self.value(d, days[d]), d)):
                loose = self.units_on(days[d])
                if self.spent or any(set(self.home[u[0]]) <= {d} for u in loose):
                    continue
                self.shut = frozenset((d,))
                again = self._refill(_with(days, {d: ()}), self.in_turn(days[d]))
                after = self.descend(again, left) if again is not None else (days, left)
                self.shut = frozenset()
                if self._score(*after) < self._score(days, left):
                    (days, left), better = after, True
                    break
        return days, left

    def fewer(self, days: Days, left: tuple[int, ...]) -> tuple[Days, tuple[int, ...]]:
        """Where setups take more days than their work and their hours ask for: all of them shared out anew without one
        of these days, the emptiest first."""
        for block in blocks(self.slate, [i for on in days for i in on]):
            used = [d for d, on in enumerate(days) if set(on) & set(block)]
            least = fewest(self.slate, tuple(block))
            for gone in sorted(used, key=lambda d: (self.value(d, days[d]), d)):
                still = set(used) - {gone}
                if len(used) <= least or self.spent or any(not still & set(self.home[i]) for i in block):
                    continue
                begun, self.shut = self.ledger.opened, frozenset(range(len(days))) - still
                bare = tuple(() if d in used else on for d, on in enumerate(days))
                again, lost = self.fill(bare, self.in_turn(tuple(block)), begun + self.limit // 3)
                after = self.descend(again, tuple(sorted((*left, *lost))))
                self.shut = frozenset()
                if self._score(*after) < self._score(days, left):
                    return self.fewer(*after)
        return days, left

    def _refill(self, days: Days, units: tuple[Unit, ...]) -> Days | None:
        """The days with all of these, or None as soon as one has no room without a long search."""
        begun = self.ledger.opened
        for unit in units:
            more = self.put(days, unit)
            if more is None and self.ledger.opened - begun < PATIENCE:
                more = self.squeeze(days, unit)
            if more is None:
                return None
            days = more
        return days

    def shake(self, days: Days, left: tuple[int, ...]) -> tuple[Days, tuple[int, ...]]:
        """Free the setups of two or three days, fill the days again in another turn, and descend; keep what is
        better. The days and the turns go round, so that no chance is in it."""
        n, idle, turn = len(days), 0, 0
        groups = [tuple(sorted({d, (d + k) % n, *([(d + 2 * k) % n] if k % 2 == 0 else [])}))
                  for k in range(1, n) for d in range(n)]  # fmt: skip
        while groups and idle < len(groups) and not self.spent:
            freed = groups[turn % len(groups)]
            turn += 1
            idle += 1
            loose = [u for d in freed for u in self.units_on(days[d]) if len(self.home[u[0]]) > 1]
            if len(loose) < 3:
                continue
            spin = turn * 7 % len(loose)
            turned = (*loose[spin:], *loose[:spin])
            bare = tuple(
                tuple(i for i in on if d not in freed or self.unit[i] not in loose) for d, on in enumerate(days)
            )
            again, lost = self.fill(bare, (*self.in_turn(left), *self._precede(turned)))
            again, lost = self.descend(again, lost)
            if self._score(again, lost) < self._score(days, left):
                days, left, idle = again, lost, 0
        return days, left

    def _precede(self, units: tuple[Unit, ...]) -> tuple[Unit, ...]:
        """The same turn, but what the film needs most first and what comes before another before it."""
        rank = {u: k for k, u in enumerate(self.in_turn(tuple(i for u in units for i in u)))}
        bound = [u for u in units if any(i in self.earlier or i in self.later for i in u)]
        ordered = iter(sorted(bound, key=lambda u: rank[u]))
        turned = [next(ordered) if u in bound else u for u in units]
        return tuple(sorted(turned, key=lambda u: min(map(self.rank, u))))

    def _score(self, days: Days, left: tuple[int, ...]) -> tuple[int, int, int, int]:
        lost = [self.rank(i) for i in left]
        return lost.count(0), lost.count(1), lost.count(2), self.total(days)


def _units(slate: Slate) -> tuple[Unit, ...]:
    """For each setup, the setups that move with it: those of one hot set."""
    group = [{i} for i in range(len(slate.home))]
    for a, b in slate.hot:
        joined = group[a] | group[b]
        for i in joined:
            group[i] = joined
    return tuple(tuple(sorted(g)) for g in group)


def _common(slate: Slate, unit: Unit) -> tuple[int, ...]:
    shared = set(slate.home[unit[0]]).intersection(*(slate.home[i] for i in unit))
    return tuple(sorted(shared))


def _where(days: Days) -> dict[int, int]:
    return {i: d for d, on in enumerate(days) for i in on}


def _with(days: Days, new: dict[int, tuple[int, ...]]) -> Days:
    return tuple(new.get(d, on) for d, on in enumerate(days))
