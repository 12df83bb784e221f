"""There is no empty card left for the takes that are planned.

On set: the card is full in the middle of a take, and the only other one has not been copied yet.

How it is decided: gigabytes = Mbit/s x seconds / 8000, for what every shot says it 'rolls:' in its codec, against 90 %
of what the cards hold (common practice, no source). With an agreed order cards are filled take by take; a full one
goes to the reader and is free again once it is copied to the drives and verified, which takes twice the time of
copying at the slowest of card, reader and drive. Without one, only what no order can avoid is said. Overnight every
card is copied, unless the plan has no drive to copy to. Source of the formula: arithmetic; the rate is the stated one.

Fix: bring the cards that are named, copy during the meal, record in a lighter codec, or roll less.

When to accept it: the camera records inside as well. Never wipe a card that is not copied and verified.
"""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Final

from ..facts import cards
from ..findings import NotChecked
from .words import clock, counted, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "cards-full"
SEVERITY: Final = "error"
TITLE = "there is no empty card left for what is planned"

TRIGGERS = """
hotset: 1
days: {1: {call: "08:00", wrap: "12:00", order: [wide]}}
gear:
  body-a: {kind: camera, codecs: {fine: 400 Mbit/s}}
  card: {kind: media, holds: 128 GB, writes: 250 MB/s}
setups:
  wide:
    camera: {body: body-a, codec: fine}
scenes:
  4:
    shots:
      4A: {setup: wide, takes: 60 min, rolls: 50 min, count: 5}  # <- here
"""
PASSES = TRIGGERS.replace("holds: 128 GB", "holds: 128 GB, quantity: 2").replace("  # <- here", "")

Row = tuple[str, float, float, tuple[cards.Recording, ...]]


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    pools: dict[tuple[str, ...], dict[str, None]] = {}
    for setup in plan.setups.values():
        lacks = cards.missing(facts, setup)
        if lacks:
            yield NotChecked(RULE, f"setup '{setup.id}'", lacks)
        for one in cards.of_setup(facts, setup):
            pools.setdefault(one.media, {})[setup.id] = None
    for names, setups in pools.items():
        sizes = cards.cards(plan, names)
        if not names:
            continue
        if sizes is None:
            yield NotChecked(RULE, f"cards {quoted(names)}", "'holds:' of each, such as 128 GB")
            continue
        speed, wants = cards.copying(plan, names)
        if wants:
            yield NotChecked(RULE, "copies on the day", wants)
        yield from _pool(facts, names, tuple(setups), sizes, speed)


def _pool(
    facts: Facts, names: tuple[str, ...], setups: tuple[str, ...], sizes: tuple[float, ...], speed: float | None
) -> Iterator[Finding | NotChecked]:
    everything = [(s, one) for s in setups for one in cards.of_setup(facts, facts.plan.setups[s])]
    for _, one in everything:
        if one.gigabytes / one.takes > max(sizes, default=0.0) + 1e-9:
            yield _finding(facts, names, one, one.gigabytes / one.takes, sizes, "one take of it alone")
            return
    if not cards.drives(facts.plan):
        total = sum(one.gigabytes for _, one in everything)
        if total > sum(sizes) + 1e-9:
            room = sum(sizes)
            for _, one in everything:
                room -= one.gigabytes
                if room < -1e-9:
                    words = "all that is planned (there is no drive to copy to)"
                    yield _finding(facts, names, one, total, sizes, words)
                    return
        return
    for day in facts.plan.days.values():
        here = [s for s in setups if facts.day_of[s] == day.id]
        if not here:
            continue
        line = facts.timelines.get(day.id)
        if line is None:
            total = sum(o.gigabytes for s, o in everything if s in here)
            if total > sum(sizes):
                yield NotChecked(RULE, f"day {day.id}", "an agreed order (`hotset order --write` makes one)")
            continue
        steps = [s for s in line.steps if s.kind == "setup" and s.setup in here]
        row: list[Row] = [
            (s.setup, float(s.start), float(s.end), cards.of_setup(facts, facts.plan.setups[s.setup])) for s in steps
        ]
        filled = cards.fill(row, sizes, speed)
        if filled.full is not None:
            setup, shot, at = filled.full
            one = next(o for s, o in everything if s == setup and o.shot == shot)
            words = f"what day {day.id} has recorded by {clock(at)}"
            yield _finding(facts, names, one, filled.gigabytes + one.gigabytes / one.takes, sizes, words)


def _finding(
    facts: Facts, names: tuple[str, ...], one: cards.Recording, total: float, sizes: tuple[float, ...], what: str
) -> Finding:
    largest = max(sizes, default=0.0)
    if "alone" in what:
        ways = [f"take a card of {ceil(total / cards.USABLE)} GB or more"]
    else:
        more = _more(facts, total, sizes)
        ways = [f"bring {counted(more, 'more card')} of {largest / cards.USABLE:.0f} GB"]
        if not cards.drives(facts.plan):
            ways.append("or bring a reader and two drives, and copy each card when it is full")
    ways.append("or record in a lighter codec, or roll less")
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        one.path,
        f"no card is free for shot '{one.shot}': {what} is {total:.0f} GB, and {quoted(names)} "
        f"{'hold' if len(sizes) != 1 else 'holds'} {sum(sizes):.0f} GB "
        f"({counted(len(sizes), 'card')} filled to {cards.USABLE * 100:.0f} %)",
        tuple(ways),
        (
            ("shot", one.shot),
            ("gigabytes", round(total, 1)),
            ("cards", len(sizes)),
            ("usable_gigabytes", round(sum(sizes), 1)),
            ("megabits_per_second", one.megabits),
        ),
        also=[(f"gear.{names[0]}", "the cards")],
        typical=(f"cards filled to {cards.USABLE * 100:.0f} %",),
    )


def _more(facts: Facts, total: float, sizes: tuple[float, ...]) -> int:
    """Cards to add so that all of it fits without a copy."""
    largest = max(sizes, default=1.0)
    whole = total
    for day in facts.plan.days:
        planned = sum(
            o.gigabytes
            for s in facts.plan.setups.values()
            if facts.day_of[s.id] == day
            for o in cards.of_setup(facts, s)
        )
        whole = max(whole, planned)
    return max(1, ceil((whole - sum(sizes)) / largest - 1e-9))
