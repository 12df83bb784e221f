"""The camera's-eye view: a line drawing in true perspective of what stands before the lens.

Everything is painted white with black edges, the hidden before what hides it. Walls have holes where one sees through.
The picture's frame is the thick rectangle; a margin around it shows what is just outside. Lengths are metres in the
set's own coordinates.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile
from math import dist
from typing import Literal

from ...record import record
from ...science import camera as lens
from ...science.camera import Camera
from ..words import Words, words_for
from . import depth
from .canvas import corners
from .labels import Ask, Field, Obstacle, place
from .metrics import wrap
from .scene import Label, Posture
from .setplan import label_drawn
from .shapes import Box, Point, apart, around
from .svg import INK, Drawing, document, line, path_data, polygon, rect, tag, text

Point3 = tuple[float, float, float]
Kind = Literal["wall", "floor", "window", "covered", "door", "thing", "lamp", "person", "mirror"]
MARGIN = 1.14  # of the frame shown, so that what is just outside can be seen
NEAR = 0.05
_EDGES = {"wall": 0.9, "floor": 0.5, "window": 0.8, "covered": 0.8, "door": 0.9, "mirror": 0.8}
SIZE = 9.0


@record
class Surface:
    """A flat shape in space; `behind` orders it among others (greater is painted first)."""

    kind: Kind
    outline: tuple[Point3, ...]


@record
class Thing:
    """A solid of several faces, or a flat figure, with its label. `number` names a lamp, also for its stand; it is
    `in_picture` where it should not be seen and is, and `sized` where its size is the plan's and not a usual one."""

    kind: Kind
    faces: tuple[tuple[Point3, ...], ...]
    label: Label = ()
    number: str = ""
    in_picture: bool = False
    sized: bool = True


@record
class Person:
    """Somebody `tall` metres, standing, sitting or lying at a point of the floor."""

    at: Point
    tall: float
    posture: Posture = "stands"
    label: Label = ()


@record
class View:
    """What the lens sees from where it stands. `shell` are floor and walls, each wall followed by what lies in it."""

    title: str
    camera: Camera
    shell: tuple[Surface, ...]
    things: tuple[Thing, ...] = ()
    people: tuple[Person, ...] = ()
    caption: str = ""


def figure(camera: Camera, person: Person) -> tuple[tuple[Point3, ...], ...]:
    """A plain body turned to the camera and the ring of its head; proportions are common practice, no source."""
    x, y = person.at
    right = camera.right
    tall = person.tall

    def at(side: float, up: float) -> Point3:
        return x + right[0] * side, y + right[1] * side, up + right[2] * side

    if person.posture == "lies":
        half = tall / 2
        body = tuple(at(s * half, u) for s, u in ((-1, 0.0), (1, 0.0), (1, 0.1), (0.7, 0.25), (-0.9, 0.2), (-1, 0.12)))
        return (body,)
    lift = 0.0 if person.posture == "stands" else -0.26 * tall
    sides = tuple((s, max(u * tall + lift, 0.0)) for s, u in _SIDE)
    body = tuple(at(-s, u) for s, u in sides) + tuple(at(s, u) for s, u in reversed(sides))
    centre = 0.93 * tall + lift
    ring = tuple(at(0.085 * a, centre + 0.115 * b) for a, b in _RING)
    return body, ring


# Half the width of the body in metres and the height of that place as a share of the whole.
_SIDE = ((0.10, 0.0), (0.13, 0.3), (0.17, 0.52), (0.15, 0.66), (0.22, 0.81), (0.07, 0.845), (0.07, 0.87))
_RING = (
    (1.0, 0.0), (0.87, 0.5), (0.5, 0.87), (0.0, 1.0), (-0.5, 0.87), (-0.87, 0.5),
    (-1.0, 0.0), (-0.87, -0.5), (-0.5, -0.87), (0.0, -1.0), (0.5, -0.87), (0.87, -0.5),
)  # fmt: skip


class _Screen:
    """From frame coordinates (-1 to 1) to the paper."""

    def __init__(self, camera: Camera, width: float) -> None:
        self.camera = camera
        half = (width - 2.0) / 2 / MARGIN
        self.half = (half, half * camera.half_height / camera.half_width)
        self.middle = (width / 2, 1.0 + self.half[1] * MARGIN)
        self.paper: Box = (1.0, 1.0, width - 1.0, 1.0 + 2 * self.half[1] * MARGIN)
        x, y = self.middle
        self.frame: Box = (x - self.half[0], y - self.half[1], x + self.half[0], y + self.half[1])

    def flat(self, outline: Sequence[Point3]) -> list[Point]:
        """A shape on the paper, cut off just before the lens; empty when it lies behind."""
        seen = lens.clip([lens.to_camera(self.camera, p) for p in outline], ((0.0, 0.0, 1.0, -NEAR),))
        w, h = self.camera.half_width, self.camera.half_height
        return [
            (self.middle[0] + x / (z * w) * self.half[0], self.middle[1] - y / (z * h) * self.half[1])
            for x, y, z in seen
        ]


def draw(
    view: View, prefix: str, words: Words | None = None, width: float = 420.0, bare: bool = False
) -> Drawing:
    """The view as a drawing `width` points wide; lamps and stands that are in the picture are crossed. A `bare` one
    has no words on it."""
    _ = words or words_for()
    screen = _Screen(view.camera, width)
    parts: list[str] = []
    hatches: list[str] = []
    obstacles: list[Obstacle] = []
    asks: list[Ask] = []
    crossed: list[str] = []
    maybe: list[str] = []
    seen: list[str] = []
    for body in _bodies(view, screen, prefix, hatches):
        parts.extend(body.drawn)
        if body.thing is None:
            continue
        thing, box, cut = body.thing, body.box, _within(body.box, screen.paper)
        if thing.in_picture:
            parts.append(line((cut[0], cut[1]), (cut[2], cut[3]), 1.4))
            parts.append(line((cut[0], cut[3]), (cut[2], cut[1]), 1.4))
            row = crossed if thing.sized else maybe
            if thing.number not in row:
                row.append(thing.number)
        if not thing.label or apart(box, screen.frame):
            continue  # a name inside the frame for what is outside of it would be taken for something else
        seen.append(", ".join(thing.label[0]))
        shown = _within(cut, screen.frame)
        anchor = shown if thing.kind == "lamp" else _small(shown)
        if not bare:
            key = f"thing-{len(asks)}"
            obstacles.append(Obstacle(corners(anchor), key, False))
            asks.append(Ask(key, anchor, thing.label))
    placed, left_out = place(asks, Field(screen.paper, tuple(obstacles), ()))
    labels = [label_drawn(label) for label in placed]
    clip_id = f"{prefix}-paper"
    clip = tag("clipPath", rect(screen.paper, "#000"), id=clip_id)
    scene = tag("g", *parts, clip_path=f"url(#{clip_id})")
    frame = rect(screen.frame, "none", INK, 2.4)
    notes = [] if bare else list(wrap(view.caption, SIZE, width - 4.0))
    maybe = [number for number in maybe if number not in crossed]
    if crossed and not bare:
        told = _("crossed, for it is in the picture: lamp {lamps}", lamps=", ".join(crossed))
        notes.extend(wrap(told, SIZE, width - 4.0))
    if maybe and not bare:
        told = _("crossed, for it may be in the picture, its size is not said: lamp {lamps}", lamps=", ".join(maybe))
        notes.extend(wrap(told, SIZE, width - 4.0))
    bottom = screen.paper[3] + 4.0
    tail = [text(note, (2.0, bottom + SIZE + 11.5 * n), SIZE) for n, note in enumerate(notes)]
    height = bottom + 11.5 * len(notes) + 4.0
    desc = _told(view, seen, crossed, maybe, _)
    room = tuple(" ".join(ask.forms[-1]) for ask in asks if ask.key in left_out)
    page = [tag("defs", clip), scene, frame, *labels, *tail]
    svg = document(prefix, (width, height), view.title, desc, page, tuple(hatches))
    return Drawing(svg, view.title, desc, width, height, room)


def _within(box: Box, paper: Box) -> Box:
    """The part of a box on the paper."""
    return max(box[0], paper[0]), max(box[1], paper[1]), min(box[2], paper[2]), min(box[3], paper[3])


def _small(box: Box) -> Box:
    """The upper part of a large thing: its label stands there, not at its feet."""
    x = (box[0] + box[2]) / 2
    half = min((box[2] - box[0]) / 2, 16.0)
    return x - half, box[1], x + half, min(box[3], box[1] + 24.0)


@record
class _Painted:
    """Something with its place in space and on the paper, ready to be painted; `thing` is None for the shell."""

    faces: tuple[tuple[Point3, ...], ...]
    box: Box
    drawn: tuple[str, ...]
    thing: Thing | None = None


def _bodies(view: View, screen: _Screen, prefix: str, hatches: list[str]) -> list[_Painted]:
    """All that is on the paper, the hidden before what hides it; the floor first."""
    floor: list[_Painted] = []
    found: list[_Painted] = []
    for n, surface in enumerate(view.shell):
        if surface.kind not in ("wall", "floor"):
            continue
        openings = list(takewhile(lambda s: s.kind not in ("wall", "floor"), view.shell[n + 1 :]))
        flat = screen.flat(surface.outline)
        if len(flat) >= 3 and not apart(around(flat), screen.paper):
            drawn = tuple(_surface(surface, openings, screen, prefix, hatches))
            (floor if surface.kind == "floor" else found).append(_Painted((surface.outline,), around(flat), drawn))
    for thing in (*view.things, *(Thing("person", figure(view.camera, p), p.label) for p in view.people)):
        painted, box = _thing(thing, screen)
        if box is not None:
            found.append(_Painted(thing.faces, box, tuple(painted), thing))
    eye = view.camera.position
    solid = [
        depth.Body(p.faces, p.box, _far(view.camera, p.faces), p.thing is not None and p.thing.kind == "person")
        for p in found
    ]
    return [*floor, *(found[n] for n in depth.painted(solid, eye))]


def _far(camera: Camera, faces: tuple[tuple[Point3, ...], ...]) -> float:
    return min(dist(camera.position, p) for face in faces for p in face)


def _surface(
    surface: Surface, openings: Sequence[Surface], screen: _Screen, prefix: str, hatches: list[str]
) -> list[str]:
    """A wall or floor, with holes where one sees through it, and what is in the holes and on the wall."""
    holes = [flat for s in openings if s.kind in ("window", "door") and len(flat := screen.flat(s.outline)) >= 3]
    outline = screen.flat(surface.outline)
    edge = _EDGES.get(surface.kind, 0.8)
    if holes:
        data = path_data(outline) + "".join(path_data(hole) for hole in holes)
        drawn = [tag("path", d=data, fill="#fff", fill_rule="evenodd", stroke=INK, stroke_width=edge)]
    else:
        drawn = [polygon(outline, "#fff", edge)]
    for item in openings:
        flat = screen.flat(item.outline)
        if len(flat) < 3:
            continue
        if item.kind in ("covered", "mirror"):
            name = "cross" if item.kind == "covered" else "sparse"
            if name not in hatches:
                hatches.append(name)
            drawn.append(polygon(flat, "#fff", 0.8))
            drawn.append(polygon(flat, f"url(#{prefix}-{name})", 0.8))
        if item.kind == "window" and len(flat) == 4:
            drawn.append(line(_half(flat[0], flat[1]), _half(flat[2], flat[3]), 0.5))
            drawn.append(line(_half(flat[1], flat[2]), _half(flat[3], flat[0]), 0.5))
    return drawn


def _half(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def _thing(thing: Thing, screen: _Screen) -> tuple[list[str], Box | None]:
    """A thing painted face by face, the far ones first, and its box on the paper."""
    order = (
        sorted(thing.faces, key=lambda face: -_middle_far(screen.camera, face))
        if thing.kind != "person"
        else thing.faces
    )
    drawn: list[str] = []
    points: list[Point] = []
    for face in order:
        flat = screen.flat(face)
        if len(flat) >= 3:
            points.extend(flat)
            drawn.append(polygon(flat, "#fff", 1.1 if thing.kind == "person" else 0.8))
    if not points:
        return [], None
    box = around(points)
    return (drawn, box) if not apart(box, screen.paper) else ([], None)


def _middle_far(camera: Camera, face: tuple[Point3, ...]) -> float:
    count = len(face)
    return dist(
        camera.position,
        (sum(p[0] for p in face) / count, sum(p[1] for p in face) / count, sum(p[2] for p in face) / count),
    )


def _told(view: View, seen: list[str], crossed: list[str], maybe: list[str], _: Words) -> str:
    said = [view.caption] if view.caption else []
    if seen:
        said.append(_("in the picture: {things}", things="; ".join(seen)))
    if crossed:
        said.append(_("in the picture and should not be: lamp {lamps}", lamps=", ".join(crossed)))
    if maybe:
        said.append(_("perhaps in the picture: lamp {lamps}", lamps=", ".join(maybe)))
    return ". ".join(said) + "."
