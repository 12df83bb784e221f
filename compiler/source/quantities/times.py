"""Clock times, dates, moments and lengths of time."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from .units import measure, quote, split_range, written
from .values import ClockRange, Moment, QuantityError

if TYPE_CHECKING:
    from datetime import date

_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(00|30))?", re.ASCII)
_HALF_DAY = re.compile(r"(\d{1,2})(?:[:.](\d{2}))? ?([ap])\.?m\.?", re.ASCII | re.IGNORECASE)
_DATE = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})", re.ASCII)
DAY = 2880


def clock(text: str, example: str) -> int:
    """Half-minutes since midnight. Hours past 23 belong to the night after: 25:30 is half past one."""
    found = _CLOCK.fullmatch(text)
    if found is None:
        raise QuantityError(*_no_clock(text, example))
    hours, minutes = int(found[1]), int(found[2])
    if minutes > 59:
        raise QuantityError(f"{quote(text)} has {minutes} minutes; an hour has 60", example)
    if hours > 47:
        raise QuantityError(f"{quote(text)} is past 47:59, the end of the next day", example)
    return hours * 120 + minutes * 2 + (found[3] == "30")


def _no_clock(text: str, example: str) -> tuple[str, str]:
    half = _HALF_DAY.fullmatch(text)
    if half is not None and int(half[1]) <= 12 and int(half[2] or 0) < 60:
        hour = int(half[1]) % 12 + (12 if half[3] in "pP" else 0)
        better = f"{hour:02d}:{half[2] or '00'}"
        return f"{quote(text)} counts the hours to twelve, not to 24", better
    dotted = text.replace(".", ":").replace("h", ":")
    if dotted != text and _CLOCK.fullmatch(dotted):
        better = dotted.rjust(5, "0")
        return f"{quote(text)} has no colon between hours and minutes", better
    return f"{quote(text)} is no time of day as hours and minutes", example


def show_clock(value: int) -> str:
    tail = ":30" if value % 2 else ""
    return f"{value // 120:02d}:{value % 120 // 2:02d}{tail}"


def clock_range(text: str, example: str) -> ClockRange:
    """From one time to another; an end not after the start is on the next day."""
    sides = split_range(text)
    if sides is None:
        raise QuantityError(*_no_range(text, example))
    start, end = clock(sides[0], example), clock(sides[1], example)
    if end < start:
        end += DAY
    if end == start:
        raise QuantityError(f"{quote(text)} starts and ends at once", example)
    return ClockRange(start, end)


def _no_range(text: str, example: str) -> tuple[str, str]:
    for word in (" to ", " till ", " until ", ".."):
        start, found, end = text.partition(word)
        if found and start.strip() and end.strip():
            better = f"{_as_clock(start.strip())}-{_as_clock(end.strip())}"
            return f"{quote(text)} joins its two times by '{word.strip()}', where a dash is due", better
    return f"{quote(text)} says one time, and from when to when is due", example


def _as_clock(text: str) -> str:
    """A time of day as it should be written, where it is one in another form."""
    return text if _CLOCK.fullmatch(text) else _no_clock(text, text)[1]


def show_clock_range(value: ClockRange) -> str:
    """An end within 24 h of the start is shown as the clock shows it."""
    end = value.end - DAY if value.end >= DAY and 0 <= value.end - DAY < value.start else value.end
    return f"{show_clock(value.start)}-{show_clock(end)}"


def calendar_date(text: str, example: str) -> date:
    from datetime import date

    found = _DATE.fullmatch(text)
    if found is None:
        raise QuantityError(f"{quote(text)} is no date with the year first, then month and day", example)
    try:
        return date(int(found[1]), int(found[2]), int(found[3]))
    except ValueError:
        raise QuantityError(f"{quote(text)} is no day of the calendar", example) from None


def moment(text: str, example: str) -> Moment:
    day, _, hour = text.partition(" ")
    if not hour:
        raise QuantityError(f"{quote(text)} wants a date and a time, with a blank between", example)
    return Moment(calendar_date(day, example), clock(hour, example))


def show_moment(value: Moment) -> str:
    return f"{value.date.isoformat()} {show_clock(value.clock)}"


def duration(text: str, example: str) -> float:
    """Seconds."""
    return measure("duration", text, example)


def show_duration(seconds: float) -> str:
    """`35 min`, `1 h 30 min`, `90 s`: whole minutes where they are, seconds below two minutes and where they matter."""
    tenths = round(seconds * 10)
    if tenths < 1:
        return f"{written(seconds, 1)} s"
    if tenths % 600 == 0:
        hours, minutes = divmod(tenths // 600, 60)
        parts = [f"{hours} h"] if hours else []
        parts += [f"{minutes} min"] if minutes or not hours else []
        return " ".join(parts)
    if tenths < 1200:
        return f"{written(tenths / 10, 1)} s"
    minutes, rest = divmod(tenths, 600)
    hours, minutes = divmod(minutes, 60)
    parts = [f"{hours} h"] if hours else []
    parts += [f"{minutes} min"] if minutes else []
    return " ".join([*parts, f"{written(rest / 10, 1)} s"])
