"""Direct sun comes in through a window while a setup is shot that does not want it.

On set: a bright patch creeps over the wall from take to take, and no two of them cut together.

How it is decided: when direct sun falls on a window of the set (its wall's bearing from 'north:', the sun by date and
place, above the 'skyline:'), against when the takes run in the agreed order (which itself waits for what stands under
'sun-off:'). It is said of windows named under 'sun-off:', and of windows that nothing covers in a setup that asks for
no sun; a night scene past an open window is another finding. How far the patch reaches into the room: height / tan of
the sun's height x the cosine of the bearing between. Clouds are not known. Source: the sun within 0.02 deg of NREL's
solar position algorithm; plane geometry.

Fix: shoot it outside of the hours named, or hang diffusion or cloth before the window.

When to accept it: the sun is wanted (write 'sun-on:'), or the forecast is grey and the patch is out of the picture.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import sky, walls
from ..findings import NotChecked
from ..science import sunlight
from . import sunny
from .physics import Case, causes, length
from .words import AGREED, clock, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.setup import Setup

    Met = tuple[Setup, str, int, int, float | None, tuple[sunny.Span, ...]]

RULE = "direct-sun-on-window"
SEVERITY: Final = "warning"
TITLE = "direct sun comes in while nobody wants it"

TRIGGERS = """
hotset: 1
days: {1: {date: 2026-11-14, call: "08:00", load-in: 20 min, order: [office-morning]}}
locations:
  landing:
    at: "55.01 N, 1.44 W"
    zone: Europe/London
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        windows:
          hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}
setups:
  office-morning:  # <- here
    set: office
    takes: 20 min
    rig: 10 min
"""
PASSES = TRIGGERS.replace("wall: east", "wall: west").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        names = _unwanted(facts, setup)
        if not names:
            continue
        lacks = sunny.lacks(facts, setup) or (AGREED if facts.rolling(setup.id) is None else "")
        if lacks:
            yield NotChecked(RULE, f"setup '{setup.id}'", lacks)
            continue
        for window in names:
            met = _struck(facts, setup, window)
            if met is not None:
                path = f"{setup.path}.sun-off" if window in setup.sun_off else setup.path
                cases.append(Case(path, setup.id, met[3] - met[2], met))
    for cause in causes(plan, cases):
        setup, window, start, end, reach, spans = cause.worst.what
        short = window.rsplit("/", 1)[-1]
        deep = f", {length(plan, reach)} into the room" if reach is not None else ""
        ways = ["hang diffusion or cloth before it"]
        ways.append(f"or shoot it outside of {clock(spans[0][0])} to {clock(spans[-1][1])}")
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"direct sun falls through '{short}' from {clock(start)} to {clock(end)}, while '{setup.id}' is taken{deep}"
            f"{cause.also}",
            tuple(ways),
            (
                ("setup", setup.id),
                ("window", short),
                ("from", clock(start)),
                ("to", clock(end)),
                ("sun_on_window", sunny.hours(spans)),
                ("reach_m", "" if reach is None else round(reach, 2)),
            ),
            also=[(plan.windows[window].path, "the window")],
        )


def _unwanted(facts: Facts, setup: Setup) -> list[str]:
    """Windows on which the sun must not stand, by the plan's word or because nothing covers them."""
    plan, room = facts.plan, facts.plan.set_of(setup.id)
    named = [w for w in setup.sun_off if w in plan.windows]
    if room is None or room.outdoors or setup.needs in ("sun", "golden", "dark"):
        return named
    shots = facts.shots_of.get(setup.id, ())
    if any("NIGHT" in (plan.scenes[plan.scene_of[s.id]].heading or "").upper() for s in shots):
        return named
    covered = {t.id for t in setup.windows.values() if not t.open}
    bare = [w.id for w in room.windows.values() if w.id not in covered and w.id not in setup.sun_on]
    return list(dict.fromkeys([*named, *bare]))


def _struck(facts: Facts, setup: Setup, window: str) -> Met | None:
    """The hours of sun on a window inside the takes, and how deep the patch reaches in their middle."""
    spans, rolling = sunny.struck(facts, setup, window), facts.rolling(setup.id)
    where, thing = sunny.place_of(facts, setup), facts.plan.windows[window]
    facing = walls.facing(facts.plan, window)
    if not spans or rolling is None or where is None or facing is None:
        return None
    shared = [(max(a, rolling[0]), min(b, rolling[1])) for a, b in spans]
    start, end = max(shared, key=lambda s: s[1] - s[0])
    if end - start < 2:
        return None
    position = sky.sun_at(facts.plan, *where, (start + end) / 2)
    reach = None
    if position is not None and thing.height is not None:
        top = float(thing.sill or 0.0) + float(thing.height)
        reach = sunlight.reach(top, position.azimuth, position.elevation, facing)
        room = facts.plan.set_of(setup.id)
        if reach is not None and room is not None and room.size and reach > max(float(s) for s in room.size[:2]):
            reach = None
    return setup, window, start, end, reach, spans
