"""Days of the cast: sharings in which people are called on fewer days, for what that is worth of the crew's time."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from ..facts.numbers import FOREVER

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from ..facts.slate import Slate
    from .ledger import Ledger

Days = tuple[tuple[int, ...], ...]


def cast_days(slate: Slate, days: Days) -> int:
    """On how many days somebody of the cast is called, all of them together."""
    return sum(len(_called(slate, on)) for on in days) if slate.whole is not None else 0


def _called(slate: Slate, setups: tuple[int, ...]) -> frozenset[int]:
    """Who is called for these setups, by their number in the whole film."""
    assert slate.whole is not None
    return frozenset(c for i in setups for c in slate.whole.setups[i].cast)


def sparing(
    ledger: Ledger,
    days: Days,
    exchanges: Callable[[Days, int, int], Iterator[tuple[tuple[int, ...], tuple[int, ...]]]],
    worth: int,
    limit: int,
) -> Days:
    """Parcels moved and exchanged between two days while that spares days of the cast. A day less for one person may
    cost `worth` half-minutes from call to wrap in all. `limit` counts the work in all."""
    slate, better = ledger.slate, True
    if slate.whole is None:
        return days
    while better and ledger.opened < limit:
        better = False
        for d, e in combinations(range(len(days)), 2):
            found = _pair(ledger, days, (d, e), exchanges, worth, limit)
            if found is not None:
                days, better = found, True
    return days


def _pair(
    ledger: Ledger,
    days: Days,
    pair: tuple[int, int],
    exchanges: Callable[[Days, int, int], Iterator[tuple[tuple[int, ...], tuple[int, ...]]]],
    worth: int,
    limit: int,
) -> Days | None:
    """The exchange between two days that spares most, or None."""
    d, e = pair
    slate = ledger.slate

    def people(one: tuple[int, ...], two: tuple[int, ...]) -> int:
        return len(_called(slate, one)) + len(_called(slate, two))

    def length(on: int, setups: tuple[int, ...]) -> int:
        value = ledger.length(on, setups).value
        return FOREVER if value is None else value

    now, crowd = length(d, days[d]) + length(e, days[e]), people(days[d], days[e])
    tries = [(people(one, two), one, two) for one, two in exchanges(days, d, e)]
    for count, one, two in sorted(t for t in tries if t[0] < crowd):
        if ledger.opened >= limit:
            return None
        most = now + worth * (crowd - count)
        if ledger.bound(d, one) + ledger.bound(e, two) <= most and length(d, one) + length(e, two) <= most:
            return tuple({d: one, e: two}.get(k, on) for k, on in enumerate(days))
    return None
