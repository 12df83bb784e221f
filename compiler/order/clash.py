"""What cannot be had together on a day: arithmetic first, then an irreducible set of wishes found by search.

A wish is something the plan asks for: a setup that must be shot, a window, a pair in order, a held set, the meals, the
latest wrap. The set is irreducible: take any one away and the rest can be had.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..facts.numbers import FOREVER, IF_TIME, MUST, Day, meet
from ..record import replace as changed
from .solve import feasible

TRIES = 600
IN_ALL = 12_000
OTHERS = 2
"""Further causes that are told."""

Sum = tuple[int, int, tuple[int, ...], int, int]


@dataclass(frozen=True, slots=True)
class Wish:
    """What is asked for: `kind` is must, window, before, hold, meal (the hours of one meal), meals (that they are had,
    none too late) or wrap; `number` the setup, pair, hold or meal; `window` which window of the setup. A shared window
    is one wish, told by the first setup that has it."""

    kind: str
    number: int = -1
    window: int = -1


@dataclass(frozen=True, slots=True)
class WayOut:
    """A change that was tried and makes the day possible. `kind` is wrap, call, riggers, piece (one more of group
    `number`), later or earlier (a window that is longer by `half_minutes`), split (setup `number` shot in two halves),
    that of a wish given up, or "together" for several wishes."""

    kind: str
    wishes: tuple[Wish, ...] = ()
    half_minutes: int = 0
    number: int = -1


@dataclass(frozen=True, slots=True)
class Clash:
    """Why there is no order. `sum` are (half-minutes wanted, half-minutes there are, the setups, from, to) where
    plain arithmetic says it; `wishes` cannot all be had; `sure` tells that every step of this was proven. `others` are
    sets of wishes that cannot be had either, each with the wish of the first set whose going does not help for that."""

    wishes: tuple[Wish, ...]
    sum: Sum | None
    ways_out: tuple[WayOut, ...]
    sure: bool
    others: tuple[tuple[Wish, tuple[Wish, ...]], ...] = ()


def other_clashes(day: Day, wishes: tuple[Wish, ...], trials: Trials) -> tuple[tuple[Wish, tuple[Wish, ...]], ...]:
    """Second causes: what still cannot be had when a wish of the first clash is let go (a setup that is given up is no
    wish that one would rather keep). Each set is irreducible by itself."""
    found: list[tuple[Wish, tuple[Wish, ...]]] = []
    for wish in wishes:
        if wish.kind in ("must", "meals") or len(found) >= OTHERS:
            continue
        left = [w for w in all_wishes(day) if w != wish]
        if trials.able(granted(day, left)) is not False:
            continue
        more, _, sure = clash(day, left, trials)
        if sure and more and more not in [m for _, m in found]:
            found.append((wish, more))
    return tuple(found)


class Trials:
    """Counts the moments opened by all trials together, so that explaining ends on any day."""

    def __init__(self) -> None:
        self.left = IN_ALL

    def able(self, day: Day, most: int = TRIES) -> bool | None:
        """Whether the musts of a day can be shot; None where that is not known within the limits."""
        if self.left <= 0:
            return None
        found, opened = feasible(day, min(most, self.left))
        self.left -= opened
        return found


def clash(day: Day, wishes: list[Wish], trials: Trials) -> tuple[tuple[Wish, ...], Sum | None, bool]:
    """An irreducible clash among these wishes: of one setup with itself, else of sums, else found by search."""
    asked = granted(day, wishes)
    single = _alone(day, wishes)
    if single:
        return single, None, True
    tally = too_much(asked)
    if tally is not None:
        inside = {w for i in tally[2] for w in _windows_of(day, i)}
        wishes = [w for w in wishes if w.kind == "wrap" or w in inside or (w.kind == "must" and w.number in tally[2])]
    found, sure = irreducible(day, wishes, trials)
    return found, tally, sure


def _alone(day: Day, wishes: list[Wish]) -> tuple[Wish, ...]:
    """The wishes that keep one setup from being shot at all, whatever else is done; none where each can be."""
    kept = set(wishes)
    for i in range(len(day.setups)):
        mine = [Wish("must", i), *dict.fromkeys(_windows_of(day, i)), Wish("wrap")]
        mine = [w for w in mine if w in kept]
        if mine and mine[0].kind == "must" and not _fits(granted(day, mine), i):
            for wish in mine[1:]:
                rest = [w for w in mine if w != wish]
                if not _fits(granted(day, rest), i):
                    mine = rest
            return tuple(mine)
    return ()


def _fits(day: Day, i: int) -> bool:
    end = day.latest_wrap - day.pack
    takes = day.setups[i].takes
    return any(max(lo, day.call) + takes <= min(hi, end) for lo, hi in meet(day.setups[i].windows))


def _windows_of(day: Day, i: int) -> list[Wish]:
    """The wishes that are the windows of a setup, in its order."""
    found = []
    for k, window in enumerate(day.setups[i].windows):
        at = (i, k)
        if window.shared:
            at = next((j, m) for j, s in enumerate(day.setups) for m, w in enumerate(s.windows) if w == window)
        found.append(Wish("window", *at))
    return found


def too_much(day: Day) -> Sum | None:
    """The hours in which more takes must fit than they have: the worst (wanted, there, setups, from, to), or None."""
    end = day.latest_wrap - day.pack
    spans = {}
    for i, s in enumerate(day.setups):
        met = meet(s.windows)
        if s.priority == MUST and met:
            spans[i] = (max(day.call, met[0][0]), min(end, met[-1][1]))
    worst: tuple[int, Sum] | None = None
    for lo in sorted({a for a, _ in spans.values()}):
        for hi in sorted({b for _, b in spans.values()}):
            inside = tuple(i for i, (a, b) in spans.items() if a >= lo and b <= hi)
            wanted = sum(day.setups[i].takes + day.setups[i].surely for i in inside)
            if inside and lo > day.call:  # the first of them is rigged before
                wanted -= max(day.setups[i].surely for i in inside)
            if inside and wanted > max(hi - lo, 0) and (worst is None or wanted - (hi - lo) > worst[0]):
                worst = (wanted - (hi - lo), (wanted, max(hi - lo, 0), inside, lo, hi))
    return worst[1] if worst else None


def all_wishes(day: Day) -> list[Wish]:
    found = [Wish("must", i) for i, s in enumerate(day.setups) if s.priority == MUST]
    found += [Wish("before", k) for k in range(len(day.before))]
    found += [Wish("hold", k) for k in range(len(day.holds))]
    windows = [w for i, s in enumerate(day.setups) if s.priority == MUST for w in _windows_of(day, i)]
    found += dict.fromkeys(windows)
    found += [Wish("meal", k) for k, m in enumerate(day.meals) if m.earliest > -FOREVER or m.latest < FOREVER]
    if day.gap < FOREVER or any(m.must for m in day.meals):
        found.append(Wish("meals"))
    if day.latest_wrap < FOREVER:
        found.append(Wish("wrap"))
    return found


def granted(day: Day, wishes: list[Wish]) -> Day:
    """The day with these wishes and no others."""
    kept = set(wishes)
    setups = []
    for i, s in enumerate(day.setups):
        windows = tuple(w for w, wish in zip(s.windows, _windows_of(day, i), strict=True) if wish in kept)
        priority = MUST if Wish("must", i) in kept else IF_TIME
        setups.append(changed(s, windows=windows, priority=priority))
    eats = Wish("meals") in kept
    meals = [m if Wish("meal", k) in kept else changed(m, earliest=-FOREVER, latest=FOREVER)
             for k, m in enumerate(day.meals)]  # fmt: skip
    return changed(
        day,
        setups=tuple(setups),
        before=tuple(p for k, p in enumerate(day.before) if Wish("before", k) in kept),
        holds=tuple(h for k, h in enumerate(day.holds) if Wish("hold", k) in kept),
        meals=tuple(meals) if eats else (),
        gap=day.gap if eats else FOREVER,
        latest_wrap=day.latest_wrap if Wish("wrap") in kept else FOREVER,
    )


def irreducible(day: Day, wishes: list[Wish], trials: Trials) -> tuple[tuple[Wish, ...], bool]:
    """Drop wishes, many at once and then one at a time, while it stays impossible."""
    kept, sure = list(wishes), True
    for size in (max(1, len(wishes) // 4), 4, 1):
        at = 0
        while at < len(kept):
            rest = kept[:at] + kept[at + size :]
            able = trials.able(granted(day, rest))
            if able is False:
                kept = rest
            else:
                sure = sure and (able is not None or size > 1)
                at += size
    return tuple(kept), sure
