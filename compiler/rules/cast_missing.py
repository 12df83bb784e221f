"""A scene needs a character whom nobody plays.

On set: the passenger knocks at the hatch, and there is no passenger.

How it is decided: the characters under a scene's 'characters:' against 'plays:' of the people; a shot's or setup's
'cast:' may give a double instead. Where nobody in the plan plays anybody, that is reported as not checked.
Source: counting.

Fix: write 'plays:' under the one who plays it, or name a double under the shot's 'cast:'.

When to accept it: the character is only heard.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "cast-missing"
SEVERITY: Final = "error"
TITLE = "nobody plays a character"

TRIGGERS = """
hotset: 1
people:
  mara: {plays: CLERK}
setups: {wide: {takes: 10 min}}
scenes:
  4:
    characters: [CLERK, PASSENGER]  # <- here
    shots: {4A: {setup: wide}}
"""
PASSES = TRIGGERS.replace("plays: CLERK}", "plays: CLERK}\n  ines: {plays: PASSENGER}").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    played = {c for p in plan.people.values() for c in p.plays}
    missing: dict[str, list[str]] = {}
    for scene in plan.scenes.values():
        doubled = {c for shot in scene.shots.values() for c, _ in shot.cast or ()}
        for i, character in enumerate(scene.characters):
            if character not in played and character not in doubled:
                missing.setdefault(character, []).append(f"{scene.path}.characters.{i}")
    if missing and not played:
        yield NotChecked(RULE, "characters", "who plays them ('plays:' under the people)")
        return
    for character, paths in missing.items():
        from ..plan.speech import nearest

        near = nearest(character, played)
        scenes = [p.split(".")[1] for p in paths]
        yield finding(
            plan,
            (RULE, SEVERITY),
            paths[0],
            f"nobody plays '{character}', who is in scene {quoted(scenes)}" + (f"; is it '{near}'?" if near else ""),
            (
                *((f"write '{near}'",) if near else ()),
                f"write 'plays: {character}' under the one who plays it",
                f"or name a double: 'cast: {{{character}: ...}}' under the shots",
            ),
            (("character", character), ("scenes", ", ".join(scenes))),
            also=[(p, "also in it") for p in paths[1:6]],
        )
