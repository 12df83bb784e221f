"""What a plan of the set shows, in plain geometry.

Lengths are metres. Points are [x, y] from the set's own south-west corner, x along the wall called south, y away
from it. Directions (`facing`, `towards`, `turned`) are degrees clockwise from +y, as one reads a compass laid on the
set; the compass itself comes in only through `north`, the bearing of +y. A label is a tuple of forms, the fullest
first, each a tuple of lines; the drawing takes the fullest form that it has room for.
"""

from __future__ import annotations

from typing import Literal

from ...record import record

Point = tuple[float, float]
Label = tuple[tuple[str, ...], ...]
Treatment = Literal["bare", "black-out", "tent", "layers"]
Posture = Literal["stands", "sits", "lies"]
Form = Literal["hard", "soft", "tube", "bulb"]
State = Literal["", "keep", "new", "remove"]
LineKind = Literal["flag", "negative", "diffusion", "bounce", "mirror", "boom", "cable", "walkway"]


@record
class Opening:
    """A window, a door or a gap in wall number `wall` (the side of the outline from that corner to the next).

    `start` and `width` run along the wall from its first corner. `depth` is a tent's. `hinge` is the end of the
    opening, seen along the wall, at which a door hangs; without it no swing is drawn.
    """

    kind: Literal["window", "door", "gap"]
    wall: int
    start: float
    width: float
    label: Label = ()
    treatment: Treatment = "bare"
    depth: float = 0.0
    side: Literal["inside", "outside"] = "outside"
    hinge: Literal["", "start", "end"] = ""
    swings: Literal["in", "out"] = "in"


@record
class Footprint:
    """Furniture or any thing on the floor: centre, width and depth, turned clockwise; `above` hangs overhead."""

    at: Point
    width: float
    depth: float
    turned: float = 0.0
    label: Label = ()
    above: bool = False


@record
class Mark:
    """Where someone stands, sits or lies; `facing` is None when the plan does not say. An `idle` one is not used in
    the setup that is drawn."""

    at: Point
    label: Label = ()
    facing: float | None = None
    posture: Posture = "stands"
    person: bool = True
    idle: bool = False


@record
class Camera:
    """A camera: where, which way, its horizontal field in degrees (each None when unknown); `down`: at the floor."""

    at: Point
    towards: float | None
    field: float | None = None
    label: Label = ()
    end_of_move: bool = False
    down: bool = False


@record
class Lamp:
    """A lamp by its number. `aim` is the point it looks at, `beam` its whole beam angle in degrees.

    `width` is the bright face's width. `held` lamps stand on nobody's floor; `far` says in words how far away it
    really stands when it is drawn nearer than it is.
    """

    number: str
    at: Point
    aim: Point | None = None
    beam: float | None = None
    form: Form = "hard"
    width: float = 0.0
    label: Label = ()
    held: bool = False
    state: State = ""
    far: str = ""


@record
class Practical:
    """A lamp that is part of the picture."""

    at: Point
    label: Label = ()


@record
class Socket:
    """An outlet of the mains in or at a wall; labelled where something is plugged into it."""

    at: Point
    label: Label = ()


@record
class Ghost:
    """Where a lamp or the camera stood in the setup before, and where it stands now; a lamp by its number."""

    at: Point
    to: Point
    number: str = ""


@record
class Line:
    """A flag, cloth hanging, diffusion, bounce, mirror, boom, cable or kept way, seen from above as a line."""

    kind: LineKind
    points: tuple[Point, ...]
    label: Label = ()


@record
class Move:
    """A move of the camera, an actor or a thing, along points, with an arrow at its end."""

    points: tuple[Point, ...]
    label: Label = ()


@record
class Scene:
    """Everything on one drawing. `outline` runs counter-clockwise, at least three corners.

    `sun` is the sun's compass bearing at the hour that `sun_words` names; `missing` lists in words what could not
    be drawn, each with the detail that would allow it.
    """

    title: str
    outline: tuple[Point, ...]
    indoors: bool = True
    thickness: float = 0.12
    north: float | None = None
    openings: tuple[Opening, ...] = ()
    footprints: tuple[Footprint, ...] = ()
    marks: tuple[Mark, ...] = ()
    cameras: tuple[Camera, ...] = ()
    lamps: tuple[Lamp, ...] = ()
    practicals: tuple[Practical, ...] = ()
    sockets: tuple[Socket, ...] = ()
    ghosts: tuple[Ghost, ...] = ()
    lines: tuple[Line, ...] = ()
    moves: tuple[Move, ...] = ()
    sun: float | None = None
    sun_words: str = ""
    imperial: bool = False
    missing: tuple[str, ...] = ()
