"""Daylight outdoors against published tables and models that were not used to make it."""

from __future__ import annotations

from math import acos, cos, exp, pi, radians, sin, sqrt

import pytest
from hotset.science import daylight, exposure

#: Exposure values at ISO 100 of ANSI PH2.7-1986, as quoted by encyclopaedias: front-lit subject or open shade, sun more
#: than two hours from rise and set. They are for a reflected reading of a typical scene; half a stop is the step.
SUNNY = [(30, 15.0), (45, 15.0), (60, 15.0)]
OPEN_SHADE = [(30, 12.0), (45, 12.0), (60, 12.0)]
OVERCAST = [(45, 12.0), (60, 12.0)]
HAZY = [(30, 14.0)]

#: Half of the sky on level ground, the sun square to its edge: klx at the sine of the sun's height, as a second
#: publication of IES 1984 prints its constants (clear 8.2 sqrt(sin), partly cloudy 22.7 sin, overcast 10.7 sin).
HALF_SKIES = {"clear": (8.2, 0.5), "partly-cloudy": (22.7, 1.0), "overcast": (10.7, 1.0)}

#: Clear-sky global irradiance of the Ineichen model (Linke turbidity 3, sea level), W/m2, run in pvlib 0.16.1.
IRRADIANCE = [(10, 107.5), (20, 289.1), (30, 469.6), (45, 710.5), (60, 896.8)]
EFFICACY = 110.0  # lm/W of global daylight under a clear sky; handbooks give 95 to 120


@pytest.mark.parametrize(("height", "value"), SUNNY)
def test_a_sunny_day(height: float, value: float) -> None:
    assert exposure.exposure_value(daylight.turned_to_sun(height)) == pytest.approx(value, abs=0.6)


@pytest.mark.parametrize(("height", "value"), OPEN_SHADE)
def test_open_shade_under_a_clear_sky(height: float, value: float) -> None:
    assert exposure.exposure_value(daylight.upright(height, 180.0)) == pytest.approx(value, abs=0.6)


@pytest.mark.parametrize(("height", "value"), OVERCAST)
def test_a_heavily_overcast_day(height: float, value: float) -> None:
    assert exposure.exposure_value(daylight.upright(height, 90.0, "overcast")) == pytest.approx(value, abs=0.5)


@pytest.mark.parametrize(("height", "value"), HAZY)
def test_a_hazy_sun(height: float, value: float) -> None:
    assert exposure.exposure_value(daylight.turned_to_sun(height, "partly-cloudy")) == pytest.approx(value, abs=0.5)


def test_shade_lies_three_stops_under_the_sun() -> None:
    """15 less 12 in the same tables."""
    for height in (30.0, 45.0, 60.0):
        stops = exposure.stops_over(daylight.turned_to_sun(height), daylight.upright(height, 180.0))
        assert stops == pytest.approx(3.0, abs=0.75)


@pytest.mark.parametrize("condition", list(HALF_SKIES))
@pytest.mark.parametrize("height", [15.0, 30.0, 50.0, 70.0])
def test_twice_the_half_sky_is_the_sky(condition: str, height: float) -> None:
    klx, power = HALF_SKIES[condition]
    assert daylight.sky(height, condition) == pytest.approx(2000.0 * klx * sin(radians(height)) ** power, rel=0.1)


@pytest.mark.parametrize(("height", "watts"), IRRADIANCE)
def test_a_clear_day_against_irradiance(height: float, watts: float) -> None:
    assert daylight.outdoors(height) == pytest.approx(watts * EFFICACY, rel=0.2)


def cie_overcast(height: float, _angle: float, _sun: float) -> float:
    """Luminance over the zenith's: Moon and Spencer's sky, the CIE overcast sky."""
    return (1.0 + 2.0 * sin(height)) / 3.0


def cie_clear(height: float, angle: float, _sun: float) -> float:
    """Luminance of the CIE clear sky (Kittler 1967), any scale; `angle` between the sun and the patch, radians."""
    return (0.91 + 10.0 * exp(-3.0 * angle) + 0.45 * cos(angle) ** 2) * (1.0 - exp(-0.32 / sin(height)))


def ratio(sky: str, sun: float, bearing: float, tilt: float = 90.0) -> float:
    """Light on a surface tilted out of the level over that on level ground, by summing a sky's patches of 2 degrees;
    `bearing` between what it faces and the sun."""
    luminance = cie_overcast if sky == "overcast" else cie_clear
    level = standing = 0.0
    up, out = cos(radians(tilt)), sin(radians(tilt))
    for i in range(45):
        height = radians(2 * i + 1)
        for j in range(180):
            turn = radians(2 * j + 1)
            cosine = sin(height) * sin(radians(sun)) + cos(height) * cos(radians(sun)) * cos(turn)
            part = luminance(height, acos(max(-1.0, min(1.0, cosine))), sun) * cos(height)
            level += part * sin(height)
            standing += part * max(0.0, out * cos(height) * cos(turn - radians(bearing)) + up * sin(height))
    return standing / level


@pytest.mark.parametrize("height", [5.0, 15.0, 30.0, 45.0, 60.0, 80.0])
@pytest.mark.parametrize("condition", ["clear", "overcast"])
def test_the_sky_on_a_surface_square_to_the_sun(height: float, condition: str) -> None:
    """Less sun and ground, against the sum over the CIE skies: a third of a stop."""
    own = daylight.turned_to_sun(height, condition, 0.0) - daylight.direct(height, condition)
    share = own / daylight.sky(height, condition)
    assert exposure.stops_over(share, ratio(condition, height, 0.0, 90.0 - height)) == pytest.approx(0.0, abs=0.35)


def test_an_overcast_sky_on_a_wall() -> None:
    """The CIE overcast sky gives an upright surface 0.396 of what level ground gets: (2/3)(pi/4 + 2/3) / (7 pi/9)."""
    closed = (2.0 / 3.0) * (pi / 4.0 + 2.0 / 3.0) / (7.0 * pi / 9.0)
    assert closed == pytest.approx(0.396, abs=0.001)
    assert ratio("overcast", 45.0, 0.0) == pytest.approx(closed, abs=0.001)
    for height in (20.0, 45.0, 60.0):
        own = daylight.upright_sky(height, 0.0, "overcast") / daylight.sky(height, "overcast")
        assert own == pytest.approx(closed, rel=0.01)


@pytest.mark.parametrize("height", [12.0, 20.0, 40.0, 52.0, 60.0, 80.0])
@pytest.mark.parametrize("bearing", [0.0, 30.0, 90.0, 160.0, 180.0, 250.0])
def test_a_clear_sky_on_a_wall(height: float, bearing: float) -> None:
    """Against the sum over the CIE clear sky."""
    own = daylight.upright_sky(height, bearing) / daylight.sky(height)
    assert own == pytest.approx(ratio("clear", height, bearing), rel=0.1)


@pytest.mark.parametrize("height", [20.0, 40.0, 60.0])
@pytest.mark.parametrize("bearing", [0.0, 45.0, 90.0])
def test_a_wall_towards_the_sun_against_another_model(height: float, bearing: float) -> None:
    """The half sky before an upright surface of IES 1984, klx, as a stored program prints it. It holds towards the
    sun and beside it; with the sun at the back it gives a stop less than the CIE sky, which is taken.
    """
    a, turn = radians(height), cos(radians(bearing))
    klx = (4.0 * a**1.3 + 12.0 * sin(a) ** 0.3 * cos(a) ** 1.3) * (2.0 + turn) / (3.0 - turn)
    assert exposure.stops_over(daylight.upright_sky(height, bearing), 1000 * klx) == pytest.approx(0.0, abs=0.6)
    assert daylight.upright_sky(height, 0.0, "overcast") == pytest.approx(8500 * sin(a), rel=0.06)


def test_the_sun_above_the_air() -> None:
    """127.5 klx (IES 1984), less exp(-0.21) with the sun overhead: 103 klx; 5 % of it at 4 degrees."""
    assert daylight.direct(90.0) == pytest.approx(103_350, rel=0.001)
    assert daylight.direct(4.0) == pytest.approx(127_500 * exp(-0.21 / sin(radians(4.0))), rel=1e-6)
    assert sqrt(daylight.OUTSIDE_THE_AIR) == pytest.approx(357.07, abs=0.01)
