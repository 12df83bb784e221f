"""A lamp's cable lies across a walkway and cannot go around it.

On set: somebody walks backwards with the boom, and the lamp comes down.

How it is decided: the straight line from the lamp to the nearest socket of its circuit against the middle line of each
walkway. Where it crosses, the way around the walkway's open end is measured; it must be within the lamp's own lead and
the leads it names, or, where it names none, all leads the plan owns. An end at a door cannot be gone around. Source:
plane geometry; cables along walls, not across ways, is common practice, no source.

Fix: take a socket on the lamp's side, a longer lead around, hang the cable over the door, or tape it under a mat.

When to accept it: the cable lies under a mat with taped edges, and everybody has been told.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from ..facts import places, reach, space
from ..findings import NotChecked
from ..science import geometry
from .physics import Case, causes, length
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.space import Lane
    from ..facts.walls import XY
    from ..findings import Finding
    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.light import Light
    from ..plan.set import Set

    Met = tuple[Light, Lane, reach.Way, float, float | None]

RULE = "cable-across-walkway"
SEVERITY: Final = "warning"
TITLE = "a cable lies across a walkway"

TRIGGERS = """
hotset: 1
locations:
  landing:
    circuits: {ground-floor: {breaker: 16 A}}
    sets:
      hall:
        size: 7 m x 5 m x 3.2 m
        doors:
          front: {wall: south, from: 3.0 m, width: 1.0 m, exit: true}
          back: {wall: north, from: 3.0 m, width: 1.0 m}
        walkways: {through: {from: front, to: back, width: 1 m}}
        outlets: {by-window: {wall: west, from: 2 m, circuit: ground-floor}}
gear:
  cob: {kind: light, draws: 180 W, lead: 3 m}
  extension: {kind: power, long: 15 m, section: 1.5 mm2}
setups:
  hall-wide:
    set: hall
    lights:
      moon:
        lamp: cob
        at: [5.5 m, 2.0 m]
        circuit: ground-floor  # <- here
        lead: extension
"""
PASSES = TRIGGERS.replace("wall: west", "wall: east").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        room = plan.set_of(setup.id)
        lanes = space.lanes(plan, setup, room) if room is not None and room.walkways else []
        for light in setup.lights.values() if lanes and room is not None else ():
            lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
            here = places.light_xy(plan, setup, light)
            way = reach.way(plan, setup, light)
            if lamp is None or here is None or light.outside is not None or room is None:
                continue
            if way is None:
                if light.circuit is not None:
                    yield NotChecked(
                        RULE, f"'{light.id}' in setup '{setup.id}'", "the place of a socket of its circuit"
                    )
                continue
            socket = reach.outlet_spot(plan, room, setup, way.outlet)
            lane = next((x for x in lanes if socket and geometry.segments_cross(here, socket, x.start, x.end)), None)
            if lane is None or socket is None:
                continue
            around = _around(plan, room, lane, here, socket)
            if around is None or around > _reaches(plan, light, lamp):
                cases.append(
                    Case(f"{light.path}.circuit", setup.id, way.straight, (light, lane, way, way.straight, around))
                )
    for cause in causes(plan, cases):
        yield _finding(facts, cause.worst, cause.also)


def _around(plan: Plan, room: Set, lane: Lane, here: XY, socket: XY) -> float | None:
    """The shortest way around an end of a walkway that is not at a door; None where both are."""
    name = lane.words.split("'")[1]
    run = math.dist(lane.start, lane.end)
    found = []
    for end, at, other in (("from", lane.start, lane.end), ("to", lane.end, lane.start)):
        if space.ends_at_door(plan, room, name, end):
            continue
        clear = lane.width / 2
        beyond = (at[0] + (at[0] - other[0]) / run * clear, at[1] + (at[1] - other[1]) / run * clear)
        found.append(math.dist(here, beyond) + math.dist(beyond, socket))
    return min(found, default=None)


def _reaches(plan: Plan, light: Light, lamp: Gear) -> float:
    own = float(lamp.lead or 0.0)
    if light.lead:
        return own + sum(float(plan.gear[n].long or 0.0) for n in light.lead if n in plan.gear)
    return own + sum(metres * count for _, metres, count in reach.leads(plan))


def _finding(facts: Facts, case: Case[Met], also: str) -> Finding:
    plan = facts.plan
    light, lane, way, straight, around = case.what
    ways = ["hang it on a socket on the lamp's side of the way"]
    if around is not None:
        ways.append(f"or lay it around the end of the way, with {length(plan, around)} of lead")
    ways.append("or lay it under a mat with taped edges, and tell everybody")
    return finding(
        plan,
        (RULE, SEVERITY),
        case.path,
        f"the cable of '{light.id}' in '{case.who}' lies across {lane.words} on its {length(plan, straight)} to "
        f"socket '{way.outlet.id.rsplit('/', 1)[-1]}'{also}",
        tuple(ways),
        (
            ("setup", case.who),
            ("light", light.id),
            ("straight_m", round(straight, 2)),
            ("around_m", "" if around is None else round(around, 2)),
        ),
        also=[(lane.path, lane.words), (way.outlet.path, "the socket")],
    )
