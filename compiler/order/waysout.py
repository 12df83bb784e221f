"""Ways out of a day that cannot be shot: what people would try first, each tried by solving again.

What adds comes first (a later wrap, an earlier call, one more hand or piece, somebody who stays longer, a setup in two
halves), then what is given up. Meals and rest are never given up; a meal may leave its hours as long as nobody goes too
long without.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import replace as changed
from .clash import IN_ALL, TRIES, WayOut, Wish, all_wishes, clash, granted, too_much
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
LOOKED = 2_000
"""Moments looked at for how late it gets."""
PIECES = 4
PRICES = ("hold", "before", "meal", "window", "wrap", "must")
"""Kinds of wishes, the cheapest to give up first."""
DEAR = ("wrap", "call", "riggers", "piece", "meal", "later", "earlier", "split", "hold", "before", "window", "must",
        "together")  # fmt: skip
"""Ways out in the order in which they are told."""
FIXED = ("needs ", "sun on ", "no sun on ", "rigged ")
"""Windows that nobody can ask to be longer."""
GIVING_UP = ("window", "must")
"""Ways out that change what is shot."""


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
        trials.left = max(trials.left, IN_ALL // 2)
        found += _elsewhere(day, wishes, trials)
        found += [way for way in _together(day, wishes, trials) if way not in found]
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


def each_eased(
    day: Day, wishes: tuple[Wish, ...], others: tuple[tuple[Wish, tuple[Wish, ...]], ...], trials: Trials
) -> tuple[WayOut, ...]:
    """Where there are several causes: what can be asked for in each of them, all of it at once."""
    given: list[Wish] = []
    for cause in (wishes, *(more for _, more in others)):
        asked = [w for w in cause if w.kind == "wrap" or (w.kind == "window" and not _fixed(day, w))]
        if not asked:
            return ()
        given += [w for w in asked[:1] if w not in given]
    left = [w for w in all_wishes(day) if w not in given]
    if len(given) < 2 or not trials.able(granted(day, left)):
        return ()
    late = _later(day, left) if Wish("wrap") in given else 0
    return (WayOut("together", tuple(given), late),) if late is not None and late <= FARTHEST else ()


def _fixed(day: Day, wish: Wish) -> bool:
    return day.setups[wish.number].windows[wish.window].why.startswith(FIXED)


def _elsewhere(day: Day, wishes: tuple[Wish, ...], trials: Trials) -> list[WayOut]:
    """The setups to take to another day, the longest first, until the others can be had; none that need not go."""
    left, given = all_wishes(day), []
    for _ in day.setups:
        musts = [w for w in wishes if w.kind == "must" and w in left] or [w for w in left if w.kind == "must"]
        if not musts:
            return []
        longest = max(musts, key=lambda w: (day.setups[w.number].takes + day.setups[w.number].fixed, -w.number))
        given.append(longest)
        left.remove(longest)
        if trials.able(granted(day, left)):
            break
        tally = too_much(granted(day, left))
        wishes = tuple(Wish("must", i) for i in tally[2]) if tally is not None else wishes
    else:
        return []
    for wish in sorted(given, key=lambda w: day.setups[w.number].takes):
        if len(given) > 1 and trials.able(granted(day, [*left, wish])):
            given.remove(wish)
            left.append(wish)
    return [WayOut("together" if len(given) > 1 else "must", tuple(sorted(given, key=lambda w: w.number)))]


def _later(day: Day, wishes: list[Wish]) -> int | None:
    """By how much the latest wrap is passed with these wishes, of which it is none; None where that is not found."""
    late = earliest_wrap(granted(day, wishes), LOOKED)
    return None if late is None else max(0, late + late % 2 - day.latest_wrap)


def _together(day: Day, wishes: tuple[Wish, ...], trials: Trials) -> list[WayOut]:
    """Where no single change helps: give up the cheapest wish of each clash in turn, until the rest can be had."""
    left, given = all_wishes(day), []
    for _ in range(MOST_GIVEN_UP):
        open_to = [w for w in wishes if w.kind in PRICES]
        cheapest = min(open_to, key=lambda w: PRICES.index(w.kind), default=None)
        if cheapest is None:
            return []
        given.append(cheapest)
        left.remove(cheapest)
        able = trials.able(granted(day, left), 2 * TRIES)
        if able or able is None:
            late = _later(day, left) if able and Wish("wrap") in given else 0
            return [WayOut("together", tuple(given), late)] if able and late is not None and late <= FARTHEST else []
        wishes, _, _ = clash(day, left, trials)
    return []
