"""The answers of trials in the crew's words: lines with an indent each, to be wrapped by whoever prints them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..rules.words import clock, counted, quoted, span

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from ..findings import Finding
    from ..rules.near_misses import Margin
    from .late import Late
    from .weak import WeakPoint
    from .what_if import DayAfter, Fate, WhatIf

Line = tuple[int, str]
"""Steps of indent, and the words."""
UNTOUCHED = "the plan itself is not changed"


def what_if_lines(found: WhatIf) -> Iterator[Line]:
    """What a loss does."""
    fallen = [f for f in found.fates if f.reasons and not f.plan_b]
    second = [f for f in found.fates if f.reasons and f.plan_b]
    saved = [f for f in found.fates if not f.reasons]
    yield 0, f"without {found.words}: {_tally(fallen)}"
    yield from _grouped((f.shot, "; ".join(f.reasons)) for f in fallen)
    if second:
        yield 0, f"{counted(len(second), 'shot falls back', 'shots fall back')} on what the plan says under 'plan-b:':"
        yield from _grouped((f.shot, f"{f.plan_b} ({'; '.join(f.reasons)})") for f in second)
    if saved:
        yield 0, f"{counted(len(saved), 'shot is', 'shots are')} saved:"
        yield from _grouped((f.shot, "; ".join(f.served)) for f in saved)
    if found.untouched:
        yield 0, f"{counted(found.untouched, 'shot is', 'shots are')} not touched"
    for day in found.days:
        yield from _day(day)
    yield from _also(found.new)
    for remark in found.remarks:
        yield 0, f"not decided: {remark}"
    yield 0, UNTOUCHED


def _tally(fallen: list[Fate]) -> str:
    if not fallen:
        return "no shot falls"
    kinds = [("must", "musts"), ("want", "wants"), ("if-time", "if-times")]
    said = [counted(n, word, many) for word, many in kinds if (n := sum(f.priority == word for f in fallen))]
    return f"{counted(len(fallen), 'shot falls', 'shots fall')} ({', '.join(said)})"


def _grouped(rows: Iterable[tuple[str, str]]) -> Iterator[Line]:
    """Shots with the same words behind them on one line."""
    groups: dict[str, list[str]] = {}
    for shot, words in rows:
        groups.setdefault(words, []).append(shot)
    for words, shots in groups.items():
        yield 1, f"{', '.join(shots)}: {words}"


def _day(day: DayAfter) -> Iterator[Line]:
    drops = f"{quoted(day.dropped)} {'drops' if len(day.dropped) == 1 else 'drop'} out, " if day.dropped else ""
    by = abs(day.after - day.before)
    if day.kept or day.missed:  # one day waits for a window and the other does not: their ends do not compare
        then = f"it ends at {clock(day.after)}: {_windows(day)} (its end, {clock(day.before)}, does not compare)"
    elif day.after == day.before:
        then = f"it still ends at {clock(day.after)}"
    else:
        then = f"it ends at {clock(day.after)} instead of {clock(day.before)}, {span(by)} "
        then += "later" if day.after > day.before else "earlier"
    yield 0, f"day {day.day}: {drops}{then}"
    if day.anew is not None:
        yield 1, f"in a new order it would end at {clock(day.anew)}: {', '.join(day.order)}"


def _windows(day: DayAfter) -> str:
    """Why a day ends at another time by nothing that the loss costs or saves."""
    said = []
    if day.kept:
        said.append(f"now the window of {quoted(day.kept)} is kept, which the agreed day misses")
    if day.missed:
        said.append(f"now the window of {quoted(day.missed)} is missed, which the agreed day keeps")
    return " and ".join(said)


def _also(new: Iterable[Finding]) -> Iterator[Line]:
    for one in new:
        yield 0, f"also new: {one.severity}: {one.sentence} [{one.rule}]"


def late_lines(found: Late) -> Iterator[Line]:
    """What a delay does, day by day."""
    if not found.days:
        yield 0, "no day has an agreed order that could slip (`hotset order --write` makes one)"
        return
    if len(found.days) > 1:
        count = len(found.brought)
        new = counted(count, "new finding") if count else "nothing new"
        yield 0, f"{span(2 * found.minutes)} late, each day alone: {new} on {len(found.days)} days"
    for day, before, after in found.days:
        mine = [one for one in found.brought if one.day == day]
        new = counted(len(mine), "new finding") if mine else "nothing new"
        yield 0, f"day {day} {span(2 * found.minutes)} late: {new}; {_ends(found.minutes, before, after)}"
        for one in mine:
            spare = (
                "the first minute brings it" if one.minutes <= 1 else f"{span(2 * (one.minutes - 1))} would still do"
            )
            f = one.finding
            where = f"{f.place.file}:{f.place.line}"
            yield 1, f"{where}: {f.severity}: {f.sentence} [{f.rule}]; from {span(2 * one.minutes)} on, {spare}"
        for f in (one.finding for one in found.worse if one.day == day):
            yield 1, f"{f.place.file}:{f.place.line}: there before, and now: {f.sentence} [{f.rule}]"
    yield 0, UNTOUCHED


def _ends(minutes: int, before: int, after: int) -> str:
    """When a day that slipped ends."""
    if after == before:
        return f"it still ends at {clock(after)}"
    taken = 2 * minutes - (after - before)
    caught = f", {span(taken)} are caught up while it would have waited" if taken > 0 and after > before else ""
    return f"it ends at {clock(after)} instead of {clock(before)}{caught}"


def weak_lines(points: tuple[WeakPoint, ...], musts: int) -> Iterator[Line]:
    """What the film hangs on."""
    if not points:
        yield 0, f"no must of {musts} hangs on one thing alone"
        return
    yield 0, f"{counted(len(points), 'thing')} whose loss alone takes a must away, of {counted(musts, 'must')} in all:"
    for p in points:
        where = f"{p.place.file}:{p.place.line}"
        shots = ", ".join(p.musts[:8]) + (f" and {len(p.musts) - 8} more" if len(p.musts) > 8 else "")
        what = {"lender": "lender ", "circuit": "circuit "}.get(p.kind, "")
        yield 1, f"{where}: {what}'{p.name}' ({p.words}): {counted(len(p.musts), 'must')}: {shots}"
    yield 0, "say what would serve under 'plan-b:' of a thing, get a second one, or make the shot a 'want'"


def margin_lines(found: tuple[Margin, ...]) -> Iterator[Line]:
    """What only just passes."""
    if not found:
        yield 0, "nothing only just passes, as far as the plan tells"
        return
    yield 0, f"{counted(len(found), 'near miss', 'near misses')}, the nearest first:"
    for margin in found:
        yield 1, f"{margin.place.file}:{margin.place.line}: {margin.sentence} [{margin.rule}]"
