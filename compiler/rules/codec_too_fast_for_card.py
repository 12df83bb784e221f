"""The card cannot write as fast as the codec records.

On set: the camera stops by itself a few seconds into the take, or drops pictures that nobody misses until the edit.

How it is decided: the codec's rate in Mbit/s, divided by 8, against the MB/s the card 'writes:' without pause. Where a
setup names no card, it is only said when no card of the plan is fast enough. Source: arithmetic; the maker's figure on
a card is often its peak, not what it keeps up.

Fix: take a faster card, or a codec with a lower rate.

When to accept it: you have tried this codec on this very card for as long as the longest take.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import cards
from ..findings import NotChecked
from ..science import data
from .physics import Case, causes
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.gear import Gear

RULE = "codec-too-fast-for-card"
SEVERITY: Final = "warning"
TITLE = "the card cannot write as fast as the codec records"

TRIGGERS = """
hotset: 1
gear:
  body-a: {kind: camera, codecs: {long: 100 Mbit/s, fine: 400 Mbit/s}}
  card: {kind: media, holds: 128 GB, writes: 30 MB/s}
setups:
  wide:
    camera:
      body: body-a
      codec: fine  # <- here
"""
PASSES = TRIGGERS.replace("writes: 30 MB/s", "writes: 50 MB/s").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[tuple[Gear, float]]] = []
    for setup in plan.setups.values():
        megabits = cards.rate(plan, setup)
        things = [plan.gear[n] for n in cards.media(plan, setup) if n in plan.gear and plan.gear[n].kind == "media"]
        if megabits is None or not things:
            continue
        silent = [g for g in things if g.writes is None]
        if silent:
            yield NotChecked(RULE, f"'{silent[0].id}'", f"'writes:' of '{silent[0].id}'")
            continue
        slow = [g for g in things if not data.card_is_fast_enough(megabits, float(g.writes or 0.0))]
        named = bool(setup.camera and setup.camera.media)
        if slow and (named or len(slow) == len(things)):
            cases.append(Case(f"{setup.path}.camera.codec", setup.id, megabits, (slow[0], megabits)))
    for cause in causes(plan, cases):
        card, megabits = cause.worst.what
        camera = plan.setups[cause.worst.who].camera
        body = plan.gear[camera.body] if camera and camera.body else None
        writes = float(card.writes or 0.0)
        slower = [(n, float(r)) for n, r in (body.codecs if body else {}).items() if float(r) / 8.0 <= writes]
        ways = [f"take a card that writes {megabits / 8.0:.0f} MB/s or more without pause"]
        ways += [f"or record in '{n}' ({r:g} Mbit/s)" for n, r in sorted(slower, key=lambda one: -one[1])[:1]]
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"'{camera.codec if camera else ''}' records {megabits:g} Mbit/s, that is {megabits / 8.0:g} MB/s, and "
            f"'{card.id}' writes only {writes:g} MB/s",
            tuple(ways),
            (("codec", camera.codec or "" if camera else ""), ("megabits", megabits), ("card_megabytes", writes)),
            also=[(f"{card.path}.writes", "the card")],
        )
