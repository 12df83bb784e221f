"""A setup is shot when the sky, its own hours or its fixed time do not allow it.

On set: the sun is behind the roof when the camera rolls.

How it is decided: a setup's 'needs:' (dusk, golden, daylight; the dark and the sun are rules of their own), its
'between:' and the day's 'pinned:' time, against when its takes run in the agreed order. Without one, hours that the day
from call to wrap, or somebody in it, does not meet at all are missed in any order. Source: sun by the formulas of the
Almanac for Computers (1990); the rest is counting.

Fix: move the setup in the order, ask whoever is not there then to stay, change its hours, or treat the window so that
the sky does not matter.

When to accept it: the forecast or a rehearsal on the day will decide; then write 'needs: any'.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from . import golden_hour_too_short, timing, unmet
from .words import AGREED, clock, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.day import Day
    from ..plan.setup import Setup

RULE = "window-missed"
SEVERITY: Final = "error"
TITLE = "a setup is shot outside the hours it needs"

TRIGGERS = """
hotset: 1
days: {1: {call: 08:00, load-in: 30 min, order: [wide, close]}}
setups:
  wide: {takes: 1 h, rig: 0 min}
  close:
    takes: 1 h
    rig: 0 min
    between: 08:30-10:00  # <- here
"""
PASSES = TRIGGERS.replace("10:00  # <- here", "11:00")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    for setup in plan.setups.values():
        day = plan.days.get(facts.day_of[setup.id] or "")
        if day is None:
            continue
        for path, words, spans in _windows(facts, setup, day):
            if spans is None:
                yield NotChecked(RULE, f"setup '{setup.id}'", words)
                continue
            found = _judge(facts, setup, day, path, words, spans)
            if found is not None:
                yield found


def _windows(
    facts: Facts, setup: Setup, day: Day
) -> Iterator[tuple[str, str, tuple[tuple[int, int], ...] | None]]:
    """Where a window is said, its words, and from when to when; None where a detail is missing, named in the words."""
    call = int(day.call) if day.call is not None else None
    if setup.between is not None:
        yield f"{setup.path}.between", "its hours", (timing.shifted(setup.between, call),)
    if setup.id in day.pinned:
        at = timing.later(int(day.pinned[setup.id]), call)
        yield f"{day.path}.pinned.{setup.id}", "its fixed time", ((at, at),)
    if setup.needs in _SKY and not golden_hour_too_short.too_long(facts, setup, day):
        from ..facts import sky

        place = setup.set.split("/")[0] if setup.set else day.location or ""
        spans = sky.when(facts.plan, day.id, place, setup.needs)
        lacks = sky.missing(facts.plan, day.id, place) if spans is None else ""
        yield f"{setup.path}.needs", lacks or f"when it is {_SKY[setup.needs]}", spans


_SKY = {"dusk": "dusk", "golden": "golden hour", "daylight": "daylight"}


def _judge(
    facts: Facts, setup: Setup, day: Day, path: str, words: str, spans: tuple[tuple[int, int], ...]
) -> Finding | NotChecked | None:
    rolling = facts.rolling(setup.id)
    frame = timing.frame(day)
    if rolling is None:
        barred = unmet.bars(facts, setup, day, spans)
        outside = frame is not None and not any(a < frame[1] and b > frame[0] for a, b in spans)
        if not (outside or any(bar.who for bar in barred)):
            return NotChecked(RULE, f"setup '{setup.id}'", AGREED)
        when = unmet.said(barred) or f"day {day.id} is from {clock(frame[0])} to {clock(frame[1])}" if frame else (
            unmet.said(barred))  # fmt: skip
        return _finding(facts, setup, day, path, f"{when}: missed in any order", words, spans, barred)
    start, end = rolling
    if any((a <= start and end <= b) or (a == b and start <= a < end) for a, b in spans):
        return None
    when = f"its takes run from {clock(start)} to {clock(end)}"
    barred = unmet.bars(facts, setup, day, spans)
    if barred:
        when += f", and no other order mends it: {unmet.said(barred)}"
    return _finding(facts, setup, day, path, when, words, spans, barred)


def _finding(
    facts: Facts, setup: Setup, day: Day, path: str, when: str, words: str, spans: tuple[tuple[int, int], ...],
    barred: tuple[unmet.Bar, ...],
) -> Finding:  # fmt: skip
    start, end = facts.rolling(setup.id) or timing.frame(day) or (0, timing.NIGHT)
    near = [(a, b) for a, b in spans if b > start - timing.NIGHT // 2 and a < max(end, timing.NIGHT)]
    said = [f"at {clock(a)}" if a == b else f"from {clock(a)} to {clock(b)}" for a, b in near]
    ways = unmet.ways(barred)
    if not ways and facts.rolling(setup.id) is not None:
        ways = (f"move '{setup.id}' in the order of day {day.id}",)
    hours = " and ".join(said) if said else "at no hour of that day"
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        path,
        f"'{setup.id}' misses {words}, {hours}: {when}",
        (*ways, "or change what it needs") if ways else ("change what it needs",),
        (("setup", setup.id), ("day", day.id), ("window", hours)),
        also=[(f"people.{bar.who}", "not there then") for bar in barred if bar.who],
    )
