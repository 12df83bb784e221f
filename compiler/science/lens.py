"""Field of view, frame at a distance, depth of field, and the rest that follows from a focal length.

Lengths are metres (so a 35 mm lens is 0.035), angles degrees. Formulas: thin lens geometry, distances from the lens's
entrance pupil; a lens that breathes or a scale marked from the image plane differs by centimetres.
"""

from __future__ import annotations

from math import atan, degrees, hypot, inf, isinf, log2, radians, tan
from typing import NamedTuple

#: The diagonal of a frame 36 mm by 24 mm, against which crop factors are told.
REFERENCE_DIAGONAL = hypot(0.036, 0.024)


class Gate(NamedTuple):
    """The part of a sensor that makes the picture: width and height in metres, the width counted as seen without
    squeeze.
    """

    width: float
    height: float


class Focus(NamedTuple):
    """Sharp from `near` to `far` metres (far may be infinite); `hyperfocal` is the distance that makes far infinite."""

    near: float
    far: float
    hyperfocal: float


def gate(width: float, height: float, aspect: float | None = None, squeeze: float = 1.0) -> Gate:
    """The picture cropped from a sensor (m) to an aspect ratio, by a lens that squeezes the width by a factor.

    The picture keeps the sensor's height where the sensor is wide enough, its width otherwise; `width` of the result is
    the width after stretching back, so that width / height is the aspect.
    """
    wide = width * squeeze
    if aspect is None:
        return Gate(wide, height)
    return Gate(height * aspect, height) if wide / height >= aspect else Gate(wide, wide / aspect)


def field_of_view(side: float, focal: float) -> float:
    """Degrees a lens focused far away sees across a side of the picture: 2 atan(side / 2f)."""
    return 2.0 * degrees(atan(side / (2.0 * focal)))


def half_tangents(picture: Gate, focal: float) -> tuple[float, float]:
    """Tangents of half the horizontal and half the vertical field of view: what a pinhole camera takes."""
    return picture.width / (2.0 * focal), picture.height / (2.0 * focal)


def frame_at(side: float, focal: float, distance: float) -> float:
    """Metres of the scene that fill a side of the picture at a distance."""
    return side * distance / focal


def focal_for(side: float, frame: float, distance: float) -> float:
    """Focal length (m) that fills a side of the picture with `frame` metres at a distance."""
    return side * distance / frame


def distance_for(side: float, frame: float, focal: float) -> float:
    """Distance (m) at which a lens fills a side of the picture with `frame` metres."""
    return frame * focal / side


def crop_factor(width: float, height: float) -> float:
    """Diagonal of a 36 mm x 24 mm frame over a sensor's diagonal."""
    return REFERENCE_DIAGONAL / hypot(width, height)


def circle_of_confusion(width: float, height: float) -> float:
    """The blur still called sharp, m: a fifteen-hundredth of the diagonal (common practice, no source)."""
    return hypot(width, height) / 1500.0


def hyperfocal(focal: float, stop: float, blur: float) -> float:
    """H = f^2 / (N c) + f, m."""
    return focal * focal / (stop * blur) + focal


def focus(focal: float, stop: float, blur: float, distance: float) -> Focus:
    """Near and far limits of sharpness for a lens focused at a distance (m) greater than its focal length.

    near, far = s f^2 / (f^2 +- N c (s - f)).
    """
    spread = stop * blur * (distance - focal)
    near = distance * focal * focal / (focal * focal + spread)
    left = focal * focal - spread
    far = distance * focal * focal / left if left > focal * focal * 1e-9 else inf
    return Focus(near, far, hyperfocal(focal, stop, blur))


def covers(image_circle: float, picture_width: float, picture_height: float) -> float:
    """Metres by which a lens's image circle is wider than the sensor's diagonal; negative leaves dark corners."""
    return image_circle - hypot(picture_width, picture_height)


def stops_between(first: float, second: float) -> float:
    """Stops by which the second f- or T-number is darker than the first: 2 log2(second / first)."""
    return 2.0 * log2(second / first)


def magnification(focal: float, distance: float) -> float:
    """Image size over object size at a distance (m) from the lens: f / (s - f)."""
    return focal / (distance - focal)


def depth_over(limits: Focus) -> float:
    """Depth of the sharp zone, m; may be infinite."""
    return inf if isinf(limits.far) else limits.far - limits.near


def adapter_thickness(lens_flange: float, body_flange: float) -> float:
    """Thickness (m) of a plain adapter; zero or less means impossible without glass."""
    return lens_flange - body_flange


def frame_across_tilt(picture: Gate, focal: float, distance: float, tilt: float) -> float:
    """Metres of an upright line that fill the picture's height at a distance along the floor, seen under a tilt.

    Infinite where the frame's edge reaches the vertical.
    """
    half = degrees(atan(picture.height / (2.0 * focal)))
    upper, lower = tilt + half, tilt - half
    if upper >= 90.0 or lower <= -90.0:
        return inf
    return distance * (tan(radians(upper)) - tan(radians(lower)))


def pupil_depth(front: float, opening: float, focal: float, circle: float) -> float:
    """Metres the entrance pupil lies behind a front glass of diameter `front` (m), at most: the light of the image
    circle's edge, as wide as the pupil, just passes the glass at full opening.

    `opening` is the pupil's diameter there (focal length over f-number), `circle` the diameter of the image circle.
    front = opening + 2 depth tan(a), tan(a) = circle / 2f.
    """
    return max(front - opening, 0.0) * focal / circle


def clear_needed(side: float, focal: float, depth: float, ahead: float) -> float:
    """Metres that must be clear, across a side (or the diagonal) of the picture, `ahead` metres before the front glass,
    so that at least half of the light of that side's end comes through.

    The middle of the bundle goes through the middle of the entrance pupil, `depth` behind the glass:
    2 (depth + ahead) side / 2f.
    """
    return (depth + ahead) * side / focal
