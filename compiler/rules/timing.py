"""What rules about time share: the day of a setup, its hours, and what stays unchecked without an agreed order.

Without an agreed order a rule says only what no order of the day could avoid. Times are half-minutes since the day's
midnight; a clock time before the call belongs to the night after.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..findings import NotChecked
from .words import AGREED

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.timeline import Step, Timeline
    from ..plan.day import Day
    from ..source.quantities import ClockRange, Moment

NIGHT = 2880


def not_agreed(rule: str, day: Day) -> NotChecked:
    """What is said of a day whose order, or whose call, is not known."""
    wants = f"'call:' of day {day.id}" if day.order and day.call is None else AGREED
    return NotChecked(rule, f"day {day.id}", wants)


def setup_steps(facts: Facts) -> Iterator[tuple[Day, Timeline, Step]]:
    """Every setup of the agreed orders as it is shot."""
    for name, line in facts.timelines.items():
        for step in line.steps:
            if step.kind == "setup" and step.setup in facts.plan.setups:
                yield facts.plan.days[name], line, step


def later(clock: int, call: int | None) -> int:
    """A clock time of the day: before the call it is of the night after."""
    return clock + NIGHT if call is not None and clock < call else clock


def shifted(span: ClockRange, call: int | None) -> tuple[int, int]:
    """From and to, moved to the night after where they end before the call."""
    return (span.start + NIGHT, span.end + NIGHT) if call is not None and span.end <= call else (span.start, span.end)


def frame(day: Day) -> tuple[int, int] | None:
    """From call to latest wrap, where the plan says both."""
    if day.call is None or day.wrap is None:
        return None
    return int(day.call), later(int(day.wrap), int(day.call))


def clock_on(moment: Moment, day: Day) -> int | None:
    """A moment of the calendar in half-minutes of a dated day."""
    return None if day.date is None else (moment.date - day.date).days * NIGHT + moment.clock


def waiting(facts: Facts, day_id: str) -> bool:
    """Whether a day has setups and no agreed order that can be followed."""
    return day_id not in facts.timelines and any(d == day_id for d in facts.day_of.values())


def meals_left_out(day: Day) -> list[str]:
    """Meals of the day that the order does not hold: by name, or any called simply 'meal'."""
    named = [name for name in day.meals if name not in day.order]
    plain = sum(entry == "meal" for entry in day.order)
    return [*(["meal"] if day.meal is not None and not plain else []), *named[max(plain - (day.meal is not None), 0) :]]
