"""The day of one thing or person: from when to when it is where, and in which state, by the agreed orders.

States: away (not in hands, not there, gone back), in case, rigged (being made ready), in use, held hot, free (it stands
somewhere, or somebody waits), and for people called, meal. Half-minutes of each day.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record, replace
from .hours import times_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan import Plan
    from .facts import Facts
    from .timeline import Step


@record
class Stretch:
    """From `start` to `end` one thing (`piece`, such as "panel 2") is in one `state`: where, and what for."""

    day: str
    piece: str
    start: int
    end: int
    state: str
    where: str = ""
    words: str = ""


@record
class Whereabouts:
    """All stretches in order, and what else is known: of days without an agreed order, of loans, of hours."""

    name: str
    family: str
    stretches: tuple[Stretch, ...]
    known: tuple[str, ...]


def families(plan: Plan) -> dict[str, tuple[str, ...]]:
    """Family -> the whole names that can be asked for."""
    circuits = tuple(c.id for place in plan.locations.values() for c in place.circuits.values())
    return {
        "gear": tuple(plan.gear),
        "stock": tuple(plan.stock),
        "people": tuple(plan.people),
        "sets": tuple(plan.sets),
        "circuits": circuits,
    }


def whereabouts(facts: Facts, family: str, name: str, day_id: str | None = None) -> Whereabouts:
    """Where a thing or a person is, on one day or on all."""
    from . import person_day, room_day, thing_day

    tell = {
        "gear": thing_day.gear,
        "stock": thing_day.stock,
        "people": person_day.person,
        "sets": room_day.room,
        "circuits": room_day.circuit,
    }[family]
    known = {
        "gear": thing_day.known,
        "stock": thing_day.known,
        "people": person_day.known_person,
        "sets": room_day.known_room,
        "circuits": room_day.known_circuit,
    }[family]
    days = [day for day in facts.plan.days if day_id is None or day == day_id]
    found: list[Stretch] = []
    for day in days:
        if day in facts.timelines:
            found += joined(tell(facts, name, day))
    said = [words for day in days for words in known(facts, name, day)]
    return Whereabouts(name, family, tuple(found), tuple(dict.fromkeys(said)))


def joined(stretches: Iterator[Stretch]) -> list[Stretch]:
    """Stretches of each piece in order, with neighbours that say the same made one, and empty ones left out."""
    rows: dict[str, list[Stretch]] = {}
    for one in stretches:
        row = rows.setdefault(one.piece, [])
        if one.end <= one.start:
            continue
        if row and row[-1].end == one.start and replace(row[-1], end=one.end) == replace(one, start=row[-1].start):
            row[-1] = replace(row[-1], end=one.end)
        else:
            row.append(one)
    return [one for row in rows.values() for one in row]


def hot(facts: Facts, day_id: str) -> dict[str, tuple[int, int]]:
    """Setups held hot on a day -> from the end of their takes to when what they are held for is made ready."""
    line = facts.timelines[day_id]
    found = {}
    for name in line.order:
        setup = facts.plan.setups.get(name)
        step = line.shooting(name) if setup is not None else None
        if setup is None or step is None or setup.held_until is None:
            continue
        until = line.preparing(setup.held_until) or line.shooting(setup.held_until)
        found[name] = (step.end, until.start if until is not None else line.wrap)
    return found


def held_during(facts: Facts, day_id: str, step: Step) -> tuple[str, ...]:
    """The setups that stand hot while something else is done."""
    spans = hot(facts, day_id)
    return tuple(name for name, (a, b) in spans.items() if a <= step.start and step.end <= b and name != step.setup)


def not_agreed(day_id: str) -> str:
    """What is said of a day without an order."""
    return f"day {day_id} has no agreed order: when is not decided (`hotset order --write` makes one)"


def clock(half_minutes: int) -> str:
    """07:30; past midnight the clock goes on from 00:00."""
    return times_words(half_minutes)
