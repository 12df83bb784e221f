"""A setup needs the sun, or the sun on a window, and is shot when it is not there.

On set: the beam that the whole scene was built on has left the floor an hour ago.

How it is decided: 'needs: sun' asks that the sun stands above the place's 'skyline:', 'sun-on: W' that direct sun falls
on that window: its wall's bearing from the set's 'north:', the sun by its date and place. The takes of the agreed order
must lie inside; without one, only a sun that does not come at all between call and wrap is said. Clouds are not known.
Source: the sun within 0.02 deg of NREL's solar position algorithm.

Fix: move the setup in the order to the hours named, or make the sun with a lamp outside of the window.

When to accept it: the forecast will decide, and a lamp stands by.
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

    Met = tuple[Setup, str, sunny.Missed]

RULE = "needs-sun"
SEVERITY: Final = "error"
TITLE = "a setup needs the sun when it is not there"

TRIGGERS = """
hotset: 1
days: {1: {date: 2026-11-14, call: "13:00", wrap: "18:00"}}
locations:
  landing:
    at: "55.01 N, 1.44 W"
    zone: Europe/London
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        windows: {hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}}
setups:
  office-morning:
    set: office
    sun-on: hatch  # <- here
"""
PASSES = (
    TRIGGERS.replace('call: "13:00", wrap: "18:00"', 'call: "08:00", load-in: 20 min, order: [office-morning]')
    .replace("set: office\n", "set: office\n    takes: 20 min\n    rig: 10 min\n")
    .replace("  # <- here", "")
)


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        wanted = [(f"{setup.path}.needs", "the sun", None)] if setup.needs == "sun" else []
        rows: list[tuple[str, str, str | None]] = [*wanted]
        rows += [(f"{setup.path}.sun-on", f"the sun on '{w.rsplit('/', 1)[-1]}'", w) for w in setup.sun_on]
        if not rows:
            continue
        lacks = sunny.lacks(facts, setup)
        if lacks:
            yield NotChecked(RULE, f"setup '{setup.id}'", lacks)
            continue
        for path, words, window in rows:
            spans = _spans(facts, setup, window)
            if spans is None:
                yield NotChecked(RULE, f"setup '{setup.id}'", "'wall:' of the window")
                continue
            found = sunny.missed(facts, setup, RULE, spans)
            if isinstance(found, NotChecked):
                yield found
            elif found is not None:
                cases.append(Case(path, setup.id, 0.0, (setup, words, found)))
    for cause in causes(plan, cases):
        setup, words, missed = cause.worst.what
        best = max(sunny.near(missed), key=lambda s: s[1] - s[0], default=None)
        ways = [f"shoot it between {clock(best[0])} and {clock(best[1])}"] if best else []
        barred = unmet.bars(facts, setup, plan.days[facts.day_of[setup.id] or ""], missed.spans)
        ways += [f"{'and ' if ways else ''}{bar.way}" for bar in barred if bar.who]
        ways.append(f"{'or ' if ways else ''}make the sun with a lamp, and take the need out of the plan")
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"'{setup.id}' needs {words}, there {sunny.hours(sunny.near(missed))}: {missed.when}"
            f"{unmet.besides(barred)}{cause.also}",
            tuple(ways),
            (
                ("setup", setup.id),
                ("there", sunny.hours(sunny.near(missed))),
                ("from", clock(missed.rolls[0])),
                ("to", clock(missed.rolls[1])),
            ),
        )


def _spans(facts: Facts, setup: Setup, window: str | None) -> tuple[sunny.Span, ...] | None:
    where = sunny.place_of(facts, setup)
    if window is not None:
        return sunny.struck(facts, setup, window)
    return sky.when(facts.plan, *where, "sun") if where is not None else None
