"""First aid: whom to call for whom, and what those responsible must know of people's health. Private, and so alone."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from ..record import record
from .call_sheet import help_rows
from .say import join
from .view import Pair, Sheet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from .desk import Desk
    from .shoot import DayLine


@record
class FirstAid:
    """The sheet: what to do first, and a line for each person of whom there is something to know."""

    help: tuple[Pair, ...]
    health: tuple[Pair, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day on which there is something to know of somebody."""
    _ = desk.words
    people = desk.workers("producer", "first-ad", "first-assistant", "production", "safety")
    for line in desk.shoot.days:
        if line.day.id and any(_health(desk, line)):
            head = desk.head(_("First aid"), line)
            yield Sheet(
                "first-aid", f"{desk.folder(line)}/first-aid", head, partial(view, desk, line), line.day.id, people
            )


def view(desk: Desk, line: DayLine) -> FirstAid:
    """What is said of everybody who is there on the day."""
    return FirstAid(tuple(help_rows(desk, line)), tuple(_health(desk, line)))


def _health(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """Health, whom to call, and those under age: for those responsible alone."""
    _ = desk.words
    for name, person in desk.shoot.plan.people.items():
        if not desk.here_on(line, name):
            continue
        age = _("under age ({age})", age=person.age) if person.minor and person.age else _("under age")
        words = join(" · ", (
            person.health or "", age if person.minor else "",
            _("looked after by {who}", who=desk.say.person(person.guardian)) if person.guardian else "",
            _("call {number}", number=person.emergency) if person.emergency else "", *person.note,
            *(person.days[line.day.id].note if line.day.id in person.days else ()),
        ))  # fmt: skip
        if words:
            yield Pair(desk.say.person(name), words)
