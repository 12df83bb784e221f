"""Ways out of a day that cannot be shot: what people would try first, each tried by solving again.

What adds comes first (a later wrap, an earlier call, one more hand or piece, somebody who stays longer, a setup in two
halves), then what is given up. Meals and rest are never given up; a meal may leave its hours as long as nobody goes too
long without.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import replace as changed
from .clash import IN_ALL, TRIES, WayOut, Wish, all_wishes, clash, granted
from .solve import earliest_wrap

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts.numbers import Day, Window
    from .clash import Trials

MOST_GIVEN_UP = 6
FARTHEST = 480
"""Half-minutes; nobody wraps, stays or comes more than four hours off what was said."""
GRID = 10
"""Half-minutes: people are asked for five minutes more, not for three."""
PIECES = 4
PRICES = ("hold", "before", "meal", "window", "wrap", "must")
"""Kinds of wishes, the cheapest to give up first."""
SETUPS_FIRST = ("must", "hold", "before", "meal", "window", "wrap")
DEAR = ("wrap", "call", "riggers", "piece", "meal", "later", "earlier", "split", "hold", "before", "window", "must",
        "together")  # fmt: skip
"""Ways out in the order in which they are told."""
FIXED = ("needs ", "sun on ", "no sun on ", "rigged ")
"""Windows that nobody can ask to be longer."""


def ways_out(day: Day, wishes: tuple[Wish, ...], trials: Trials) -> tuple[WayOut, ...]:
    """Changes tried one by one on the whole day: what is kept here makes it possible."""
    found = [way for way in _added(day, wishes) if trials.able(after(day, way))]
    for wish in wishes:
        if wish.kind in ("wrap", "meals"):
            continue
        way = WayOut(wish.kind, (wish,))
        if trials.able(after(day, way)):
            found += list(_longer(day, wish, trials)) or [way] if wish.kind == "window" else [way]
    if not found:
        for prices in (PRICES, SETUPS_FIRST):
            found += [way for way in _together(day, wishes, prices, trials) if way not in found]
    return tuple(sorted(found, key=lambda way: DEAR.index(way.kind)))


def after(day: Day, way: WayOut) -> Day:
    """The day with this change."""
    if way.kind == "wrap":
        return changed(day, latest_wrap=day.latest_wrap + way.half_minutes)
    if way.kind == "call":
        fed = None if day.fed is None else day.fed - way.half_minutes
        return changed(day, call=day.call - way.half_minutes, fed=fed)
    if way.kind == "riggers":
        return changed(day, riggers=day.riggers + 1)
    if way.kind == "piece":
        groups = [changed(g, start=(*g.start, 0)) if k == way.number else g for k, g in enumerate(day.groups)]
        return changed(day, groups=tuple(groups))
    if way.kind == "split":
        return _split(day, way.number)
    if way.kind in ("later", "earlier"):
        return _widened(day, way.wishes[0], way.half_minutes, way.kind)
    return granted(day, [w for w in all_wishes(day) if w not in way.wishes])


def _added(day: Day, wishes: tuple[Wish, ...]) -> Iterator[WayOut]:
    """Changes that take nothing away."""
    late = earliest_wrap(granted(day, [w for w in all_wishes(day) if w.kind != "wrap"]), TRIES)
    over = late - day.latest_wrap if late is not None else 0
    over += over % 2
    if 0 < over <= FARTHEST:
        yield WayOut("wrap", half_minutes=over)
        yield WayOut("call", half_minutes=over)
    yield WayOut("riggers")
    musts = [w.number for w in wishes if w.kind == "must"]
    used = [{g for need in day.setups[i].needs for g, _ in need} for i in musts]
    shared = [g for g in range(len(day.groups)) if sum(g in mine for mine in used) > 1]
    for g in shared[:PIECES]:
        yield WayOut("piece", number=g)
    if any(w.kind == "meals" for w in wishes):
        for i in musts:
            if day.setups[i].takes > day.gap // 2:
                yield WayOut("split", number=i)


def _split(day: Day, i: int) -> Day:
    """The day with a setup in two halves: the second finds everything as the first has left it."""
    whole, new = day.setups[i], len(day.setups)
    first = changed(whole, takes=whole.takes - whole.takes // 2)
    second = changed(whole, takes=whole.takes // 2, fixed=0)
    pairs = [(new if a == i else a, b) for a, b in day.before]
    return changed(day, setups=(*day.setups[:i], first, *day.setups[i + 1 :], second), before=(*pairs, (i, new)))


def _widened(day: Day, wish: Wish, by: int, side: str) -> Day:
    """The day with a window open longer; a shared one for all that have it."""
    old = day.setups[wish.number].windows[wish.window]
    spans = old.spans
    if side == "later":
        spans = (*spans[:-1], (spans[-1][0], spans[-1][1] + by))
    else:
        spans = ((spans[0][0] - by, spans[0][1]), *spans[1:])
    new = changed(old, spans=spans)

    def windows(i: int, mine: tuple[Window, ...]) -> tuple[Window, ...]:
        return tuple(new if (w == old if old.shared else (i, k) == (wish.number, wish.window)) else w
                     for k, w in enumerate(mine))  # fmt: skip

    return changed(day, setups=tuple(changed(s, windows=windows(i, s.windows)) for i, s in enumerate(day.setups)))


def _longer(day: Day, wish: Wish, trials: Trials) -> Iterator[WayOut]:
    """The least by which a window has to end later, and begin earlier, where that helps and can be asked for."""
    window = day.setups[wish.number].windows[wish.window]
    if not window.spans or window.why.startswith(FIXED):
        return
    for side in ("later", "earlier"):
        if not trials.able(_widened(day, wish, FARTHEST, side)):
            continue
        low, high = 0, FARTHEST // GRID
        while high - low > 1:
            middle = (low + high) // 2
            if trials.able(_widened(day, wish, middle * GRID, side)):
                high = middle
            else:
                low = middle
        yield WayOut(side, (wish,), high * GRID)


def _later(day: Day, wishes: list[Wish]) -> int:
    """By how much the latest wrap is passed with these wishes, of which it is none."""
    late = earliest_wrap(granted(day, wishes), TRIES) if not any(w.kind == "wrap" for w in wishes) else None
    return max(0, late - day.latest_wrap) if late is not None else 0


def _together(day: Day, wishes: tuple[Wish, ...], prices: tuple[str, ...], trials: Trials) -> tuple[WayOut, ...]:
    """Where no single change helps: give up the cheapest wish of each clash in turn, until the rest can be had."""
    left, given = all_wishes(day), []
    for _ in range(MOST_GIVEN_UP):
        open_to = [w for w in wishes if w.kind in prices]
        cheapest = min(open_to, key=lambda w: prices.index(w.kind), default=None)
        if cheapest is None:
            return ()
        given.append(cheapest)
        left.remove(cheapest)
        able = trials.able(granted(day, left), IN_ALL // 8)
        if able or able is None:
            return (WayOut("together", tuple(given), _later(day, left)),) if able else ()
        wishes, _, _ = clash(day, left, trials)
    return ()
