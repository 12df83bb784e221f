"""The sentence that says what comes next and by when: made here, whole, for every line; the page only chooses."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..desk import Desk
from ..shoot import DayLine, Slot

if TYPE_CHECKING:
    from .page import Stretch

CUT = "\ufffc"  # stands in a sentence where the names of what is left go; no plan can hold it by accident
CLOSE = 120  # half-minutes to spare under which the latest time stands in the sentence too
NAMED = 2  # how many things are named before "and 4 more"


def first(desk: Desk, stretches: tuple[Stretch, ...]) -> str:
    """The sentence while nothing is ticked, as it stands in the page before any script has run."""
    _ = desk.words
    for stretch in stretches:
        if stretch.whole:
            return stretch.whole.says
        left = [line.name for part in stretch.parts for line in part.lines if line.key]
        if left:
            return stretch.before + _list(desk, left) + stretch.after
        alone = stretch.roll.lines if stretch.roll else stretch.lines
        if alone:
            return alone[0].says
    return _("Nothing is planned for this day yet.")


def _list(desk: Desk, left: list[str]) -> str:
    """Names in a row: all of them where they are few, else the first and how many more."""
    _ = desk.words
    if len(left) > NAMED:
        return _("{names} and {n} more", names=", ".join(left[:NAMED]), n=len(left) - NAMED)
    return _("{one} and {other}", one=left[0], other=left[1]) if len(left) == NAMED else left[0]


def ready(desk: Desk, setup: str, slot: Slot | None) -> tuple[str, str]:
    """What is left to get ready for a setup, by when: the words before and after the names of it."""
    _ = desk.words
    name = desk.say.setup(setup)
    if slot is None:
        said = _("Next: {what} for {setup}; no times are agreed yet.", what=CUT, setup=name)
    else:
        said = _("Next: {what} for {setup}, ready by {time}.", what=CUT, setup=name, time=desk.say.clock(slot.start))
    head, _cut, tail = said.partition(CUT)
    return head, tail


def shot(desk: Desk, setup: str, number: str, at: int | None, slot: Slot | None, opens: bool) -> str:
    """A shot and the minute by which it should be rolling; the latest one too where little is to spare."""
    _ = desk.words
    name = desk.say.setup(setup)
    if at is None or slot is None:
        return _("Next: {shot} from {setup}; no times are agreed yet.", shot=number, setup=name)
    time = desk.say.clock(at)
    if opens and slot.latest is not None and slot.latest - slot.start < CLOSE:
        latest = desk.say.clock(slot.latest)
        return _("Next: {shot} from {setup}, rolling by {time}, {latest} at the latest.", shot=number, setup=name,
                 time=time, latest=latest)  # fmt: skip
    return _("Next: {shot} from {setup}, rolling by {time}.", shot=number, setup=name, time=time)


def common(desk: Desk, slot: Slot, where: str) -> str:
    """A thing that all do together, and when it should be over; nothing for a wait, which nobody does."""
    _ = desk.words
    start, end = desk.say.clock(slot.start), desk.say.clock(slot.end)
    said = {
        "load-in": _("Next: call at {start}, everything carried in by {end}.", start=start, end=end),
        "move": _("Next: move to {where}, there by {end}.", where=where, end=end),
        "meal": _("Next: meal at {start}, back by {end}.", start=start, end=end),
        "room-tone": _("Next: room tone at {start}, everybody quiet until {end}.", start=start, end=end),
        "wrap-out": _("Next: pack, and everybody out by {end}.", end=end),
    }
    return said.get(slot.kind, "")


def call(desk: Desk, line: DayLine, person: str) -> str:
    """The first sentence for somebody who has ticked nothing yet: their own call."""
    _ = desk.words
    at = desk.call_of(line, person)
    if at is None:
        return ""
    return _("Next: {who} is called to {place} by {time}.", who=desk.say.person(person),
             place=desk.say.location(line.day.location) or _("the set"), time=desk.say.clock(at))  # fmt: skip


def needs(desk: Desk, line: DayLine, setup: str, slot: Slot | None) -> Iterator[str]:
    """What the hour of a setup must be: a wait before it, sky, sun, hours, the latest time."""
    _ = desk.words
    wait = line.of_setup(setup, "spare")
    if wait:
        start, end = desk.say.clock(wait.start), desk.say.clock(wait.end)
        yield _("ready from {start}, wait until {time}", start=start, time=end)
    plan = desk.shoot.plan.setups[setup]
    skies = {
        "dark": _("needs darkness outside"), "dusk": _("needs dusk"), "golden": _("needs low sun"),
        "daylight": _("needs daylight"), "sun": _("needs sun"),
    }  # fmt: skip
    if plan.needs in skies:
        yield skies[plan.needs]
    if plan.between:
        yield _("only {hours}", hours=desk.say.value("clock-range", plan.between))
    if slot and slot.missed:
        yield _("NOT INSIDE ITS HOURS")
    if slot and slot.latest is not None and slot.latest < line.slots[-1].end:
        yield _("rolling at the latest by {time}", time=desk.say.clock(slot.latest))
