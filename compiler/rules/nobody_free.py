"""More pairs of hands are needed during a take than are free.

On set: the small lamp is to be held, and everybody who could is already holding something.

How it is decided: the jobs of a take are the camera, the sound where the shot or its scene says 'sync', every lamp and
grip thing with 'held-by:', and what 'hands:' names. Named people do what they are named for. The other jobs are matched
to the crew of the day that is not in the picture and, by the agreed order, there for all of the takes (hours, errands,
rooms rigged ahead), each person one job (largest matching by augmenting paths): the camera and the sound to those who
say so under 'works:' or 'skills:' (the camera to anybody where nobody says it), holding to anybody of age. Source:
Hall's theorem (1935) proves the shortage: these jobs, these hands.

Fix: put a lamp on a stand, ask one more person, or let the sound be wild.

When to accept it: somebody comes along who is not in the plan.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from ..facts.workday import free_crew
from ..findings import NotChecked
from .words import Once, counted, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.hands import Job
    from ..findings import Finding
    from ..plan.scene import Shot
    from ..plan.setup import Setup

RULE = "nobody-free"
SEVERITY: Final = "error"
TITLE = "more hands are needed in a take than are free"

TRIGGERS = """
hotset: 1
people:
  olek: {works: camera}
  jon: {works: sound}
gear: {panel: {kind: light}}
setups:
  wide:
    camera: {height: 1.5 m}
    lights:
      lick: {lamp: panel, held-by: any}  # <- here
scenes:
  4: {sound: sync, shots: {4A: {setup: wide}}}
"""
PASSES = TRIGGERS.replace("works: sound}", "works: sound}\n  bea: {works: light}").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    if not any(hands.is_crew(p) for p in plan.people.values()):
        if plan.setups:
            yield NotChecked(RULE, "hands", "'people:' with what each can do ('works:', 'skills:')")
        return
    fresh = Once(plan)
    said: set[str] = set()
    for setup, shot in facts.takes:
        found = _take(facts, setup, shot) if setup.id not in said else None
        if found is not None:
            said.add(setup.id)
            if fresh(found.place.path):
                yield found


def _take(facts: Facts, setup: Setup, shot: Shot | None) -> Finding | None:
    """The first shortage of a take."""
    plan = facts.plan
    jobs = hands.jobs(plan, setup, shot)
    open_jobs = [j for j in jobs if j.who is None]
    if not open_jobs:
        return None
    fixed = {j.who for j in jobs if j.who is not None}
    busy = {*fixed, *(person for _, person in hands.cast(plan, setup, shot, facts.players))}
    free = free_crew(facts, setup.id, busy)
    wanted = hands.wanted(plan, jobs, free)
    if len(free) >= len(wanted) and all(len(w) >= len(wanted) for w in wanted.values()):
        return None
    from ..science.matching import match

    done = match(wanted)
    if not done.shortages:
        return None
    lack = done.shortages[0]
    day = facts.day_of[setup.id]
    gone = [p.id for p in hands.free_crew(plan, day, busy) if p not in free]
    return _finding(
        facts, setup, shot, [open_jobs[int(j)] for j in lack.jobs], list(lack.hands), _gone(facts, setup, gone)
    )


def _gone(facts: Facts, setup: Setup, names: list[str]) -> str:
    """Those of the day who are not there for the takes, and why."""
    days, rolls = facts.work_days.get(facts.day_of[setup.id] or "", {}), facts.rolling(setup.id)
    said = [f"'{n}' {days[n].kept(*rolls)}" for n in names[:3] if n in days and rolls is not None]
    return f"; {', '.join(said)}" if said else ""


def _finding(facts: Facts, setup: Setup, shot: Shot | None, jobs: list[Job], free: list[str], gone: str) -> Finding:
    plan = facts.plan
    at = next((j for j in reversed(jobs) if j.group.startswith("hold ")), jobs[-1])
    take = f" during '{shot.id}'" if shot is not None else ""
    who = f"only {quoted(free)} {'is' if len(free) == 1 else 'are'} free for it" if free else "nobody is free for it"
    words = ", ".join(j.words for j in jobs)
    return finding(
        plan,
        (RULE, SEVERITY),
        at.path,
        f"'{setup.id}'{take} needs {counted(len(jobs), 'more pair')} of hands ({words}), and {who}{gone}",
        (
            *(("put it on a stand: write 'on:' instead of 'held-by:'",) if at.group.startswith("hold ") else ()),
            "ask one more person, or name somebody under 'hands:' who can",
        ),
        (
            ("setup", setup.id),
            ("shot", shot.id if shot else ""),
            ("jobs", len(jobs)),
            ("free", len(free)),
            ("day", facts.day_of[setup.id] or ""),
        ),
        also=[(j.path, j.words) for j in jobs if j is not at],
    )
