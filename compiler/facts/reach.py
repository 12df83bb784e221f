"""How far a lamp stands from its socket, and what leads reach there."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from . import places
from .walls import XY, wall_named

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.light import Light
    from ..plan.set import Outlet, Set
    from ..plan.setup import Setup

ROUTE = 1.3  # a cable's way against the straight line; common practice, no source


class Way(NamedTuple):
    """The way of a lamp's cable to the nearest socket of its circuit: the socket, the straight line and the route in
    metres."""

    outlet: Outlet
    straight: float
    route: float


def outlet_spot(plan: Plan, room: Set, setup: Setup, outlet: Outlet) -> XY | None:
    """Where a socket is, in metres of its set."""
    if outlet.at is not None:
        return places.spot(plan, setup, outlet.at, room.id)
    wall = wall_named(room, outlet.wall)
    return wall.along(float(outlet.from_)) if wall is not None and outlet.from_ is not None else None


def sockets(plan: Plan, setup: Setup, circuit: str) -> list[Outlet]:
    """The sockets of a circuit in the set of a setup."""
    room = plan.sets.get(setup.set or "")
    return [o for o in room.outlets.values() if o.circuit == circuit] if room else []


def way(plan: Plan, setup: Setup, light: Light) -> Way | None:
    """The way to the nearest socket of the lamp's circuit; None where the plan does not place both."""
    return None if light.circuit is None else way_to(plan, setup, light, light.circuit)


def way_to(plan: Plan, setup: Setup, light: Light, circuit: str) -> Way | None:
    """The way to the nearest socket of any circuit; None where the plan does not place both."""
    room = plan.sets.get(setup.set or "")
    here = places.light_xy(plan, setup, light)
    if room is None or here is None:
        return None
    best: Way | None = None
    for outlet in sockets(plan, setup, circuit):
        at = outlet_spot(plan, room, setup, outlet)
        if at is not None:
            straight = math.dist(here, at)
            if best is None or straight < best.straight:
                best = Way(outlet, straight, straight * ROUTE)
    return best


def leads(plan: Plan) -> list[tuple[str, float, int]]:
    """Every lead the plan owns: name, length in metres, how many."""
    return [
        (g.id, float(g.long), 1 if g.quantity is None else g.quantity)
        for g in plan.gear_of("power")
        if g.long is not None
    ]
