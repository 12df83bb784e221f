"""Direct sun comes in through a window while a setup is shot that does not want it.

On set: a bright patch creeps over the wall from take to take, and no two of them cut together.

How it is decided: when direct sun falls on a window of the set (its wall's bearing from 'north:', the sun by date and
place, above the 'skyline:'), against when the takes run in the agreed order (which itself waits for what stands under
'sun-off:'). It is said of windows named under 'sun-off:', and of windows that nothing covers in a setup that asks for
no sun; a night scene past an open window is another finding. For every mark of the set the straight line from the
height of the eyes there to the sun tells whether and when it is in the sun; the patch on floor and walls is the
window's outline carried along the sun's rays at the middle of the time. Clouds, furniture and the bars of the window
are not known. Source: the sun within 0.02 deg of NREL's solar position algorithm; plane geometry.

Fix: cover the window for the time named, soften it with diffusion, or shoot before or after.

When to accept it: the sun is wanted (write 'sun-on:'), or the forecast is grey, or the patch is out of the picture.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from . import sunny
from .physics import Case, causes, length
from .words import AGREED, clock, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts, sunpatch
    from ..findings import Finding
    from ..plan import Plan
    from ..plan.setup import Setup

    Met = tuple[Setup, str, int, int, sunpatch.Patch | None, tuple[sunny.Span, ...]]
    Marked = list[tuple[str, int, int]]

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
        yield _finding(facts, cause.worst.path, cause.worst.what, cause.also)


def _finding(facts: Facts, path: str, met: Met, also: str) -> Finding:
    plan = facts.plan
    setup, window, start, end, patch, spans = met
    short = window.rsplit("/", 1)[-1]
    marks = _marks(facts, setup, window, start, end)
    on = " and ".join(f"mark '{m}' from {clock(a)} to {clock(b)}" for m, a, b in marks)
    hits = f"it reaches {on}, at the height of the eyes" if marks else "no mark of the set is in it"
    lies = _lies(plan, patch)
    day = next((s for s in spans if s[0] <= start and end <= s[1]), spans[0])
    return finding(
        plan,
        (RULE, SEVERITY),
        path,
        f"direct sun falls through '{short}' from {clock(start)} to {clock(end)}, while '{setup.id}' is taken: {hits}"
        f"{lies}{also}",
        (
            f"cover '{short}' from {clock(start)} to {clock(end)}: black cloth keeps the sun out, diffusion makes it "
            "a soft light",
            f"or shoot '{setup.id}' before {clock(day[0])} or after {clock(day[1])}, when the sun is off '{short}'",
        ),
        (
            ("setup", setup.id),
            ("window", short),
            ("from", clock(start)),
            ("to", clock(end)),
            ("sun_on_window", sunny.hours(spans)),
            ("marks", ", ".join(m for m, _, _ in marks)),
            ("reach_m", "" if patch is None or patch.deep is None else round(patch.deep, 2)),
        ),
        also=[(plan.windows[window].path, "the window")],
    )


def _lies(plan: Plan, patch: sunpatch.Patch | None) -> str:
    """Where the patch lies at the middle of the time."""
    if patch is None:
        return ""
    parts = [f"on the floor up to {length(plan, patch.deep)} from the window's wall"] if patch.deep is not None else []
    if patch.walls:
        parts.append(f"on the wall {quoted(name for name, _, _ in patch.walls)}")
    return f"; at {clock(patch.clock)} its patch lies {' and '.join(parts)}" if parts else ""


def _marks(facts: Facts, setup: Setup, window: str, start: int, end: int) -> Marked:
    """The marks of the set that are in the sun, each with its first and last moment."""
    from ..facts import light, sunpatch

    plan, room, where = facts.plan, facts.plan.set_of(setup.id), sunny.place_of(facts, setup)
    if room is None or where is None:
        return []
    found = []
    for name, mark in room.marks.items():
        at = None if mark.thing else light.spot_of(plan, setup, name)
        spans = sunpatch.on_point(plan, room, window, where[0], at, ((start, end),)) if at is not None else ()
        if spans:
            found.append((name, spans[0][0], spans[-1][1]))
    return found


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
    """The hours of sun on a window inside the takes, and where the patch lies in their middle."""
    from ..facts import sunpatch

    plan, room = facts.plan, facts.plan.set_of(setup.id)
    spans, rolling = sunny.struck(facts, setup, window), facts.rolling(setup.id)
    where = sunny.place_of(facts, setup)
    if not spans or rolling is None or where is None or room is None:
        return None
    shared = [(max(a, rolling[0]), min(b, rolling[1])) for a, b in spans]
    start, end = max(shared, key=lambda s: s[1] - s[0])
    if end - start < 2:
        return None
    own = plan.sets.get(window.rsplit("/", 1)[0], room)
    patch = sunpatch.patch(plan, own, window, where[0], (start + end) // 4 * 2)
    return setup, window, start, end, patch, spans
