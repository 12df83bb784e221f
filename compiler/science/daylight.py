"""Light of sun and sky by the height of the sun: on level ground, on upright surfaces, and what a window lets in.

Lux. By day: Recommended Practice for the Calculation of Daylight Availability (IES, 1984; read second hand), mean
values that a given moment may double or halve. In twilight: values of the American Meteorological Society's Glossary
(clear evening: 410 to 585 lx at sunset, 2 to 3.5 lx at -6 deg, 0.008 lx at -12, 0.0006 at -18), joined evenly in
stops. Clouds in twilight are taken to keep the part they keep at the horizon, and the sky to be evenly bright (both
are assumptions).
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from math import cos, exp, log, log2, radians, sin
from typing import NamedTuple

from .geometry import Point3
from .light import polygon_factor, through

#: Illuminance of the sun above the air, lux (IES 1984).
OUTSIDE_THE_AIR = 127_500.0


class Sky(NamedTuple):
    """Constants of a sky (IES 1984): E = a + b sin^c h of the sky in lux; extinction of the sun (None: no sun)."""

    a: float
    b: float
    c: float
    extinction: float | None


SKIES = {
    "clear": Sky(800.0, 15_500.0, 0.5, 0.21),
    "partly-cloudy": Sky(300.0, 45_000.0, 1.0, 0.80),
    "overcast": Sky(300.0, 21_000.0, 1.0, None),
}

_TWILIGHT = ((0.0, 800.0), (-0.8333, 500.0), (-6.0, 2.7), (-12.0, 0.008), (-18.0, 0.0006))


def sky(elevation: float, condition: str = "clear") -> float:
    """Lux on open ground from the sky without the sun's disc, day or twilight."""
    a, b, c, _ = SKIES[condition]
    if elevation >= 0.0:
        return a + b * float(sin(radians(elevation)) ** c)
    return _twilight(elevation) * a / SKIES["clear"].a


def _twilight(elevation: float) -> float:
    for (high, more), (low, less) in itertools.pairwise(_TWILIGHT):
        if elevation >= low:
            part = (elevation - low) / (high - low)
            return exp(log(less) + part * (log(more) - log(less)))
    return _TWILIGHT[-1][1]


def direct(elevation: float, condition: str = "clear") -> float:
    """Lux on a surface square to the sun: E0 exp(-extinction / sin h); 0 under an overcast sky or with the sun down."""
    extinction = SKIES[condition].extinction
    rise = sin(radians(elevation))
    return 0.0 if extinction is None or rise < 1e-4 else OUTSIDE_THE_AIR * exp(-extinction / rise)


def outdoors(elevation: float, condition: str = "clear") -> float:
    """Lux on open level ground from sky and sun."""
    return sky(elevation, condition) + direct(elevation, condition) * max(0.0, sin(radians(elevation)))


#: Share of the light that ground gives back: grass, earth, old paving; common practice, no source.
GROUND = 0.2


#: Light of the CIE clear sky (Kittler 1967) on an upright surface over that on level ground, summed over its patches:
#: by the sun's height, at 0, 45, 90, 135 and 180 degrees between what the surface faces and the sun.
_CLEAR = (
    (2.0, (1.534, 1.238, 0.691, 0.554, 0.566)),
    (10.0, (1.541, 1.233, 0.655, 0.501, 0.505)),
    (20.0, (1.414, 1.133, 0.605, 0.446, 0.443)),
    (30.0, (1.234, 1.000, 0.559, 0.407, 0.397)),
    (45.0, (0.967, 0.807, 0.505, 0.375, 0.356)),
    (60.0, (0.742, 0.649, 0.469, 0.369, 0.346)),
    (75.0, (0.565, 0.527, 0.448, 0.389, 0.371)),
    (90.0, (0.441, 0.441, 0.441, 0.441, 0.441)),
)
#: The same of the CIE overcast sky, from every side: (2/3)(pi/4 + 2/3) / (7 pi/9).
_OVERCAST = 0.396


def upright_sky(elevation: float, bearing: float, condition: str = "clear") -> float:
    """Lux of the sky without the sun's disc on an upright surface, `bearing` degrees between what it faces and the
    sun: that on level ground, shared out as the CIE clear and overcast skies do; partly cloudy half of each
    (an assumption), twilight evenly.
    """
    level = sky(elevation, condition)
    if elevation <= 0.0:
        return 0.5 * level
    clear = _clear_share(elevation, bearing)
    share = {"clear": clear, "overcast": _OVERCAST}.get(condition, (clear + _OVERCAST) / 2.0)
    return level * (share if elevation >= 2.0 else 0.5 + (share - 0.5) * elevation / 2.0)


def _clear_share(elevation: float, bearing: float) -> float:
    """Between the rows and columns of the table."""
    turn = abs((bearing + 180.0) % 360.0 - 180.0) / 45.0
    column = min(int(turn), 3)
    height = min(max(elevation, _CLEAR[0][0]), 90.0)
    rows = [(h, r[column] + (r[column + 1] - r[column]) * (turn - column)) for h, r in _CLEAR]
    for (low, less), (high, more) in itertools.pairwise(rows):
        if height <= high:
            return less + (more - less) * (height - low) / (high - low)
    return rows[-1][1]


def upright(
    elevation: float, bearing: float, condition: str = "clear", *, sun: bool = True, ground: float = GROUND
) -> float:
    """Lux on an upright surface from sun (unless it is hidden), sky and the ground before it, which gives back a
    share of what falls on it.
    """
    disc = direct(elevation, condition) if sun else 0.0
    height = radians(elevation)
    level = sky(elevation, condition) + disc * max(0.0, sin(height))
    struck = disc * max(0.0, cos(height) * cos(radians(bearing)))
    return struck + upright_sky(elevation, bearing, condition) + 0.5 * ground * level


def turned_to_sun(elevation: float, condition: str = "clear", ground: float = GROUND) -> float:
    """Lux on a surface square to the sun: its disc, the sky before it, and the ground.

    Of the sky the greatest of what an even sky gives to a surface of that slope, what the sky gives to an upright one,
    and the sky's light vector along the way to the sun: none of them is more than there is.
    """
    height = radians(elevation)
    rise, flat, disc = max(0.0, sin(height)), cos(height), direct(elevation, condition)
    level, towards = sky(elevation, condition), upright_sky(elevation, 0.0, condition)
    vector = (towards - upright_sky(elevation, 180.0, condition)) * flat + level * rise
    above = max(level * (1.0 + rise) / 2.0, towards * flat, vector)
    return disc + above + ground * (level + disc * rise) * (1.0 - rise) / 2.0


def through_window(
    outdoor_sky: float, window: Sequence[Point3], at: Point3, facing: Point3, transmittances: Sequence[float] = ()
) -> float:
    """Lux a window of open sky throws on a surface at a point that faces a direction (unit vector).

    The sky is taken as evenly bright, so the window is a diffuse source of the outdoor lux times its layers; a low sky
    half hidden by houses gives less. An estimate, a stop to either side; no light by way of walls.
    """
    return outdoor_sky * polygon_factor(window, at, facing) * through(transmittances)


def stops_needed(lux: float, key: float, stops_under: float) -> float:
    """Stops a window must lose for its light to sit so many stops under the key; 0 when it does already."""
    return max(0.0, log2(lux / key) + stops_under)


def dark_enough(key_window: float, key: float, stops_under: float) -> bool:
    """Whether light sits at least so many stops under the key."""
    return stops_needed(key_window, key, stops_under) <= 1e-9
