"""A setup needs the dark and is shot before or after it.

On set: everybody waits for the blue to go, and the actors' hours end.

How it is decided: 'needs: dark' asks that the sun's centre stands below -6 deg (the end of civil twilight, rounded to
the minute), or the 'dark-at:' of the day or the place. The takes of the agreed order must lie in the dark; without one,
only a day that ends before dark is said. Source: the civil limit of the Almanac for Computers 1990 (US Naval
Observatory); the sun within 0.02 deg of NREL's solar position algorithm.

Fix: shoot the setup after the hour named, let the day end later, or black the windows out and need no dark.

When to accept it: dusk is dark enough for this picture; then write 'needs: dusk' or a 'dark-at:' of your own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import sky
from ..findings import NotChecked
from . import sunny, unmet
from .physics import Case, causes
from .words import clock, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.setup import Setup

RULE = "needs-dark"
SEVERITY: Final = "error"
TITLE = "a setup needs the dark and is shot in the light"

TRIGGERS = """
hotset: 1
days: {1: {date: 2026-11-14, call: "08:00", wrap: "16:00", weather: the eaves are dry}}
locations:
  landing: {at: "55.01 N, 1.44 W", zone: Europe/London, sets: {quay: {size: 12 m x 6 m, outdoors: true}}}
setups:
  quay-dark:
    set: quay
    needs: dark  # <- here
"""
PASSES = (
    TRIGGERS.replace('call: "08:00", wrap: "16:00"', 'call: "17:00", load-in: 30 min, order: [quay-dark]')
    .replace("set: quay\n", "set: quay\n    takes: 20 min\n    rig: 10 min\n")
    .replace("  # <- here", "")
)


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[tuple[Setup, sunny.Missed]]] = []
    for setup in plan.setups.values():
        if setup.needs != "dark":
            continue
        where, lacks = sunny.place_of(facts, setup), sunny.lacks(facts, setup)
        if lacks or where is None:
            yield NotChecked(RULE, f"setup '{setup.id}'", lacks)
            continue
        found = sunny.missed(facts, setup, RULE, sky.when(plan, *where, "dark") or ())
        if isinstance(found, NotChecked):
            yield found
        elif found is not None:
            cases.append(Case(f"{setup.path}.needs", setup.id, 0.0, (setup, found)))
    for cause in causes(plan, cases):
        setup, missed = cause.worst.what
        after = next((a for a, b in missed.spans if b > missed.rolls[0]), None)
        ways = [f"shoot it after {clock(after)}"] if after is not None else []
        barred = unmet.bars(facts, setup, plan.days[facts.day_of[setup.id] or ""], missed.spans)
        ways += [f"{'and ' if ways else ''}{bar.way}" for bar in barred if bar.who]
        room = plan.set_of(setup.id)
        if room is not None and not room.outdoors:
            ways.append(f"{'or ' if ways else ''}black the windows out, and need no dark")
        else:
            ways.append(f"{'or ' if ways else ''}shoot it on another day")
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"'{setup.id}' needs the dark, there {sunny.hours(sunny.near(missed))}{sunny.blue(facts, setup)}: "
            f"{missed.when}{unmet.besides(barred)}"
            f"{cause.also}",
            tuple(ways),
            (
                ("setup", setup.id),
                ("dark", sunny.hours(sunny.near(missed))),
                ("from", clock(missed.rolls[0])),
                ("to", clock(missed.rolls[1])),
            ),
        )
