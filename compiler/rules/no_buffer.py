"""The day fits, with nothing left for what goes wrong.

On set: one lamp does not light, and the last setup is lost.

How it is decided: with an agreed order, the time between the end of the day and its latest 'wrap:', at least the day's
'buffer:', else a tenth of the hours from call to wrap. Source: 10 to 15 % of the day, common practice, no source.

Fix: drop an if-time shot, make the takes shorter, or call earlier.

When to accept it: the place may be kept longer if need be.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import timing
from .words import clock, finding, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "no-buffer"
SEVERITY: Final = "warning"
TITLE = "nothing is left for what goes wrong"

TRIGGERS = """
hotset: 1
days:
  1: {call: 08:00, wrap: 10:00, load-in: 30 min, wrap-out: 15 min, order: [wide]}  # <- here
setups: {wide: {rig: 0 min, takes: 70 min}}
"""
PASSES = TRIGGERS.replace("70 min", "60 min").replace("  # <- here", "")
SHARE = 0.10  # of the hours from call to wrap


def check(facts: Facts) -> Iterator[Finding]:
    for day_id, line in facts.timelines.items():
        day = facts.plan.days[day_id]
        frame = timing.frame(day)
        if frame is None or line.wrap > frame[1]:
            continue
        said = day.buffer
        least = (frame[1] - frame[0]) * SHARE if said is None else float(said) / 30
        left = frame[1] - line.wrap
        if left < least:
            yield finding(
                facts.plan,
                (RULE, SEVERITY),
                day.path,
                f"by its agreed order day {day_id} ends at {clock(line.wrap)}, {span(left)} before everybody must be "
                f"out at {clock(frame[1])}: {span(least)} should be left",
                ("drop an if-time shot, shorten takes, or call earlier", "or write the 'buffer:' you trust in"),
                (("day", day_id), ("left_min", left / 2), ("least_min", round(least / 2, 1))),
                typical=("a buffer of 10 %",) if said is None else (),
            )
