"""What works on the set, on the canvas: people, cameras, lamps, grip, moves."""

from __future__ import annotations

import math
from itertools import pairwise

from . import marks
from .canvas import Canvas, band, square
from .scene import Camera, Label, Lamp, Scene
from .shapes import Point, Segment, around, between, clip_to_box, distance, inside_box, unit
from .svg import INK, arrow_head, circle, line
from .walls import Walls, sight

_PERSON = 0.21
_LONGEST = 60.0


def _paper(degrees: float) -> Point:
    """A direction of the set as a unit vector of the paper."""
    u = unit(degrees)
    return u[0], -u[1]


def people(canvas: Canvas, scene: Scene) -> None:
    """Marks: people as circles with a nose, things as crosses."""
    for n, mark in enumerate(scene.marks):
        at, key = canvas.at(mark.at), f"mark {n}"
        if mark.idle:
            canvas.draw("symbols", marks.idle(at))
            box = square(at, 4.0)
            canvas.meet("idle")
        elif not mark.person:
            canvas.draw("symbols", marks.thing(at))
            box = square(at, 4.5)
            canvas.meet("thing")
        else:
            radius = max(_PERSON * canvas.factor, 6.0)
            facing = _paper(mark.facing) if mark.facing is not None else None
            canvas.draw("symbols", marks.person(at, radius, facing, mark.posture))
            box = marks.person_box(at, radius, facing, mark.posture)
            canvas.meet(mark.posture)
            if facing:
                canvas.meet("facing")
        canvas.keep_box(box, key)
        canvas.label(key, box, mark.label)


def cameras(canvas: Canvas, scene: Scene, walls: Walls) -> None:
    """Cameras as small openings, their two view lines up to the walls."""
    for n, camera in reversed(list(enumerate(scene.cameras))):  # the start over the end
        at, key = canvas.at(camera.at), f"camera {n}"
        towards = _paper(camera.towards) if camera.towards is not None else None
        half = (camera.field or 40.0) / 2
        canvas.draw("symbols", marks.opening(at, towards, half, camera.end_of_move, camera.down))
        canvas.meet("camera-end" if camera.end_of_move else "camera")
        box = square(at, 9.0) if towards is None else _lips(at, towards, half)
        canvas.keep_box(box, key)
        canvas.label(key, box, camera.label, bold=True)
        if camera.towards is not None and camera.field is not None:
            for segment in view_lines(camera, walls):
                _view(canvas, segment, camera.end_of_move)
            canvas.meet("view-end" if camera.end_of_move else "view")


def view_lines(camera: Camera, walls: Walls) -> tuple[Segment, ...]:
    """The two edges of what a lens sees, in metres, each ending at the first wall."""
    if camera.towards is None or camera.field is None or camera.field >= 180.0:
        return ()
    lines: list[Segment] = []
    for side in (-0.5, 0.5):
        u = unit(camera.towards + side * camera.field)
        far = sight(walls, camera.at, u, _LONGEST)
        lines.append((camera.at, (camera.at[0] + u[0] * far, camera.at[1] + u[1] * far)))
    return tuple(lines)


def _view(canvas: Canvas, segment: Segment, end: bool) -> None:
    shown = clip_to_box((canvas.at(segment[0]), canvas.at(segment[1])), canvas.bounds)
    if shown:
        canvas.draw("views", line(shown[0], shown[1], 0.7, "6 2.5" if end else ""))
        canvas.avoid(shown)


def _lips(at: Point, towards: Point, half: float) -> tuple[float, float, float, float]:
    opened = min(max(half, 9.0), 60.0)
    return around([at, *(marks.off(at, marks.turned(towards, s * opened), 15.0) for s in (-1, 1))], 3.0)


def lamps(canvas: Canvas, scene: Scene, walls: Walls) -> None:
    """Lamps as numbered shapes, moved aside with a dot at their true place where they would lie on one another."""
    for n, lamp in enumerate(scene.lamps):
        true, key = canvas.at(lamp.at), f"lamp {n}"
        reach = marks.LAMP_HALF * (1.55 if lamp.held else 1.3)
        at = _free_place(canvas, true, reach)
        if distance(at, true) > 0.5:
            canvas.draw("symbols", line(at, true, 0.7), circle(true, 1.8, INK, 0.3))
            canvas.meet("beside")
        target = canvas.at(lamp.aim) if lamp.aim else None
        far = distance(at, target) if target else 0.0
        u = ((target[0] - at[0]) / far, (target[1] - at[1]) / far) if target and far > 1.0 else (0.0, -1.0)
        if target and far > 1.0:
            _aim(canvas, lamp, walls, at, u, far)
        face = lamp.width * canvas.factor
        canvas.draw("symbols", marks.lamp(at, u, lamp.form, lamp.number, lamp.state, lamp.held, face))
        canvas.meet(f"lamp-{lamp.form}")
        if lamp.held:
            canvas.meet("held")
        if lamp.state in ("new", "remove"):
            canvas.meet(lamp.state)
        box = square(at, reach)
        if lamp.form == "soft":
            half = max(face / 2, marks.LAMP_HALF * 1.1)
            front = marks.off(at, u, marks.LAMP_HALF + 1.2)
            canvas.keep_clear(band(marks.off(front, u, 0, -half), marks.off(front, u, 0, half), 2.0), key)
        canvas.keep_box(box, key)
        canvas.label(key, box, _with_far(lamp), bold=True)


def _with_far(lamp: Lamp) -> Label:
    """A lamp drawn nearer than it stands says so in every form of its label."""
    if not lamp.far:
        return lamp.label
    return tuple((*form, lamp.far) for form in lamp.label) or ((lamp.far,),)


def _free_place(canvas: Canvas, true: Point, reach: float) -> Point:
    """The true place, or the nearest one where the symbol covers no other."""
    for ring in range(7):
        count = 1 if ring == 0 else 8
        for step in range(count):
            turn = math.radians(45.0 * step + 22.5 * (ring % 2))
            tried = (true[0] + math.cos(turn) * ring * 8.0, true[1] + math.sin(turn) * ring * 8.0)
            box = square(tried, reach)
            if inside_box(box, canvas.bounds) and not canvas.taken(box):
                return tried
    return true


def _aim(canvas: Canvas, lamp: Lamp, walls: Walls, at: Point, u: Point, far: float) -> None:
    """An arrow towards the aim, and the beam's two edges up to a wall or the distance of the aim."""
    start = marks.LAMP_HALF + 4.0
    long = min(far - start - 12.0, 40.0)
    if long > 7.0:
        a, b = marks.off(at, u, start), marks.off(at, u, start + long)
        canvas.draw("beams", line(a, marks.off(b, u, -4.0), 1.1), arrow_head(b, u, 6.0))
        canvas.avoid((a, b))
        canvas.meet("aim")
    if lamp.beam is None or lamp.beam >= 170.0 or lamp.aim is None:
        return
    origin = canvas.back(at)
    for side in (-0.5, 0.5):
        v = marks.turned(u, side * lamp.beam)
        reach = min(sight(walls, origin, (v[0], -v[1]), _LONGEST) * canvas.factor, far, 130.0)
        begin = max(start - 2.0, 0.0)
        if reach > begin + 6.0:
            shown = clip_to_box((marks.off(at, v, begin), marks.off(at, v, reach)), canvas.bounds)
            if shown:
                canvas.draw("beams", line(shown[0], shown[1], 0.8, "0.8 2.4"))
                canvas.avoid(shown)
    canvas.meet("beam")


def practicals(canvas: Canvas, scene: Scene) -> None:
    """Lamps in the picture."""
    for n, lit in enumerate(scene.practicals):
        at, key = canvas.at(lit.at), f"practical {n}"
        place = _free_place(canvas, at, 7.0)
        if distance(place, at) > 0.5:
            canvas.draw("symbols", line(place, at, 0.7), circle(at, 1.8, INK, 0.3))
            canvas.meet("beside")
        canvas.draw("symbols", marks.practical(place))
        canvas.keep_box(square(place, 7.0), key)
        canvas.label(key, square(place, 7.0), lit.label)
        canvas.meet("practical")


def sockets(canvas: Canvas, scene: Scene) -> None:
    """Outlets in the walls."""
    for n, item in enumerate(scene.sockets):
        at, key = canvas.at(item.at), f"socket {n}"
        canvas.draw("symbols", marks.socket(at))
        canvas.keep_box(square(at, 5.0), key)
        canvas.label(key, square(at, 5.0), item.label)
        canvas.meet("socket")


def ghosts(canvas: Canvas, scene: Scene) -> None:
    """Where lamps and camera stood before, with a thin line to where they stand now."""
    for n, item in enumerate(scene.ghosts):
        at, to = canvas.at(item.at), canvas.at(item.to)
        if distance(at, to) < 20.0 or canvas.taken(square(at, 7.0)):
            continue
        canvas.draw("floor", line(at, to, 0.6, "0.6 2.6"))
        canvas.draw("symbols", marks.ghost(at, item.number))
        canvas.keep_box(square(at, 7.5), f"ghost {n}")
        canvas.meet("ghost")


def grip(canvas: Canvas, scene: Scene) -> None:
    """Flags, cloth, diffusion, bounce, mirrors, booms, cables, kept ways."""
    for n, item in enumerate(scene.lines):
        points, key = canvas.all_at(item.points), f"line {n}"
        if len(points) < 2:
            continue
        for a, b in pairwise(points):
            canvas.draw("grip", marks.grip_line(item.kind, a, b))
            if item.kind in ("cable", "walkway"):
                canvas.avoid((a, b))
            else:
                canvas.keep_clear(band(a, b, 3.0 if item.kind != "negative" else 6.0), key)
        middle = between(points[len(points) // 2 - 1], points[len(points) // 2], 0.5)
        canvas.label(key, square(middle, 3.0), item.label)
        canvas.meet(item.kind)


def moves(canvas: Canvas, scene: Scene) -> None:
    """Moves with start, way and end."""
    for n, item in enumerate(scene.moves):
        points, key = canvas.all_at(item.points), f"move {n}"
        drawn = marks.move(points)
        if drawn:
            canvas.draw("views", drawn)
            canvas.avoid(points)
            canvas.label(key, square(between(points[-2], points[-1], 0.55), 2.0), item.label)
            canvas.meet("move")


def sun_tick(canvas: Canvas, scene: Scene) -> None:
    """A tick at the edge of the paper from where the sun stands at the hour stated."""
    if scene.sun is None or scene.north is None:
        return
    u = _paper(scene.sun - scene.north)
    x0, y0, x1, y1 = canvas.bounds
    centre = ((x0 + x1) / 2, (y0 + y1) / 2)
    half_w, half_h = (x1 - x0) / 2 - 8.0, (y1 - y0) / 2 - 8.0
    far = min(half_w / abs(u[0]) if abs(u[0]) > 1e-6 else 1e9, half_h / abs(u[1]) if abs(u[1]) > 1e-6 else 1e9)
    at = marks.off(centre, u, far)
    box = square(at, 9.0)
    canvas.draw("edge", marks.sun(at), line(marks.off(at, u, -9.0), marks.off(at, u, -16.0), 1.4))
    canvas.keep_box(square(marks.off(at, u, -12.0), 5.0), "sun")
    canvas.keep_box(box, "sun")
    canvas.label("sun", box, ((scene.sun_words,),) if scene.sun_words else ())
    canvas.meet("sun")
