"""The symbols of a plan, each drawn at a point of the paper; the legend draws the very same ones.

Directions are unit vectors of the paper (y downwards).
"""

from __future__ import annotations

import math

from .scene import Form, LineKind, Posture, State
from .shapes import Box, Point, around, between, distance
from .svg import INK, arrow_head, circle, line, num, path_data, polygon, tag, text

LAMP_HALF = 8.5
NUMBER_SIZE = 10.0


def turned(u: Point, degrees: float) -> Point:
    """A unit vector of the paper turned clockwise as seen on it."""
    t = math.radians(degrees)
    return u[0] * math.cos(t) - u[1] * math.sin(t), u[0] * math.sin(t) + u[1] * math.cos(t)


def off(p: Point, u: Point, by: float, side: float = 0.0) -> Point:
    """The point `by` along u and `side` to its right from p."""
    return p[0] + u[0] * by - u[1] * side, p[1] + u[1] * by + u[0] * side


def person(at: Point, radius: float, facing: Point | None, posture: Posture) -> str:
    """A circle with a nose tick; a bar at the back for one who sits, a long body for one who lies."""
    parts: list[str] = []
    if posture == "lies":
        u = facing or (1.0, 0.0)
        long, wide = radius * 2.6, radius * 0.8
        ends = [off(at, u, s * long, t * wide) for s, t in ((-1, -1), (0.45, -1), (0.45, 1), (-1, 1))]
        parts.append(polygon(ends, "#fff", 0.9))
        return "".join(parts) + circle(off(at, u, long * 0.72), radius * 0.75, "#fff", 1.2)
    parts.append(circle(at, radius, "#fff", 1.3))
    if facing:
        sides = [off(at, facing, radius * 0.9, s * radius * 0.38) for s in (-1, 1)]
        parts.append(polygon((sides[0], off(at, facing, radius * 1.6), sides[1]), INK, 0.4))
    if posture == "sits":
        u = facing or (0.0, -1.0)
        a, b = off(at, u, -radius * 1.35, -radius * 0.9), off(at, u, -radius * 1.35, radius * 0.9)
        parts.append(line(a, b, 2.4))
    return "".join(parts)


def person_box(at: Point, radius: float, facing: Point | None, posture: Posture) -> Box:
    """The box around what `person` draws."""
    points = [(at[0] - radius, at[1] - radius), (at[0] + radius, at[1] + radius)]
    u = facing or ((1.0, 0.0) if posture == "lies" else (0.0, -1.0))
    if posture == "lies":
        return around([off(at, u, s * radius * 2.7, t * radius * 0.85) for s in (-1, 1) for t in (-1, 1)])
    if facing:
        points.append(off(at, u, radius * 1.65))
    if posture == "sits":
        points.extend(off(at, u, -radius * 1.5, s * radius) for s in (-1, 1))
    return around(points)


def thing(at: Point, half: float = 4.0) -> str:
    """A mark for a thing: a plain upright cross."""
    x, y = at
    return line((x - half, y), (x + half, y), 1.2) + line((x, y - half), (x, y + half), 1.2)


def idle(at: Point) -> str:
    """A mark that this setup does not use: a small dotted ring."""
    return circle(at, 3.4, "#fff", 0.8, "1 1.4")


def opening(at: Point, towards: Point | None, half_field: float, end: bool, down: bool = False) -> str:
    """The camera: a dot and the two lips of a small opening; hollow where a move ends; boxed when it looks down, a
    ring when nobody said where it looks."""
    size = 15.0
    if down:
        half = size * 0.5
        box = [(at[0] + s * half, at[1] + t * half) for s, t in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
        return polygon(box, "#fff", 2.2) + circle(at, 2.6, INK, 0.4)
    if towards is None:
        return circle(at, 7.0, "#fff", 2.2) + circle(at, 2.6, INK, 0.4)
    lips = [off(at, turned(towards, s * min(max(half_field, 9.0), 60.0)), size) for s in (-1, 1)]
    if end:
        return polygon((lips[0], at, lips[1]), "none", 1.6, "3 1.6", False) + circle(at, 3.0, "#fff", 1.2)
    return polygon((lips[0], at, lips[1]), "none", 2.8, "", False) + circle(at, 3.4, INK, 0.4)


def lamp(at: Point, u: Point, form: Form, number: str, state: State, held: bool, face: float = 0.0) -> str:
    """A numbered shape: pointed for a hard lamp, broad with a bright face for a soft one, long and round-ended for a
    tube, round for a bulb. Black with a white number when new; struck through when taken away; ringed when held."""
    h = LAMP_HALF
    fill, ink = (INK, "#fff") if state == "new" else ("#fff", INK)
    parts: list[str] = []
    if held:
        parts.append(circle(at, h * 1.5, "none", 0.7))
    if form == "hard":
        shape = ((-h, -h), (h * 0.45, -h), (h * 1.25, 0.0), (h * 0.45, h), (-h, h))
        parts.append(polygon([off(at, u, s, t) for s, t in shape], fill, 1.1))
    elif form == "soft":
        wedge = ((-h, -h * 0.6), (h, -h * 1.1), (h, h * 1.1), (-h, h * 0.6))
        parts.append(polygon([off(at, u, s, t) for s, t in wedge], fill, 1.1))
        reach = max(face / 2, h * 1.1)
        parts.append(line(off(at, u, h + 1.2, -reach), off(at, u, h + 1.2, reach), 2.2))
    elif form == "tube":
        ends = [off(at, u, 0.0, -h * 1.1), off(at, u, 0.0, h * 1.1)]
        for wide, paint in ((h * 1.7 + 1.1, INK), (h * 1.7 - 1.1, fill)):
            data = path_data(ends, False)
            parts.append(tag("path", d=data, stroke=paint, stroke_width=wide, stroke_linecap="round", fill="none"))
    else:
        parts.append(circle(at, h, fill, 1.1))
    parts.append(text(number, (at[0], at[1] + NUMBER_SIZE * 0.36), NUMBER_SIZE, True, "middle", ink))
    if state == "remove":
        slant = (0.7071, -0.7071)
        parts.extend(line(off(at, slant, s * h * 0.85), off(at, slant, s * h * 1.75), 1.8) for s in (-1, 1))
    return "".join(parts)


def practical(at: Point, radius: float = 6.5) -> str:
    """A lamp in the picture: a circle with a cross."""
    r = radius * 0.7071
    x, y = at
    return (
        circle(at, radius, "#fff", 1.2)
        + line((x - r, y - r), (x + r, y + r), 1.0)
        + line((x - r, y + r), (x + r, y - r), 1.0)
    )


def socket(at: Point) -> str:
    """An outlet: a small square with two holes."""
    x, y = at
    box = ((x - 4.5, y - 4.5), (x + 4.5, y - 4.5), (x + 4.5, y + 4.5), (x - 4.5, y + 4.5))
    return polygon(box, "#fff", 1.0) + circle((x - 1.7, y), 0.9, INK, 0.2) + circle((x + 1.7, y), 0.9, INK, 0.2)


def ghost(at: Point, number: str) -> str:
    """Where something stood before: a dotted ring, with the number of a lamp."""
    inside = text(number, (at[0], at[1] + 3.2), 9.0, False, "middle") if number else circle(at, 1.8, INK, 0.2)
    return circle(at, 7.0, "#fff", 0.8, "1.2 1.8") + inside


def grip_line(kind: LineKind, a: Point, b: Point) -> str:
    """One stretch of flag, cloth, diffusion, bounce, mirror, boom, cable or kept way."""
    length = distance(a, b) or 1.0
    u = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    if kind == "flag":
        return line(a, b, 3.0)
    if kind == "negative":
        ticks = int(length // 5)
        rows = [between(a, b, (n + 0.5) / max(ticks, 1)) for n in range(ticks)]
        return line(a, b, 2.4) + "".join(line(off(p, u, 0, 0), off(p, u, -2.5, 5.0), 0.8) for p in rows)
    if kind == "diffusion":
        return line(a, b, 2.2, "5 3")
    if kind == "bounce":
        return "".join(line(off(a, u, 0, s), off(b, u, 0, s), 1.2) for s in (-1.8, 1.8))
    if kind == "mirror":
        return line(a, b, 2.2, "8 2 1.5 2")
    if kind == "boom":
        return line(a, b, 1.4) + circle(a, 2.0, INK, 0.3) + circle(b, 2.0, "#fff", 1.0)
    if kind == "walkway":
        return line(a, b, 0.8, "1.5 2.5")
    return _wave(a, b, u, length)


def _wave(a: Point, b: Point, u: Point, length: float) -> str:
    """A wavy line, so that a cable is not taken for the edge of a view."""
    bends = int(length // 4.0)
    if bends < 2:
        return line(a, b, 0.9)
    step = length / bends
    first, bend = off(a, u, step), off(a, u, step / 2, 2.6)
    turns = "".join(f"T{num(x)} {num(y)}" for x, y in (off(a, u, step * n) for n in range(2, bends + 1)))
    data = f"M{num(a[0])} {num(a[1])}Q{num(bend[0])} {num(bend[1])} {num(first[0])} {num(first[1])}{turns}"
    return tag("path", d=data, fill="none", stroke=INK, stroke_width=0.8)


def move(points: list[Point]) -> str:
    """A dashed way with an arrow at its end and a small ring at its start."""
    if len(points) < 2 or distance(points[-2], points[-1]) < 0.5:
        return ""
    far = distance(points[-2], points[-1])
    u = ((points[-1][0] - points[-2][0]) / far, (points[-1][1] - points[-2][1]) / far)
    body = [*points[:-1], off(points[-1], u, -min(5.0, far * 0.8))]
    way = polygon(body, "none", 1.2, "4 2.5", False)
    return way + circle(points[0], 2.0, "#fff", 1.0) + arrow_head(points[-1], u, 7.0)


def sun(at: Point) -> str:
    """A small ring with eight rays."""
    rays = (turned((1.0, 0.0), 45.0 * n) for n in range(8))
    return circle(at, 4.0, "#fff", 1.1) + "".join(line(off(at, u, 5.0), off(at, u, 7.5), 0.9) for u in rays)
