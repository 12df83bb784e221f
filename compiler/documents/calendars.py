"""One iCalendar file per person (RFC 5545): their days with call and end, and the errands they have taken on.

The same plan gives the same bytes: identifiers come from film, day and person, stamps from the day itself. Times are
UTC where the place has a time zone, else of no zone at all, which calendars read as the reader's own.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from functools import partial
from hashlib import sha256

from ..facts.sun_at import utc
from ..plan.gear import Errand, Gear
from ..plan.stock import Stock
from ..record import replace
from ..source.quantities import Moment
from .desk import Desk, slug
from .ics import Event, calendar
from .say import join
from .shoot import DayLine
from .view import Sheet

SHORTEST = 60  # half-minutes; an entry must end after it begins, RFC 5545 section 3.6.1
ALL_DAY = 10 * 120  # half-minutes that a day without a known end is taken to last; common practice, no source


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for everybody who has a day or an errand."""
    _ = desk.words
    for name in desk.shoot.plan.people:
        events = (*_days(desk, name), *_errands(desk, name))
        if events:
            head = desk.head(_("Calendar"), None, desk.say.person(name))
            file = f"calendar-{slug(name)}"
            yield Sheet("calendar", file, head, list, people=(name,), ending="ics", text=partial(text, desk, events))


def text(desk: Desk, events: tuple[Event, ...]) -> str:
    """The file; every entry says which version of the plan it is from."""
    version = _version(desk)
    return calendar(replace(event, about=join("\n", (event.about, version))) for event in events)


def _version(desk: Desk) -> str:
    _ = desk.words
    return join(" · ", (_("version {version}", version=desk.shoot.version), desk.shoot.label))


def _days(desk: Desk, name: str) -> Iterator[Event]:
    """The person's days: from their call to their release or the wrap."""
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    person = plan.people[name]
    for line in desk.shoot.days:
        if not line.day.id or line.day.date is None or not desk.here_on(line, name):
            continue
        mine = [s for s in line.setups if any(name in desk.cast_of(shot) for shot in plan.shots_of(s))]
        call = desk.call_of(line, name)
        if call is None or (person.plays and not person.works and not mine):
            continue
        end = max(_end(desk, line, name), call + SHORTEST)
        place = plan.locations.get(line.day.location or "")
        where = join(", ", (say.location(line.day.location), place.address or "" if place else ""))
        shown = ", ".join(say.setup(s) for s in mine)
        about = join("\n", (
            _("Your call: {time}", time=say.clock(call)),
            _("In front of the camera: {setups}", setups=shown) if shown else "",
            _("parking: {where}", where=place.parking) if place and place.parking else "", *line.day.note,
        ))  # fmt: skip
        title = join(" · ", (plan.film.title or _("Film without a title"), desk.day_words(line)))
        yield Event(
            _uid(desk, "day", line.day.id, name), _stamp(line.day.date), _at(desk, line, call), _at(desk, line, end),
            title, where, about,
        )  # fmt: skip


def _end(desk: Desk, line: DayLine, name: str) -> int:
    """Release of somebody who only plays, else the end of the day, else its latest wrap."""
    person = desk.shoot.plan.people[name]
    shoot = [s for s in line.slots if s.kind == "shoot" and name in desk.cast_of_slot(s.shots)]
    if person.plays and not person.works and shoot:
        return shoot[-1].end
    if line.slots:
        return line.slots[-1].end
    call = desk.call_of(line, name) or 0
    wrap = line.day.wrap
    return call + ALL_DAY if wrap is None else wrap + 2880 if wrap <= call else wrap


def _errands(desk: Desk, name: str) -> Iterator[Event]:
    """Things this person fetches or brings back, at the hour the plan says or the one they are due."""
    _ = desk.words
    plan = desk.shoot.plan
    things: list[Gear | Stock] = [*plan.gear.values(), *plan.stock.values()]
    for thing in things:
        fetch: Errand | None = thing.fetch if isinstance(thing, Gear) else None
        rows = (
            (fetch, _("Fetch: {thing}", thing=desk.say.thing(thing.id)), thing.in_hands, "fetch"),
            (thing.return_, _("Bring back: {thing}", thing=desk.say.thing(thing.id)), thing.due, "return"),
        )  # fmt: skip
        for errand, title, due, kind in rows:
            moment = (errand.at or due) if errand else None
            if errand is None or errand.by != name or moment is None:
                continue
            takes = round((errand.takes or 1800.0) / 30)
            late = kind == "return" and errand.at is None
            start, end = (moment.clock - takes, moment.clock) if late else (moment.clock, moment.clock + takes)
            about = join("\n", (thing.lent_by or "", *errand.note))
            yield Event(
                _uid(desk, kind, thing.id, name), _stamp(moment.date), _local(desk, moment, start),
                _local(desk, moment, end), title, thing.lent_by or "", about,
            )  # fmt: skip


def _uid(desk: Desk, *parts: str) -> str:
    film = desk.shoot.plan.film
    told = "\n".join((film.title or "", film.company or "", *parts))
    return f"{sha256(told.encode()).hexdigest()[:32]}@hotset.invalid"


def _stamp(date: datetime.date) -> str:
    """A stamp that only the plan decides; RFC 5545 wants one in every entry."""
    return f"{date:%Y%m%d}T000000Z"


def _at(desk: Desk, line: DayLine, clock: int) -> str:
    """A time of a day: UTC by the zone of the day's place, else floating."""
    seconds = utc(desk.shoot.plan, line.day.id, line.day.location or "", clock)
    if seconds is not None:
        return f"{datetime.datetime.fromtimestamp(seconds, datetime.UTC):%Y%m%dT%H%M%SZ}"
    assert line.day.date is not None
    return _floating(line.day.date, clock)


def _local(desk: Desk, moment: Moment, clock: int) -> str:
    """A time of an errand: by the zone of the day of that date, else floating."""
    for line in desk.shoot.days:
        if line.day.id and line.day.date == moment.date:
            return _at(desk, line, clock)
    return _floating(moment.date, clock)


def _floating(date: datetime.date, clock: int) -> str:
    at = datetime.datetime(date.year, date.month, date.day) + datetime.timedelta(minutes=clock // 2)
    return f"{at:%Y%m%dT%H%M%S}"
