"""Somebody works above reach, and nobody is there to hold the ladder.

On set: a person on a ladder, a lamp in one hand, and the room is empty.

How it is decided: what a setup hangs on the ceiling, and every lamp, flag or cloth above 2.2 m that stands on no stand
that is raised from the floor, needs a ladder; so does a window that is covered up to more than 2.2 m. It is done alone
where fewer than two of the crew are there that day. The height of reach is common practice, no source; that a ladder is
footed and used for short work: HSE INDG402.

Fix: rig it when two are there, or bring the thing within reach.

When to accept it: a helper of the house holds the ladder; write who.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from ..facts.height import REACH, high
from ..findings import NotChecked
from .physics import Case, causes, length
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "work-at-height-alone"
SEVERITY: Final = "warning"
TITLE = "somebody works above reach and nobody holds the ladder"

TRIGGERS = """
hotset: 1
days: {1: {call: "08:00"}}
locations: {landing: {sets: {hall: {size: 7 m x 5 m x 3.2 m}}}}
people: {olek: {works: gaffer, emergency: "partner, 07700 900113"}}
gear: {panel: {kind: light}}
setups:
  hall-wide:
    set: hall
    lights:
      top: {lamp: panel, on: ceiling, at: [3 m, 2 m], height: 3 m}  # <- here
"""
PASSES = TRIGGERS.replace("people: {", 'people: {bea: {works: art, emergency: "mother, 07700 900111"}, ').replace(
    "  # <- here", ""
)


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[tuple[str, float | None, int]]] = []
    for setup in plan.setups.values():
        above = high(plan, setup)
        if not above:
            continue
        if not any(hands.is_crew(p) for p in plan.people.values()):
            yield NotChecked(RULE, f"setup '{setup.id}'", "the crew under 'people:', with 'works:'")
            continue
        there = len(hands.free_crew(plan, facts.day_of[setup.id], ()))
        if there < 2:
            cases += [Case(path, setup.id, height or 0.0, (words, height, there)) for path, words, height in above]
    for cause in causes(plan, cases):
        words, height, there = cause.worst.what
        at = f" at {length(plan, height)}" if height is not None else " at the ceiling"
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"{words}{at} in '{cause.worst.who}' needs a ladder, and {'one' if there else 'none'} of the crew is "
            f"there: nobody holds it{cause.also}",
            ("rig it when two are there", "or bring it within reach from the floor"),
            (("setup", cause.worst.who), ("height_m", height or 0.0), ("reach_m", REACH), ("crew", there)),
            typical=("height of reach 2.2 m",),
        )
