"""Sockets, the cables to what runs from the mains, and the boom of a setup, as a plan of the set draws them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ...facts import places
from ...facts.walls import XY, carry, corners, wall_named, window_opening
from ...plan.spots import Named, Point
from ..say import Say, join, plain
from .scene import Line, Socket
from .shapes import between, contains, distance

if TYPE_CHECKING:
    from ...plan import Plan
    from ...plan.set import Outlet, Set
    from ...plan.setup import Setup

_HEAD = 0.45  # metres from the mouth towards the lens; common practice, no source
_POLE = 2.0  # metres of pole drawn; where its foot is stays with whoever holds it


def sockets(plan: Plan, setup: Setup, room: Set, say: Say) -> tuple[tuple[Socket, ...], tuple[Line, ...]]:
    """The sockets of a set, and a cable from the nearest one of its circuit to each lamp and practical."""
    known = [(name, outlet, at) for name, outlet in room.outlets.items() if (at := _outlet(plan, room, outlet))]
    used: dict[str, None] = {}
    cables: list[Line] = []
    for circuit, at, through in _consumers(plan, setup):
        near = [(distance(place, through or at), name, place) for name, o, place in known if o.circuit == circuit]
        if not near:
            continue
        _far, name, place = min(near)
        used[name] = None
        cables.append(Line("cable", _route(room, room.outlets[name], place, through or at, at)))
    made = []
    for name, outlet, at in known:
        full = join(" · ", (plain(name), say.circuit(outlet.circuit)))
        made.append(Socket(at, ((full,), (plain(name),)) if name in used else ()))
    return tuple(made), tuple(cables)


def _outlet(plan: Plan, room: Set, outlet: Outlet) -> XY | None:
    wall = wall_named(room, outlet.wall)
    if wall is not None and outlet.from_ is not None:
        return wall.along(float(outlet.from_))
    at = outlet.at
    if isinstance(at, Point):
        return (float(at.x), float(at.y))
    return places.named(plan, room.id, at.mark) if isinstance(at, Named) else None


def _consumers(plan: Plan, setup: Setup) -> list[tuple[str, XY, XY | None]]:
    """Circuit, place, and the opening that the cable goes through, of all that has a plug in this set."""
    found: list[tuple[str, XY, XY | None]] = []
    for light in setup.lights.values():
        at = places.light_xy(plan, setup, light)
        if light.circuit and at is not None and light.in_ in (None, setup.set):
            through = _through(plan, setup, light.outside) if light.outside else None
            found.append((light.circuit, at, through))
    for lit in setup.practicals.values():
        where = places.thing(plan, setup, lit)
        if lit.circuit and where is not None:
            found.append((lit.circuit, where[:2], None))
    return found


def _through(plan: Plan, setup: Setup, window: str) -> XY | None:
    opening = window_opening(plan, window)
    if opening is None:
        return None
    room = window.rsplit("/", 1)[0]
    way = carry(plan, room, setup.set or "") if room != setup.set else None
    return way(opening.middle) if way else opening.middle


def _route(room: Set, outlet: Outlet, start: XY, inside: XY, end: XY) -> tuple[XY, ...]:
    """Along the socket's wall, then straight to the lamp, or to the opening and out: how a cable could lie."""
    wall = wall_named(room, outlet.wall)
    steps = [start]
    if wall is not None:
        away = ((inside[0] - start[0]) * wall.out[0] + (inside[1] - start[1]) * wall.out[1])
        corner = (inside[0] - wall.out[0] * away, inside[1] - wall.out[1] * away)
        steps.append(corner)
    steps.extend((inside, end))
    return tuple(p for n, p in enumerate(steps) if n == 0 or distance(p, steps[n - 1]) > 0.02)


def boom(plan: Plan, setup: Setup, say: Say) -> tuple[Line, ...]:
    """The boom as a line from about where its foot is to its head, on the side that the plan says."""
    _ = say.words
    sound, stand = setup.sound, places.camera(plan, setup)
    if sound is None or not sound.boom or stand is None or stand.down:
        return ()
    eye, subject = stand.at[:2], stand.aim[:2]
    far = distance(eye, subject)
    if far < 2 * _HEAD or sound.side not in ("left", "right"):
        return ()
    head = between(subject, eye, _HEAD / far)
    u = ((eye[0] - subject[0]) / far, (eye[1] - subject[1]) / far)
    side = (u[1], -u[0]) if sound.side == "left" else (-u[1], u[0])
    foot = _foot(plan, setup, head, side, u)
    who = say.person(sound.by) if sound.by else ""
    label = ((_("boom {who}, about here", who=who) if who else _("boom, about here"),), (_("boom"),))
    return (Line("boom", (foot, head), label),)


def _foot(plan: Plan, setup: Setup, head: XY, side: XY, towards: XY) -> XY:
    """Where whoever holds the boom may stand: to the side, a good twenty degrees off the line across the picture, or
    turned towards the camera as far as the walls want it; else as far off as they leave."""
    room = plan.sets.get(setup.set or "")
    floor = corners(room) if room is not None and not room.outdoors else ()

    def at(turn: float, far: float) -> XY:
        along, across = far * math.sin(math.radians(turn)), far * math.cos(math.radians(turn))
        return head[0] + side[0] * across + towards[0] * along, head[1] + side[1] * across + towards[1] * along

    tried = [at(turn, far) for far in (_POLE, _POLE * 0.75, _POLE * 0.5, _POLE * 0.3) for turn in (20.0, 40.0, 60.0)]
    return next((p for p in tried if not floor or contains(floor, p)), tried[0])
