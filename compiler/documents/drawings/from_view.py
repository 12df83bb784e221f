"""The camera's-eye view of a setup of a plan."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ...facts import boards, places, views, walls
from ...record import replace
from ...science import camera as lens
from ...science import sight
from ...science.geometry import box, inside
from ..numbers import decimal
from ..say import Say, join, plain
from ..words import Words, words_for
from . import eyeview, in_use
from .eyeview import Person, Point3, Surface, Thing, View
from .from_light import lamp_numbers
from .scene import Posture
from .setplan import slug
from .svg import Drawing

_SMALL = 0.06  # metres, the cube drawn for a thing of which only the place is said
PRACTICAL = 0.20  # metres, the cube of a lamp in the picture of which no size is said; common practice, no source

if TYPE_CHECKING:
    from ...plan import Plan
    from ...plan.scene import Shot
    from ...plan.set import Set
    from ...plan.setup import Setup
    from ...science.camera import Camera


def eye_view(
    plan: Plan,
    setup_id: str,
    words: Words | None = None,
    numbers: Mapping[str, str] | None = None,
    end: bool = False,
    width: float = 420.0,
    shot: Shot | None = None,
) -> Drawing:
    """What the lens of a setup sees at the start of its move, or at its `end`.

    With a `shot` it is the frame of that shot, through its own lens where it names one, without words on it. `svg`
    is empty where the plan says too little of the camera, or nothing moves; `missing` tells what is wanted.
    """
    _ = words or words_for()
    say = Say(plan, _)
    setup = plan.setups[setup_id]
    if shot is not None and setup.camera is not None and (shot.lens or shot.zoom is not None):
        own = replace(setup.camera, lens=shot.lens or setup.camera.lens, zoom=shot.zoom)
        setup = replace(setup, camera=own)
    ends = views.ends(plan, setup)
    name = say.setup(setup_id)
    title = (
        _("What the lens sees in {setup}, end of the move", setup=name)
        if end
        else _("What the lens sees in {setup}", setup=name)
    )
    if not ends or (end and len(ends) < 2):
        wanted = views.missing_for_view(plan, setup) if not ends else _("a move with an end")
        return Drawing("", title, "", 0.0, 0.0, (), (wanted,))
    camera = ends[-1] if end else ends[0]
    room = plan.sets.get(setup.set or "")
    known = numbers or lamp_numbers(plan, setup.set)
    used, nowhere = in_use.marks(plan, setup, room, shot) if room else ((), 0)
    view = View(
        title,
        camera,
        tuple(_shell(plan, setup, room, camera)) if room else (),
        (*_furniture(plan, room, used), *_practicals(plan, setup), *_boards(plan, setup),
         *_lamps(plan, setup, room, say, known, camera)) if room else (),
        tuple(_people(plan, setup, room, used)) if room else (),
        _caption(plan, setup, say, camera, nowhere),
    )  # fmt: skip
    if shot is not None:
        return eyeview.draw(view, f"frame-{slug(shot.id)}", _, width, bare=True)
    return eyeview.draw(view, f"eye-{slug(setup_id)}{'-end' if end else ''}", _, width)


def _caption(plan: Plan, setup: Setup, say: Say, camera: Camera, nowhere: int) -> str:
    """Focal length, proportion of the picture, height of the lens, and how many play without a mark."""
    _ = say.words
    c = setup.camera
    glass = plan.gear.get(c.lens or "") if c else None
    focal = f"{c.zoom * 1000:.0f} mm" if c and c.zoom else say.value("length-range", glass.focal) if glass else ""
    ratio = decimal(f"{camera.half_width / camera.half_height:.2f}:1", _)
    height = say.value("length", round(camera.position[2], 2))
    told = _("{focal}, picture {ratio}, lens {height} high", focal=focal, ratio=ratio, height=height)
    more = _("not drawn: {n} of the cast, for no mark is named", n=nowhere) if nowhere else ""
    return join("; ", (told, more))


def _shell(plan: Plan, setup: Setup, room: Set, camera: Camera) -> list[Surface]:
    """Floor and the walls that face the camera, the far ones first, each with its openings."""
    floor = walls.corners(room)
    found = [Surface("floor", tuple((x, y, 0.0) for x, y in floor))] if floor else []
    if room.outdoors:
        return found
    high = walls.ceiling(room) or views.WALL_HIGH
    facing = [w for w in walls.walls(room) if _faces_camera(w, camera)]
    for wall in sorted(facing, key=lambda w: -lens_far(camera, w)):
        found.append(Surface("wall", _upright(wall.start, wall.end, 0.0, high)))
        for name, window in room.windows.items():
            place = walls.window_opening(plan, f"{room.id}/{name}")
            if place is not None and window.wall == wall.name:
                cover = setup.windows.get(f"{room.id}/{name}") or setup.windows.get(name)
                covered = cover is not None and cover.black_out is not None
                found.append(
                    Surface("covered" if covered else "window", _upright(place.start, place.end, place.low, place.high))
                )
        for full, door in plan.doors.items():
            gap = walls.door_opening(plan, full)
            if gap is not None and full.rsplit("/", 1)[0] == room.id and door.wall == wall.name:
                found.append(Surface("door", _upright(gap.start, gap.end, gap.low, gap.high)))
        for mirror in room.mirrors.values():
            glass = walls.opening(room, mirror, float(mirror.sill or 0.0), mirror.height)
            if glass is not None and mirror.wall == wall.name:
                found.append(Surface("mirror", _upright(glass.start, glass.end, glass.low, glass.high)))
    return found


def _faces_camera(wall: walls.Wall, camera: Camera) -> bool:
    x, y, _z = camera.position
    return (x - wall.start[0]) * wall.out[0] + (y - wall.start[1]) * wall.out[1] < 0.0


def lens_far(camera: Camera, wall: walls.Wall) -> float:
    """How far ahead of the lens the middle of a wall is, metres."""
    middle = (wall.start[0] + wall.end[0]) / 2, (wall.start[1] + wall.end[1]) / 2, 1.0
    return lens.to_camera(camera, middle)[2]


def _upright(a: tuple[float, float], b: tuple[float, float], low: float, high: float) -> tuple[Point3, ...]:
    return (a[0], a[1], low), (b[0], b[1], low), (b[0], b[1], high), (a[0], a[1], high)


def _practicals(plan: Plan, setup: Setup) -> list[Thing]:
    """Lamps that belong to the picture, as boxes of their size or as cubes; in the middle of their height."""
    found: list[Thing] = []
    for name, item in setup.practicals.items():
        at = places.thing(plan, setup, item)
        if at is None or item.height is None:
            continue
        prop = plan.gear.get(item.prop or "")
        size = [float(side) for side in prop.size] if prop and prop.size else []
        wide = max(size[:2]) if len(size) > 1 else PRACTICAL
        high = size[2] if len(size) > 2 else wide
        solid = box((at[0], at[1]), wide, wide, max(at[2] - high / 2, 0.0), at[2] + high / 2)
        found.append(Thing("thing", tuple(lens.faces(solid)), ((plain(name),),)))
    return found


def _boards(plan: Plan, setup: Setup) -> list[Thing]:
    """Flags, cloth, frames and boards that stand upright, each as a flat sheet."""
    return [Thing("thing", (sheet.pane,), ((plain(sheet.item.id),),)) for sheet in boards.sheets(plan, setup)]


def _furniture(plan: Plan, room: Set, used: tuple[str, ...]) -> list[Thing]:
    """Furniture, and the things at the marks in use."""
    found: list[Thing] = []
    for name, piece in room.furniture.items():
        at = places.named(plan, room.id, name)
        size = [float(side) for side in piece.size or ()]
        height = float(piece.height) if piece.height is not None else size[2] if len(size) > 2 else None
        if at is not None and len(size) >= 2 and height is not None:
            solid = box(at, size[0], size[1], 0.0, height, float(piece.turned or 0.0))
            found.append(Thing("thing", tuple(lens.faces(solid)), ((plain(name),),)))
    for name, mark in room.marks.items():
        at = places.named(plan, room.id, name)
        if name in used and mark.thing and mark.height is not None and at is not None:
            low, high = float(mark.height) - _SMALL / 2, float(mark.height) + _SMALL / 2
            faces = tuple(lens.faces(box(at, _SMALL, _SMALL, low, high)))
            found.append(Thing("thing", faces, ((plain(name),),)))
    return found


def _lamps(plan: Plan, setup: Setup, room: Set, say: Say, numbers: Mapping[str, str], camera: Camera) -> list[Thing]:
    """Lamps with their stands; one in another room or outside only where the lens sees it."""
    _ = say.words
    found: list[Thing] = []
    blockers = views.blockers(plan, setup)
    floor = walls.corners(room)
    for name, item in setup.lights.items():
        number = numbers.get(name, "?")
        label = ((_("lamp {number}", number=number),),)
        for n, solid in enumerate(views.lamp_solids(plan, setup, item, typical=True)):
            seen = sight.seen(camera, solid.shape, blockers).seen
            here = room.outdoors or (floor and inside(floor, lens.middle(solid.shape)[:2]))
            if seen or here:
                faces = tuple(lens.faces(solid.shape))
                found.append(Thing("lamp", faces, label if n == 0 else (), number, seen, not solid.typical))
    return found


def _people(plan: Plan, setup: Setup, room: Set, used: tuple[str, ...]) -> list[Person]:
    """Somebody at each mark for people that is in use."""
    found: list[Person] = []
    tall = places.person_height(plan, setup)
    for name, mark in room.marks.items():
        at = places.named(plan, room.id, name)
        if name in used and at is not None and not mark.thing:
            posture: Posture = "sits" if mark.sits else "lies" if mark.lies else "stands"
            found.append(Person(at, tall, posture, ((plain(name),),)))
    return found
