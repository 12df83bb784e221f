"""Call sheet: who is called when and where, and all that everybody must know of the day."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from markupsafe import Markup

from ..plan.location import Location
from ..record import record, replace
from .desk import Desk
from .drawings.from_day import day_line
from .marking import once
from .say import join
from .shoot import DayLine
from .view import Mark, Pair, Sheet


@record
class CallRow:
    """One person's call."""

    when: str
    name: str
    job: str
    first: str
    released: str
    marks: tuple[Mark, ...]


@record
class PlanRow:
    """One setup in the day's short list."""

    when: str
    title: str
    where: str
    shots: str
    people: str


@record
class CallSheet:
    """The sheet."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    calls: tuple[CallRow, ...]
    place: tuple[Pair, ...]
    help: tuple[Pair, ...]
    sky: tuple[Pair, ...]
    day: tuple[PlanRow, ...]
    meals: tuple[Pair, ...]
    weather: str
    notes: tuple[str, ...]
    contacts: tuple[Pair, ...]
    drawing: Markup
    marks: tuple[Mark, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day."""
    _ = desk.words
    for line in desk.shoot.days:
        if line.day.id:
            head = desk.head(_("Call sheet"), line)
            yield Sheet("call-sheet", f"{desk.folder(line)}/call-sheet", head, partial(view, desk, line), line.day.id)


def view(desk: Desk, line: DayLine) -> CallSheet:
    """The day for everybody."""
    _ = desk.words
    plan, say, day = desk.shoot.plan, desk.say, line.day
    location = plan.locations.get(day.location or "")
    where = join(", ", (say.location(day.location), location.address or "" if location else ""))
    contacts = [Pair(who, words) for who, words in plan.film.contacts.items()]
    if location and (location.contact or location.phone):
        contacts.append(Pair(_("at the place"), join(", ", (location.contact or "", location.phone or ""))))
    ends = (location.path + ".hospital", location.path + ".permission", location.path + ".access") if location else ()
    keys = ("date", "call", "wrap", "location", "hours", "order", "pinned", "meal")
    told = (*desk.marking.at(day.path), *desk.marking.under(*(f"{day.path}.{key}" for key in keys), *ends))
    seen: set[Mark] = set()
    marks = once(told, seen)
    return CallSheet(
        first_when=say.clock(day.call), first_what=_("Call") if day.call is not None else _("No call time yet"),
        first_where=where, why=line.why,
        calls=tuple(replace(row, marks=once(row.marks, seen)) for row in _calls(desk, line)),
        place=(*(_place(desk, location) if location else ()), *wrap_rows(desk, line)),
        help=tuple(help_rows(desk, line)), sky=tuple(_sky(desk, line)), day=tuple(_plan(desk, line)),
        meals=tuple(_meals(desk, line)), weather=day.weather or "",
        notes=(*day.note, *(day.hours.note if day.hours else ()), *(location.note if location else ()),
               *plan.film.note),
        contacts=tuple(contacts), drawing=Markup(day_line(plan, line, _).svg),
        marks=marks,
    )  # fmt: skip


def _calls(desk: Desk, line: DayLine) -> Iterator[CallRow]:
    plan, say = desk.shoot.plan, desk.say
    rows: list[tuple[int, int, CallRow]] = []
    for name, person in plan.people.items():
        if not desk.here_on(line, name) or (person.plays and not person.works and not _setups(desk, line, name)):
            continue
        call = desk.call_of(line, name)
        mine = _setups(desk, line, name)
        first = next(((line.rolling(s), s) for s in mine), None)
        shoot = [s for s in line.slots if s.kind == "shoot" and name in desk.cast_of_slot(s.shots)]
        crew = bool(person.works)
        end = line.slots[-1].end if crew and line.slots else shoot[-1].end if shoot else None
        job = join(" · ", (", ".join((*person.plays, *person.works)), person.phone or "" if crew else ""))
        row = CallRow(
            say.clock(call), say.person(name), job,
            join(" ", (say.clock(first[0]), say.setup(first[1]))) if first else "",
            say.clock(end), desk.marking.at(person.path, f"{person.path}.here"),
        )  # fmt: skip
        rows.append((call if call is not None else 1 << 20, len(rows), row))
    for _call, _place_in_plan, row in sorted(rows, key=lambda r: r[:2]):
        yield row


def _setups(desk: Desk, line: DayLine, person: str) -> list[str]:
    """The setups in which a person plays, in order."""
    plan = desk.shoot.plan
    return [s for s in line.setups if any(person in desk.cast_of(shot) for shot in plan.shots_of(s))]


def _place(desk: Desk, location: Location) -> Iterator[Pair]:
    _ = desk.words
    yield from pairs(
        (_("address"), location.address), (_("map"), desk.say.value("coordinates", location.at)),
        (_("parking"), location.parking), (_("toilets"), location.toilets), (_("waiting"), location.waiting),
        (_("we may be there"), desk.say.value("clock-range", location.access)),
    )  # fmt: skip


def wrap_rows(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """When the day ends: as it is planned, and what was agreed as the latest."""
    _ = desk.words
    end = desk.say.clock(line.slots[-1].end if line.slots else line.day.wrap)
    yield from pairs((_("end of the day"), wrap_words(desk, line) or end))


def wrap_words(desk: Desk, line: DayLine) -> str:
    """Both ends of the day in one line, where both are known and differ."""
    _ = desk.words
    out, latest = line.slots[-1].end if line.slots else None, line.day.wrap
    if out is None or latest is None or out == latest:
        return ""
    return _("{planned} as planned, {latest} at the latest", planned=desk.say.clock(out), latest=desk.say.clock(latest))


def help_rows(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """Where help is: emergency department and first aid."""
    _ = desk.words
    location = desk.shoot.plan.locations.get(line.day.location or "")
    hospital = location.hospital if location else None
    if hospital:
        away = _("{time} away", time=desk.say.value("duration", hospital.away)) if hospital.away else ""
        words = join(", ", (hospital.name or "", hospital.address or "", hospital.phone or "", away, *hospital.note))
        yield Pair(_("nearest emergency department"), words)
    else:
        yield Pair(_("nearest emergency department"), _("NOT IN THE PLAN: find it before the day"))
    yield Pair(_("first aid"), line.day.first_aid or _("NOT IN THE PLAN: say who and where the kit is"))


def _sky(desk: Desk, line: DayLine) -> Iterator[Pair]:
    _ = desk.words
    sun = desk.shoot.suns.get(line.day.id)
    if sun:
        yield from pairs(
            (_("dark until"), desk.say.clock(sun.dark_until)), (_("sunrise"), desk.say.clock(sun.rise)),
            (_("sunset"), desk.say.clock(sun.set)), (_("dark from"), desk.say.clock(sun.dark_from)),
        )  # fmt: skip


def _plan(desk: Desk, line: DayLine) -> Iterator[PlanRow]:
    plan, say = desk.shoot.plan, desk.say
    for name in line.setups:
        shots = plan.shots_of(name)
        people = dict.fromkeys(desk.say.person(p) for shot in shots for p in desk.cast_of(shot))
        yield PlanRow(
            say.clock(line.rolling(name)), say.setup(name), say.set(plan.setups[name].set),
            ", ".join(shot.id for shot in shots), ", ".join(people),
        )  # fmt: skip


def _meals(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """When and where, and what the kitchen must know, without names."""
    _ = desk.words
    say, day = desk.say, line.day
    slots = [slot for slot in line.slots if slot.kind == "meal"]
    meals = list(day.meals.values()) or ([day.meal] if day.meal else [])
    for place, meal in enumerate(meals):
        when = say.clock(slots[place].start) if place < len(slots) else say.value("clock-range", meal.between)
        words = (when or say.clock(meal.at), say.value("duration", meal.takes), meal.where or "", *meal.note)
        yield Pair(_("meal"), join(", ", words))
    people = desk.shoot.plan.people
    eats: dict[str, int] = {}
    for name, person in people.items():
        if person.eats and desk.here_on(line, name):
            eats[person.eats] = eats.get(person.eats, 0) + 1
    if eats:
        yield Pair(_("for the kitchen"), "; ".join(f"{n} × {words}" for words, n in eats.items()))


def pairs(*rows: tuple[str, str | None]) -> Iterator[Pair]:
    """Rows that say something."""
    for name, words in rows:
        if words:
            yield Pair(name, words)
