"""Fetching things and bringing them back: who goes, from when to when, and from when to when a thing is in hands.

A fetch begins at its `at:`, else it ends when the thing is to be `in-hands:`. A return begins at its `at:`, else it
ends when the thing is `due:`. Times are half-minutes since the midnight of a day of the plan, or of the errand's date.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record

if TYPE_CHECKING:
    import datetime
    from collections.abc import Iterator

    from ..plan import Plan
    from ..plan.day import Day
    from ..plan.gear import Errand, Gear
    from ..plan.stock import Stock
    from ..source.quantities import Moment

USUAL = 60
"""Half-minutes an errand takes that does not say how long; common practice, no source."""
DAY = 2880


@record
class Trip:
    """One errand with its hours: `kind` is fetch or return, `by` a person ("" where nobody is named), `lender` from or
    to whom ("" where not said), `start` and `end` half-minutes since the midnight of `date`; `typical` tells that its
    length is a typical one."""

    thing: str
    kind: str
    by: str
    lender: str
    date: datetime.date
    start: int
    end: int
    path: str
    typical: bool

    def on(self, day: Day) -> tuple[int, int] | None:
        """From when to when on a dated day; None where it does not touch it."""
        if day.date is None:
            return None
        shift = (self.date - day.date).days * DAY
        start, end = self.start + shift, self.end + shift
        return (start, end) if end > 0 and start < 2 * DAY else None

    @property
    def words(self) -> str:
        """As one says of the one who goes: fetches 'panel' from the club."""
        return _words(self.kind, f"'{self.thing}'", self.lender)


def trips(plan: Plan) -> tuple[Trip, ...]:
    """Every errand of which the hour is known, in the order of the plan, a fetch before its return."""
    things: list[Gear | Stock] = [*plan.gear.values(), *plan.stock.values()]
    return tuple(trip for thing in things for trip in _of(thing))


@record
class Drive:
    """Errands done in one go: by the same person, at the same hours, to or from the same place."""

    trips: tuple[Trip, ...]

    @property
    def words(self) -> str:
        """As one says of the one who goes: brings 'panel' and 'cloth' back to the club."""
        first, names = self.trips[0], [f"'{trip.thing}'" for trip in self.trips]
        listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
        return _words(first.kind, listed, first.lender)


def drives(plan: Plan, person: str) -> tuple[Drive, ...]:
    """The errands of a person, those done in one go together, in the order of time."""
    groups: dict[tuple[object, ...], list[Trip]] = {}
    for trip in trips(plan):
        if trip.by == person:
            groups.setdefault((trip.date, trip.start, trip.end, trip.kind, trip.lender), []).append(trip)
    found = [Drive(tuple(group)) for group in groups.values()]
    return tuple(sorted(found, key=lambda d: (d.trips[0].date, d.trips[0].start)))


def _words(kind: str, things: str, lender: str) -> str:
    where = f" {'from' if kind == 'fetch' else 'to'} {lender}" if lender else ""
    return f"fetches {things}{where}" if kind == "fetch" else f"brings {things} back{where}"


def _of(thing: Gear | Stock) -> Iterator[Trip]:
    fetch = thing.fetch
    if fetch is not None:
        yield from _trip(thing, "fetch", fetch, thing.in_hands)
    if thing.return_ is not None:
        yield from _trip(thing, "return", thing.return_, thing.due)


def _trip(thing: Gear | Stock, kind: str, errand: Errand, until: Moment | None) -> Iterator[Trip]:
    takes = USUAL if errand.takes is None else round(float(errand.takes) / 30)
    if errand.at is not None:
        date, start = errand.at.date, errand.at.clock
    elif until is not None:
        date, start = until.date, until.clock - takes
    else:
        return
    yield Trip(thing.id, kind, errand.by or "", thing.lent_by or "", date, start, start + takes, errand.path,
               errand.takes is None)  # fmt: skip


def _on(moment: Moment, day: Day) -> int | None:
    return None if day.date is None else (moment.date - day.date).days * DAY + moment.clock


def comes(thing: Gear | Stock, day: Day) -> int | None:
    """From when a thing is in hands, in half-minutes of a dated day: its 'in-hands:', and not before whoever fetches it
    is back. None where the plan says neither."""
    said = _on(thing.in_hands, day) if thing.in_hands is not None else None
    fetch = thing.fetch
    begins = _on(fetch.at, day) if fetch is not None and fetch.at is not None else None
    if fetch is None or begins is None:
        return said
    back = begins + (USUAL if fetch.takes is None else round(float(fetch.takes) / 30))
    return back if said is None else max(said, back)


def leaves(thing: Gear | Stock, day: Day) -> int | None:
    """When a thing has to leave, in half-minutes of a dated day: when its return begins, else when it is due less the
    way. None where the plan says neither."""
    if day.date is None:
        return None
    back = thing.return_
    if back is not None and back.at is not None:
        return _on(back.at, day)
    due = _on(thing.due, day) if thing.due is not None else None
    if due is None or back is None or back.takes is None:
        return due
    return due - round(float(back.takes) / 30)
