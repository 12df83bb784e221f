"""What the camera of a setup sees: its field, the solids that could be in it, and what stands in between."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..plan.spots import Named
from ..record import record
from ..science import camera as cameras
from ..science import geometry, lens, sight
from ..science.camera import Camera
from ..science.geometry import Prism
from . import places, walls

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.light import Light
    from ..plan.scene import Shot
    from ..plan.set import Set
    from ..plan.setup import Setup

Blocker = Prism | sight.Pane

# Typical sizes in metres, common practice, no source; `size:` and `base:` of the gear override them.
LAMP_SIDE = 0.30
STAND_SPREAD = 0.90
THIN = 0.01  # half the width of a stand's tube, and of what has no size
LEGS_HIGH = 0.30
WALL_HIGH = 3.0


@record
class Solid:
    """A thing that must not be in frame: its name for the sentence, the plan path, its shape, and whether its size
    is a typical one."""

    words: str
    path: str
    shape: Prism
    typical: bool


def picture(plan: Plan, setup: Setup, shot: Shot | None = None) -> lens.Gate | None:
    """The part of the sensor that makes the picture, in metres; None without a body or its sensor."""
    camera = setup.camera
    body = plan.gear.get(camera.body) if camera and camera.body else None
    if body is None or body.sensor is None:
        return None
    glass = _glass(plan, setup, shot)
    aspect = body.aspect if body.aspect is not None else plan.film.aspect
    return lens.gate(float(body.sensor[0]), float(body.sensor[1]), aspect, float((glass and glass.squeeze) or 1.0))


def _glass(plan: Plan, setup: Setup, shot: Shot | None) -> Gear | None:
    name = (shot.lens if shot else None) or (setup.camera.lens if setup.camera else None)
    return plan.gear.get(name) if name else None


def focal(plan: Plan, setup: Setup, shot: Shot | None = None, *, widest: bool = False) -> float | None:
    """Focal length in metres: as said, or the lens's one. A zoom of which no length is said gives None, or with
    `widest` its short end."""
    said = (shot.zoom if shot else None) or (setup.camera.zoom if setup.camera else None)
    if said is not None:
        return float(said)
    glass = _glass(plan, setup, shot)
    if glass is None or glass.focal is None:
        return None
    return glass.focal.lo if widest or glass.focal.lo == glass.focal.hi else None


def ends(plan: Plan, setup: Setup) -> tuple[Camera, ...]:
    """The camera at the start of its move and, where it moves, at the end; empty where the plan says too little."""
    gate, length = picture(plan, setup), focal(plan, setup, widest=True)
    start = places.camera(plan, setup)
    if gate is None or length is None or start is None:
        return ()
    stands = [(start, length)]
    last = places.camera_end(plan, setup)
    zoom = setup.move.zoom_to if setup.move else None
    if last is not None or zoom is not None:
        stands.append((last or start, length if zoom is None else min(length, float(zoom))))
    top = {"north": 0.0, "east": 90.0, "south": 180.0, "west": 270.0}[(setup.camera and setup.camera.top) or "north"]
    return tuple(cameras.looking_at(s.at, s.aim, *lens.half_tangents(gate, f), top) for s, f in stands)


def missing_for_view(plan: Plan, setup: Setup) -> str:
    """The details that would let the camera's view be worked out, in words; "" where nothing is missing."""
    camera, body = setup.camera, None
    if camera is None:
        return "a 'camera:' with body, lens, at, height and aim"
    if camera.body:
        body = plan.gear.get(camera.body)
    lacks = [f"'{k}:'" for k in ("body", "lens", "at", "height", "aim") if getattr(camera, k) is None]
    if camera.body and (body is None or body.sensor is None):
        lacks.append(f"the sensor of '{camera.body}'")
    glass = plan.gear.get(camera.lens) if camera.lens else None
    if camera.lens and camera.zoom is None and (glass is None or glass.focal is None):
        lacks.append(f"the focal length of '{camera.lens}'")
    if not lacks and places.camera(plan, setup) is None:
        lacks.append("a camera place that can be worked out (a clock needs marks with places)")
    return f"{', '.join(lacks)} of the camera" if lacks else ""


def lamp_solids(plan: Plan, setup: Setup, item: Light, *, typical: bool = False) -> tuple[Solid, ...]:
    """The lamp with its modifier, and the stand below it; empty where its place or height is not said.

    A size that is not said counts as a mere line through the middle of the lamp, a stand that is not said as none;
    with `typical` both are as they typically are.
    """
    at = places.light(plan, setup, item)
    if at is None:
        return ()
    gear = plan.gear.get(item.lamp[0]) if item.lamp else None
    sides = [float(s) for s in (gear.size if gear and gear.size else ())]
    for name in item.with_:
        extra = plan.gear.get(name)
        sides += [float(s) for s in (extra.soft or extra.size or ())] if extra else []
    half = max(sides) / 2 if sides else LAMP_SIDE / 2 if typical else THIN
    body = geometry.cylinder(at[:2], half, max(at[2] - half, 0.0), at[2] + half)
    found = [Solid(f"'{item.id}'", item.path, body, typical and not sides)]
    stands = item.on in plan.gear if item.on else typical and not item.held_by
    if stands:
        found += _stand(plan, item, at, half, typical)
    return tuple(found)


def _stand(plan: Plan, item: Light, at: places.XYZ, half: float, typical: bool) -> list[Solid]:
    stand = plan.gear.get(item.on) if item.on else None
    said = stand is not None and stand.base is not None
    spread = float(stand.base) if stand and stand.base is not None else STAND_SPREAD if typical else 2 * THIN
    words = f"the stand of '{item.id}'"
    shapes = [geometry.cylinder(at[:2], spread / 2, 0.0, min(LEGS_HIGH, at[2]))]
    if at[2] - half > LEGS_HIGH:
        shapes.append(geometry.cylinder(at[:2], THIN, LEGS_HIGH, at[2] - half))
    return [Solid(words, item.path, s, typical and not said) for s in shapes]


def blockers(plan: Plan, setup: Setup, *, furniture: bool = True) -> list[Blocker]:
    """What hides things from the camera: walls with their doors and clear windows as holes, and furniture."""
    room = plan.sets.get(setup.set or "")
    if room is None or room.outdoors:
        shell: list[Blocker] = []
    else:
        high = walls.ceiling(room) or WALL_HIGH
        shell = [p for w in walls.walls(room) for p in sight.panes(_pierced(plan, setup, room, w, high))]
    if room is None or not furniture:
        return shell
    for piece in room.furniture.values():
        at = places.named(plan, room.id, piece.id)
        size = [float(s) for s in piece.size or ()]
        height = float(piece.height) if piece.height is not None else size[2] if len(size) > 2 else None
        if at is not None and len(size) >= 2 and height is not None:
            shell.append(geometry.box(at, size[0], size[1], 0.0, height, float(piece.turned or 0.0)))
    return shell


def _pierced(plan: Plan, setup: Setup, room: Set, wall: walls.Wall, high: float) -> sight.Wall:
    """A wall with the openings one can see through."""
    return sight.Wall(wall.start, wall.end, 0.0, high, holes(plan, setup, room, wall))


def holes(plan: Plan, setup: Setup, room: Set, wall: walls.Wall) -> tuple[sight.Opening, ...]:
    """The openings of a wall one can see through: doors, and windows that nothing covers."""
    found = []
    for door in room.doors.values():
        if door.wall == wall.name and door.from_ is not None and door.width is not None:
            top = float(door.height or walls.DOOR_HEIGHT)
            found.append(sight.Opening(door.from_, door.from_ + door.width, 0.0, top))
    treated = {t.id: t for t in setup.windows.values()}
    for window in room.windows.values():
        cover = treated.get(window.id)
        clear = cover is None or bool(cover.open)
        if clear and window.wall == wall.name and window.from_ is not None and window.width and window.height:
            low = float(window.sill or 0.0)
            found.append(sight.Opening(window.from_, window.from_ + window.width, low, low + window.height))
    for door in plan.doors.values():
        there = door.there if door.leads_to == room.id else None
        if there and there.wall == wall.name and there.from_ is not None and door.width is not None:
            top = float(door.height or walls.DOOR_HEIGHT)
            found.append(sight.Opening(there.from_, there.from_ + door.width, 0.0, top))
    return tuple(found)


def subject_distance(plan: Plan, setup: Setup, shot: Shot, *, end: bool = False) -> tuple[float, float] | None:
    """Metres on the floor from lens to subject, and from the lens to the subject's eyes; None where not known."""
    stand = places.camera_end(plan, setup) if end else places.camera(plan, setup)
    if stand is not None and stand.down:
        level = places.mark_eyes(plan, setup, shot.of) if shot.of else None
        return None if level is None else (stand.at[2] - level, stand.at[2] - level)
    if stand is None:
        return None
    target = stand.aim
    if shot.of:
        at, eyes = places.spot(plan, setup, Named(shot.of)), places.mark_eyes(plan, setup, shot.of)
        if at is None:
            return None
        target = (at[0], at[1], stand.aim[2] if eyes is None else eyes)
    flat = geometry.distance(stand.at[:2], target[:2])
    return flat, (flat**2 + (stand.at[2] - target[2]) ** 2) ** 0.5
