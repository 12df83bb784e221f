"""The plan of the set for a setup of a plan: what stands where, as far as the plan says."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Literal

from ...facts import places
from ...facts.walls import XY, carry, corners, door_opening, wall_named, window_opening
from ...science import lens as optics
from ..say import Say, move_word, plain
from ..words import Words, words_for
from . import from_light, from_power, in_use, setplan
from .scene import Camera, Footprint, Label, Line, Mark, Move, Opening, Scene
from .setplan import HALF_A4, Paper
from .shapes import area, around, direction, distance
from .svg import Drawing

if TYPE_CHECKING:
    from ...facts.walls import Opening as InWall
    from ...plan import Plan
    from ...plan.light import Treatment
    from ...plan.set import Set
    from ...plan.setup import Setup

WALL = 0.12  # metres, drawn thickness; no plan says it, and nothing is measured from it
Sun = tuple[float, str]


def plan_of_set(
    plan: Plan,
    setup_id: str,
    words: Words | None = None,
    before: str | None = None,
    numbers: Mapping[str, str] | None = None,
    sun: Sun | None = None,
    paper: Paper = HALF_A4,
) -> Drawing:
    """The drawing of a setup from above.

    `before` is the setup just before it: lamps new since then are black, those that go out struck. `numbers` names
    the lamps (`lamp_numbers` when left out). `sun` is the sun's compass bearing and the words for the hour. Where
    the plan places nothing, `svg` is empty and `missing` says what is wanted.
    """
    _ = words or words_for()
    setup = plan.setups[setup_id]
    say = Say(plan, _)
    title = _("Plan of the set for {setup}", setup=say.setup(setup_id))
    scene = scene_of(plan, setup, say, before, numbers or from_light.lamp_numbers(plan, setup.set), sun, title)
    if scene is None:
        wanted = _("the set: say its size, such as 'size: 4.2 m x 3.6 m', or where the camera stands")
        return Drawing("", title, "", 0.0, 0.0, (), (wanted,))
    return setplan.draw(scene, f"plan-{setplan.slug(setup_id)}", paper, _)


def scene_of(
    plan: Plan,
    setup: Setup,
    say: Say,
    before: str | None,
    numbers: Mapping[str, str],
    sun: Sun | None,
    title: str,
) -> Scene | None:
    """What is to be drawn, or None where nothing has a place."""
    _ = say.words
    room = plan.sets.get(setup.set or "")
    if room is None:
        return None
    missing: list[str] = []
    outline = corners(room)
    if area(outline) < 0 if outline else False:
        outline = outline[::-1]
    cameras, moves = _cameras(plan, setup, say, missing)
    old = plan.setups.get(before) if before else None
    lamps, bounces = from_light.lamps(plan, setup, say, old, numbers, missing)
    practicals = from_light.practicals(plan, setup, say, missing)
    lines, cloths = from_light.grip(plan, setup, say, missing)
    sockets, cables = from_power.sockets(plan, setup, room, say)
    marks = _marks(plan, setup, say, room)
    furniture = tuple(_furniture(plan, setup, say, room, missing))
    if not outline:
        known = [t.at for group in (cameras, lamps, practicals, marks) for t in group]
        if not known:
            return None
        x0, y0, x1, y1 = around(known, 0.5)
        outline = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
        missing.insert(0, _("walls of the set: say its size, such as 'size: 4.2 m x 3.6 m'"))
        room_walls = False
    else:
        room_walls = not room.outdoors
        lamps = tuple(from_light.nearer(lamp, outline, say) for lamp in lamps)
    return Scene(
        title=title,
        outline=outline,
        indoors=room_walls,
        thickness=WALL,
        north=None if room.north is None else float(room.north),
        openings=tuple(_openings(plan, setup, say, room, outline)),
        footprints=(*furniture, *cloths),
        marks=marks,
        cameras=cameras,
        lamps=lamps,
        practicals=practicals,
        sockets=sockets,
        ghosts=tuple(from_light.ghosts(plan, setup, old, numbers)),
        lines=(*_mirrors(room), *_walkways(plan, setup, room), *cables, *bounces, *lines,
               *from_power.boom(plan, setup, say)),
        moves=moves,
        sun=sun[0] if sun else None,
        sun_words=sun[1] if sun else "",
        imperial=say.lengths == "imperial",
        missing=tuple(missing),
    )


def horizontal_field(plan: Plan, setup: Setup, zoom: float | None = None) -> float | None:
    """The angle in degrees the lens sees across the picture, from sensor, aspect, squeeze and focal length."""
    c = setup.camera
    body, glass = (plan.gear.get(c.body or ""), plan.gear.get(c.lens or "")) if c else (None, None)
    if c is None or body is None or glass is None or body.sensor is None or glass.focal is None:
        return None
    focal = zoom or c.zoom or (glass.focal.lo if glass.focal.lo == glass.focal.hi else None)
    if not focal:
        return None
    aspect = body.aspect or plan.film.aspect
    picture = optics.gate(float(body.sensor[0]), float(body.sensor[1]), aspect, float(glass.squeeze or 1.0))
    return optics.field_of_view(picture.width, float(focal))


def _cameras(plan: Plan, setup: Setup, say: Say, missing: list[str]) -> tuple[tuple[Camera, ...], tuple[Move, ...]]:
    _ = say.words
    c = setup.camera
    at = places.spot(plan, setup, c.at) if c else None
    if c is None or at is None:
        missing.append(_("camera: say where it stands, such as 'at: [0.4 m, 2.0 m]'"))
        return (), ()
    down = bool(c.aim and c.aim.down)
    aim = places.spot(plan, setup, c.aim.at) if c.aim else None
    if aim is None and not down:
        missing.append(_("view of the camera: say what it looks at with 'aim:'"))
    field = horizontal_field(plan, setup)
    if field is None and aim is not None:
        missing.append(_("edges of the view: they need the body's 'sensor:' and the lens's 'focal:' or the 'zoom:'"))
    towards = direction(at, aim) if aim and distance(at, aim) > 1e-6 else None
    cameras = [Camera(at, towards, field, _camera_label(plan, setup, say), down=down)]
    moves: list[Move] = []
    move = setup.move
    if move is not None and (move.to is not None or move.aim_to is not None):
        end = places.spot(plan, setup, move.to) if move.to is not None else at
        aim_end = places.spot(plan, setup, move.aim_to.at) if move.aim_to is not None else aim
        if end is None:
            missing.append(_("end of the move: say where with 'to: [1.2 m, 1.6 m]'"))
        else:
            turned = direction(end, aim_end) if aim_end and distance(end, aim_end) > 1e-6 else None
            zoom = float(move.zoom_to) if move.zoom_to else None
            named = _("end of {move}", move=move_word(say, move.kind) or _("move"))
            label: Label = ((named,),)
            cameras.append(Camera(end, turned, horizontal_field(plan, setup, zoom), label, True, down))
            if distance(at, end) > 0.05:
                moves.append(Move((at, end)))
    return tuple(cameras), tuple(moves)


def _camera_label(plan: Plan, setup: Setup, say: Say) -> Label:
    """The lens in words, then height and support."""
    _ = say.words
    c = setup.camera
    if c is None:
        return ()
    glass = plan.gear.get(c.lens or "")
    zoom = say.value("length-range", glass.focal) if glass and glass.focal else ""
    lens = _("{focal} mm", focal=f"{c.zoom * 1000:.0f}") if c.zoom else zoom
    first = lens or _("camera")
    height = _("{height} high", height=say.value("length", c.height)) if c.height is not None else ""
    on = say.thing(c.on) if c.on else _("held by {who}", who=say.person(c.held_by)) if c.held_by else ""
    full = tuple(s for s in (first, " · ".join(s for s in (height, on) if s)) if s)
    return (full, (first, height)) if height and on else (full, (first,))


def _marks(plan: Plan, setup: Setup, say: Say, room: Set) -> tuple[Mark, ...]:
    """The set's marks; a person's mark tells how they are there."""
    _ = say.words
    found: list[Mark] = []
    used, _lacking = in_use.marks(plan, setup, room)
    for name, mark in room.marks.items():
        at = places.named(plan, setup.set or "", name)
        if at is None:
            continue
        if name not in used:
            found.append(Mark(at, ((plain(name),),), person=not mark.thing, idle=True))
            continue
        facing = places.spot(plan, setup, mark.faces)
        turned = direction(at, facing) if facing and distance(at, facing) > 1e-6 else None
        if mark.thing:
            found.append(Mark(at, ((plain(name),),), person=False))
            continue
        how = _("sits") if mark.sits else _("lies") if mark.lies else _("stands")
        forms: Label = ((plain(name), how), (f"{plain(name)}, {how}",), (plain(name),))
        found.append(Mark(at, forms, turned, "sits" if mark.sits else "lies" if mark.lies else "stands"))
    return tuple(found)


def _furniture(plan: Plan, setup: Setup, say: Say, room: Set, missing: list[str]) -> list[Footprint]:
    _ = say.words
    found: list[Footprint] = []
    for name, piece in room.furniture.items():
        at = places.named(plan, setup.set or "", name)
        gear = plan.gear.get(piece.thing or "")
        size = piece.size or (gear.size if gear else None) or ()
        if at is None or len(size) < 2:
            missing.append(_("{thing}: say its 'at:' and 'size:'", thing=plain(name)))
            continue
        found.append(Footprint(at, float(size[0]), float(size[1]), float(piece.turned or 0.0), ((plain(name),),)))
    return found


def _openings(plan: Plan, setup: Setup, say: Say, room: Set, outline: tuple[XY, ...]) -> list[Opening]:
    """Windows and doors of the set, and doors that another set writes and that lead here."""
    found: list[Opening] = []
    for name in room.windows:
        place = window_opening(plan, f"{room.id}/{name}")
        if place is None:
            continue
        treatment = setup.windows.get(f"{room.id}/{name}") or setup.windows.get(name)
        side, start, width = _on_wall(place, outline)
        kind, depth, label = _treated(treatment, plain(name), say)
        inside = treatment is not None and treatment.side == "inside"
        found.append(Opening("window", side, start, width, label, kind, depth, "inside" if inside else "outside"))
    for full, door in plan.doors.items():
        home = full.rsplit("/", 1)[0]
        label = ((plain(full.rsplit("/", 1)[-1]),),)
        place = door_opening(plan, full)
        if home == room.id and place is not None:
            side, start, width = _on_wall(place, outline)
            hinge: Literal["", "start", "end"] = ""
            if door.hinge is not None:  # left and right are said from inside, where a wall's end lies on the left
                hinge = "end" if door.hinge == "left" else "start"
            found.append(Opening("door", side, start, width, label, hinge=hinge, swings=door.opens or "in"))
        elif door.leads_to == room.id and place is not None and (way := carry(plan, home, room.id)):
            side, start, width = _between(way(place.start), way(place.end), outline)
            found.append(Opening("door", side, start, width, label))
    return found


def _treated(treatment: Treatment | None, name: str, say: Say) -> tuple[from_light.Treated, float, Label]:
    """How a window is drawn, how deep its tent is, and what is written beside it."""
    if treatment is None or treatment.open:
        return "bare", 0.0, ((name,),)
    words = say.treatment(treatment)
    label: Label = ((name, words), (name,))
    if treatment.black_out:
        return "black-out", 0.0, label
    if treatment.tent:
        return "tent", float(treatment.depth or 0.3), label
    return ("layers" if treatment.layers else "bare"), 0.0, label


def _on_wall(place: InWall, outline: tuple[XY, ...]) -> tuple[int, float, float]:
    return _between(place.start, place.end, outline)


def _between(a: XY, b: XY, outline: tuple[XY, ...]) -> tuple[int, float, float]:
    """The side of the outline two points lie on, how far along it they begin, and how wide they are apart."""

    def off(n: int) -> float:
        p, q = outline[n], outline[(n + 1) % len(outline)]
        return sum(distance(p, x) + distance(x, q) - distance(p, q) for x in (a, b))

    side = min(range(len(outline)), key=lambda n: (round(off(n), 6), n))
    start = min(distance(outline[side], a), distance(outline[side], b))
    return side, start, distance(a, b)


def _mirrors(room: Set) -> list[Line]:
    found: list[Line] = []
    for name, mirror in room.mirrors.items():
        wall = wall_named(room, mirror.wall)
        if wall is not None and mirror.from_ is not None and mirror.width is not None:
            ends = (wall.along(mirror.from_), wall.along(mirror.from_ + mirror.width))
            inwards = tuple((p[0] - wall.out[0] * 0.03, p[1] - wall.out[1] * 0.03) for p in ends)
            found.append(Line("mirror", inwards, ((plain(name),),)))
    return found


def _walkways(plan: Plan, setup: Setup, room: Set) -> list[Line]:
    """The two edges of each way that stays free."""
    found: list[Line] = []
    for way in room.walkways.values():
        a, b = places.spot(plan, setup, way.from_), places.spot(plan, setup, way.to)
        if a is None or b is None or distance(a, b) < 1e-6:
            continue
        half = float(way.width or 0.6) / 2
        nx, ny = (a[1] - b[1]) / distance(a, b) * half, (b[0] - a[0]) / distance(a, b) * half
        for s in (-1, 1):
            found.append(Line("walkway", ((a[0] + nx * s, a[1] + ny * s), (b[0] + nx * s, b[1] + ny * s))))
    return found
