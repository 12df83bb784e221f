"""A pinhole camera: what lies in its frame, by how many degrees, and where in the picture.

Lengths are metres, angles degrees. `bearing` turns clockwise from +y of the set, `tilt` is upwards. The frame is
measured from -1 (left, bottom) to 1 (right, top). Formulas: central projection; solids are clipped to the pyramid of
the view.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan, atan2, cos, degrees, hypot, radians, sin
from typing import NamedTuple

from .geometry import Point, Point3, Prism, area, bearing, hull, turn_between

#: Nothing nearer to the pinhole than this is drawn, m.
NEAR = 0.01
#: The smallest part of the frame that counts as seen: about eight dots of a picture 3840 by 2160.
LEAST_SHARE = 1e-6

EDGES = ("left", "right", "bottom", "top")


class Camera(NamedTuple):
    """A pinhole at `position` with three axes of length 1 and the tangents of half the field of view."""

    position: Point3
    right: Point3
    up: Point3
    forward: Point3
    half_width: float
    half_height: float
    bearing: float
    tilt: float


class View(NamedTuple):
    """How a solid stands to the frame.

    `margin`: degrees of pan or tilt by which it reaches into the frame (positive) or misses it (negative), over the
    edge named by `edge`. `turn`: degrees, on the floor plan, of its middle off the lens axis (clockwise positive).
    `outline`: its convex shape in frame coordinates, empty when out of frame; `share`: part of the frame it covers.
    """

    seen: bool
    margin: float
    edge: str
    turn: float
    outline: tuple[Point, ...]
    share: float


def pointing(position: Point3, bearing_: float, tilt: float, half_width: float, half_height: float) -> Camera:
    """A level camera with a bearing and a tilt; looking straight down (-90) the bearing is the top of the picture."""
    b, t = radians(bearing_), radians(tilt)
    return Camera(
        position,
        (cos(b), -sin(b), 0.0),
        (-sin(b) * sin(t), -cos(b) * sin(t), cos(t)),
        (sin(b) * cos(t), cos(b) * cos(t), sin(t)),
        half_width,
        half_height,
        bearing_ % 360.0,
        tilt,
    )


def looking_at(position: Point3, aim: Point3, half_width: float, half_height: float, top: float = 0.0) -> Camera:
    """A level camera aimed at a point; `top` is the bearing of the picture's top where the aim is straight up or
    down.
    """
    flat = hypot(aim[0] - position[0], aim[1] - position[1])
    rise = aim[2] - position[2]
    towards = top if flat < 1e-6 else bearing(position[:2], aim[:2])
    tilt = degrees(atan2(rise, flat)) if flat >= 1e-6 else (90.0 if rise > 0 else -90.0)
    return pointing(position, towards, tilt, half_width, half_height)


def between(first: Camera, last: Camera, part: float) -> Camera:
    """The camera on its way from one stand to another: `part` 0 to 1, every value changing evenly, by the shorter
    turn.
    """

    def mix(a: float, b: float) -> float:
        return a + (b - a) * part

    (ax, ay, az), (bx, by, bz) = first.position, last.position
    return pointing(
        (mix(ax, bx), mix(ay, by), mix(az, bz)),
        first.bearing + turn_between(first.bearing, last.bearing) * part,
        mix(first.tilt, last.tilt),
        mix(first.half_width, last.half_width),
        mix(first.half_height, last.half_height),
    )


def mirrored(camera: Camera, a: Point, b: Point) -> Camera:
    """The camera behind a flat upright mirror on the line from a to b, which sees what the mirror shows."""
    length = hypot(b[0] - a[0], b[1] - a[1])
    nx, ny = -(b[1] - a[1]) / length, (b[0] - a[0]) / length

    def flip(v: Point3) -> Point3:
        along = 2 * (v[0] * nx + v[1] * ny)
        return v[0] - along * nx, v[1] - along * ny, v[2]

    x, y, z = flip((camera.position[0] - a[0], camera.position[1] - a[1], camera.position[2]))
    forward = flip(camera.forward)
    return camera._replace(
        position=(x + a[0], y + a[1], z),
        right=flip(camera.right),
        up=flip(camera.up),
        forward=forward,
        bearing=degrees(atan2(forward[0], forward[1])) % 360.0,
    )


def to_camera(camera: Camera, p: Point3) -> Point3:
    """A point as seen from the camera: metres to the right, up and ahead."""
    o, r, u, f = camera.position, camera.right, camera.up, camera.forward
    x, y, z = p[0] - o[0], p[1] - o[1], p[2] - o[2]
    return x * r[0] + y * r[1] + z * r[2], x * u[0] + y * u[1] + z * u[2], x * f[0] + y * f[1] + z * f[2]


def project(camera: Camera, p: Point3) -> Point | None:
    """Where a point falls in the frame (-1 to 1 inside); None when it is not ahead of the camera."""
    x, y, z = to_camera(camera, p)
    return (x / (z * camera.half_width), y / (z * camera.half_height)) if z > 0.0 else None


def unproject(camera: Camera, u: float, v: float, depth: float) -> Point3:
    """The point `depth` metres ahead of the camera (along its axis) that falls at (u, v) of the frame."""
    x, y = u * camera.half_width * depth, v * camera.half_height * depth
    r, w, f, o = camera.right, camera.up, camera.forward, camera.position
    return (
        o[0] + x * r[0] + y * w[0] + depth * f[0],
        o[1] + x * r[1] + y * w[1] + depth * f[1],
        o[2] + x * r[2] + y * w[2] + depth * f[2],
    )


def half_fields(camera: Camera) -> tuple[float, float]:
    """Half the horizontal and half the vertical field of view, degrees."""
    return degrees(atan(camera.half_width)), degrees(atan(camera.half_height))


def turn_off_axis(camera: Camera, p: Point3) -> float:
    """Degrees on the floor plan between the lens axis and a point, clockwise positive."""
    return turn_between(camera.bearing, bearing(camera.position[:2], p[:2]))


def faces(solid: Prism) -> list[tuple[Point3, ...]]:
    """The faces of an upright solid as outlines in space."""
    low = [(x, y, solid.bottom) for x, y in solid.base]
    high = [(x, y, solid.top) for x, y in solid.base]
    return _faces_of(low, high)


def _faces_of(low: Sequence[Point3], high: Sequence[Point3]) -> list[tuple[Point3, ...]]:
    count = len(low)
    sides = [(low[i - 1], low[i], high[i], high[i - 1]) for i in range(count)]
    return [tuple(low), tuple(high), *sides]


def middle(solid: Prism) -> Point3:
    """The mean of a solid's corners."""
    count = len(solid.base)
    return (
        sum(x for x, _ in solid.base) / count,
        sum(y for _, y in solid.base) / count,
        (solid.bottom + solid.top) / 2,
    )


def _planes(camera: Camera) -> tuple[tuple[float, float, float, float], ...]:
    """The five planes of the view in camera coordinates as (a, b, c, d): inside where ax + by + cz + d >= 0."""
    w, h = camera.half_width, camera.half_height
    return (0.0, 0.0, 1.0, -NEAR), (1.0, 0.0, w, 0.0), (-1.0, 0.0, w, 0.0), (0.0, 1.0, h, 0.0), (0.0, -1.0, h, 0.0)


def clip(outline: Sequence[Point3], planes: Sequence[tuple[float, float, float, float]]) -> list[Point3]:
    """The part of a flat outline on the inner side of every plane."""
    result = list(outline)
    for a, b, c, d in planes:
        sides = [a * x + b * y + c * z + d for x, y, z in result]
        if all(side >= 0.0 for side in sides):
            continue
        kept: list[Point3] = []
        for i, (p, side) in enumerate(zip(result, sides, strict=True)):
            q, other = result[i - 1], sides[i - 1]
            if (side < 0.0) != (other < 0.0):
                t = other / (other - side)
                kept.append((q[0] + t * (p[0] - q[0]), q[1] + t * (p[1] - q[1]), q[2] + t * (p[2] - q[2])))
            if side >= 0.0:
                kept.append(p)
        result = kept
        if not result:
            break
    return result


def _beyond(camera: Camera, points: Sequence[Point3]) -> tuple[float, ...]:
    """For each edge of the frame, degrees of pan or tilt by which the points reach inside it (negative: they stay
    outside).
    """
    half_w, half_h = half_fields(camera)
    pans = [degrees(atan2(x, z)) for x, _, z in points]
    tilts = [degrees(atan2(y, z)) for _, y, z in points]
    return max(pans) + half_w, half_w - min(pans), max(tilts) + half_h, half_h - min(tilts)


def outline_in_frame(camera: Camera, outlines: Sequence[Sequence[Point3]]) -> tuple[tuple[Point, ...], list[Point3]]:
    """Outline, in frame coordinates, of the part of some faces inside the frame; its corners in camera coordinates."""
    return _clipped(camera, [[to_camera(camera, p) for p in outline] for outline in outlines])


def _clipped(camera: Camera, outlines: Sequence[Sequence[Point3]]) -> tuple[tuple[Point, ...], list[Point3]]:
    """`outline_in_frame` of faces that are in camera coordinates already."""
    planes = _planes(camera)
    corners: list[Point3] = []
    for outline in outlines:
        corners.extend(clip(outline, planes))
    flat = [(x / (z * camera.half_width), y / (z * camera.half_height)) for x, y, z in corners]
    return hull(flat), corners


def _ends(camera: Camera, solid: Prism) -> tuple[list[Point3], list[Point3]]:
    """The lower and the upper outline of a solid in camera coordinates."""
    low = [to_camera(camera, (x, y, solid.bottom)) for x, y in solid.base]
    return low, [to_camera(camera, (x, y, solid.top)) for x, y in solid.base]


def solid_in_frame(camera: Camera, solid: Prism) -> tuple[Point, ...]:
    """Convex outline, in frame coordinates, of the part of an upright solid inside the frame; empty when there is
    none.
    """
    low, high = _ends(camera, solid)
    return _clipped(camera, _faces_of(low, high))[0] if _near_frame(camera, low + high) else ()


def view(camera: Camera, solid: Prism) -> View:
    """How an upright solid stands to the frame, nothing being in the way."""
    low, high = _ends(camera, solid)
    outline, corners = _clipped(camera, _faces_of(low, high)) if _near_frame(camera, low + high) else ((), [])
    share = area(outline) / 4.0 if len(outline) >= 3 else 0.0
    turn = turn_off_axis(camera, middle(solid))
    if share > LEAST_SHARE:
        reach = _beyond(camera, corners)
        nearest = min(range(4), key=reach.__getitem__)
        return View(True, reach[nearest], EDGES[nearest], turn, outline, share)
    margin, edge = _miss(camera, low + high)
    return View(False, margin, edge, turn, (), 0.0)


def _near_frame(camera: Camera, corners: Sequence[Point3]) -> bool:
    """Whether some corner lies on the inner side of each plane of the view; else nothing is in the frame."""
    return all(any(a * x + b * y + c * z + d >= 0.0 for x, y, z in corners) for a, b, c, d in _planes(camera))


def _miss(camera: Camera, points: Sequence[Point3]) -> tuple[float, str]:
    """Degrees (0 or less) of pan or tilt by which a solid misses the frame, whichever is more, and over which edge."""
    half_w, half_h = half_fields(camera)
    pan = _nearest_to_zero([degrees(atan2(x, z)) for x, _, z in points])
    tilt = _nearest_to_zero([degrees(atan2(y, abs(z))) for _, y, z in points])
    sideways, upwards = half_w - abs(pan), half_h - abs(tilt)
    if sideways <= upwards:
        return min(sideways, 0.0), "right" if pan > 0.0 else "left"
    return min(upwards, 0.0), "top" if tilt > 0.0 else "bottom"


def _nearest_to_zero(angles: Sequence[float]) -> float:
    """The angle nearest to straight ahead of a solid seen between some angles; 0 where it lies across the axis."""
    low, high = min(angles), max(angles)
    if low <= 0.0 <= high and high - low < 180.0:
        return 0.0
    return min(angles, key=abs)


def corner_margin(camera: Camera, p: Point3) -> float:
    """Degrees by which a single point lies inside the frame (positive) or outside it (negative)."""
    return min(_beyond(camera, [to_camera(camera, p)]))
