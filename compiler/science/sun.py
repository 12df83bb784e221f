"""Where the sun stands and when it crosses a height.

Instants are UTC seconds since 1970-01-01 (float), angles degrees, longitudes positive eastwards, bearings clockwise
from north. Formulas: J. Meeus, Astronomical Algorithms, 2nd ed., chapter 25 (apparent longitude of low accuracy) and
chapter 12 (sidereal time). Accuracy: within 0.005 degrees of NREL's Solar Position Algorithm (NREL/TP-560-34302) from
1990 to 2050, so that rise, set and twilights are within a few seconds up to 68 degrees of latitude.
"""

from __future__ import annotations

from functools import lru_cache
from math import asin, atan2, cos, degrees, floor, radians, sin, tan
from typing import NamedTuple

from .roots import sign_changes, spans

#: Heights of the sun's centre, degrees: Almanac for Computers 1990 (US Naval Observatory), zenith 90 deg 50', 96,
#: 102, 108.
RISE_SET = -0.8333
CIVIL = -6.0
NAUTICAL = -12.0
ASTRONOMICAL = -18.0

_J2000 = 946728000.0
_DAY = 86400.0
#: Terrestrial minus universal time, s: about 69 in the 2020s; a second more or less moves the sun by 0.00001 deg.
_DELTA_T = 69.2


class Position(NamedTuple):
    """Bearing of the sun (degrees clockwise from north) and height of its centre without refraction (degrees)."""

    azimuth: float
    elevation: float


class Day(NamedTuple):
    """The sun's day for one height: `rising` and `setting` in UTC seconds or None; `state` is normal, always-above or
    always-below.

    `state` speaks of the whole window of 24 h; a normal day may still lack one of the two crossings near the polar
    circles.
    """

    rising: float | None
    setting: float | None
    state: str


def days_since_1970(year: int, month: int, day: int) -> int:
    """Whole days from 1970-01-01 to a date of the Gregorian calendar (proleptic)."""
    y = year - (month <= 2)
    era = y // 400
    year_of_era = y - era * 400
    day_of_year = (153 * (month + (-3 if month > 2 else 9)) + 2) // 5 + day - 1
    return era * 146097 + year_of_era * 365 + year_of_era // 4 - year_of_era // 100 + day_of_year - 719468


def _equatorial(utc: float) -> tuple[float, float, float]:
    """Apparent right ascension, declination and Greenwich sidereal time, degrees."""
    days = (utc - _J2000) / _DAY
    t = (days + _DELTA_T / _DAY) / 36525.0
    mean_longitude = 280.46646 + t * (36000.76983 + 0.0003032 * t)
    anomaly = radians(357.52911 + t * (35999.05029 - 0.0001537 * t))
    centre = (
        (1.914602 - t * (0.004817 + 0.000014 * t)) * sin(anomaly)
        + (0.019993 - 0.000101 * t) * sin(2 * anomaly)
        + 0.000289 * sin(3 * anomaly)
    )
    # Pulls of Venus, Jupiter and the Moon (Meeus, Astronomical Formulae for Calculators, chapter 18), from the epoch
    # 1900.
    u = t + 1.0
    centre += (
        0.00134 * cos(radians(153.23 + 22518.7541 * u))
        + 0.00154 * cos(radians(216.57 + 45037.5082 * u))
        + 0.00200 * cos(radians(312.69 + 32964.3577 * u))
        + 0.00179 * sin(radians(350.74 + 445267.1142 * u - 0.00144 * u * u))
        + 0.00178 * sin(radians(231.19 + 20.20 * u))
    )
    node = radians(125.04 - 1934.136 * t)
    nutation = -0.00478 * sin(node)
    longitude = radians(mean_longitude + centre - 0.00569 + nutation)
    obliquity = radians(23.439291 - 0.0130042 * t + 0.00256 * cos(node))
    ascension = atan2(cos(obliquity) * sin(longitude), cos(longitude))
    declination = asin(sin(obliquity) * sin(longitude))
    sidereal = 280.46061837 + 360.98564736629 * days + nutation * cos(obliquity)
    return degrees(ascension), degrees(declination), sidereal % 360.0


@lru_cache(maxsize=8192)  # many rules look at the same minutes of the same days
def position(latitude: float, longitude: float, utc: float) -> Position:
    """Azimuth and geometric elevation of the sun's centre, seen from the ground (parallax 0.0024 deg included,
    refraction not).
    """
    ascension, declination, sidereal = _equatorial(utc)
    hour_angle = radians(sidereal + longitude - ascension)
    phi, delta = radians(latitude), radians(declination)
    sine = sin(phi) * sin(delta) + cos(phi) * cos(delta) * cos(hour_angle)
    elevation = asin(max(-1.0, min(1.0, sine)))
    azimuth = degrees(atan2(sin(hour_angle), cos(hour_angle) * sin(phi) - tan(delta) * cos(phi))) + 180.0
    return Position(azimuth % 360.0, degrees(elevation) - 0.00244 * cos(elevation))


def elevation(latitude: float, longitude: float, utc: float) -> float:
    """Geometric height of the sun's centre, degrees."""
    return position(latitude, longitude, utc).elevation


def refraction(height: float) -> float:
    """Degrees by which air lifts the sun at a geometric height; 1010 mbar, 10 C.

    Saemundsson (1986) as printed in Meeus, chapter 16; nothing below -0.8333 - 0.2 deg, as in NREL's algorithm.
    """
    if height < -1.03:
        return 0.0
    return 1.02 / 60.0 / tan(radians(height + 10.3 / (height + 5.11)))


def equation_of_time(utc: float) -> float:
    """Apparent minus mean solar time, minutes."""
    ascension, _, sidereal = _equatorial(utc)
    mean_sun = (sidereal - 360.0 * ((utc % _DAY) / _DAY) + 180.0) % 360.0
    difference = (mean_sun - ascension + 180.0) % 360.0 - 180.0
    return 4.0 * difference


def mean_noon(longitude: float, day: int, utc_offset: float = 0.0) -> float:
    """UTC seconds of the mean solar noon that belongs to a local date.

    `day` counts from 1970-01-01 (`days_since_1970`); `utc_offset` in hours tells the local date apart from its
    neighbours where
    the clock and the longitude disagree by half a day (east and west of the date line).
    """
    clock_noon = day * _DAY + _DAY / 2 - utc_offset * 3600.0
    solar_noon = day * _DAY + _DAY / 2 - longitude * 240.0
    return solar_noon - _DAY * floor((solar_noon - clock_noon) / _DAY + 0.5)


def transit(longitude: float, day: int, utc_offset: float = 0.0) -> float:
    """UTC seconds at which the sun stands over the meridian on a local date."""
    noon = mean_noon(longitude, day, utc_offset)
    for _ in range(2):
        noon = mean_noon(longitude, day, utc_offset) - 60.0 * equation_of_time(noon)
    return noon


def crossings(latitude: float, longitude: float, day: int, height: float, utc_offset: float = 0.0) -> Day:
    """First rising and last setting through a height within 12 h of the local date's mean solar noon."""
    noon = mean_noon(longitude, day, utc_offset)
    start, end = noon - _DAY / 2, noon + _DAY / 2

    def above(utc: float) -> float:
        return elevation(latitude, longitude, utc) - height

    changes = sign_changes(above, start, end)
    if not changes:
        return Day(None, None, "always-above" if above(noon) >= 0.0 else "always-below")
    rising = [time for time, up in changes if up]
    setting = [time for time, up in changes if not up]
    return Day(rising[0] if rising else None, setting[-1] if setting else None, "normal")


class Events(NamedTuple):
    """The sun's day at a place: UTC seconds, None where the sun does not cross that height.

    `state` is normal, polar_day or polar_night (of the disc's upper limb).
    """

    state: str
    transit: float
    sunrise: float | None
    sunset: float | None
    civil_dawn: float | None
    civil_dusk: float | None
    nautical_dawn: float | None
    nautical_dusk: float | None
    astronomical_dawn: float | None
    astronomical_dusk: float | None


def events(latitude: float, longitude: float, day: int, utc_offset: float = 0.0) -> Events:
    """Rise, set and twilights of a local date (`day` counts from 1970-01-01, offset in hours)."""
    rise, civil, nautical, astronomical = (
        crossings(latitude, longitude, day, height, utc_offset) for height in (RISE_SET, CIVIL, NAUTICAL, ASTRONOMICAL)
    )
    state = {"always-above": "polar_day", "always-below": "polar_night"}.get(rise.state, "normal")
    return Events(
        state,
        transit(longitude, day, utc_offset),
        rise.rising,
        rise.setting,
        civil.rising,
        civil.setting,
        nautical.rising,
        nautical.setting,
        astronomical.rising,
        astronomical.setting,
    )


def when_above(latitude: float, longitude: float, start: float, end: float, height: float) -> list[tuple[float, float]]:
    """Spans of [start, end] (UTC seconds) in which the sun's centre stands at or above a height."""
    return spans(lambda utc: elevation(latitude, longitude, utc) - height, start, end)


def when_below(latitude: float, longitude: float, start: float, end: float, height: float) -> list[tuple[float, float]]:
    """Spans of [start, end] (UTC seconds) in which the sun's centre stands at or below a height."""
    return spans(lambda utc: height - elevation(latitude, longitude, utc), start, end)


def when_between(
    latitude: float, longitude: float, start: float, end: float, low: float, high: float
) -> list[tuple[float, float]]:
    """Spans in which the sun's centre stands between two heights; golden light is usually put at -4 to +6 deg."""

    def inside(utc: float) -> float:
        height = elevation(latitude, longitude, utc)
        return min(height - low, high - height)

    return spans(inside, start, end)


def shadow_length(height: float, sun_elevation: float) -> float | None:
    """Length (m) of the shadow of something `height` m tall on level ground; None when the sun is not up."""
    return height / tan(radians(sun_elevation)) if sun_elevation > 0.0 else None
