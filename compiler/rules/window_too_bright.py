"""A window that is treated for a night scene still looks like day.

On set: grey gel is on the glass, the room is lit for night, and on the monitor the window is the brightest thing in
it.

How it is decided: for a night scene, a window whose layers let daylight through, at the hours in which the setup is
taken (the agreed order's, else all in which it may be): sky and ground before the window by the sun's height, under
the 'sky:' of the day (under the darkest sky where it is not said), times glass and layers; against the grey of the key
that the camera asks for (18 % of N2 / t = E S / C). It is said where the window lies more than a stop over that grey;
a night's window is usually 3 to 4 stops under it (common practice, no source). Source: IES 1984 and the CIE clear and
overcast sky, read second hand: means that a moment may double or halve; exposure by ISO 2720.

Fix: more layers, by the stops named, or cloth instead of them, or the hour from which it is dark enough.

When to accept it: the window is out of the picture, or a bright window is wanted: a moon that is too near.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from ..facts import exposure
from ..findings import NotChecked
from . import sunny
from .night_scene_in_daylight import night_scene
from .physics import Case, causes, stops
from .words import clock, counted, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.light import Treatment
    from ..plan.setup import Setup

    Met = tuple[Setup, Treatment, str, float, float]

RULE = "window-too-bright"
SEVERITY: Final = "warning"
TITLE = "a window treated for night still looks like day"

TRIGGERS = """
hotset: 1
days: {1: {date: 2026-06-19, call: "11:00", load-in: 0 min, sky: overcast, order: [office-wide]}}
locations:
  landing:
    at: '55.01 N, 1.44 W'
    zone: Europe/London
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        windows: {hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}}
stock: {nd-gel: {of: grey gel 1.2, roll: 1.5 m x 8 m, loses: 4 stops}}
setups:
  office-wide:
    set: office
    takes: 20 min
    rig: 0 min
    camera: {stop: T2.8, iso: 800, shutter: 1/50 s}
    windows: {hatch: {layers: nd-gel}}  # <- here
scenes: {4: {heading: INT. TICKET OFFICE - NIGHT, shots: {4A: {setup: office-wide}}}}
"""
PASSES = TRIGGERS.replace("layers: nd-gel", "layers: [nd-gel, nd-gel]").replace("  # <- here", "")
TOO_BRIGHT = 1.0


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        layered = [t for t in setup.windows.values() if t.layers and t.id in plan.windows]
        scene = night_scene(facts, setup) if layered and setup.needs != "dark" else None
        if scene is None:
            continue
        lacks = sunny.lacks(facts, setup) or exposure.missing(setup)
        key = exposure.wanted(plan, setup)
        if lacks or key is None:
            yield NotChecked(RULE, f"setup '{setup.id}'", lacks or "stop, ISO and shutter of the camera")
            continue
        for treatment in layered:
            over = _over(facts, setup, treatment, key)
            if over is not None and over > TOO_BRIGHT:
                met = (setup, treatment, scene, over, key)
                cases.append(Case(treatment.path or setup.path, setup.id, over, met))
    for cause in causes(plan, cases):
        yield _finding(facts, cause.worst.path, cause.worst.what, cause.also)


def _over(facts: Facts, setup: Setup, treatment: Treatment, key: float) -> float | None:
    """Stops by which the window lies over the key's grey: at its brightest where the sky is said, else at the least
    that it may be."""
    from ..facts import daylight, night, sunpatch

    plan, where = facts.plan, sunny.place_of(facts, setup)
    assert where is not None
    window = plan.windows[treatment.id]
    if daylight.passes(plan, setup, window) <= 0 or not sunpatch.pane(plan, window.id):
        return None
    spans, _ = daylight.times(facts, setup)
    hours = list(daylight.hours(plan, setup, *where, spans))
    found = [night.over_grey(plan, setup, window, hour, key) for hour in hours]
    looks = [x for x in found if x is not None]
    if not looks:
        return None
    return max(looks) if plan.days[where[0]].sky is not None else min(looks)


def _layers(facts: Facts, treatment: Treatment, need: float) -> str:
    """How many more layers of what hangs there would do."""
    things = [(n, thing) for n in treatment.layers if (thing := facts.plan.stock.get(n) or facts.plan.gear.get(n))]
    name, loses = max(((n, float(thing.loses or 0.0)) for n, thing in things), key=lambda x: x[1], default=("", 0.0))
    if loses < 1.0:
        return ""
    return f", such as {counted(math.ceil(round(need / loses, 3)), 'more layer', 'more layers')} of '{name}'"


def _finding(facts: Facts, path: str, met: Met, also: str) -> Finding:
    from ..facts import night

    setup, treatment, scene, over, key = met
    plan, where = facts.plan, sunny.place_of(facts, setup)
    assert where is not None
    window, short = plan.windows[treatment.id], treatment.id.rsplit("/", 1)[-1]
    need = night.to_lose(over, night.UNDER - 1.0)
    late = night.dark_enough(plan, setup, window, *where, key, night.UNDER - 1.0)
    ways = [f"put {stops(need)} more on '{short}'{_layers(facts, treatment, need)}", "or black it out"]
    if late:
        ways.append(f"or shoot it after {clock(late)}, when it is 3 stops under as it is")
    least = "" if plan.days[where[0]].sky is not None else "at least "
    return finding(
        plan,
        (RULE, SEVERITY),
        path,
        f"window '{short}' behind {quoted(treatment.layers)} is {least}{stops(over)} brighter than the key's grey, "
        f"while '{setup.id}' shoots night scene '{scene}': it looks like day{also}",
        tuple(ways),
        (
            ("setup", setup.id),
            ("window", short),
            ("scene", scene),
            ("over_grey", round(over, 2)),
            ("to_lose", round(need, 2)),
            ("dark_enough", clock(late) if late else ""),
        ),
        also=[(window.path, "the window")],
        typical=("what window glass takes",) if window.loses is None else (),
    )
