"""No room tone is planned for a set in which sync sound is recorded.

On set: the room is broken before anybody has listened to it, and the cut jumps from one silence to another.

How it is decided: in an agreed order, every set with a setup that records sync sound needs a 'room-tone' entry while
the crew is there. Source: 30 s of room tone in every set, common practice, no source.

Fix: write 'room-tone' into the order, right behind the last setup in that set.

When to accept it: the sound is made anew in post.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "no-room-tone"
SEVERITY: Final = "warning"
TITLE = "no room tone is planned for a set"

TRIGGERS = """
hotset: 1
days:
  1:
    call: 08:00
    order: [wide]  # <- here
people: {jon: {works: sound}}
locations: {landing: {sets: {office: {size: 4 m x 3 m x 2.4 m}}}}
setups: {wide: {set: office, takes: 10 min}}
scenes: {4: {sound: sync, shots: {4A: {setup: wide}}}}
"""
PASSES = TRIGGERS.replace("[wide]  # <- here", "[wide, room-tone]")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    sync = {s.id for s, shot in facts.takes if shot is not None and hands.is_sync(plan, shot)}
    for day_id, line in facts.timelines.items():
        last: dict[str, str] = {}
        toned: set[str] = set()
        room = ""
        for step in line.steps:
            if step.kind == "setup":
                room = plan.setups[step.setup].set or ""
                if step.setup in sync and room:
                    last[room] = step.setup
            elif step.kind == "room-tone":
                toned.add(room)
        nowhere = any(not plan.setups[s.setup].set for s in line.steps if s.kind == "setup")
        for name, setup in last.items():
            if name not in toned and not nowhere:
                yield finding(
                    plan,
                    (RULE, SEVERITY),
                    f"days.{day_id}.order",
                    f"sync sound is recorded in '{name}' on day {day_id}, and no room tone is in the order while the "
                    "crew is there",
                    (f"write 'room-tone' into the order behind '{setup}'",),
                    (("day", day_id), ("set", name), ("behind", setup)),
                    also=[(f"setups.{setup}", "the last with sync sound there")],
                )
