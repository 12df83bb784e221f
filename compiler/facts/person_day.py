"""The day of a person: called, made up, in front of the camera or at a job, rigging what, on an errand, at the meal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import replace
from . import errands, hands, hours
from .whereabouts import Stretch, clock, not_agreed
from .workday import free_crew, meal_within, unfed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan.person import Person
    from .facts import Facts
    from .timeline import Step


def person(facts: Facts, name: str, day_id: str) -> Iterator[Stretch]:
    """What somebody does on a day with an agreed order."""
    line = facts.timelines[day_id]
    elsewhere = _elsewhere(facts, name, day_id)
    early = [one.start for one in elsewhere if one.start < line.call]
    late = [one.end for one in elsewhere if one.end > line.wrap]
    day = list(_on_set(facts, name, day_id))
    if early:
        day.insert(0, Stretch(day_id, name, early[0], line.call, "away", words="not called yet"))
    if late:
        day.append(Stretch(day_id, name, line.wrap, late[-1], "away", words="has left"))
    for one in day:
        at = one.start
        for off in elsewhere:
            a, b = max(off.start, at), min(off.end, one.end)
            if a < b:
                yield replace(one, start=at, end=a)
                yield replace(off, start=a, end=b)
                at = b
        yield replace(one, start=at)


def _elsewhere(facts: Facts, name: str, day_id: str) -> list[Stretch]:
    """What somebody fetches, brings back, or rigs ahead on a day, in order."""
    day, wrap = facts.plan.days[day_id], facts.timelines[day_id].wrap
    mine = [(d, d.trips[0].on(day)) for d in errands.drives(facts.plan, name)]
    found = [
        Stretch(day_id, name, *when, "away", words=drive.words)
        for drive, when in mine
        if when is not None and (drive.trips[0].date == day.date or when[0] < wrap)
    ]
    own = facts.work_days[day_id].get(name)
    for off in own.away if own is not None else ():
        if off.setup in facts.plan.setups:
            room = facts.plan.setups[off.setup].set or ""
            found.append(Stretch(day_id, name, off.start, off.end, "rigged", room, off.words))
    return sorted(found, key=lambda one: (one.start, one.end))


def _on_set(facts: Facts, name: str, day_id: str) -> Iterator[Stretch]:
    line, who = facts.timelines[day_id], facts.plan.people[name]
    own = facts.work_days[day_id].get(name)
    if own is None:
        words = "is not needed" if hands.present(facts.plan, who, day_id) else "is not there on this day"
        yield Stretch(day_id, name, line.call, line.wrap, "away", words=words)
        return
    yield Stretch(day_id, name, min(line.call, own.call), own.call, "away", words="not called yet")
    yield Stretch(day_id, name, own.call, min(own.ready, own.end), "called", words="makes ready")
    for step in line.steps:
        a, b = max(step.start, own.ready), min(step.end, own.end)
        if a < b:
            state, words = _does(facts, who, day_id, step)
            yield Stretch(day_id, name, a, b, state, _where(facts, who, day_id, step, state), words)
    yield Stretch(day_id, name, min(own.end, line.wrap), line.wrap, "away", words="has left")


def _where(facts: Facts, who: Person, day_id: str, step: Step, state: str) -> str:
    """Where somebody is: at the meal where the plan says it is eaten; cast that is not needed where the plan lets them
    wait, since nobody idle stands in a set; everybody else where the work is."""
    day = facts.plan.days[day_id]
    if state == "meal":
        meal = day.meals.get(step.words, day.meal)
        return (meal.where if meal is not None else None) or ""
    if state != "free" or hands.is_crew(who):
        return step.room
    place = facts.plan.locations.get(step.room.split("/")[0] or day.location or "")
    return (place.waiting if place is not None else None) or ""


def _does(facts: Facts, who: Person, day_id: str, step: Step) -> tuple[str, str]:
    if step.kind == "meal":
        return "meal", ""
    if step.kind == "setup" and step.setup in facts.plan.setups:
        return _in_takes(facts, who, step.setup)
    if step.kind == "prepare" and hands.is_crew(who):
        return _rigs(facts, who.id, day_id, step)
    if step.kind in ("load-in", "wrap", "move") and hands.is_crew(who):
        return "rigged", {"load-in": "loads in", "wrap": "packs up"}.get(step.kind, "moves")
    return "free", {"room-tone": "room tone", "wait": f"waits: {step.words}"}.get(step.kind, "waits")


def _in_takes(facts: Facts, who: Person, name: str) -> tuple[str, str]:
    """The parts and jobs of the takes of a setup, those that fall to somebody for want of a name among them."""
    plan, setup = facts.plan, facts.plan.setups[name]
    parts: dict[str, list[str]] = {}
    for shot in facts.shots_of.get(setup.id) or (None,):
        named = len(parts)
        for character, person_ in hands.cast(plan, setup, shot, facts.players):
            if person_ == who.id:
                parts.setdefault(f"plays {character}", []).append(shot.id if shot else "")
        for job in (*hands.jobs(plan, setup, shot), *_watchers(facts, setup.id, who.id)):
            if job.who == who.id:
                parts.setdefault(job.words, [])
        if len(parts) == named:
            falls = hands.taken(plan, setup, shot, free_crew(facts, name, ()), facts.players).get(who.id)
            if falls is not None:
                parts.setdefault(falls.words, []).append(shot.id if shot else "")
    said = [f"{words} in {', '.join(shots)}" if shots and shots[0] else words for words, shots in parts.items()]
    return ("in use", f"{', '.join(said)} ('{setup.id}')") if said else ("free", f"not needed in '{setup.id}'")


def _rigs(facts: Facts, name: str, day_id: str, step: Step) -> tuple[str, str]:
    """What of a changeover is somebody's, as the work is shared out."""
    for one in facts.changeovers.get(day_id, ()):
        if one.setup == step.setup and name in one.does:
            mine = ", ".join(one.does[name])
            return (
                ("rigged", f"rigs for '{step.setup}': {mine}") if mine else ("free", f"while '{step.setup}' is rigged")
            )
    return "rigged", f"rigs for '{step.setup}'"


def _watchers(facts: Facts, setup: str, who: str) -> list[hands.Job]:
    """Jobs that take only eyes, which no count of hands holds."""
    named = facts.plan.setups[setup].hands
    mine = [job for job, person_ in named.items() if person_ == who and hands.group_of(job) == "eyes"]
    return [hands.Job("eyes", f"'{job}'", "", who) for job in mine]


def known_person(facts: Facts, name: str, day_id: str) -> Iterator[str]:
    """Errands, hours, too long without a meal, and without an order the setups somebody is in."""
    plan = facts.plan
    who = plan.people[name]
    here = hands.hours(who, day_id)
    for drive in errands.drives(plan, name):
        first = drive.trips[0]
        yield f"{first.date} {clock(first.start)}-{clock(first.end)}: {drive.words}"
    if not hands.present(plan, who, day_id):
        yield f"day {day_id}: not there"
        return
    if here is not None:
        yield f"day {day_id}: there from {clock(here.start)} to {clock(here.end)}"
    if day_id not in facts.timelines:
        setups = [s for s in plan.setups if facts.day_of[s] == day_id and name in hours.people_of(plan, s)]
        if setups:
            yield f"day {day_id}: needed in " + ", ".join(f"'{s}'" for s in setups)
        yield not_agreed(day_id)
        return
    own, limit = facts.work_days[day_id].get(name), meal_within(plan.days[day_id])[0]
    meals = [(s.start, s.end) for s in facts.timelines[day_id].steps if s.kind == "meal"]
    if own is not None:
        for one in unfed([m for m in meals if own.eats(*m)], own.call, own.end, limit):
            yield f"day {day_id}: no meal from {clock(one.start)} to {clock(one.end)}, longer than {limit / 120:g} h"
