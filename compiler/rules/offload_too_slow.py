"""The copies are not finished when the day is.

On set: everybody has gone home, and one person sits at a table and waits for a bar to fill.

How it is decided: along the agreed order a card goes to the reader when it is full, and the last one after the last
cut; copying and verifying take twice volume / speed, at the slowest of card, reader and drive. The last copy must be
verified by the day's latest wrap ('wrap:'). Without an agreed order, the day's copying alone is held against all its
hours. All copies are written at once. Source of the formula: arithmetic; that verifying takes as long as copying is
common practice, no source.

Fix: start copying earlier (change cards at the meal), take a faster reader or drive, or plan the data hour after wrap.

When to accept it: somebody stays for it and is told so.
"""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Final

from ..facts import cards
from ..findings import NotChecked
from ..science import data
from .timing import frame
from .words import AGREED, clock, finding, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "offload-too-slow"
SEVERITY: Final = "warning"
TITLE = "the copies are not finished when the day is"

TRIGGERS = """
hotset: 1
days:
  1: {call: "08:00", wrap: "12:00", order: [wide]}  # <- here
gear:
  body-a: {kind: camera, codecs: {fine: 400 Mbit/s}}
  card: {kind: media, holds: 512 GB, writes: 250 MB/s, reads: 250 MB/s}
  disk: {kind: drive, holds: 2 TB, writes: 40 MB/s}
setups:
  wide:
    camera: {body: body-a, codec: fine}
scenes:
  4:
    shots:
      4A: {setup: wide, takes: 90 min, rolls: 60 min, count: 5}
"""
PASSES = TRIGGERS.replace("writes: 40 MB/s", "writes: 200 MB/s").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    for day in plan.days.values():
        here = [s for s in plan.setups.values() if facts.day_of[s.id] == day.id]
        recorded = {s.id: cards.of_setup(facts, s) for s in here}
        total = sum(one.gigabytes for row in recorded.values() for one in row)
        if total <= 0 or not cards.drives(plan):
            continue
        hours = frame(day)
        names = tuple(dict.fromkeys(n for row in recorded.values() for one in row for n in one.media))
        speed, wants = cards.copying(plan, names)
        sizes = cards.cards(plan, names)
        if hours is None or speed is None or not sizes:
            wants = wants or (f"'call:' and 'wrap:' of day {day.id}" if hours is None else "'holds:' of the cards")
            yield NotChecked(RULE, f"day {day.id}", wants)
            continue
        line = facts.timelines.get(day.id)
        if line is None:
            minutes = data.copy_minutes(total, speed)
            if minutes * 2 <= hours[1] - hours[0]:
                yield NotChecked(RULE, f"day {day.id}", AGREED)
                continue
            done = hours[0] + minutes * 2
        else:
            steps = [s for s in line.steps if s.kind == "setup" and s.setup in recorded]
            filled = cards.fill([(s.setup, s.start, s.end, recorded[s.setup]) for s in steps], sizes, speed)
            if filled.full is not None or filled.done is None:
                continue
            done = ceil(filled.done / 2) * 2  # the last copy has ended by the full minute after
        if done > hours[1]:
            yield _finding(facts, day.id, total, speed, done, hours[1])


def _finding(facts: Facts, day: str, total: float, speed: float, done: float, wrap: int) -> Finding:
    minutes = data.copy_minutes(total, speed)
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"days.{day}",
        f"day {day} records {total:.0f} GB; at {speed:g} MB/s the last copy is verified at {clock(done)}, "
        f"{span(done - wrap)} after the wrap at {clock(wrap)}",
        (
            "change cards at the meal, so that copying starts earlier",
            f"or take a reader and drives faster than {speed:g} MB/s",
            "or let somebody stay for the copies, and write it into their hours",
        ),
        (
            ("day", day),
            ("gigabytes", round(total, 1)),
            ("megabytes_per_second", speed),
            ("minutes", round(minutes)),
            ("done", clock(done)),
        ),
        typical=("verifying takes as long as copying",),
    )
