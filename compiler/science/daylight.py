"""Light of the sky by the height of the sun, and what a window lets in.

Lux on open level ground. By day: Recommended Practice for the Calculation of Daylight Availability (IES, 1984), mean
values that a given moment may double or halve; constants from memory. In twilight: values of the American
Meteorological Society's Glossary (clear evening: 410 to 585 lx at sunset, 2 to 3.5 lx at -6 deg, 0.008 lx at -12,
0.0006 at -18), joined evenly in stops. Clouds in twilight are taken to keep the part they keep at the horizon (an
assumption).
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from math import exp, log, log2, radians, sin
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
