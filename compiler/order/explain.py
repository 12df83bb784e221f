"""Why a day cannot be shot: arithmetic first, then an irreducible set of wishes, then ways out that were tried.

A wish is something the plan asks for: a setup that must be shot, a window, a pair in order, a held set, the meals, the
latest wrap. The set is irreducible: take any one away and the rest can be had.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..facts.numbers import FOREVER, IF_TIME, MUST, Day, meet
from ..record import replace as changed
from .solve import feasible, solve

TRIES = 1_500
MOST_GIVEN_UP = 8
PRICES = ("hold", "before", "window", "wrap", "must", "meals")
"""Kinds of wishes, the cheapest to give up first; meals are given up last of all."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What is asked for: `kind` is must, window, before, hold, meals or wrap; `number` the setup, pair or hold;
    `window` which window of the setup."""

    kind: str
    number: int = -1
    window: int = -1


@dataclass(frozen=True, slots=True)
class WayOut:
    """A change that was tried and makes the day possible: `kind` is wrap, call, riggers, that of a wish given up, or
    "together" for several wishes; `half_minutes` how much later, earlier, or nothing."""

    kind: str
    wishes: tuple[Wish, ...] = ()
    half_minutes: int = 0


@dataclass(frozen=True, slots=True)
class Clash:
    """Why there is no order. `sum` are (half-minutes wanted, half-minutes there are, the setups, from, to) where
    plain arithmetic says it; `wishes` cannot all be had; `sure` tells that every step of this was proven."""

    wishes: tuple[Wish, ...]
    sum: tuple[int, int, tuple[int, ...], int, int] | None
    ways_out: tuple[WayOut, ...]
    sure: bool


def explain(day: Day) -> Clash:
    """Why no order of the musts exists. (Where one does exist the clash is empty.)"""
    tally = too_much(day)
    wishes, sure = irreducible(day, _from_sum(day, tally))
    return Clash(wishes, tally, ways_out(day, wishes), sure)


def too_much(day: Day) -> tuple[int, int, tuple[int, ...], int, int] | None:
    """The hours in which more takes must fit than they have: the worst (wanted, there, setups, from, to), or None."""
    end = day.latest_wrap - day.pack
    spans = {}
    for i, s in enumerate(day.setups):
        met = meet(s.windows)
        if s.priority == MUST and met:
            spans[i] = (max(day.call, met[0][0]), min(end, met[-1][1]))
    worst: tuple[int, tuple[int, int, tuple[int, ...], int, int]] | None = None
    for lo in sorted({a for a, _ in spans.values()}):
        for hi in sorted({b for _, b in spans.values()}):
            inside = tuple(i for i, (a, b) in spans.items() if a >= lo and b <= hi)
            wanted = sum(day.setups[i].takes + day.setups[i].fixed for i in inside)
            if inside and wanted > max(hi - lo, 0) and (worst is None or wanted - (hi - lo) > worst[0]):
                worst = (wanted - (hi - lo), (wanted, max(hi - lo, 0), inside, lo, hi))
    return worst[1] if worst else None


def _wishes(day: Day) -> list[Wish]:
    found = [Wish("must", i) for i, s in enumerate(day.setups) if s.priority == MUST]
    found += [Wish("before", k) for k in range(len(day.before))]
    found += [Wish("hold", k) for k in range(len(day.holds))]
    found += [
        Wish("window", i, w) for i, s in enumerate(day.setups) if s.priority == MUST for w in range(len(s.windows))
    ]
    if day.gap < FOREVER or any(m.must for m in day.meals):
        found.append(Wish("meals"))
    if day.latest_wrap < FOREVER:
        found.append(Wish("wrap"))
    return found


def _from_sum(day: Day, tally: tuple[int, int, tuple[int, ...], int, int] | None) -> list[Wish]:
    """All wishes; where arithmetic has spoken, only those of the setups it counted."""
    wishes = _wishes(day)
    if tally is None:
        return wishes
    inside = tally[2]
    return [w for w in wishes if w.kind == "wrap" or (w.kind in ("must", "window") and w.number in inside)]


def granted(day: Day, wishes: list[Wish]) -> Day:
    """The day with these wishes and no others."""
    kept = set(wishes)
    setups = []
    for i, s in enumerate(day.setups):
        windows = tuple(w for k, w in enumerate(s.windows) if Wish("window", i, k) in kept)
        priority = MUST if Wish("must", i) in kept else IF_TIME
        setups.append(changed(s, windows=windows, priority=priority))
    eats = Wish("meals") in kept
    return changed(
        day,
        setups=tuple(setups),
        before=tuple(p for k, p in enumerate(day.before) if Wish("before", k) in kept),
        holds=tuple(h for k, h in enumerate(day.holds) if Wish("hold", k) in kept),
        meals=day.meals if eats else (),
        gap=day.gap if eats else FOREVER,
        latest_wrap=day.latest_wrap if Wish("wrap") in kept else FOREVER,
    )


def irreducible(day: Day, wishes: list[Wish]) -> tuple[tuple[Wish, ...], bool]:
    """Drop wishes, many at once and then one at a time, while it stays impossible."""
    kept, sure = list(wishes), True
    for size in (max(1, len(wishes) // 4), 4, 1):
        at = 0
        while at < len(kept):
            rest = kept[:at] + kept[at + size :]
            able, _ = feasible(granted(day, rest), TRIES)
            if able is False:
                kept = rest
            else:
                sure = sure and (able is not None or size > 1)
                at += size
    return tuple(kept), sure


def ways_out(day: Day, wishes: tuple[Wish, ...]) -> tuple[WayOut, ...]:
    """Changes tried one by one on the whole day: what is kept here makes it possible."""
    found: list[WayOut] = []
    late = solve(granted(day, [w for w in _wishes(day) if w.kind != "wrap"]), TRIES)
    if late.found:
        over = late.parts[0].value - day.latest_wrap
        if over > 0:
            found.append(WayOut("wrap", half_minutes=over))
            if feasible(changed(day, call=day.call - over, fed=None), TRIES)[0]:
                found.append(WayOut("call", half_minutes=over))
    if feasible(changed(day, riggers=day.riggers + 1), TRIES)[0]:
        found.append(WayOut("riggers"))
    everything = _wishes(day)
    for wish in wishes:
        if wish.kind != "wrap" and feasible(granted(day, [w for w in everything if w != wish]), TRIES)[0]:
            found.append(WayOut(wish.kind, (wish,)))
    return tuple(found) or _together(day, wishes)


def _together(day: Day, wishes: tuple[Wish, ...]) -> tuple[WayOut, ...]:
    """Where no single change helps: give up the cheapest wish of each clash in turn, until the rest can be had."""
    left, given = _wishes(day), []
    for _ in range(MOST_GIVEN_UP):
        cheapest = min(wishes, key=lambda w: PRICES.index(w.kind), default=None)
        if cheapest is None:
            return ()
        given.append(cheapest)
        left.remove(cheapest)
        if feasible(granted(day, left), TRIES)[0]:
            return (WayOut("together", tuple(given)),)
        wishes, _ = irreducible(day, left)
    return ()
