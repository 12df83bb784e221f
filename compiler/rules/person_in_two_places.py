"""One person has two jobs during the same take.

On set: the boom comes down, because the one who holds it also holds the lamp.

How it is decided: jobs named under 'hands:', 'held-by:', the camera's and the sound's, of a setup and of each of its
shots, who is in the picture (two parts of one person as well, unless the shot says 'vfx:'), and, by the agreed order,
who rigs a room ahead ('ahead:') or is on an errand ('fetch:', 'return:', 30 min where it does not say how long). Camera
and focus count as one job, boom and recorder as one; jobs that take only eyes (direct, watch, script, slate) are none.
Two held lamps with different words under 'during:' may be one person's. Days of two units on the same date whose hours
overlap may not both list a person. Source: common practice, no source.

Fix: give one of the jobs to somebody else, or put the lamp on a stand.

When to accept it: the two never happen in the same second; say when, under 'during:'.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from . import timing
from .words import Once, clock, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.hands import Job
    from ..findings import Finding
    from ..plan.scene import Shot
    from ..plan.setup import Setup

RULE = "person-in-two-places"
SEVERITY: Final = "error"
TITLE = "one person has two jobs in the same take"

TRIGGERS = """
hotset: 1
people:
  olek: {works: camera}
  jon: {works: sound}
gear: {panel: {kind: light}}
setups:
  wide:
    camera: {height: 1.5 m}
    hands: {camera: olek, boom: jon}
    lights:
      lick: {lamp: panel, held-by: jon}  # <- here
"""
PASSES = TRIGGERS.replace("  jon: {works: sound}\n", "  jon: {works: sound}\n  bea: {works: light}\n").replace(
    "held-by: jon}  # <- here", "held-by: bea}"
)


def check(facts: Facts) -> Iterator[Finding]:
    fresh = Once(facts.plan)
    for setup, shot in facts.takes:
        yield from _take(facts, setup, shot, fresh)
    yield from _units(facts)
    yield from _ahead(facts)
    yield from _errands(facts)


def _ahead(facts: Facts) -> Iterator[Finding]:
    """Those who rig a room ahead, and are named for a take at that time."""
    plan = facts.plan
    for day_id, line in facts.timelines.items():
        for early in plan.days[day_id].ahead:
            start = line.call if early.from_ is None else timing.later(int(early.from_), line.call)
            own = line.shooting(early.setup or "")
            end = timing.later(int(early.to), line.call) if early.to is not None else own.start if own else start
            for setup, shot in facts.takes:
                step = line.shooting(setup.id) if facts.day_of[setup.id] == day_id else None
                if step is None or step.end <= start or step.start >= end:
                    continue
                busy = [j.who for j in hands.jobs(plan, setup, shot) if j.who]
                busy += [who for _, who in hands.cast(plan, setup, shot, facts.players)]
                both = [who for who in early.by if who in busy]
                if both:
                    is_, has = ("is", "has") if len(both) == 1 else ("are", "have")
                    yield finding(
                        plan,
                        (RULE, SEVERITY),
                        f"{early.path}.by",
                        f"{quoted(both)} {is_} to rig '{early.setup}' ahead from {clock(start)} to {clock(end)}, and "
                        f"{has} a job in '{setup.id}' from {clock(step.start)} to {clock(step.end)}",
                        ("let somebody else rig it", f"or rig it when '{setup.id}' is done"),
                        (("day", day_id), ("setup", setup.id), ("ahead", early.setup or ""), ("people", len(both))),
                        also=[(setup.path, "shot at that time")],
                    )
                    break


def _errands(facts: Facts) -> Iterator[Finding]:
    """Those who fetch a thing or bring it back, and are named for a take at that time. That the take needs the thing
    itself is for the rules about loans."""
    plan = facts.plan
    if not any(thing.fetch or thing.return_ for thing in plan.gear.values()) and not any(
        thing.return_ for thing in plan.stock.values()
    ):
        return
    for day_id, line in facts.timelines.items():
        for person in plan.people:
            own = facts.work_days[day_id].get(person)
            drives: set[tuple[int, int]] = set()
            for off in own.away if own is not None else ():
                busy = [s for s in line.steps if s.kind == "setup" and s.start < off.end and off.start < s.end]
                names = [s.setup for s in busy if off.thing and _needed(facts, s.setup, person, off.thing)]
                if names and (off.start, off.end) not in drives:  # what goes in one drive is one errand
                    drives.add((off.start, off.end))
                    step = next(s for s in busy if s.setup == names[0])
                    yield finding(
                        plan,
                        (RULE, SEVERITY),
                        off.path,
                        f"'{person}' {off.words} from {clock(off.start)} to {clock(off.end)}, and has a job in "
                        f"{quoted(names)}, shot from {clock(step.start)} to {clock(step.end)}",
                        ("let somebody else go", f"or go when '{names[-1]}' is done: write 'at:' under the errand"),
                        (("person", person), ("day", day_id), ("setup", names[0]), ("thing", off.thing)),
                        also=[(f"setups.{names[0]}", "shot at that time")],
                    )


def _needed(facts: Facts, setup_id: str, person: str, thing: str) -> bool:
    """Whether somebody is named for a setup that does not take the thing itself."""
    if any(thing in use.among for use in facts.uses.get(setup_id, ())):
        return False
    setup = facts.plan.setups[setup_id]
    return any(
        person in [j.who for j in hands.jobs(facts.plan, setup, shot)]
        or person in [who for _, who in hands.cast(facts.plan, setup, shot, facts.players)]
        for shot in facts.shots_of.get(setup_id) or (None,)
    )


def _take(facts: Facts, setup: Setup, shot: Shot | None, fresh: Once) -> Iterator[Finding]:
    plan = facts.plan
    by_person: dict[str, list[Job]] = {}
    for job in hands.jobs(plan, setup, shot):
        if job.who is not None:
            by_person.setdefault(job.who, []).append(job)
    yield from _two_parts(facts, setup, shot, fresh)
    playing = {person: character for character, person in hands.cast(plan, setup, shot, facts.players)}
    for person, mine in by_person.items():
        first, second = mine[0], next((j for j in mine[1:] if _clash(mine[0], j)), None)
        if second is None and person in playing:
            second = first
            words = f"the part of {playing[person]}" if playing[person] else "a part"
            other = hands.cast_path(plan, setup, shot)
        elif second is not None:
            words, other = first.words, first.path
        else:
            continue
        if fresh(second.path, person):
            take = f" during '{shot.id}'" if shot is not None else ""
            yield finding(
                plan,
                (RULE, SEVERITY),
                second.path,
                f"'{person}' has two jobs at once in '{setup.id}'{take}: {words}, and {second.words}",
                (f"give {second.words} to somebody else", *_without_hands(second)),
                (("person", person), ("setup", setup.id), ("shot", shot.id if shot else "")),
                also=[(other, "needed here as well")],
            )


def _two_parts(facts: Facts, setup: Setup, shot: Shot | None, fresh: Once) -> Iterator[Finding]:
    """Who plays two characters that are in the same picture; 'vfx:' of the shot may put them there."""
    parts: dict[str, list[str]] = {}
    for character, person in hands.cast(facts.plan, setup, shot, facts.players):
        if character and character not in parts.setdefault(person, []):
            parts[person].append(character)
    path = hands.cast_path(facts.plan, setup, shot)
    for person, two in parts.items():
        if len(two) > 1 and (shot is None or not shot.vfx) and fresh(path, person):
            take = f"'{shot.id}'" if shot is not None else f"'{setup.id}'"
            yield finding(
                facts.plan,
                (RULE, SEVERITY),
                path,
                f"'{person}' plays {' and '.join(two)}, and {'both' if len(two) == 2 else 'all'} are in {take}",
                (
                    "name who doubles in this shot: 'cast: {...: ...}'",
                    "or say under 'vfx:' how they come into one picture",
                ),
                (("person", person), ("setup", setup.id), ("shot", shot.id if shot else "")),
                also=[(f"people.{person}", "their parts")],
            )


def _without_hands(job: Job) -> tuple[str, ...]:
    return ("or put it on a stand: write 'on:' instead of 'held-by:'",) if job.group.startswith("hold ") else ()


def _clash(a: Job, b: Job) -> bool:
    if a.group == b.group:
        return False
    return not (a.during and b.during and a.during != b.during)


def _units(facts: Facts) -> Iterator[Finding]:
    """Two units on one date."""
    plan = facts.plan
    days = [d for d in plan.days.values() if d.date is not None and d.people and d.call is not None]
    for i, day in enumerate(days):
        for other in days[:i]:
            if day.date != other.date or day.call is None or other.call is None:
                continue
            start, end = max(day.call, other.call), min(day.wrap or 2880, other.wrap or 2880)
            both = [p for p in day.people if p in other.people]
            if both and start < end:
                yield finding(
                    plan,
                    (RULE, SEVERITY),
                    f"{day.path}.people",
                    f"{quoted(both)} {'is' if len(both) == 1 else 'are'} with day '{other.id}' and with day '{day.id}' "
                    f"from {clock(start)} to {clock(end)}, both on {day.date}",
                    ("take them out of one of the two lists under 'people:'", "or change the hours of one unit"),
                    (("day", day.id), ("other_day", other.id), ("people", ", ".join(both))),
                    also=[(f"{other.path}.people", "also listed here")],
                )
