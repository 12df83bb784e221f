"""The director has a job of their own during the take, and nobody is free to watch the acting.

On set: the eyes are on the edges of the frame, the focus or the boom, and in the cut the best face was in the take that
nobody saw.

How it is decided: in every take with somebody in the picture that is no insert: somebody named under 'hands:' to watch
('performance', 'watch', 'direct', 'monitor') and with no other job; else whoever directs ('works: direction'), where
they have no job in it; else anybody of the crew whom the jobs of the take leave free (largest matching). Without
anybody who directs, nothing is said. Source: common practice, no source.

Fix: name who watches ('hands: {performance: bea}'), or give the director's job to somebody else.

When to accept it: every take is looked at again before the next, and the day has the time for it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from ..facts.workday import free_crew
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.hands import Job
    from ..findings import Finding
    from ..plan.scene import Shot
    from ..plan.setup import Setup

RULE = "nobody-watches"
SEVERITY: Final = "warning"
TITLE = "nobody is free to watch the acting"

TRIGGERS = """
hotset: 1
people:
  tomas: {works: [direction, camera]}
  jon: {works: sound}
  mara: {plays: CLERK}
setups:
  wide:
    camera: {height: 1.5 m}
    hands:
      camera: tomas  # <- here
      boom: jon
    cast: {CLERK: mara}
"""
PASSES = TRIGGERS.replace("  jon: {", "  bea: {works: art}\n  jon: {").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    lead = hands.directors(plan)
    if not lead:
        return
    met: dict[str, list[tuple[str, str, str]]] = {}
    for setup, shot in facts.takes:
        if shot is None or shot.size != "insert":
            found = _take(facts, setup, shot, lead)
            if found is not None:
                who, path, words = found
                met.setdefault(who, []).append((setup.id, path, words))
    for who, rows in met.items():
        setups = list(dict.fromkeys(setup for setup, _, _ in rows))
        does = list(dict.fromkeys(words for _, _, words in rows))
        yield finding(
            plan,
            (RULE, SEVERITY),
            rows[0][1],
            f"'{who}' directs and {' or '.join(does[:3])} in {quoted(setups)}, and nobody is free to watch the acting",
            (
                "name who watches ('hands: {performance: ...}' of the setup), or ask one more person",
                f"or give what '{who}' does to somebody else",
            ),
            (("person", who), ("setups", ", ".join(setups)), ("takes", len(rows))),
            also=[(f"people.{who}", "directs")],
        )


def _take(facts: Facts, setup: Setup, shot: Shot | None, lead: tuple[str, ...]) -> tuple[str, str, str] | None:
    """Who directs this take with what else to do, where nobody watches it: person, the plan's path, words."""
    plan = facts.plan
    playing = [who for _, who in hands.cast(plan, setup, shot, facts.players)]
    day = facts.day_of[setup.id]
    there = [who for who in lead if hands.present(plan, plan.people[who], day)]
    named = hands.watchers(setup, shot)
    if not playing or not there or "any" in named:  # of 'any' who is missing is said as of every job
        return None
    jobs = hands.jobs(plan, setup, shot)
    busy = {job.who for job in jobs if job.who and not any(p in job.group for p in ("perform", "acting"))} | {*playing}
    if any(who not in busy for who in (*(n for n in named if n in plan.people), *there)) and not any(
        job.who is None for job in jobs
    ):
        return None
    free = free_crew(facts, setup.id, (*busy, *(j.who for j in jobs if j.who)))
    wanted = hands.wanted(plan, jobs, free)
    eyes = [w for w in named if w in plan.people and w not in busy] + [w for w in there if w not in busy]
    wanted["watch"] = [*eyes, *(p.id for p in free if p.id not in eyes)]
    if len(free) >= len(wanted) and all(len(able) >= len(wanted) for able in wanted.values()):
        return None
    from ..science.matching import match

    done = match(wanted)
    if done.left != ("watch",):
        return None
    return _does(facts, setup, shot, there[0], jobs)


def _does(facts: Facts, setup: Setup, shot: Shot | None, who: str, jobs: tuple[Job, ...]) -> tuple[str, str, str]:
    mine = next((j for j in jobs if j.who == who), None)
    if mine is not None:
        return who, mine.path, f"has {mine.words}" if mine.words.startswith("the ") else f"is {mine.words}"
    if any(person == who for _, person in hands.cast(facts.plan, setup, shot, facts.players)):
        return who, hands.cast_path(facts.plan, setup, shot), "is in the picture"
    first = next(j for j in jobs if j.who is None)
    return who, first.path, f"is needed for {first.words}"
