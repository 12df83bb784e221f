"""Hours that no order can bring together: when a setup can be shot by its window, and who or what is not there then.

A window that is missed is mended by another order only where the day, the people and the house are there in it. Times
are half-minutes since the day's midnight.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..facts import changeover, hours, sky
from ..facts.numbers import Window, meet
from . import timing
from .words import clock

if TYPE_CHECKING:
    from ..facts import Facts
    from ..facts.numbers import Spans
    from ..plan.day import Day
    from ..plan.setup import Setup

GRID = 10  # half-minutes; people are asked for five minutes more, not for three
SKY = {"dusk": "it is dusk", "golden": "the light is golden", "daylight": "it is day", "dark": "it is dark",
       "sun": "the sun is there"}  # fmt: skip


class Bar(NamedTuple):
    """What keeps a setup out of its window in any order: in words, who it is ("" for the day itself and for things),
    and what to ask for."""

    words: str
    who: str
    way: str


def bars(facts: Facts, setup: Setup, day: Day, spans: Spans) -> tuple[Bar, ...]:
    """Everything that leaves no room for a setup's takes inside these spans."""
    plan = facts.plan
    length, guessed = hours.takes(plan, setup.id, None)
    length = 1 if guessed else length
    spans = tuple((a, max(b, a + length) if a == b else b) for a, b in spans)
    rooms = [(a, b) for a, b in spans if b - a >= length]
    if not rooms:
        return ()
    times = hours.hours(plan, day.id, changeover.minutes(plan))
    found = []
    frame = timing.frame(day)
    if frame is not None and not _room(spans, (frame[0], frame[1] - times.wrap_out), length):
        packing = f", the last {hours.duration(times.wrap_out)} to pack" if times.wrap_out else ""
        words = f"day {day.id} is from {clock(frame[0])} to {clock(frame[1])}{packing}"
        later = next((a for a, _ in rooms if a + length > frame[0]), None)
        way = f"call day {day.id} earlier" if later is None else (
            f"let day {day.id} last until {clock(_up(max(later, frame[0]) + length + times.wrap_out))}")  # fmt: skip
        found.append(Bar(words, "", way))
    for window in hours.windows(plan, day.id, [setup.id], times)[0].windows:
        if window.shared and window.spans and not any(_room(spans, span, length) for span in window.spans):
            found.append(_bar(window, rooms, length, frame))
    return tuple(found)


def _room(spans: Spans, inside: tuple[int, int], length: int) -> bool:
    met = meet((Window("", spans), Window("", (inside,))))
    return any(b - a >= length for a, b in met)


def _up(time: int) -> int:
    return -(-time // GRID) * GRID


def _bar(window: Window, rooms: list[tuple[int, int]], length: int, frame: tuple[int, int] | None) -> Bar:
    first, last = window.spans[0][0], window.spans[-1][1]
    start = frame[0] if frame is not None else 0
    near = min((r for r in rooms if r[1] > start), key=lambda r: max(r[0] - last, first - r[1]), default=rooms[0])
    late = near[0] + length > last
    until = min(_up(near[0] + length), near[1])
    edge = f"until {clock(until)}" if late else f"from {clock(near[1] - length)} on"
    hours_ = f"from {clock(first)} to {clock(last)}" if first > 0 and last < 2 * timing.NIGHT else (
        f"from {clock(first)} on" if first > 0 else f"until {clock(last)}")  # fmt: skip
    name = window.why.split("'")[1] if "'" in window.why else ""
    if window.why.endswith(" is here"):
        return Bar(f"'{name}' is there only {hours_}", name, f"have '{name}' {'stay' if late else 'there'} {edge}")
    if window.why.startswith("access"):
        return Bar(f"'{name}' is open only {hours_}", "", f"have '{name}' open {edge}")
    return Bar(f"'{name}' is in hands only {hours_}", "", f"keep '{name}' {edge}" if late else f"get '{name}' {edge}")


def said(found: tuple[Bar, ...]) -> str:
    """Their words, as one part of a sentence."""
    return " and ".join(bar.words for bar in found)


def besides(found: tuple[Bar, ...]) -> str:
    """The same behind what is said of the hour; the day's own hours are known from the finding."""
    words = said(tuple(bar for bar in found if bar.who))
    return f", and no order mends it: {words}" if words else ""


def ways(found: tuple[Bar, ...]) -> tuple[str, ...]:
    """What to ask for: all of it is wanted."""
    return tuple(f"{'and ' if k else ''}{bar.way}" for k, bar in enumerate(found))


def under_the_sky(facts: Facts, setup: Setup) -> Spans | None:
    """When the sky is as a setup needs it; None where it needs none, or where that is not known."""
    day, place = facts.day_of[setup.id], facts.plan.location_of(setup.id)
    if setup.needs not in SKY or day is None or place is None:
        return None
    return sky.when(facts.plan, day, place.id, setup.needs)


def wrong_hour(facts: Facts, setup: Setup) -> str:
    """What is wanted before the light of a setup can be judged: an order that shoots it under the sky it needs; ""
    where its takes are there, or where no order is agreed."""
    spans, rolling = under_the_sky(facts, setup), facts.rolling(setup.id)
    if spans is None or rolling is None or any(a <= rolling[0] and rolling[1] <= b for a, b in spans):
        return ""
    return f"an order that shoots it when {SKY[setup.needs or '']}"
