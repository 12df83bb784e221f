"""How much light arrives: points, soft sources, beams, bounces and layers.

Lux, lumens, candela, metres, degrees. Lamps told by lux at a distance are measurements of their maker; what follows
from lumens and an angle is an estimate, a stop to either side.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import acos, atan, cos, exp, log, log2, pi, radians, sqrt

from .geometry import Point3


def at_distance(lux: float, measured: float, distance: float) -> float:
    """Lux of a small source at a distance from its lux at another: the inverse square law."""
    return lux * (measured / distance) ** 2


def candela(lux: float, distance: float) -> float:
    """Intensity of a small source: E d^2."""
    return lux * distance * distance


def disc_factor(radius: float, distance: float) -> float:
    """View factor of a uniform disc on its axis: r^2 / (r^2 + d^2)."""
    return radius * radius / (radius * radius + distance * distance)


def disc_at_distance(lux: float, measured: float, distance: float, radius: float) -> float:
    """Lux on the axis of a round soft source at a distance, from its lux at another (Lambertian, uniform)."""
    return lux * disc_factor(radius, distance) / disc_factor(radius, measured)


def equal_disc(width: float, height: float) -> float:
    """Radius of the disc of a rectangle's area, m."""
    return sqrt(width * height / pi)


def rectangle_factor(width: float, height: float, distance: float) -> float:
    """View factor of a uniform rectangle seen from a point on its axis, facing it (closed form of the parallel
    rectangle).
    """
    a, b = width / 2 / distance, height / 2 / distance
    p, q = sqrt(1 + a * a), sqrt(1 + b * b)
    return 2.0 / pi * (a / p * atan(b / p) + b / q * atan(a / q))


def polygon_factor(corners: Sequence[Point3], at: Point3, facing: Point3) -> float:
    """View factor of a flat uniform polygon from a point on a surface that faces a direction (unit vector).

    Lambert's formula: the sum over edges of the angle they span times the cosine between the edge's plane and the
    surface; what lies behind the surface is cut off first. The polygon counts as shining to both sides.
    """
    seen = _above([_minus(c, at) for c in corners], facing)
    if len(seen) < 3:
        return 0.0
    total = 0.0
    for i, a in enumerate(seen):
        b = seen[(i + 1) % len(seen)]
        normal = _cross(a, b)
        length = sqrt(_dot(normal, normal))
        if length < 1e-15:
            continue
        cosine = _dot(a, b) / sqrt(_dot(a, a) * _dot(b, b))
        total += acos(max(-1.0, min(1.0, cosine))) * _dot(normal, facing) / length
    return abs(total) / (2 * pi)


def _above(points: list[Point3], facing: Point3) -> list[Point3]:
    kept: list[Point3] = []
    for i, p in enumerate(points):
        q = points[i - 1]
        here, before = _dot(p, facing), _dot(q, facing)
        if (here < 0.0) != (before < 0.0):
            t = before / (before - here)
            kept.append((q[0] + t * (p[0] - q[0]), q[1] + t * (p[1] - q[1]), q[2] + t * (p[2] - q[2])))
        if here >= 0.0:
            kept.append(p)
    return kept


def _minus(a: Point3, b: Point3) -> Point3:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def _dot(a: Point3, b: Point3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _cross(a: Point3, b: Point3) -> Point3:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def cosine_stops(angle: float) -> float:
    """Stops by which light at an angle to the surface's normal is less: log2 of the cosine (Lambert); negative."""
    return log2(cos(radians(angle)))


def beam_candela(lumens: float, beam: float) -> float:
    """Peak intensity of a lamp of a beam angle (full, at half peak) whose light falls as cos^n: lm (n + 1) / (2 pi)."""
    return lumens * (_power(beam) + 1.0) / (2.0 * pi)


def cone_candela(lumens: float, beam: float) -> float:
    """Intensity of a uniform cone of a full angle: lm / (2 pi (1 - cos(beam / 2))). Reads up to half a stop high."""
    return lumens / (2.0 * pi * (1.0 - cos(radians(beam / 2))))


def _power(beam: float) -> float:
    return log(0.5) / log(cos(radians(beam / 2)))


def fall_off(angle: float, beam: float, field: float | None = None) -> float:
    """Part of the peak intensity at an angle off the axis: half at half the beam angle, a tenth at half the field
    angle.

    Smooth between and beyond: exp(-ln 2 (angle / half beam)^p), p from the field angle; without one, or with one no
    wider than the beam, cos^n of the beam angle.
    """
    half = beam / 2
    if field is not None and field > beam:
        p = log(log(10.0) / log(2.0)) / log(field / beam)
        return exp(-log(2.0) * (abs(angle) / half) ** p)
    if abs(angle) >= 90.0:
        return 0.0
    return float(cos(radians(angle)) ** _power(beam)) if half < 90.0 else 1.0


def through(transmittances: Iterable[float]) -> float:
    """Part of the light left behind layers: the product of their transmittances."""
    left = 1.0
    for part in transmittances:
        left *= part
    return left


def bounced(on_board: float, reflectance: float, factor: float) -> float:
    """Lux from a matt board lit with lux: reflectance times view factor times what falls on it."""
    return on_board * reflectance * factor


def ratio_stops(key: float, fill: float) -> float:
    """Stops between key and fill: 2 to 1 is one stop."""
    return log2(key / fill)


def small_enough(greatest_side: float, distance: float) -> bool:
    """Whether a source may be treated as a point: at least five times its greatest side away (common practice)."""
    return distance >= 5.0 * greatest_side
