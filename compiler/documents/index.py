"""The index: every sheet with its files, by day."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ..record import record
from .call_sheet import wrap_rows
from .desk import Desk
from .say import join
from .shoot import DayLine
from .view import Mark, Pair, Sheet

ENDINGS = ("html", "pdf", "csv", "ics")


@record
class Entry:
    """A sheet: its name, whose it is, and its files by ending."""

    name: str
    who: str
    files: tuple[Pair, ...]


@record
class Group:
    """The sheets of a day, or of the whole shoot; at a glance, what the day holds."""

    title: str
    aside: str
    entries: tuple[Entry, ...]
    glance: tuple[Pair, ...] = ()


@record
class Index:
    """The page."""

    synopsis: str
    company: str
    errors: str
    groups: tuple[Group, ...]
    marks: tuple[Mark, ...]


def sheet(desk: Desk, sheets: tuple[Sheet, ...], files: frozenset[str]) -> Sheet:
    """The page that links all sheets of which there are files."""
    _ = desk.words
    return Sheet("index", "index", desk.head(_("All sheets")), partial(view, desk, sheets, files))


def view(desk: Desk, sheets: tuple[Sheet, ...], files: frozenset[str]) -> Index:
    """Sheets of each day, then those of the whole shoot, then every open finding."""
    _ = desk.words
    film = desk.shoot.plan.film
    groups = []
    shown = [s for s in sheets if f"{s.file}.{s.ending}" in files]
    for line in desk.shoot.days:
        folder = f"{desk.folder(line)}/"
        own = tuple(_entry(s, files) for s in shown if s.file.startswith(folder))
        groups.append(Group(desk.day_words(line), desk.date_words(line.day.date), own, tuple(_glance(desk, line))))
    rest = tuple(_entry(s, files) for s in shown if "/" not in s.file)
    if rest:
        groups.append(Group(_("Whole shoot"), "", rest))
    marks = tuple(mark for mark in desk.marking.all() if not mark.accepted)
    errors = sum(1 for mark in marks if mark.kind == "error")
    words = _.count("{n} thing cannot be as planned", "{n} things cannot be as planned", errors) if errors else ""
    return Index(film.synopsis or "", film.company or "", words, tuple(groups), marks)


def _glance(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """The day in a few lines: from call to wrap, and where everybody is when."""
    _ = desk.words
    say = desk.say
    if not line.day.id:
        return
    takes = [slot for slot in line.slots if slot.kind == "shoot"]
    meals = [say.clock(slot.start) for slot in line.slots if slot.kind == "meal"]
    shots = sum(len(desk.shoot.plan.shots_of(name)) for name in line.setups)
    setups = _.count("{n} setup", "{n} setups", len(line.setups))
    rows = [
        (_("call"), join(", ", (say.clock(line.day.call), say.location(line.day.location)))),
        (_("takes"), join(" – ", (say.clock(takes[0].start), say.clock(takes[-1].end))) if takes else ""),
        (_("meal"), ", ".join(meals)),
        *((row.name, row.words) for row in wrap_rows(desk, line)),
        (_("to shoot"), join(", ", (setups, _.count("{n} shot", "{n} shots", shots)))),
        (_("rooms"), " · ".join(_rooms(desk, line))),
    ]  # fmt: skip
    yield from (Pair(name, words) for name, words in rows if words)


def _rooms(desk: Desk, line: DayLine) -> Iterator[str]:
    """Rooms in order with the time from which each is worked in."""
    before = ""
    for name in line.setups:
        room = desk.room_of(line, name)
        if room and room != before:
            yield join(" ", (desk.say.clock(line.start_of(name)), room))
        before = room


def _entry(sheet: Sheet, files: frozenset[str]) -> Entry:
    names = [(ending, f"{sheet.file}.{ending}") for ending in ENDINGS]
    return Entry(sheet.head.title, sheet.head.who, tuple(Pair(e.upper(), name) for e, name in names if name in files))
