"""Words for a day that cannot be shot: what clashes, and the ways out that were tried."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.follow import LONGEST
from ..facts.hours import duration, full_minute, times_words
from ..facts.numbers import FOREVER
from ..record import replace
from .clash import WayOut
from .fold import wrap

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts.numbers import Day, Spans, Window
    from ..facts.shootday import ShootDay
    from .clash import Clash, Wish
    from .dayorder import DayOrder


ANY = "\0"


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
        yield "These cannot all be had; without any one of them the others can:"
        yield from _wishes(day, clash.wishes, width)
        for wish, more in clash.others:
            yield from wrap(f"There is another cause. Even {_without(day, wish)} these cannot all be had:", width)
            open_end = replace(day, day=replace(day.day, latest_wrap=FOREVER)) if wish.kind == "wrap" else day
            yield from _wishes(open_end, more, width)
        if not clash.sure:
            yield from wrap("(The search ran out before every one of them was shown to be needed.)", width)
    if clash.ways_out:
        yield "Ways out, each tried:"
        for text in _ways(day, clash.ways_out):
            yield from wrap(text, width, initial_indent="  - ", subsequent_indent="    ")
    else:
        yield from wrap(
            "No way out was found among single changes and a few together: take setups to another day.", width
        )


def _wishes(day: ShootDay, wishes: tuple[Wish, ...], width: int) -> Iterator[str]:
    for wish in wishes:
        yield from wrap(wish_words(day, wish), width, initial_indent="  - ", subsequent_indent="    ")


def _without(shot: ShootDay, wish: Wish) -> str:
    """A wish of the first cause that is let go."""
    if wish.kind != "window":
        return {"wrap": "with a later wrap", "hold": "with nothing held hot", "meal": "with the meal at other hours",
                "before": "in another sequence"}[wish.kind]  # fmt: skip
    window = shot.day.setups[wish.number].windows[wish.window]
    if window.why.endswith(" is here"):
        return f"with {window.why.removesuffix(' is here')} here all day"
    if window.why.endswith(" is in hands"):
        return f"with {window.why.removesuffix(' is in hands')} in hands all day"
    if window.shared:
        return f"with {window.why} at all hours"
    return f"where '{shot.setups[wish.number]}' may be shot at other hours"


def _sum(day: ShootDay, clash: Clash) -> str:
    assert clash.sum is not None
    wanted, there, inside, lo, hi = clash.sum
    names = ", ".join(f"'{day.setups[i]}'" for i in inside)
    rigged = " with their rigging" if any(day.day.setups[i].surely for i in inside) else ""
    return (
        f"Too much by {_minutes(wanted - there)}: {names} take {_minutes(wanted)}{rigged}, "
        f"and there are {_minutes(there)} between {times_words(lo)} and {times_words(hi)}."
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
        if window.why == "pinned":
            return f"'{names[wish.number]}' is pinned, {times}"
        if window.why == "between":
            return f"'{names[wish.number]}' only between its hours, {times}"
        return f"{window.why}, {times}" if window.shared else f"'{names[wish.number]}' only when: {window.why}, {times}"
    if wish.kind == "before":
        first, then = day.before[wish.number]
        return f"'{names[first]}' before '{names[then]}'"
    if wish.kind == "hold":
        hold = day.holds[wish.number]
        return f"'{names[hold.first]}' stays hot until '{names[hold.until]}' is rigged"
    if wish.kind == "meal":
        meal = day.meals[wish.number]
        return f"'{shot.meals[wish.number]}' starts {_clock_span(meal.earliest, meal.latest)}"
    if wish.kind == "meals":
        return "nobody goes longer than " + (f"{day.gap / 120:g} h without a meal" if day.gap < FOREVER else "agreed")
    return f"wrap by {times_words(day.latest_wrap)}, {_limit(shot)}"


def _limit(shot: ShootDay) -> str:
    """What the latest wrap comes from."""
    if shot.ends:
        return shot.ends
    if shot.buffer and shot.out is not None:
        return f"{duration(shot.buffer)} of buffer before everybody is out at {times_words(shot.out)}"
    return "when everybody must be out"


def _clock_span(lo: int, hi: int) -> str:
    return f"at {times_words(lo)}" if lo == hi else f"between {times_words(lo)} and {times_words(hi)}"


def window_hours(shot: ShootDay, window: Window) -> str:
    """When a window is open on the day, as the clock shows it."""
    return _spans(window.spans, shot.day)


def _spans(spans: Spans, day: Day) -> str:
    """The spans that touch the day, as the clock shows them."""
    end = day.latest_wrap if day.latest_wrap < FOREVER else day.call + LONGEST
    touching = [f"{times_words(lo)}-{times_words(hi)}" for lo, hi in spans if hi > day.call and lo < end]
    near = [(lo, hi) for lo, hi in spans if hi > day.call and lo < day.call + LONGEST] or list(spans)
    if not touching and near and near[0][0] >= 0 and near[-1][1] <= 2 * LONGEST:
        times = " or ".join(f"{times_words(lo)}-{times_words(hi)}" for lo, hi in near)
        return f"{times}, which is outside the day"
    return " or ".join(touching) or "never on this day"


def _ways(shot: ShootDay, ways: tuple[WayOut, ...]) -> list[str]:
    """The ways out; setups of which any one may go are one line."""
    found: dict[str, list[str]] = {}
    for way in ways:
        name = f"'{shot.setups[way.wishes[0].number]}'" if way.kind in ("must", "later", "earlier") else ""
        text = _way(shot, way)
        found.setdefault(text.replace(name, ANY) if name else text, []).append(name)
    return [
        text.replace(ANY, names[0] if len(names) == 1 else f"one of {', '.join(names)}")
        for text, names in found.items()
    ]


def _way(shot: ShootDay, way: WayOut) -> str:
    day = shot.day
    minutes = duration(way.half_minutes)
    if way.kind == "wrap":
        if shot.ends:
            return f"end at {times_words(day.latest_wrap + way.half_minutes)}, and call the next day {minutes} later"
        return _later_wrap(shot, way.half_minutes)
    if way.kind == "call":
        return f"call everybody {minutes} earlier, at {times_words(shot.call - way.half_minutes)}"
    if way.kind == "riggers":
        return f"bring one more rigger: {day.riggers + 1} in all"
    if way.kind == "piece":
        return f"get one more '{day.groups[way.number].name}': {len(day.groups[way.number].start) + 1} in all"
    if way.kind == "split":
        return f"make two setups of '{shot.setups[way.number]}', and eat between them"
    if way.kind in ("later", "earlier"):
        return _longer(shot, way, minutes)
    if way.kind == "together" and all(w.kind == "must" for w in way.wishes):
        return f"take {', '.join(f'{shot.setups[w.number]!r}' for w in way.wishes)} to another day"
    if way.kind == "together":
        said = [_given_up(shot, w) if w.kind != "wrap" or not way.half_minutes else
                _way(shot, WayOut("wrap", half_minutes=way.half_minutes)) for w in way.wishes]  # fmt: skip
        return f"all of these: {'; '.join(said)}"
    return _given_up(shot, way.wishes[0])


def _later_wrap(shot: ShootDay, by: int) -> str:
    """A later wrap, or the buffer where that is long enough."""
    if shot.out is None or not shot.buffer:
        return f"wrap {duration(by)} later, at {times_words(shot.day.latest_wrap + by)}"
    out = f"be out {duration(by)} later, at {times_words(shot.out + by)}"
    whole = duration(shot.buffer)
    if by <= shot.buffer:
        return f"spend {duration(by)} of the {whole} of buffer, or {out}"
    return f"{out}; the {whole} of buffer would not be enough"


def _longer(shot: ShootDay, way: WayOut, minutes: str) -> str:
    """A window that ends later or begins earlier, as one asks for it."""
    wish, late = way.wishes[0], way.kind == "later"
    window = shot.day.setups[wish.number].windows[wish.window]
    edge = window.spans[-1][1] + way.half_minutes if late else window.spans[0][0] - way.half_minutes
    at, name = times_words(edge), window.why.split("'")[1] if "'" in window.why else ""
    setup = f"'{shot.setups[wish.number]}'"
    if window.why.endswith("is here"):
        return (
            f"'{name}' stays until {at}, {minutes} longer" if late else f"'{name}' is on set {minutes} sooner, by {at}"
        )
    if window.why.endswith("in hands"):
        return f"keep '{name}' until {at}, {minutes} longer" if late else f"have '{name}' by {at}, {minutes} sooner"
    if window.why.startswith("access"):
        return f"have '{name}' open until {at}, {minutes} longer" if late else f"have '{name}' open from {at} on"
    if window.why == "pinned":
        start = times_words(edge - shot.day.setups[wish.number].takes if late else edge)
        return f"start {setup} at {start}, {minutes} {'later' if late else 'earlier'} than pinned"
    return f"{setup} may run until {at}, {minutes} longer" if late else f"{setup} may begin at {at}, {minutes} sooner"


def _given_up(shot: ShootDay, wish: Wish) -> str:
    """A wish that is given up, as a thing to do."""
    setup = f"'{shot.setups[wish.number]}'" if wish.kind in ("must", "window") else ""
    if wish.kind == "must":
        return f"give up {setup}, or take it to another day"
    if wish.kind == "before":
        first, then = (f"'{shot.setups[i]}'" for i in shot.day.before[wish.number])
        return f"let {then} come before {first} after all"
    if wish.kind == "hold":
        return f"do not hold '{shot.setups[shot.day.holds[wish.number].first]}' hot: note and photograph it"
    if wish.kind == "meal":
        return f"eat outside the hours of '{shot.meals[wish.number]}', but no later than the rules allow"
    if wish.kind == "wrap":
        return "wrap later" if not shot.ends else "end later, and call the next day later"
    why = shot.day.setups[wish.number].windows[wish.window].why
    if why.endswith("is here"):
        return f"have {why.removesuffix(' is here')} here at other hours"
    if why.endswith("in hands"):
        return f"have {why.removesuffix(' is in hands')} at other hours"
    if why.startswith("access"):
        return f"get {why} at other hours"
    if why.startswith("needs "):
        return f"shoot {setup} when it is not {why.removeprefix('needs ')}: another sky, or one that is made with light"
    if why == "pinned":
        return f"leave the time of {setup} open"
    return f"shoot {setup} at other hours ({why})"
