"""Who steps in when somebody is not there: for every job of a take that the lost ones were to do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import hands
from ..facts.spare import Gap
from ..facts.workday import free_crew

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.hands import Job
    from ..plan import Plan
    from ..plan.person import Person
    from ..plan.scene import Shot
    from ..plan.setup import Setup

NEEDED = ("camera", "sound")
"""Jobs without which a take is none; of the others a take can do without."""

RECORDS = ("sound", "record", "mix")
"""Parts of words by which somebody says that they record sound, and do not only hold the boom; common practice, no
source."""


def gaps(facts: Facts, setup: Setup, shot: Shot | None, lost: tuple[str, ...]) -> Iterator[Gap]:
    """The parts and the jobs of a take that nobody is left for, or that somebody else has to do."""
    plan = facts.plan
    playing = hands.cast(plan, setup, shot, facts.players)
    for character, person in playing:
        if person in lost:
            yield Gap(person, hands.cast_path(plan, setup, shot), f"plays {character}")
    jobs = hands.jobs(plan, setup, shot)
    busy = {job.who for job in jobs if job.who} | {person for _, person in playing} | set(lost)
    steps_in = _steps_in(facts, setup, jobs, [j for j in jobs if j.who in lost], busy)
    for job in jobs:
        if job.who not in lost or job.who is None:
            continue
        able = steps_in.get(job.group)
        if able is not None:
            yield Gap(job.who, job.path, job.words, f"'{able}', who is free{_stretch(plan, job, able)}", able)
        elif _needed(job):
            yield Gap(job.who, job.path, job.words)
        else:
            yield Gap(job.who, job.path, job.words, "nobody: the take goes without", "nobody")


def _stretch(plan: Plan, job: Job, name: str) -> str:
    """That somebody who holds a boom would record as well, without saying that they can; "" where nothing is odd."""
    if job.group != "sound" or "boom" in job.words.lower() or _records(plan.people[name]):
        return ""
    said = any(_records(person) for person in plan.people.values())
    return ", but a stretch: no 'record' or 'sound' is said of them" if said else ""


def _records(person: Person) -> bool:
    return any(part in word.lower() for word in (*person.works, *person.skills) for part in RECORDS)


def _needed(job: Job) -> bool:
    return job.group in NEEDED or job.group.startswith("hold ")


def _steps_in(facts: Facts, setup: Setup, jobs: tuple[Job, ...], lost: list[Job], busy: set[str]) -> dict[str, str]:
    """Who takes over which group of jobs (boom and recorder, camera and focus are one person's): first what the take
    cannot do without, then what nobody was named for anyway, then the rest."""
    from ..science.matching import match

    plan = facts.plan
    free = free_crew(facts, setup.id, busy)
    groups = {job.group: _needed(job) for job in lost}
    said = {group: any(hands.can(p, group) for p in plan.people.values()) for group in NEEDED}
    free = sorted(free, key=lambda p: not _records(p)) if "sound" in groups else free
    able = {g: [p.id for p in free if not said.get(g, False) or hands.can(p, g)] for g in groups}
    asked = {g: able[g] for g, needed in groups.items() if needed}
    asked |= hands.wanted(plan, jobs, free)
    asked |= {g: able[g] for g, needed in groups.items() if not needed}
    return {group: who for group, who in match(asked).given.items() if group in groups}
