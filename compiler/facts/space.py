"""What stands on the floor of a set in a setup: lamps, the camera at both ends of its move, flags, stands' feet."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from ..plan.spots import Named
from ..science import geometry
from . import places, walls

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.set import Set
    from ..plan.setup import Setup
    from .walls import XY

EXIT = 0.6  # metres that stay clear; common practice, no source


class Stander(NamedTuple):
    """Something on the floor: its name, the plan path of its place and of its height, where it is, how high it works
    (None: not said), half the height of what it holds, the stand under it (None: none or not named), the diameter of
    its feet (0: not said), and whether a person holds it."""

    words: str
    at_path: str
    height_path: str
    at: XY
    height: float | None
    half: float
    stand: Gear | None
    base: float
    held: bool
    room: str


def standers(plan: Plan, setup: Setup) -> Iterator[Stander]:
    """Everything of a setup that stands inside a set, in the coordinates of that set; what hangs from the ceiling has
    no feet and no stand."""
    yield from _cameras(plan, setup)
    for light in setup.lights.values():
        room = light.in_ or setup.set
        at = places.spot(plan, setup, light.at, room) if light.outside is None else None
        if at is None or room is None:
            continue
        lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
        half = _half(lamp)
        for name in light.with_:
            extra = plan.gear.get(name)
            half = max(half, _half(extra))
        height = None if light.height is None else float(light.height)
        stand, base = _under(plan, light.on)
        words = f"'{light.id}'"
        held = bool(light.held_by)
        yield Stander(words, f"{light.path}.at", f"{light.path}.height", at, height, half, stand, base, held, room)
    for grip in setup.grip.values():
        at = places.spot(plan, setup, grip.at)
        if at is None or setup.set is None or grip.on == "ceiling":
            continue
        height = None if grip.height is None else float(grip.height)
        half = float(grip.size[1]) / 2 if grip.size else 0.0
        stand, base = _under(plan, grip.on)
        path, held = grip.path, bool(grip.held_by)
        yield Stander(f"'{grip.id}'", f"{path}.at", f"{path}.height", at, height, half, stand, base, held, setup.set)


def standers_elsewhere(plan: Plan, setup: Setup) -> Iterator[Stander]:
    """Lamps on stands of which no place in a set is known: outside of a window, or nowhere said. Only how high they
    work can be judged."""
    for light in setup.lights.values():
        room = light.in_ or setup.set
        inside = places.spot(plan, setup, light.at, room) if light.outside is None else None
        stand, base = _under(plan, light.on)
        if inside is not None or stand is None or light.height is None:
            continue
        yield Stander(
            f"'{light.id}'", f"{light.path}.at", f"{light.path}.height", (0.0, 0.0), float(light.height), 0.0, stand,
            base, bool(light.held_by), "",
        )  # fmt: skip


def _cameras(plan: Plan, setup: Setup) -> Iterator[Stander]:
    camera, move = setup.camera, setup.move
    if camera is None or setup.set is None:
        return
    stand, base = _under(plan, camera.on)
    held = bool(camera.held_by) or camera.on == "hand"
    ends = [("the camera", f"{camera.path}.at", camera.at, f"{camera.path}.height", camera.height)]
    if move is not None and (move.to is not None or move.height_to is not None):
        last = ("the camera at the end of its move", f"{move.path}.to", move.to or camera.at)
        ends.append((*last, f"{move.path}.height-to", move.height_to if move.height_to is not None else camera.height))
    for words, path, spot, high_path, high in ends:
        at = places.spot(plan, setup, spot)
        if at is not None:
            height = None if high is None else float(high)
            yield Stander(words, path, high_path, at, height, 0.0, stand, base, held, setup.set)


def _half(thing: Gear | None) -> float:
    """Half the height of a lamp or modifier, as far as it is said."""
    if thing is None:
        return 0.0
    sides = [float(s) for s in thing.soft or thing.size or ()]
    return (sides[-1] if len(sides) > 1 else max(sides, default=0.0)) / 2


def _under(plan: Plan, on: str | None) -> tuple[Gear | None, float]:
    stand = plan.gear.get(on) if on else None
    return stand, float(stand.base) if stand is not None and stand.base is not None else 0.0


def nearest_wall(room: Set, at: XY) -> tuple[str, float] | None:
    """The nearest wall and how far it is; None where the set has no walls."""
    found = [(w.name, geometry.distance_to_segment(at, w.start, w.end)) for w in walls.walls(room)]
    return min(found, key=lambda one: one[1], default=None)


def outside(room: Set, at: XY) -> bool:
    """Whether a spot lies outside of a room with walls."""
    floor = walls.corners(room)
    return bool(floor) and not room.outdoors and not geometry.inside(floor, at)


def footprint(plan: Plan, room: Set, name: str) -> tuple[XY, ...]:
    """The corners of a piece of furniture; empty where its place or size is not said."""
    piece = room.furniture[name]
    at = places.named(plan, room.id, name)
    if at is None or not piece.size or len(piece.size) < 2:
        return ()
    return geometry.rectangle(at, float(piece.size[0]), float(piece.size[1]), float(piece.turned or 0.0))


def exits(plan: Plan, room: Set) -> list[tuple[str, str, walls.Opening]]:
    """Ways out of a set (name, path, opening): the doors marked as exits, else its only door."""
    own = [d for d in room.doors.values() if d.exit] or (list(room.doors.values()) if len(room.doors) == 1 else [])
    found = []
    for door in own:
        opening = walls.door_opening(plan, door.id)
        if opening is not None:
            found.append((door.id.rsplit("/", 1)[-1], door.path, opening))
    return found


class Lane(NamedTuple):
    """A way that stays free: its name and plan path, where it begins and ends, and its width."""

    words: str
    path: str
    start: XY
    end: XY
    width: float


def lanes(plan: Plan, setup: Setup, room: Set) -> list[Lane]:
    """The walkways of a set; one without a width counts as an exit's least width."""
    found = []
    for way in room.walkways.values():
        start, end = places.spot(plan, setup, way.from_, room.id), places.spot(plan, setup, way.to, room.id)
        if start is not None and end is not None and math.dist(start, end) > 0.01:
            found.append(Lane(f"walkway '{way.id}'", way.path, start, end, float(way.width or EXIT)))
    return found


def ends_at_door(plan: Plan, room: Set, name: str, end: str) -> bool:
    """Whether the beginning (`from`) or end (`to`) of a walkway is a door, so that nothing goes around it there."""
    way = room.walkways[name]
    spot = way.from_ if end == "from" else way.to
    return isinstance(spot, Named) and f"{room.id}/{spot.mark}" in plan.doors


def free_across(width: float, taken: list[tuple[float, float]]) -> float:
    """The widest gap left of 0 to `width` by spans that are taken."""
    best, at = 0.0, 0.0
    for low, high in sorted(taken):
        best, at = max(best, min(low, width) - at), max(at, high)
    return max(best, width - at)


def in_strip(at: XY, radius: float, start: XY, end: XY, deep: float, out: XY) -> tuple[float, float] | None:
    """The span along start-end that a circle takes in the strip that reaches `deep` metres from that line against
    `out`; None where it takes none."""
    length = math.dist(start, end) or 1.0
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    along = (at[0] - start[0]) * ux + (at[1] - start[1]) * uy
    inward = -((at[0] - start[0]) * out[0] + (at[1] - start[1]) * out[1])
    beyond = inward - deep if inward > deep else -inward if inward < 0 else 0.0
    if beyond >= radius:
        return None
    half = math.sqrt(radius * radius - beyond * beyond)
    return (along - half, along + half) if along + half > 0 and along - half < length else None
