"""Who steps in when somebody is not there: for every job of a take that the lost ones were to do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import hands
from ..facts.spare import Gap
from ..facts.workday import free_crew

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..plan.scene import Shot
    from ..plan.setup import Setup

NEEDED = ("camera", "sound")
"""Jobs without which a take is none; of the others a take can do without."""


def gaps(facts: Facts, setup: Setup, shot: Shot | None, lost: tuple[str, ...]) -> Iterator[Gap]:
    """The parts and the jobs of a take that nobody is left for, or that somebody else has to do."""
    plan = facts.plan
    playing = hands.cast(plan, setup, shot, facts.players)
    for character, person in playing:
        if person in lost:
            yield Gap(person, hands.cast_path(plan, setup, shot), f"plays {character}")
    jobs = hands.jobs(plan, setup, shot)
    busy = {job.who for job in jobs if job.who} | {person for _, person in playing} | set(lost)
    stepped_in: dict[str, str] = {}
    for job in jobs:
        if job.who not in lost or job.who is None:
            continue
        if job.group in stepped_in:  # boom and recorder, camera and focus are one person's
            yield Gap(job.who, job.path, job.words, f"'{stepped_in[job.group]}', who is free", stepped_in[job.group])
            continue
        needed = job.group in NEEDED or job.group.startswith("hold ")
        skilled = job.group in NEEDED and any(hands.can(p, job.group) for p in plan.people.values())
        free = free_crew(facts, setup.id, busy)
        able = next((p.id for p in free if not skilled or hands.can(p, job.group)), None)
        if able is not None:
            busy.add(able)
            stepped_in[job.group] = able
            yield Gap(job.who, job.path, job.words, f"'{able}', who is free", able)
        elif needed:
            yield Gap(job.who, job.path, job.words)
        else:
            yield Gap(job.who, job.path, job.words, "nobody: the take goes without", "nobody")
