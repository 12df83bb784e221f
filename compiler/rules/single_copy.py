"""What is shot will exist only once, or the drives do not hold the copies that are asked for.

On set: one drive falls off one table, and a day of work is gone.

How it is decided: fewer than two 'copies:' under 'post:' is said, and so is a number of copies that the plan's drives
cannot hold: gigabytes = Mbit/s x seconds / 8000 over all shots, each copy whole on drives of its own. Where cards are
recorded on and drives are there, but nothing of kind reader, the copies cannot be made. Source of the formula:
arithmetic; two copies on two drives before a card is wiped is common practice, no source.

Fix: write 'copies: 2', and bring two drives that each hold the film, and a reader.

When to accept it: the cards themselves are kept unwiped as the second copy.
"""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Final

from ..facts import cards
from ..findings import NotChecked
from .words import counted, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "single-copy"
SEVERITY: Final = "warning"
TITLE = "what is shot would exist only once"

TRIGGERS = """
hotset: 1
gear: {disk: {kind: drive, holds: 2 TB, quantity: 2}}
post:
  copies: 1  # <- here
"""
PASSES = TRIGGERS.replace("copies: 1  # <- here", "copies: 2")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    copies = cards.copies_wanted(plan)
    if copies is None:
        if any(s.rolls is not None for s in plan.shots.values()) or plan.film.post is not None:
            yield NotChecked(RULE, "what is recorded", "'copies:' under 'post:'")
        return
    if copies < 2:
        yield finding(
            plan,
            (RULE, SEVERITY),
            "post.copies",
            f"{counted(copies, 'copy', 'copies')} of what is shot: one fall, one theft, one fault, and the day is gone",
            ("write 'copies: 2', on two drives that are kept apart",),
            (("copies", copies),),
        )
        return
    on = cards.drives(plan)
    if not on:
        yield NotChecked(RULE, "the copies", "the drives under 'gear:' (kind: drive), with 'holds:'")
        return
    recorded = [one for s in plan.setups.values() for one in cards.of_setup(facts, s)]
    on_cards = [n for one in recorded for n in one.media if n in plan.gear and plan.gear[n].kind == "media"]
    if on_cards and not any(g.kind == "reader" for g in plan.gear.values()):
        yield _no_reader(facts, on_cards[0], on[0][0].id)
    total = sum(one.gigabytes for one in recorded)
    silent = [g.id for g, _ in on if cards.volume(g) is None]
    if silent or total <= 0:
        if silent:
            yield NotChecked(RULE, f"drive '{silent[0]}'", f"'holds:' of '{silent[0]}'")
        return
    held = _copies_held(total, [v for g, n in on for v in [cards.volume(g) or 0.0] * min(n, 100)])
    if held < copies:
        yield finding(
            plan,
            (RULE, SEVERITY),
            "post.copies",
            f"{copies} copies are asked for, {total:.0f} GB each, and {quoted(g.id for g, _ in on)} "
            f"{'hold' if sum(n for _, n in on) != 1 else 'holds'} only {counted(held, 'copy', 'copies')}",
            (f"bring {counted(copies - held, 'more drive')} of {ceil(total)} GB or more",),
            (("copies", copies), ("held", held), ("gigabytes", round(total, 1))),
            also=[(on[0][0].path, "the drives")],
        )


def _no_reader(facts: Facts, card: str, drive: str) -> Finding:
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"gear.{card}",
        f"'{card}' is to be copied onto '{drive}', and the plan has no card reader: the only copy stays on the card",
        ("add the reader to the gear: '{kind: reader, reads: 300 MB/s}' (a slot of the computer counts as one)",),
        (("card", card), ("drive", drive)),
        also=[("post.copies", "the copies that are asked for")],
    )


def _copies_held(total: float, drives: list[float]) -> int:
    """Whole copies on drives of their own: the largest drives first, as many as one copy needs."""
    copies, room = 0, 0.0
    for volume in sorted(drives, reverse=True):
        room += volume
        if room >= total - 1e-9:
            copies, room = copies + 1, 0.0
    return copies
