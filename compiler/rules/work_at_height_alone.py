"""Something is rigged above reach, and there is nobody to hold the ladder.

On set: one climbs, the others are at lunch, and the ladder stands on a carpet.

How it is decided: a lamp, flag or cloth on the ceiling or higher than 2.5 m, on a day on which fewer than two of the
crew are there. Silent where the plan names no crew. Source: a person of 1.7 m reaches about 2.1 m (common practice, no
source); a ladder is held, and nobody works at height alone.

Fix: rig it when two are there, or lower it.

When to accept it: somebody of the house holds the ladder, and knows it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from ..source.quantities import show
from .words import Once, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.light import Grip, Light
    from ..plan.setup import Setup

RULE = "work-at-height-alone"
SEVERITY: Final = "warning"
TITLE = "work at height with nobody to hold the ladder"

TRIGGERS = """
hotset: 1
people: {olek: {works: camera}}
gear: {panel: {kind: light}}
setups:
  wide:
    lights:
      moon: {lamp: panel, height: 3.2 m}  # <- here
"""
PASSES = TRIGGERS.replace("works: camera}", "works: camera}, bea: {works: light}").replace("  # <- here", "")
REACH = 2.5  # metres above the floor


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    if not any(hands.is_crew(p) for p in plan.people.values()):
        return
    fresh = Once(plan)
    for setup in plan.setups.values():
        there = len(hands.free_crew(plan, facts.day_of[setup.id], ()))
        for path, who, where in _high(facts, setup) if there < 2 else ():
            if fresh(path):
                yield finding(
                    plan,
                    (RULE, SEVERITY),
                    path,
                    f"{who} in '{setup.id}' is rigged {where}, and only {there} of the crew "
                    f"{'is' if there == 1 else 'are'} there: nobody holds the ladder",
                    ("rig it when two are there, or lower it",),
                    (("setup", setup.id), ("crew", there)),
                )


def _high(facts: Facts, setup: Setup) -> Iterator[tuple[str, str, str]]:
    lengths = facts.plan.film.lengths or "metric"
    items: tuple[Light | Grip, ...] = (*setup.lights.values(), *setup.grip.values())
    for item in items:
        if item.on == "ceiling":
            yield f"{item.path}.on", f"'{item.id}'", "at the ceiling"
        elif item.height is not None and float(item.height) > REACH and not item.held_by:
            yield f"{item.path}.height", f"'{item.id}'", f"at {show('length', item.height, lengths)}"
