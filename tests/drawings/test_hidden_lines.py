"""What hides what in the camera's-eye view, against rays shot through the picture by other means.

The rays meet triangles by the method of Moeller and Trumbore (1997); corners are projected with the angles of the line
of sight, not with the project's own axes.
"""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET

from hotset.documents.drawings import eyeview
from hotset.documents.drawings.eyeview import Person, Surface, Thing, View
from hotset.science.camera import Camera, faces, looking_at
from hotset.science.geometry import box
from hypothesis import given, settings
from hypothesis import strategies as st

SVG = "{http://www.w3.org/2000/svg}"
HALF = (36.0 / 48.0, 20.25 / 48.0)  # 36 mm by 20.25 mm at 24 mm
Point3 = tuple[float, float, float]
Flat = list[tuple[float, float]]


def frame(svg: str) -> tuple[float, float, float, float]:
    thick = next(e for e in ET.fromstring(svg).iter(f"{SVG}rect") if e.get("stroke-width") == "2.4")
    x, y, w, h = (float(thick.get(k, "0")) for k in ("x", "y", "width", "height"))
    return x, y, w, h


def shapes(svg: str) -> list[Flat]:
    return [
        [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.get("d", ""))]
        for path in ET.fromstring(svg).iter(f"{SVG}path")
    ]


def seen_at(eye: Point3, aim: Point3, p: Point3, on: tuple[float, float, float, float]) -> tuple[float, float]:
    """Where a point falls on the paper, by turning the world about the upright axis and then about the level one."""
    turn = math.atan2(aim[0] - eye[0], aim[1] - eye[1])
    rise = math.atan2(aim[2] - eye[2], math.hypot(aim[0] - eye[0], aim[1] - eye[1]))
    x, y, z = (a - b for a, b in zip(p, eye, strict=True))
    x, y = x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)
    y, z = y * math.cos(rise) + z * math.sin(rise), -y * math.sin(rise) + z * math.cos(rise)
    left, top, wide, high = on
    return left + wide / 2 * (1 + x / (y * HALF[0])), top + high / 2 * (1 - z / (y * HALF[1]))


def ray(eye: Point3, aim: Point3, u: float, v: float) -> Point3:
    """The direction in which a place of the frame (-1 to 1, upwards) is seen."""
    turn = math.atan2(aim[0] - eye[0], aim[1] - eye[1])
    rise = math.atan2(aim[2] - eye[2], math.hypot(aim[0] - eye[0], aim[1] - eye[1]))
    x, y, z = u * HALF[0], 1.0, v * HALF[1]
    y, z = y * math.cos(rise) - z * math.sin(rise), y * math.sin(rise) + z * math.cos(rise)
    return x * math.cos(turn) + y * math.sin(turn), -x * math.sin(turn) + y * math.cos(turn), z


def cross(a: Point3, b: Point3) -> Point3:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def dot(a: Point3, b: Point3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def less(a: Point3, b: Point3) -> Point3:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def meets(eye: Point3, along: Point3, a: Point3, b: Point3, c: Point3) -> tuple[float, float] | None:
    """How far a ray goes up to a triangle, and how well inside it hits (0 at an edge)."""
    e1, e2 = less(b, a), less(c, a)
    h = cross(along, e2)
    det = dot(e1, h)
    if abs(det) < 1e-9:
        return None
    s = less(eye, a)
    u, q = dot(s, h) / det, cross(s, e1)
    v, far = dot(along, q) / det, dot(e2, q) / det
    return (far, min(u, v, 1 - u - v)) if min(u, v) >= 0 and u + v <= 1 and far > 1e-6 else None


def first_face(eye: Point3, along: Point3, solids: list[list[tuple[Point3, ...]]]) -> tuple[Point3, ...] | None:
    """The face that a ray meets first."""
    best: tuple[float, tuple[Point3, ...]] | None = None
    for solid in solids:
        for face in solid:
            for n in range(1, len(face) - 1):
                hit = meets(eye, along, face[0], face[n], face[n + 1])
                if hit is not None and (best is None or hit[0] < best[0] - 1e-9):
                    best = hit[0], face
    return best[1] if best else None


def inside(shape: Flat, p: tuple[float, float]) -> bool:
    odd = False
    for (ax, ay), (bx, by) in zip(shape, [*shape[1:], shape[0]], strict=True):
        if (ay > p[1]) != (by > p[1]) and p[0] < ax + (p[1] - ay) * (bx - ax) / (by - ay):
            odd = not odd
    return odd


def near_an_edge(shapes_: list[Flat], p: tuple[float, float]) -> bool:
    for shape in shapes_:
        for (ax, ay), (bx, by) in zip(shape, [*shape[1:], shape[0]], strict=True):
            long = math.hypot(bx - ax, by - ay) or 1.0
            t = min(max(((p[0] - ax) * (bx - ax) + (p[1] - ay) * (by - ay)) / long**2, 0.0), 1.0)
            if math.hypot(ax + t * (bx - ax) - p[0], ay + t * (by - ay) - p[1]) < 0.3:
                return True
    return False


def compare(eye: Point3, aim: Point3, solids: list[list[tuple[Point3, ...]]], svg: str) -> int:
    """Ask the picture and the rays, at many places, what is seen there; how many places met something."""
    on, painted, met = frame(svg), shapes(svg), 0
    for i in range(-9, 10):
        for j in range(-9, 10):
            u, v = i / 10 + 0.013, j / 10 + 0.017
            p = on[0] + on[2] / 2 * (1 + u), on[1] + on[3] / 2 * (1 - v)
            if near_an_edge(painted, p):
                continue
            face = first_face(eye, ray(eye, aim, u, v), solids)
            top = next((shape for shape in reversed(painted) if inside(shape, p)), None)
            assert (face is None) == (top is None), (u, v)
            if face is None or top is None:
                continue
            met += 1
            corners = [seen_at(eye, aim, c, on) for c in face]
            for x, y in corners:
                assert min(math.hypot(x - a, y - b) for a, b in top) < 0.05, (u, v, face)
    return met


def view_of(eye: Point3, aim: Point3, solids: list[list[tuple[Point3, ...]]]) -> str:
    camera: Camera = looking_at(eye, aim, *HALF)
    things = tuple(Thing("thing", tuple(solid)) for solid in solids)
    return eyeview.draw(View("v", camera, (), things), "e").svg


def test_a_long_table_does_not_hide_the_lamp_before_it() -> None:
    """The table's near end is nearer to the lens than the lamp, which yet stands before the table's side."""
    table = faces(box((1.2, 4.0), 0.6, 6.0, 0.0, 0.8, 20.0))
    lamp = faces(box((0.6, 4.2), 0.3, 0.3, 0.0, 1.6))
    eye, aim = (0.0, 0.0, 1.5), (0.7, 4.0, 0.8)
    assert compare(eye, aim, [table, lamp], view_of(eye, aim, [table, lamp])) > 30


def test_one_thing_on_another() -> None:
    table, till = faces(box((0.0, 3.0), 1.4, 0.7, 0.0, 0.75)), faces(box((0.2, 3.1), 0.3, 0.3, 0.75, 0.95))
    for eye in ((0.0, 0.0, 1.5), (0.5, 0.2, 0.3), (-1.0, 6.0, 0.9)):
        aim = (0.1, 3.0, 0.7)
        assert compare(eye, aim, [table, till], view_of(eye, aim, [table, till])) > 10


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(0.2, 0.85), st.floats(0.2, 0.85), st.floats(0.2, 2.2), st.floats(0, 90)),
                min_size=9, max_size=9), st.floats(-2.0, 2.0), st.floats(0.3, 2.0))  # fmt: skip
def test_boxes_all_over_the_floor(sides: list[tuple[float, float, float, float]], x: float, z: float) -> None:
    """Nine boxes on squares of a floor, turned anyhow, seen from anywhere before it."""
    solids = []
    for n, (wide, deep, high, turned) in enumerate(sides):
        at = ((n % 3 - 1) * 1.3, 3.0 + (n // 3) * 1.3)
        solids.append(faces(box(at, wide, deep, 0.0, high, turned)))
    eye, aim = (x, 0.0, z), (0.0, 4.3, 1.0)
    compare(eye, aim, solids, view_of(eye, aim, solids))


def test_a_lamp_outside_is_seen_through_the_window_only() -> None:
    """A lamp behind a wall with a window: what of it lies in the hole is painted before the wall."""
    wall = Surface("wall", ((-3.0, 4.0, 0.0), (3.0, 4.0, 0.0), (3.0, 4.0, 2.5), (-3.0, 4.0, 2.5)))
    window = Surface("window", ((-0.5, 4.0, 1.0), (0.5, 4.0, 1.0), (0.5, 4.0, 2.0), (-0.5, 4.0, 2.0)))
    lamp = Thing("lamp", tuple(faces(box((0.3, 5.0), 0.4, 0.4, 1.2, 1.6))), (), "1", True)
    svg = eyeview.draw(View("v", looking_at((0.0, 0.0, 1.5), (0.0, 4.0, 1.5), *HALF), (wall, window), (lamp,)), "e").svg
    paths = list(ET.fromstring(svg).iter(f"{SVG}path"))
    assert paths[-1].get("fill-rule") == "evenodd"
    assert (paths[-1].get("d") or "").count("M") == 2
    assert len(paths) == 7  # six faces of the lamp, then the wall with its hole


def test_who_sits_on_a_bench_is_not_hidden_by_it() -> None:
    bench = Thing("thing", tuple(faces(box((0.0, 4.0), 1.8, 0.5, 0.0, 0.45))))
    camera = looking_at((0.0, 0.0, 1.4), (0.0, 4.0, 1.0), *HALF)
    svg = eyeview.draw(View("v", camera, (), (bench,), (Person((0.0, 4.0), 1.7, "sits"),)), "e").svg
    assert [p.get("stroke-width") for p in ET.fromstring(svg).iter(f"{SVG}path")][-2:] == ["1.1", "1.1"]
