"""Somebody is needed at a time at which they are not there.

On set: the one who was to pull focus has a train at four.

How it is decided: whoever a setup names (hands, who holds, who records, who is in the picture) must be there on its
day: not away by 'days:', in the day's 'people:' where it has such a list, and with hours ('here:') that meet the day's
at all. With an agreed order the crew's hours must hold the takes they are named for; the hours of the cast have a rule
of their own. Source: counting.

Fix: move the setup, name somebody else, or ask them to come.

When to accept it: they have promised to stay; then change their hours.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from . import timing
from .words import clock, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.day import Day
    from ..plan.person import Person

RULE = "outside-availability"
SEVERITY: Final = "error"
TITLE = "somebody is needed when they are not there"

TRIGGERS = """
hotset: 1
days: {1: {call: 08:00, wrap: 18:00}, 2: {call: 08:00, wrap: 18:00}}
people:
  lea: {works: camera, days: {2: {here: 08:00-18:00}}}
setups:
  wide:
    day: 1
    hands: {camera: lea}  # <- here
"""
PASSES = TRIGGERS.replace("day: 1", "day: 2").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    said: dict[tuple[str, str], tuple[str, str, list[str]]] = {}
    for setup, shot in facts.takes:
        day = plan.days.get(facts.day_of[setup.id] or "")
        if day is None:
            continue
        wanted = [(j.who, j.path, False) for j in hands.jobs(plan, setup, shot) if j.who is not None]
        path = hands.cast_path(plan, setup, shot)
        wanted += [(person, path, True) for _, person in hands.cast(plan, setup, shot, facts.players)]
        for who, where, plays in wanted:
            person = plan.people.get(who)
            why = _why(facts, person, day, setup.id, plays) if person else ""
            if why:
                said.setdefault((who, day.id), (why, where, []))[2].append(setup.id)
    for (who, day_id), (why, where, setups) in said.items():
        names = list(dict.fromkeys(setups))
        yield finding(
            plan,
            (RULE, SEVERITY),
            where,
            f"'{who}' is needed for {quoted(names)} on day {day_id}, and {why}",
            (
                "name somebody else, or move the setup to when they are there",
                f"or change the hours of '{who}' when they have agreed",
            ),
            (("person", who), ("day", day_id), ("setups", ", ".join(names))),
            also=[(f"people.{who}", "their hours")],
        )


def _why(facts: Facts, person: Person, day: Day, setup: str, plays: bool) -> str:
    if day.people and person.id not in day.people:
        return f"is not in the list of people of day {day.id}"
    if person.days and day.id not in person.days:
        return "is away that day"
    here = hands.hours(person, day.id)
    if here is None:
        return ""
    start, end = timing.shifted(here, int(day.call) if day.call is not None else None)
    there = f"is there from {clock(start)} to {clock(end)}"
    frame = timing.frame(day)
    if frame is not None and (end <= frame[0] or start >= frame[1]):
        outside = f"outside of the day from {clock(frame[0])} to {clock(frame[1])}"
        return f"{there}, {outside}"
    line = facts.timelines.get(day.id)
    step = line.shooting(setup) if line is not None and not plays else None
    if step is not None and (step.start < start or step.end > end):
        runs = f"the takes run from {clock(step.start)} to {clock(step.end)}"
        return f"{there}, but {runs}"
    return ""
