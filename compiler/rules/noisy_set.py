"""Sound is recorded while something is loud.

On set: the dialogue is good and the fridge is on it; or the fan of the lamp beside the boom.

How it is decided: in a setup with a shot that says 'sync' (or whose scene does): a source under the place's 'noise:'
that reaches its set and that nobody can stop ('silenced-by:'), if its hours meet the takes in the agreed order, or if
it has no hours; and a lamp with 'fan: loud'. Without an order a noise whose hours only meet the day is reported as not
checked. Source: common practice, no source.

Fix: shoot it in another hour, have the noise stopped (and write who does it), or take a quieter lamp.

When to accept it: the noise belongs to the scene, and a wild track is planned. A fridge that is switched off: put the
key of the car into it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from ..findings import NotChecked
from . import timing
from .words import AGREED, Once, clock, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.location import Noise
    from ..plan.setup import Setup

RULE = "noisy-set"
SEVERITY: Final = "warning"
TITLE = "sound is recorded while something is loud"

TRIGGERS = """
hotset: 1
people: {jon: {works: sound}}
locations:
  landing:
    noise: {fridge: {what: the fridge behind the counter}}
    sets: {office: {size: 4 m x 3 m x 2.4 m}}
setups:
  wide:
    set: office  # <- here
scenes: {4: {sound: sync, shots: {4A: {setup: wide}}}}
"""
PASSES = TRIGGERS.replace("behind the counter}", "behind the counter, silenced-by: the owner}").replace(
    "  # <- here", ""
)


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    fresh = Once(plan)
    sync = {s.id: s for s, shot in facts.takes if shot is not None and hands.is_sync(plan, shot)}
    loud: dict[str, tuple[Noise, list[tuple[Setup, str]]]] = {}
    for setup in sync.values():
        place = plan.locations.get((setup.set or "").split("/")[0])
        for noise in place.noise.values() if place else ():
            if noise.silenced_by is None and (not noise.sets or setup.set in noise.sets or _short(setup) in noise.sets):
                when = _when(facts, setup, noise)
                if isinstance(when, NotChecked):
                    yield when
                elif when is not None:
                    loud.setdefault(noise.path, (noise, []))[1].append((setup, when))
        for light in setup.lights.values():
            lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
            if lamp is not None and lamp.fan == "loud" and fresh(f"{light.path}.lamp"):
                yield finding(
                    plan,
                    (RULE, SEVERITY),
                    f"{light.path}.lamp",
                    f"'{lamp.id}' has a loud fan and is '{light.id}' in '{setup.id}', where sync sound is recorded",
                    ("take a quieter lamp, or set it further away", "or plan the lines as a wild track"),
                    (("setup", setup.id), ("lamp", lamp.id)),
                    also=[(f"gear.{lamp.id}", "its fan")],
                )
    for noise, heard in loud.values():
        yield _noise(facts, noise, heard)


def _short(setup: Setup) -> str:
    return (setup.set or "").split("/")[-1]


def _when(facts: Facts, setup: Setup, noise: Noise) -> str | NotChecked | None:
    """When a noise meets the takes of a setup, in words; None where it does not."""
    if noise.when is None:
        return "at any hour"
    day = facts.plan.days.get(facts.day_of[setup.id] or "")
    start, end = timing.shifted(noise.when, int(day.call) if day and day.call is not None else None)
    words = f"from {clock(start)} to {clock(end)}"
    rolling = facts.rolling(setup.id)
    if rolling is not None:
        runs = f"{words}, and its takes run from {clock(rolling[0])} to {clock(rolling[1])}"
        return None if rolling[1] <= start or rolling[0] >= end else runs
    frame = timing.frame(day) if day else None
    if frame is not None and (end <= frame[0] or start >= frame[1]):
        return None
    sure = frame is not None and start <= frame[0] and end >= frame[1]
    return words if sure else NotChecked(RULE, f"'{noise.id}' in '{setup.id}'", AGREED)


def _noise(facts: Facts, noise: Noise, heard: list[tuple[Setup, str]]) -> Finding:
    (first, when), others = heard[0], [setup for setup, _ in heard[1:]]
    more = f"; so it is in {quoted(s.id for s in others)}" if others else ""
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"{first.path}.set",
        f"sync sound is recorded in '{first.id}' while '{noise.what or noise.id}' is loud {when}{more}",
        ("shoot it in another hour", "or have it stopped, and write who does it under 'silenced-by:'"),
        (("setup", first.id), ("noise", noise.id), ("setups", len(heard))),
        also=[(noise.path, "the noise"), *((s.path, "heard here as well") for s in others[:6])],
    )
