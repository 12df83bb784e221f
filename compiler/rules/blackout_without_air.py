"""Smoke, flames or haze in a room whose windows are all closed over.

On set: the alarm goes off, or nobody notices the headache before somebody sits down.

How it is decided: a scene with an effect of smoke, haze, fog, fire, flames or candles, or a practical that is a flame
by its name (a candle, with neither bulb nor circuit), in a setup whose set has windows that are all blacked out or
tented, and no 'vents:' in the set. Source: common practice, no source.

Fix: leave a door open between takes, name what lets air in under 'vents:', and have somebody watch the time.

When to accept it: the room is large and the effect is one candle. Ask about the fire alarm, and never cover it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import flames
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.setup import Setup

RULE = "blackout-without-air"
SEVERITY: Final = "warning"
TITLE = "smoke or flames in a closed room"

TRIGGERS = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        windows: {hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}}
stock: {black-cloth: {opaque: true, roll: 1.5 m x 12 m}}
setups:
  wide:  # <- here
    set: office
    windows: {hatch: {black-out: black-cloth}}
scenes: {4: {effects: light haze, shots: {4A: {setup: wide}}}}
"""
PASSES = TRIGGERS.replace("2.4 m\n", "2.4 m\n        vents: the door to the hall\n").replace("  # <- here", "")
_IN_THE_AIR = ("smoke", "haze", "fog", "fire", "flame", "candle")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    said: set[tuple[str | None, str]] = set()
    for setup, shot in facts.takes:
        scene = plan.scenes[plan.scene_of[shot.id]] if shot is not None else None
        effects = [e for e in scene.effects if any(w in e.lower() for w in _IN_THE_AIR)] if scene else []
        burn = flames.burning(plan, setup) if not effects else ()
        if not (effects or burn) or not _closed(facts, setup) or (setup.set, scene.id if scene else "") in said:
            continue
        said.add((setup.set, scene.id if scene else ""))
        closed = f"'{setup.set}', whose windows are all closed over in '{setup.id}', and no vents are named"
        if scene is not None and effects:
            words = f"{quoted(effects)} in scene '{scene.id}' is made in"
            other = (f"{scene.path}.effects", "the effect")
        else:
            burns = "burns" if len(burn) == 1 else "burn"
            words, other = f"{quoted([one.id for one in burn])} {burns} in", (burn[0].path, "the flame")
        yield finding(
            plan,
            (RULE, SEVERITY),
            setup.path,
            f"{words} {closed}",
            ("leave a door open between takes, and name what lets air in under 'vents:' of the set",),
            (("setup", setup.id), ("set", setup.set or ""), ("scene", scene.id if scene else "")),
            also=[other],
        )


def _closed(facts: Facts, setup: Setup) -> bool:
    room = facts.plan.sets.get(setup.set or "")
    if room is None or not room.windows or room.vents or room.outdoors:
        return False
    shut = {t.id for t in setup.windows.values() if t.black_out or t.tent}
    return all(window.id in shut for window in room.windows.values())
