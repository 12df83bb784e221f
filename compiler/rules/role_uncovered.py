"""Sound is to be recorded with the picture, and nobody in the plan records.

On set: the actors speak, the meter moves, and in the cut there is only the camera's own microphone from four metres.

How it is decided: a shot or its scene says 'sync', and nobody is named for the sound of its setup ('sound: {by: ...}',
or boom or sound under 'hands:') and nobody says sound, boom, record or mix under 'works:' or 'skills:'. Where the plan
names no crew, that is reported as not checked. Source: common practice, no source.

Fix: name who records, or write 'sound: mos' and take the lines as a wild track.

When to accept it: the sound is made anew in post.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from ..findings import NotChecked
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "role-uncovered"
SEVERITY: Final = "warning"
TITLE = "sync sound, and nobody records"

TRIGGERS = """
hotset: 1
people: {olek: {works: camera}}
setups: {wide: {takes: 10 min}}
scenes:
  4:
    sound: sync  # <- here
    shots: {4A: {setup: wide}}
"""
PASSES = TRIGGERS.replace("works: camera}", "works: camera}, jon: {skills: boom}").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    bare = [s for s in plan.shots.values() if hands.is_sync(plan, s) and not _covered(facts, s.setup or "", s.hands)]
    if not bare:
        return
    crew = [p for p in plan.people.values() if hands.is_crew(p)]
    if not crew:
        yield NotChecked(RULE, "who records the sound", "'people:' with what each can do ('works:', 'skills:')")
        return
    if any(hands.can(p, "sound") for p in crew):
        return
    paths = list(dict.fromkeys(hands.sync_path(plan, s) for s in bare))
    shots = f"'{bare[0].id}'" + (f" and {len(bare) - 1} more" if len(bare) > 1 else "")
    yield finding(
        plan,
        (RULE, SEVERITY),
        paths[0],
        f"sync sound is wanted for {shots}, and nobody in the plan records",
        (
            "name who records: 'sound: {by: ...}' under the setup, or 'skills: boom' under the person",
            "or write 'sound: mos', and take the lines as a wild track",
        ),
        (("shots", len(bare)), ("crew", len(crew))),
        also=[(p, "also here") for p in paths[1:6]],
    )


def _covered(facts: Facts, setup_id: str, own: object) -> bool:
    setup = facts.plan.setups.get(setup_id)
    named = [*(setup.hands if setup else ()), *(own if isinstance(own, dict) else ())]
    return bool(setup and setup.sound and setup.sound.by) or any(hands.group_of(job) == "sound" for job in named)
