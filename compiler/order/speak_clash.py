"""Words for a day that cannot be shot: what clashes, and the ways out that were tried."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING

from ..facts.follow import LONGEST
from ..facts.hours import duration, full_minute, times_words
from ..facts.numbers import FOREVER

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts.numbers import Day, Spans
    from ..facts.shootday import ShootDay
    from .dayorder import DayOrder
    from .explain import Clash, WayOut, Wish


def clash_lines(result: DayOrder, width: int) -> Iterator[str]:
    """Why there is no order."""
    if result.clash is None:
        yield from wrap(
            f"Day {result.day.id}: no order was found among {result.answer.opened} moments, and none is ruled out; "
            "look at more with '--limit'.",
            width,
        )
        return
    yield from why(result.day, result.clash, width, f"Day {result.day.id} cannot be shot as it is written.")


def why(day: ShootDay, clash: Clash, width: int, head: str) -> Iterator[str]:
    """What cannot be had on a day, after the words of `head`, and the ways out."""
    yield from wrap(head, width)
    if clash.sum is not None:
        yield from wrap(_sum(day, clash), width)
    if clash.wishes:
        yield "These cannot all be had; without any one of them the rest can:"
        for wish in clash.wishes:
            yield from wrap(wish_words(day, wish), width, initial_indent="  - ", subsequent_indent="    ")
        if not clash.sure:
            yield from wrap("(The search ran out before every one of them was shown to be needed.)", width)
    if clash.ways_out:
        yield "Ways out, each tried:"
        for way in clash.ways_out:
            yield from wrap(_way(day, way), width, initial_indent="  - ", subsequent_indent="    ")
    else:
        yield from wrap(
            "No way out was found among single changes and a few together: take setups to another day.", width
        )


def _sum(day: ShootDay, clash: Clash) -> str:
    assert clash.sum is not None
    wanted, there, inside, lo, hi = clash.sum
    names = ", ".join(f"'{day.setups[i]}'" for i in inside)
    return (
        f"Too much by {_minutes(wanted - there)}: {names} take {_minutes(wanted)}, and there are {_minutes(there)} "
        f"between {times_words(lo)} and {times_words(hi)}."
    )


def _minutes(half_minutes: int) -> str:
    """Sums stay in minutes, so that whoever reads can add them up."""
    return f"{full_minute(half_minutes) // 2} min"


def wish_words(shot: ShootDay, wish: Wish) -> str:
    """A wish as the crew says it."""
    day, names = shot.day, shot.setups
    if wish.kind == "must":
        return f"'{names[wish.number]}' must be shot"
    if wish.kind == "window":
        window = day.setups[wish.number].windows[wish.window]
        times = _spans(window.spans, day)
        return f"{window.why}, {times}" if window.shared else f"'{names[wish.number]}' only when: {window.why}, {times}"
    if wish.kind == "before":
        first, then = day.before[wish.number]
        return f"'{names[first]}' before '{names[then]}'"
    if wish.kind == "hold":
        hold = day.holds[wish.number]
        return f"'{names[hold.first]}' stays hot until '{names[hold.until]}' is rigged"
    if wish.kind == "meals":
        return "the meals in their hours" + (f", none later than {day.gap / 120:g} h" if day.gap < FOREVER else "")
    return f"wrap by {times_words(day.latest_wrap)} (the latest wrap less the buffer)"


def _spans(spans: Spans, day: Day) -> str:
    """The spans that touch the day, as the clock shows them."""
    end = day.latest_wrap if day.latest_wrap < FOREVER else day.call + LONGEST
    touching = [f"{times_words(lo)}-{times_words(hi)}" for lo, hi in spans if hi > day.call and lo < end]
    if not touching and spans and spans[0][0] >= 0 and spans[-1][1] <= 2 * LONGEST:
        times = " or ".join(f"{times_words(lo)}-{times_words(hi)}" for lo, hi in spans)
        return f"{times}, which is outside the day"
    return " or ".join(touching) or "never on this day"


def _way(shot: ShootDay, way: WayOut) -> str:
    day = shot.day
    minutes = duration(way.half_minutes)
    if way.kind == "wrap":
        return f"wrap {minutes} later, at {times_words(day.latest_wrap + way.half_minutes)}"
    if way.kind == "call":
        return f"call everybody {minutes} earlier, at {times_words(shot.call - way.half_minutes)}"
    if way.kind == "riggers":
        return f"bring one more rigger: {day.riggers + 1} in all"
    if way.kind == "together":
        return f"give up all of these: {'; '.join(wish_words(shot, w) for w in way.wishes)}"
    if way.kind == "must":
        return f"give up '{shot.setups[way.wishes[0].number]}', or take it to another day"
    return f"give up this: {wish_words(shot, way.wishes[0])}"
