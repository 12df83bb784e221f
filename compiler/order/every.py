"""Every way of sharing few setups out among few days, as far as none can be ruled out by its bound."""

from __future__ import annotations

from ..facts.numbers import FOREVER
from .ledger import Ledger

Unit = tuple[int, ...]
Days = tuple[tuple[int, ...], ...]
MOST = 20_000
"""Sharings looked at, whole ones and those begun."""
FEW = 14
"""With more units than this nothing would come of it."""


def every(ledger: Ledger, days: Days, units: tuple[Unit, ...], home: tuple[tuple[int, ...], ...]) -> tuple[Days, int]:
    """(the best days, no sharing of these setups takes less): the days given, or better ones that were met on the way.
    Where there are too many ways, the days given and 0."""
    if len(units) > FEW:
        return days, 0
    tries = _Tries(ledger, days, units, home)
    tries.go(tuple(() for _ in days), 0)
    return tries.best, 0 if tries.left <= 0 else tries.bound


class _Tries:
    """Unit after unit is given to each of its days. Setups that are not yet given out add their takes at least."""

    def __init__(self, ledger: Ledger, days: Days, units: tuple[Unit, ...], home: tuple[tuple[int, ...], ...]) -> None:
        self.ledger, self.best, self.units, self.home = ledger, days, units, home
        self.value = self.bound = sum(ledger.length(d, on).value or 0 for d, on in enumerate(days))
        self.left = MOST
        slate = ledger.slate
        takes = [
            sum(slate.days[home[i][0]].setups[slate.on[home[i][0]].index(i)].takes for i in unit) for unit in units
        ]
        self.rest = [sum(takes[k:]) for k in range(len(units) + 1)]

    def go(self, days: Days, k: int) -> None:
        """Give out the units from number k on."""
        self.left -= 1
        if self.left <= 0:
            return
        if k == len(self.units):
            self._whole(days)
            return
        tries = []
        for d in self.home[self.units[k][0]]:
            more = (*days[:d], tuple(sorted((*days[d], *self.units[k]))), *days[d + 1 :])
            if self._lawful(more):
                bound = sum(self.ledger.bound(e, on) for e, on in enumerate(more)) + self.rest[k + 1]
                tries.append((bound, d, more))
        for bound, _, more in sorted(tries):
            if bound < self.bound:
                self.go(more, k + 1)

    def _whole(self, days: Days) -> None:
        lengths = [self.ledger.length(d, on) for d, on in enumerate(days)]
        self.bound = min(self.bound, sum(length.bound for length in lengths))
        value = sum(FOREVER if length.value is None else length.value for length in lengths)
        if value < self.value:
            self.best, self.value = days, value

    def _lawful(self, days: Days) -> bool:
        where = {i: d for d, on in enumerate(days) for i in on}
        return all(where[a] <= where[b] for a, b in self.ledger.slate.before if a in where and b in where)
