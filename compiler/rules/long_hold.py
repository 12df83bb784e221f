"""An actor waits for hours between two of their setups.

On set: make-up is done at eight, the close-up is at three, and the tension is gone.

How it is decided: in the agreed order, the time between the end of one setup somebody is in front of the camera for and
the begin of the next, meals taken off, above 3 h. Source: 3 h, common practice, no source.

Fix: bring their setups together in the order. A day of a person has one call and one end: that they go home in between
cannot be written, so a call after the first of the two would only keep the first one waiting.

When to accept it: they agreed, and go home in between or have a warm room.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

from ..facts import hands
from .words import clock, finding, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "long-hold"
SEVERITY: Final = "warning"
TITLE = "an actor waits for hours"

TRIGGERS = """
hotset: 1
days:
  1:
    call: 08:00
    load-in: 0 min
    order: [wide, insert, close]  # <- here
people: {mara: {plays: CLERK}}
setups:
  wide: {rig: 0 min, takes: 30 min, cast: [mara]}
  insert: {rig: 0 min, takes: 200 min, cast: []}
  close: {rig: 0 min, takes: 30 min, cast: [mara]}
"""
PASSES = TRIGGERS.replace("[wide, insert, close]  # <- here", "[insert, wide, close]")
MOST = 360  # half-minutes; three hours


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    in_front: dict[str, dict[str, None]] = {}
    for setup, shot in facts.takes:
        for _, who in hands.cast(plan, setup, shot, facts.players):
            in_front.setdefault(who, {})[setup.id] = None
    for day_id, line in facts.timelines.items():
        meals = [(s.start, s.end) for s in line.steps if s.kind == "meal"]
        for who, setups in in_front.items():
            steps = [s for s in line.steps if s.kind == "setup" and s.setup in setups]
            for a, b in pairwise(steps):
                eaten = sum(end - start for start, end in meals if a.end <= start and end <= b.start)
                if b.start - a.end - eaten > MOST:
                    apart = ", the meal not counted," if eaten else ""
                    yield finding(
                        plan,
                        (RULE, SEVERITY),
                        f"days.{day_id}.order",
                        f"'{who}' waits {span(b.start - a.end - eaten)}{apart} between '{a.setup}', which ends at "
                        f"{clock(a.end)}, and '{b.setup}' at {clock(b.start)} on day {day_id}",
                        (
                            "bring the two together in the order",
                            "or ask whether they agree to wait, or to go home in between, and accept it: under "
                            f"'accepted:' write 'rule: {RULE}' and 'at: days.{day_id}.order' (every such wait of the "
                            "day), why, and who agreed",
                        ),
                        (("person", who), ("day", day_id), ("waits_min", (b.start - a.end - eaten) / 2)),
                        also=[(f"setups.{a.setup}", "before"), (f"setups.{b.setup}", "after")],
                        typical=("a wait of at most 3 h",),
                    )
