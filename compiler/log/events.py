"""What a log holds: events in the order of their lines, day by day, and the faults of lines that are not understood."""

from __future__ import annotations

from ..record import record


@record
class Event:
    """One event. `kind` is a value of `words.VERBS`; `at` is in half-minutes since the day's midnight, None where no
    time is written; `subject` an id of the plan and `family` what it is of (shot, setup, person, gear, stock, set,
    circuit); `count` takes or pieces, `metres` of cloth or gel, 0 where not said. Line and column count from 1."""

    kind: str
    line: int
    column: int = 1
    at: int | None = None
    subject: str = ""
    family: str = ""
    count: int = 0
    metres: float = 0.0


@record
class DayLog:
    """The events of one day of the plan; "" where neither the log nor the plan tells which."""

    day: str
    events: tuple[Event, ...]

    def until(self, at: int) -> DayLog:
        """The events up to a time; what is announced for later (somebody leaves at five) stays."""
        kept: list[Event] = []
        for event in self.events:
            if event.at is not None and event.at > at and event.kind not in ANNOUNCED:
                break
            kept.append(event)
        return DayLog(self.day, tuple(kept))

    @property
    def last(self) -> int | None:
        """The last time written, announcements apart."""
        return next((e.at for e in reversed(self.events) if e.at is not None and e.kind not in ANNOUNCED), None)


@record
class Log:
    """A log that was read: its name as the user wrote it, and its days in the order of the text."""

    name: str
    days: tuple[DayLog, ...]

    def of(self, day: str) -> DayLog:
        """The events of a day, in the order of the lines."""
        return DayLog(day, tuple(e for part in self.days if part.day == day for e in part.events))


@record
class LogFault:
    """A line that is not understood: where (from 1), the sentence, and the way out."""

    line: int
    column: int
    sentence: str
    way_out: str


ANNOUNCED = ("leaves", "comes", "back")
"""Events that may be written down before they happen: their times need not follow the line above."""
