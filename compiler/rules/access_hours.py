"""The crew is at a place outside the hours at which it may be there.

On set: the caretaker locks up while the last lamp is still rigged.

How it is decided: 'access:' of a place against the first and last minute of the crew there in the agreed order, load-in
and putting the house back included. Without an order, a call at the day's place before its access begins is an error in
any order. Source: counting.

Fix: call later, shoot there earlier, or agree longer hours with the owner.

When to accept it: the owner has agreed; then change 'access:'.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from . import timing
from .words import clock, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.timeline import Timeline
    from ..findings import Finding
    from ..plan.day import Day
    from ..plan.location import Location

RULE = "access-hours"
SEVERITY: Final = "error"
TITLE = "the crew is at a place outside its hours"

TRIGGERS = """
hotset: 1
days: {1: {call: 08:00, load-in: 30 min, wrap-out: 30 min, order: [wide]}}
locations:
  landing:
    access: 08:00-10:30  # <- here
    sets: {office: {size: 4 m x 3 m x 2.4 m}}
setups: {wide: {set: office, takes: 2 h, rig: 0 min}}
"""
PASSES = TRIGGERS.replace("10:30  # <- here", "11:00")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    for day in plan.days.values():
        line = facts.timelines.get(day.id)
        for place_id in _places(facts, day):
            place = plan.locations[place_id]
            if place.access is None:
                continue
            start, end = timing.shifted(place.access, int(day.call) if day.call is not None else None)
            if line is None:
                if day.call is not None and day.location == place_id and day.call < start:
                    yield _finding(facts, day, place, int(day.call), None, (start, end))
                elif timing.waiting(facts, day.id):
                    yield timing.not_agreed(RULE, day)
                continue
            first, last = _there(line, place_id)
            if first is not None and last is not None and (first < start or last > end):
                yield _finding(facts, day, place, first, last, (start, end))


def _places(facts: Facts, day: Day) -> list[str]:
    plan = facts.plan
    mine = [(plan.setups[s].set or "").split("/")[0] for s, on in facts.day_of.items() if on == day.id]
    return [name for name in plan.locations if name in mine or name == day.location]


def _there(line: Timeline, place: str) -> tuple[int | None, int | None]:
    """First and last half-minute of the crew at a place: the first and last room also bear the load-in and the wrap."""
    rooms = [s.room.split("/")[0] for s in line.steps if s.room]
    found = [(s.start, s.end) for s in line.steps if s.room and s.room.split("/")[0] == place and s.kind != "move"]
    if not found:
        return None, None
    first = line.call if rooms[0] == place else found[0][0]
    return first, line.wrap if rooms[-1] == place else found[-1][1]


def _finding(
    facts: Facts, day: Day, place: Location, first: int, last: int | None, hours: tuple[int, int]
) -> Finding:
    until = f" to {clock(last)}" if last is not None else " on"
    ways = []
    if first < hours[0]:
        ways.append(f"come to '{place.id}' at {clock(hours[0])} or later")
    if last is not None and last > hours[1]:
        ways.append(f"be out of '{place.id}' by {clock(hours[1])}: shoot there earlier, or less")
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"{place.path}.access",
        f"on day {day.id} the crew is at '{place.id}' from {clock(first)}{until}, and it may be there from "
        f"{clock(hours[0])} to {clock(hours[1])}",
        (*ways, "or agree longer hours with whoever lets you in"),
        (
            ("day", day.id),
            ("location", place.id),
            ("from", clock(first)),
            ("to", clock(last) if last is not None else ""),
            ("access", f"{clock(hours[0])}-{clock(hours[1])}"),
        ),
        also=[(day.path, "the day")],
    )
