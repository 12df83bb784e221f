"""What the rules about the sky share: when it is as a setup needs it, against when the setup rolls.

Without an agreed order only a need that no hour between call and latest wrap meets is said.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..facts import sky, walls
from ..findings import NotChecked
from . import timing
from .words import AGREED, clock

if TYPE_CHECKING:
    from ..facts import Facts
    from ..plan.setup import Setup

Span = tuple[int, int]


class Missed(NamedTuple):
    """A need that is not met: the spans that would meet it, and the words for when the setup is shot."""

    spans: tuple[Span, ...]
    when: str
    rolls: Span


def place_of(facts: Facts, setup: Setup) -> tuple[str, str] | None:
    """The day and the location of a setup."""
    day, place = facts.day_of[setup.id], facts.plan.location_of(setup.id)
    return (day, place.id) if day is not None and place is not None else None


def lacks(facts: Facts, setup: Setup) -> str:
    """The detail without which the sky over a setup is not known; "" where nothing lacks."""
    where = place_of(facts, setup)
    return sky.missing(facts.plan, *where) if where is not None else "the day and the set of the setup"


def struck(facts: Facts, setup: Setup, window_id: str) -> tuple[Span, ...] | None:
    """When direct sun falls on a window on the setup's day."""
    where, bearing = place_of(facts, setup), walls.facing(facts.plan, window_id)
    return sky.struck(facts.plan, *where, bearing) if where is not None and bearing is not None else None


def missed(facts: Facts, setup: Setup, rule: str, spans: tuple[Span, ...]) -> Missed | NotChecked | None:
    """Whether a setup is shot outside of all the spans."""
    day = facts.plan.days[facts.day_of[setup.id] or ""]
    rolling, frame = facts.rolling(setup.id), timing.frame(day)
    if rolling is not None:
        if any(a <= rolling[0] and rolling[1] <= b for a, b in spans):
            return None
        return Missed(spans, f"its takes run from {clock(rolling[0])} to {clock(rolling[1])}", rolling)
    if frame is None or any(a < frame[1] and b > frame[0] for a, b in spans):
        return NotChecked(rule, f"setup '{setup.id}'", AGREED)
    return Missed(spans, f"day {day.id} is from {clock(frame[0])} to {clock(frame[1])}", frame)


def near(missed: Missed) -> tuple[Span, ...]:
    """The spans of the day that is spoken of: those of the nights around it say nothing to anybody."""
    start, end = missed.rolls
    return tuple((a, b) for a, b in missed.spans if b > start - 1440 and a < max(end + 720, 2880))


def hours(spans: tuple[Span, ...]) -> str:
    """From 08:10 to 11:32."""
    return " and ".join(f"from {clock(a)} to {clock(b)}" for a, b in spans) if spans else "at no hour of that day"


def blue(facts: Facts, setup: Setup) -> str:
    """Until when the sky is still blue after it counts as dark: ", the sky still blue until 17:20 and black from
    then"; "" where that is not known."""
    where = place_of(facts, setup)
    black = sky.black(facts.plan, *where) if where is not None else None
    return f", the sky still blue until {clock(black)} and black from then" if black is not None else ""
