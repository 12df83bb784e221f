"""The golden light, or the dusk, is shorter than the takes that are to be shot in it.

On set: the second take is the last one with this sky.

How it is decided: the minutes in which the sun's centre stands between -4 and 6 deg (golden; common practice, from
memory), or between sunset and -6 deg (dusk), inside the day's hours, against the takes of the setups that need it: each
must fit into one such time, all of a day into all of its times. Changeovers are not counted, so the truth is tighter.
Source: the sun within 0.02 deg of NREL's solar position algorithm.

Fix: fewer takes, some of the shots on another day or at the other end of this one, everything rigged ahead.

When to accept it: the last takes may be darker, and everybody knows which shots fall first.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hours, sky
from ..findings import NotChecked
from . import sunny, timing
from .words import clock, finding, quoted, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.day import Day
    from ..plan.setup import Setup

RULE = "golden-hour-too-short"
SEVERITY: Final = "warning"
TITLE = "the golden light is shorter than the takes in it"

TRIGGERS = """
hotset: 1
days: {1: {date: 2026-09-19, call: "12:00", wrap: "21:00", weather: under the willow}}
locations:
  marsh: {at: "53.95 N, 0.30 E", zone: Europe/London, sets: {pond: {size: 30 m x 20 m, outdoors: true}}}
setups:
  pond-golden:
    set: pond
    needs: golden  # <- here
    takes: 90 min
"""
PASSES = TRIGGERS.replace("takes: 90 min", "takes: 50 min").replace("  # <- here", "")
_WORDS = {"golden": "golden light", "dusk": "dusk"}


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    for need in _WORDS:
        for day in facts.plan.days.values():
            here = [s for s in facts.plan.setups.values() if s.needs == need and facts.day_of[s.id] == day.id]
            if here:
                yield from _day(facts, day, here, need)


def _day(facts: Facts, day: Day, here: list[Setup], need: str) -> Iterator[Finding | NotChecked]:
    lacks = sunny.lacks(facts, here[0])
    if lacks:
        yield NotChecked(RULE, f"setup '{here[0].id}'", lacks)
        return
    spans = inside(facts, day, here[0], need)
    longest = max((b - a for a, b in spans), default=0)
    asked = [hours.takes(facts.plan, s.id, None) for s in here]
    for setup, (length, guessed) in zip(here, asked, strict=True):
        if length > longest > 0:
            yield _finding(facts, [setup], length, guessed, spans, longest, need)
            return
    total, there = sum(length for length, _ in asked), sum(b - a for a, b in spans)
    if len(here) > 1 and total > there > 0:
        yield _finding(facts, here, total, next((g for _, g in asked if g), ""), spans, there, need)


def inside(facts: Facts, day: Day, setup: Setup, need: str) -> tuple[sunny.Span, ...]:
    """The spans of that light inside the day's hours."""
    where, frame = sunny.place_of(facts, setup), timing.frame(day)
    spans = sky.when(facts.plan, *where, need) if where is not None else None
    if frame is None:
        return spans or ()
    return tuple((max(a, frame[0]), min(b, frame[1])) for a, b in spans or () if a < frame[1] and b > frame[0])


def too_long(facts: Facts, setup: Setup, day: Day) -> bool:
    """Whether a setup's takes are longer than any time of the light it needs: then it is said here alone."""
    if setup.needs not in _WORDS or sunny.lacks(facts, setup):
        return False
    longest = max((b - a for a, b in inside(facts, day, setup, setup.needs)), default=0)
    return 0 < longest < hours.takes(facts.plan, setup.id, None)[0]


def _finding(
    facts: Facts, setups: list[Setup], asked: int, guessed: str, spans: tuple[sunny.Span, ...], there: int, need: str
) -> Finding:
    names = quoted(s.id for s in setups)
    one = len(setups) == 1
    times = " and ".join(f"{clock(a)} to {clock(b)}" for a, b in spans)
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"{setups[0].path}.needs",
        f"the takes of {names} last {span(asked)}{'' if one else ' together'}, and the {_WORDS[need]} {span(there)} "
        f"({times})",
        (
            f"take {span(asked - there)} of takes out, or shoot them at another end of the day",
            "or rig everything ahead, and say which shots fall first",
        ),
        (("setups", ", ".join(s.id for s in setups)), ("takes_min", asked / 2), ("light_min", there / 2)),
        also=[(f"{s.path}.needs", "needs it too") for s in setups[1:]],
        typical=(*(("golden from -4 to 6 deg",) if need == "golden" else ()), *((guessed,) if guessed else ())),
    )
