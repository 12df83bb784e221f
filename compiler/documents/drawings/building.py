"""The set itself on the canvas: walls, windows, doors, furniture."""

from __future__ import annotations

import math

from .canvas import Canvas, band, square
from .marks import off
from .scene import Footprint, Opening, Scene
from .shapes import Point, around, between, box_corners, clip_to_box, distance
from .svg import GREY, INK, line, path_data, polygon, tag
from .walls import Hole, Walls


def draw(canvas: Canvas, scene: Scene, walls: Walls) -> None:
    """Walls with their openings; outdoors a dashed edge."""
    inner = canvas.all_at(walls.inner)
    if not scene.indoors:
        for a, b in zip(inner, [*inner[1:], inner[0]], strict=True):
            shown = clip_to_box((a, b), canvas.bounds)
            if shown:
                canvas.draw("floor", line(*shown, 0.9, "7 3 1.5 3"))
                canvas.avoid(shown)
                canvas.meet("edge")
    elif walls.ring:
        data = path_data(canvas.all_at(walls.outer)) + path_data(inner)
        canvas.draw("walls", tag("path", d=data, fill=GREY, fill_rule="evenodd", stroke=INK, stroke_width=1.0))
        canvas.meet("wall")
    else:
        for run in walls.runs:
            canvas.draw("walls", polygon(canvas.all_at(run), GREY, 1.0))
        canvas.meet("wall")
    for piece in walls.pieces:
        canvas.keep_clear(canvas.all_at(piece), leaders=False)
    for n, hole in enumerate(walls.holes):
        _opening(canvas, scene, hole, f"opening {n}")


def _opening(canvas: Canvas, scene: Scene, hole: Hole, key: str) -> None:
    inner = canvas.all_at(hole.inner)
    if not scene.indoors:
        canvas.draw("walls", line(inner[0], inner[1], 2.0))
        canvas.keep_clear(band(inner[0], inner[1], 2.0), key, leaders=False)
    else:
        canvas.keep_clear(canvas.all_at(hole.quad), key, leaders=False)
        if hole.opening.kind == "window":
            _window(canvas, hole)
        else:
            _door(canvas, hole)
    canvas.label(key, around(canvas.all_at(hole.quad)), hole.opening.label)


def _window(canvas: Canvas, hole: Hole) -> None:
    (a, b), (c, d) = canvas.all_at(hole.inner), canvas.all_at(hole.outer)
    treatment = hole.opening.treatment
    quad = (a, b, d, c)
    if treatment == "black-out":
        canvas.draw("walls", polygon(quad, "#fff", 0.9), polygon(quad, canvas.hatch("cross"), 0.9))
        canvas.meet("black-out")
    else:
        canvas.draw("walls", polygon(quad, "#fff", 0.9), line(between(a, c, 0.5), between(b, d, 0.5), 0.8))
        canvas.meet("window")
    if treatment == "layers":
        inwards = _inwards(a, c)
        p, q = off(a, inwards, 3.0), off(b, inwards, 3.0)
        canvas.draw("grip", line(p, q, 1.8, "5 3"))
        canvas.keep_clear(band(p, q, 2.0), leaders=False)
        canvas.meet("window-layers")
    if treatment == "tent":
        _tent(canvas, hole)


def _tent(canvas: Canvas, hole: Hole) -> None:
    """The cloth box before or behind the window: a dark band on three sides."""
    (a, b), (c, d) = canvas.all_at(hole.inner), canvas.all_at(hole.outer)
    deep = max(hole.opening.depth, 0.1) * canvas.factor
    inwards = _inwards(a, c)
    u = inwards if hole.opening.side == "inside" else (-inwards[0], -inwards[1])
    p, q = (a, b) if hole.opening.side == "inside" else (c, d)
    far = (off(p, u, deep), off(q, u, deep))
    for s, t in ((p, far[0]), far, (far[1], q)):
        strip = band(s, t, 1.8)
        canvas.draw("grip", polygon(strip, "#fff", 0.6), polygon(strip, canvas.hatch("dense"), 0.6))
        canvas.keep_clear(band(s, t, 2.5), leaders=False)
    canvas.meet("tent")


def _inwards(inner: Point, outer: Point) -> Point:
    far = distance(outer, inner) or 1.0
    return (inner[0] - outer[0]) / far, (inner[1] - outer[1]) / far


def _door(canvas: Canvas, hole: Hole) -> None:
    (a, b), (c, d) = canvas.all_at(hole.inner), canvas.all_at(hole.outer)
    canvas.draw("walls", line(a, c, 0.9), line(b, d, 0.9))
    canvas.draw("floor", line(a, b, 0.5, "2 2"), line(c, d, 0.5, "2 2"))
    opening: Opening = hole.opening
    if opening.kind == "gap":
        canvas.meet("gap")
        return
    if not opening.hinge:
        canvas.draw("walls", line(between(a, c, 0.5), between(b, d, 0.5), 1.6))
        canvas.meet("door")
        return
    inwards = _inwards(a, c)
    u = inwards if opening.swings == "in" else (-inwards[0], -inwards[1])
    p, q = (a, b) if opening.swings == "in" else (c, d)
    hinge, latch = (p, q) if opening.hinge == "start" else (q, p)
    wide = distance(p, q)
    tip = off(hinge, u, wide)
    across = ((latch[0] - hinge[0]) / wide, (latch[1] - hinge[1]) / wide)
    arc = [
        (
            hinge[0] + (u[0] * math.cos(t) + across[0] * math.sin(t)) * wide,
            hinge[1] + (u[1] * math.cos(t) + across[1] * math.sin(t)) * wide,
        )
        for t in (math.radians(7.5 * n) for n in range(13))
    ]
    canvas.draw("floor", line(hinge, tip, 1.6), polygon(arc, "none", 0.5, "", False))
    canvas.avoid([hinge, tip])
    canvas.avoid(arc)
    canvas.meet("swing")


def furniture(canvas: Canvas, footprints: tuple[Footprint, ...]) -> None:
    """Footprints on the floor, and what hangs above it."""
    for n, piece in enumerate(footprints):
        shape = canvas.all_at(box_corners(piece.at, piece.width, piece.depth, piece.turned))
        if piece.above:
            canvas.draw("grip", polygon(shape, canvas.hatch("sparse"), 1.2, "9 3 1.5 3"))
            canvas.meet("above")
        else:
            canvas.draw("things", polygon(shape, "#fff", 0.8))
            canvas.meet("furniture")
        canvas.avoid(shape, True)
        core = square(canvas.at(piece.at), min(piece.width, piece.depth) * canvas.factor / 2)
        anchor = around(shape) if piece.turned % 90 == 0 else core
        canvas.label(f"footprint {n}", anchor, piece.label, within=shape)
