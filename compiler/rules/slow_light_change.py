"""The daylight changes too much while one setup is shot.

On set: in the first take the sun comes from the left, in the last one from behind, and they do not cut together.

How it is decided: by the agreed order, for setups that need the sun or daylight, that want the sun on a window, or that
are outdoors and say nothing: from the first minute of the takes to the last the sun, while it stands above the
'skyline:', turns by more than 20 deg of bearing, or the light of a clear sky on level ground changes by more than
1 1/2 stops. Golden light and dusk change within minutes, and are left out: who asks for them knows. Source: the sun
within 0.02 deg of NREL's solar position algorithm; light by its height from the IES recommended practice of 1984; the
limits are common practice, no source.

Fix: fewer takes at once, the wide first and the close-ups after it, or a frame of diffusion over those near the lens.

When to accept it: the shots of the setup are of different moments of the story, or are never cut together.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from ..facts import sky
from ..findings import NotChecked
from . import sunny
from .words import clock, finding, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.setup import Setup

RULE = "slow-light-change"
SEVERITY: Final = "warning"
TITLE = "the daylight changes too much while a setup is shot"

TRIGGERS = """
hotset: 1
days: {1: {date: 2026-06-19, call: "11:00", load-in: 0 min, weather: under the willow, order: [pond-wide]}}
locations:
  marsh: {at: "53.95 N, 0.30 E", zone: Europe/London, sets: {pond: {size: 30 m x 20 m, outdoors: true}}}
setups:
  pond-wide:
    set: pond
    needs: sun
    rig: 0 min
    takes: 60 min  # <- here
"""
PASSES = TRIGGERS.replace("takes: 60 min", "takes: 30 min").replace("  # <- here", "")
TURN, STOPS = 20.0, 1.5


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    for setup in facts.plan.setups.values():
        rolls = facts.rolling(setup.id) if _lit_by_the_sky(facts, setup) else None
        if rolls is None:
            continue
        lacks = sunny.lacks(facts, setup)
        if not lacks:
            yield from _setup(facts, setup, rolls)
        elif setup.needs in ("sun", "daylight") or setup.sun_on:
            yield NotChecked(RULE, f"setup '{setup.id}'", lacks)


def _lit_by_the_sky(facts: Facts, setup: Setup) -> bool:
    if setup.needs in ("sun", "daylight") or setup.sun_on:
        return True
    room = facts.plan.set_of(setup.id)
    return setup.needs is None and room is not None and bool(room.outdoors)


def _setup(facts: Facts, setup: Setup, rolls: tuple[int, int]) -> Iterator[Finding]:
    from ..science import daylight

    where = sunny.place_of(facts, setup)
    assert where is not None
    suns = [sky.sun_at(facts.plan, *where, clock_) for clock_ in rolls]
    if suns[0] is None or suns[1] is None or max(s.elevation for s in suns if s is not None) < 0:
        return
    place = facts.plan.locations[where[1]]
    up = all(s is not None and s.elevation > max(0.0, sky.skyline(place, s.azimuth)) for s in suns)
    turn = abs((suns[1].azimuth - suns[0].azimuth + 180.0) % 360.0 - 180.0) if up else 0.0
    lux = [daylight.outdoors(s.elevation) for s in suns if s is not None]
    stops = math.log2(lux[1] / lux[0])
    if turn <= TURN and abs(stops) <= STOPS:
        return
    said = [f"the sun turns by {turn:.0f} deg"] if turn > TURN else []
    said += [f"the light {'falls' if stops < 0 else 'grows'} by {abs(stops):.1f} stops"] if abs(stops) > STOPS else []
    shots = facts.shots_of.get(setup.id, ())
    path = f"{setup.path}.takes" if setup.takes is not None else shots[0].path if shots else setup.path
    yield finding(
        facts.plan,
        (RULE, SEVERITY),
        path,
        f"the takes of '{setup.id}' last {span(rolls[1] - rolls[0])}, from {clock(rolls[0])} to {clock(rolls[1])}, and "
        f"meanwhile {' and '.join(said)}: the first and the last will not cut together",
        (
            "shoot fewer takes at once, the wide first and what is cut with it right after it",
            "or put a frame of diffusion over those near the lens, and keep the wide short",
        ),
        (
            ("setup", setup.id),
            ("from", clock(rolls[0])),
            ("to", clock(rolls[1])),
            ("turn_deg", round(turn, 1)),
            ("stops", round(stops, 2)),
        ),
        typical=("a clear sky",) if abs(stops) > STOPS else (),
    )
