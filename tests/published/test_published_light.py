"""Light and exposure against the meter equation, closed forms and published values."""

from __future__ import annotations

from math import log2, pi

import pytest
from hotset.science import daylight, exposure, light

#: ISO 2720 incident equation as quoted in colour-hdri 0.2.6: stop, seconds, ISO, C, lux (run there for C 250 and 340).
EXPOSURES = [
    (2.8, 1 / 50, 100, 250, 980.0),
    (2.8, 1 / 50, 100, 340, 1332.8),
    (4.0, 1 / 48, 800, 250, 240.0),
    (4.0, 1 / 48, 800, 320, 307.2),
    (4.0, 1 / 48, 800, 340, 326.4),
    (1.4, 1 / 48, 800, 250, 29.4),
    (1.4, 1 / 48, 800, 340, 39.984),
    (2.0, 1 / 50, 1600, 250, 31.25),
    (2.0, 1 / 50, 1600, 340, 42.5),
    (5.6, 1 / 50, 800, 250, 490.0),
    (5.6, 1 / 50, 800, 340, 666.4),
    (2.8, 1 / 48, 400, 250, 235.2),
    (2.8, 1 / 48, 400, 340, 319.872),
]

#: Glossary of the American Meteorological Society: sun's height, least and most lux of a clear evening.
TWILIGHT = [(-0.8333, 410.0, 585.0), (-6.0, 2.0, 3.5), (-12.0, 0.007, 0.009), (-18.0, 5e-4, 7e-4)]


@pytest.mark.parametrize(("stop", "time", "iso", "constant", "lux"), EXPOSURES)
def test_incident_equation(stop: float, time: float, iso: float, constant: float, lux: float) -> None:
    assert exposure.illuminance_for(stop, time, iso, constant) == pytest.approx(lux, rel=0.0005)
    assert exposure.stop_for(lux, time, iso, constant) == pytest.approx(stop, rel=0.0005)


@pytest.mark.parametrize(("lux", "value"), [(2.5, 0.0), (1000, 8.6439), (10000, 11.9658), (81920, 15.0)])
def test_exposure_values(lux: float, value: float) -> None:
    assert exposure.exposure_value(lux) == pytest.approx(value, abs=0.001)
    assert exposure.lux_of(value) == pytest.approx(lux, rel=0.001)


@pytest.mark.parametrize(("constant", "stops"), [(320, 0.356), (340, 0.444)])
def test_receptors(constant: float, stops: float) -> None:
    assert log2(constant / exposure.C) == pytest.approx(stops, abs=0.001)


def test_the_foot_candle() -> None:
    assert pytest.approx(1 / 0.3048**2, abs=1e-6) == exposure.FOOT_CANDLE
    assert exposure.illuminance_for(2.8, 1 / 50, 100) / exposure.FOOT_CANDLE == pytest.approx(91.04, abs=0.1)


@pytest.mark.parametrize(
    ("density", "stops"), [(0.3, 0.9966), (0.6, 1.993), (0.9, 2.9897), (1.2, 3.9863), (1.8, 5.9795)]
)
def test_neutral_density(density: float, stops: float) -> None:
    assert exposure.density_stops(density) == pytest.approx(stops, abs=0.001)
    assert exposure.density_for(stops) == pytest.approx(density, abs=0.001)


@pytest.mark.parametrize(
    ("part", "stops"), [(0.9, 0.152), (0.7, 0.5146), (0.5, 1.0), (0.4, 1.3219), (0.25, 2.0), (0.18, 2.4739)]
)
def test_losses(part: float, stops: float) -> None:
    assert exposure.loss_stops(part) == pytest.approx(stops, abs=0.001)
    assert exposure.transmittance(stops) == pytest.approx(part, abs=0.001)


@pytest.mark.parametrize(("distance", "lux"), [(1, 1000), (2, 250), (3, 111.11), (4, 62.5), (5, 40)])
def test_inverse_square(distance: float, lux: float) -> None:
    assert light.at_distance(1000, 1, distance) == pytest.approx(lux, abs=0.01)


@pytest.mark.parametrize(("angle", "stops"), [(30, -0.2075), (45, -0.5), (60, -1.0)])
def test_cosine(angle: float, stops: float) -> None:
    assert light.cosine_stops(angle) == pytest.approx(stops, abs=0.001)


@pytest.mark.parametrize(
    ("lumens", "beam", "distance", "lux"),
    [(1000, 60, 1, 1187.949), (1000, 60, 3, 131.994), (5000, 120, 2, 397.887), (1000, 90, 2, 135.847)],
)
def test_uniform_cone(lumens: float, beam: float, distance: float, lux: float) -> None:
    assert light.cone_candela(lumens, beam) / distance**2 == pytest.approx(lux, abs=0.1)


@pytest.mark.parametrize(
    ("lumens", "beam", "distance", "lux"),
    [(1000, 60, 3, 102.9), (10000, 15, 5, 5199.534), (1000, 90, 2, 119.366), (1000, 60, 1, 926.1)],
)
def test_beam_by_its_half_peak(lumens: float, beam: float, distance: float, lux: float) -> None:
    assert light.beam_candela(lumens, beam) / distance**2 == pytest.approx(lux, abs=0.1)


def test_a_beam_of_120_degrees_is_lambertian() -> None:
    assert light.beam_candela(1000, 120) == pytest.approx(1000 / pi)


@pytest.mark.parametrize(("width", "height", "distance", "factor"), [(1.2, 1.2, 2, 0.102372), (2, 1, 1.5, 0.209071)])
def test_view_factor_of_a_rectangle(width: float, height: float, distance: float, factor: float) -> None:
    """Closed form of the parallel rectangle, checked by numeric integration."""
    assert light.rectangle_factor(width, height, distance) == pytest.approx(factor, abs=1e-6)
    w, h = width / 2, height / 2
    corners = [(-w, distance, -h), (w, distance, -h), (w, distance, h), (-w, distance, h)]
    assert light.polygon_factor(corners, (0, 0, 0), (0, 1, 0)) == pytest.approx(factor, abs=1e-6)


@pytest.mark.parametrize(("radius", "distance", "factor"), [(0.5, 1, 0.2), (0.5, 2, 0.058824)])
def test_view_factor_of_a_disc(radius: float, distance: float, factor: float) -> None:
    assert light.disc_factor(radius, distance) == pytest.approx(factor, abs=1e-6)


@pytest.mark.parametrize(("times", "too_high"), [(4, 0.0625), (10, 0.01)])
def test_how_far_a_disc_is_a_point(times: float, too_high: float) -> None:
    """At four radii the inverse square law reads 6.25 % too high, at ten 1 %."""
    point = (1 / times) ** 2
    assert point / light.disc_factor(1, times) - 1 == pytest.approx(too_high)


def test_a_bounce_board() -> None:
    """2000 lx on a board of 1.2 x 1.2 m, reflectance 0.85, 2 m away: 174 lx, 3.52 stops less."""
    lux = light.bounced(2000, 0.85, light.rectangle_factor(1.2, 1.2, 2))
    assert lux == pytest.approx(174.032, abs=0.1)
    assert log2(lux / 2000) == pytest.approx(-3.52, abs=0.01)


@pytest.mark.parametrize(("height", "least", "most"), TWILIGHT)
def test_twilight(height: float, least: float, most: float) -> None:
    assert least <= daylight.sky(height) <= most


@pytest.mark.parametrize(("ratio", "stops"), [(2, 1), (4, 2), (8, 3)])
def test_key_to_fill(ratio: float, stops: float) -> None:
    assert light.ratio_stops(ratio * 100, 100) == pytest.approx(stops)
