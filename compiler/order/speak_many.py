"""What `hotset order` prints before the days when it has shared setups out among them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.hours import duration, times_words
from .fold import wrap
from .speak import WIDTH
from .speak_clash import why

if TYPE_CHECKING:
    from collections.abc import Iterator

    from .dayorder import DayOrder
    from .many import Homeless, ManyDays

_WISH = ("must be shot", "is wanted", "is for when there is time")


def speak_days(result: ManyDays, width: int = WIDTH) -> str:
    """Which setups are shot on which day, in words; lines end in a line feed."""
    return "".join(f"{line}\n" for line in day_lines(result, width))


def day_lines(result: ManyDays, width: int = WIDTH) -> Iterator[str]:
    """The same line by line."""
    setups = sum(len(o.day.setups) - len(o.dropped) for o in result.orders)
    days = "1 day" if len(result.orders) == 1 else f"{len(result.orders)} days"
    yield from wrap(f"{setups} setup{'' if setups == 1 else 's'} on {days}, {duration(result.value)} in all.", width)
    yield from wrap(_bound(result), width)
    yield from wrap(_cast(result), width)
    for order in result.orders:
        yield from wrap(_day(order), width, initial_indent="  ", subsequent_indent="    ")
        yield from wrap(_where(order), width, initial_indent="      ", subsequent_indent="        ")
    if result.idle:
        words = "is" if len(result.idle) == 1 else "are"
        day = "Day" if len(result.idle) == 1 else "Days"
        yield from wrap(f"{day} {', '.join(result.idle)} {words} not needed for these setups.", width)
    for one in result.homeless:
        yield from _without_day(one, width)


def _bound(result: ManyDays) -> str:
    if result.value == result.bound:
        return "Proven best: no other sharing out takes less."
    over = 100 * (result.value - result.bound) / max(result.bound, 1)
    return (
        f"Best found: no sharing out takes less than {duration(result.bound)}, so at most {over:.1f} % could be saved."
    )


def _cast(result: ManyDays) -> str:
    if not result.cast:
        return ""
    days = "1 day" if result.cast == 1 else f"{result.cast} days"
    text = f"The cast come for {days}, all of them together"
    if result.spared:
        shortest = f"which takes {duration(result.longer)} less" if result.longer else "which takes as long"
        return f"{text}: {result.spared} fewer than in the shortest sharing found, {shortest}."
    return f"{text}."


def _where(order: DayOrder) -> str:
    """Rooms in the order in which they are shot, and who is called."""
    line = order.timeline
    if line is None:
        return ""
    rooms = dict.fromkeys(s.room for s in line.steps if s.kind == "setup" and s.room)
    places: dict[str, list[str]] = {}
    for room in rooms:
        place, _, name = room.partition("/")
        places.setdefault(place, []).append(name or place)
    day = order.day
    shot = [day.day.setups[day.index(name)] for name in order.order if name in day.setups]
    people = dict.fromkeys(day.day.cast[c] for s in shot for c in s.cast)
    said = [f"{place}: {', '.join(names)}" for place, names in places.items()]
    said += [f"cast: {', '.join(people)}"] if people else []
    return "; ".join(said)


def _day(order: DayOrder) -> str:
    if order.timeline is None:
        return f"day {order.day.id}: no order found for {', '.join(order.day.setups)}"
    line = order.timeline
    names = ", ".join(name for name in order.order if name in order.day.setups)
    times = f"{times_words(line.call)}-{times_words(line.wrap)}, {duration(line.wrap - line.call)}"
    return f"day {order.day.id} ({times}): {names}"


def _without_day(one: Homeless, width: int) -> Iterator[str]:
    how = _WISH[one.priority]
    said = " and ".join([*([", ".join(one.days[:-1])] if one.days[1:] else []), *one.days[-1:]])
    days = f"day{'s' if one.days[1:] else ''} {said}" if one.days else "no day is open to it"
    has = ", and no room was found on " + days if one.days else f", and {days}"
    yield from wrap(f"'{one.setup}' {how}{has}.", width)
    if one.clash is not None and one.nearest is not None:
        yield from why(one.nearest, one.clash, width, f"With it, day {one.nearest.id} cannot be shot.")
