"""Light and daylight: what must hold whatever the numbers."""

from __future__ import annotations

from math import cos, pi, radians, sin

import pytest
from hotset.science import colour, daylight, exposure, light
from hypothesis import given
from hypothesis import strategies as st

LUX = st.floats(1, 1e5)
DISTANCE = st.floats(0.2, 20)
KELVIN = st.floats(1800, 12000)


@given(LUX, DISTANCE)
def test_twice_the_distance_a_quarter_of_the_light(lux: float, distance: float) -> None:
    near, far = light.at_distance(lux, 1.0, distance), light.at_distance(lux, 1.0, 2 * distance)
    assert far == pytest.approx(near / 4)
    assert light.candela(near, distance) == pytest.approx(light.candela(far, 2 * distance))


@given(LUX, DISTANCE, st.floats(0.05, 1.0))
def test_a_soft_source_falls_off_more_slowly_than_a_point(lux: float, distance: float, radius: float) -> None:
    soft = light.disc_at_distance(lux, distance, 2 * distance, radius)
    assert light.at_distance(lux, distance, 2 * distance) < soft < lux


@given(st.floats(0.1, 3), st.floats(0.1, 3), DISTANCE)
def test_a_square_and_its_disc_agree_from_afar(width: float, height: float, distance: float) -> None:
    far = 20 * max(width, height, distance)
    disc = light.disc_factor(light.equal_disc(width, height), far)
    assert light.rectangle_factor(width, height, far) == pytest.approx(disc, rel=0.01)


def test_a_board_all_round_gives_all_its_light() -> None:
    assert light.rectangle_factor(1000, 1000, 0.1) == pytest.approx(1.0, abs=1e-3)
    corners = [(-500.0, -500.0, 0.1), (500.0, -500.0, 0.1), (500.0, 500.0, 0.1), (-500.0, 500.0, 0.1)]
    assert light.polygon_factor(corners, (0, 0, 0), (0, 0, 1)) == pytest.approx(1.0, abs=1e-3)
    assert light.polygon_factor(corners, (0, 0, 0), (0, 0, -1)) == 0.0


@given(st.floats(0, 80), DISTANCE)
def test_a_small_polygon_follows_the_cosine(angle: float, distance: float) -> None:
    """A square of area A square to the ray at d, the receiver turned by an angle: F = A cos / (pi d^2)."""
    side = distance / 200
    facing = (sin(radians(angle)), cos(radians(angle)), 0.0)
    corners = [(-side, distance, -side), (side, distance, -side), (side, distance, side), (-side, distance, side)]
    expected = 4 * side * side * cos(radians(angle)) / (pi * distance**2)
    assert light.polygon_factor(corners, (0, 0, 0), facing) == pytest.approx(expected, rel=0.01)


def test_half_of_a_polygon_behind_the_surface_is_cut_off() -> None:
    corners = [(-1.0, 1.0, -1.0), (1.0, 1.0, -1.0), (1.0, 1.0, 1.0), (-1.0, 1.0, 1.0)]
    upper = [(-1.0, 1.0, 0.0), (1.0, 1.0, 0.0), (1.0, 1.0, 1.0), (-1.0, 1.0, 1.0)]
    whole = light.polygon_factor(corners, (0, 0, 0), (0, 0, 1))
    assert whole == pytest.approx(light.polygon_factor(upper, (0, 0, 0), (0, 0, 1)))


@given(st.floats(5, 110), st.floats(1.1, 2.5))
def test_beam_and_field(beam: float, wider: float) -> None:
    field = beam * wider
    assert light.fall_off(0, beam, field) == 1.0
    assert light.fall_off(beam / 2, beam, field) == pytest.approx(0.5)
    assert light.fall_off(field / 2, beam, field) == pytest.approx(0.1)
    assert light.fall_off(beam / 2, beam) == pytest.approx(0.5)


def test_the_beam_at_its_ends() -> None:
    assert light.fall_off(90, 60) == 0.0
    assert light.fall_off(10, 60, 60) == light.fall_off(10, 60)
    assert light.fall_off(45, 180) == 1.0
    assert light.fall_off(-20, 40, 60) == light.fall_off(20, 40, 60)


@given(st.lists(st.floats(0.1, 1.0), max_size=4))
def test_layers_add_in_stops(parts: list[float]) -> None:
    stops = sum(exposure.loss_stops(part) for part in parts)
    assert light.through(parts) == pytest.approx(exposure.transmittance(stops))


@given(LUX, st.floats(1, 22), st.floats(1 / 1000, 1 / 24), st.floats(50, 12800))
def test_the_stop_and_its_light_are_opposites(lux: float, stop: float, time: float, iso: float) -> None:
    assert exposure.illuminance_for(exposure.stop_for(lux, time, iso), time, iso) == pytest.approx(lux)
    assert exposure.stop_for(4 * lux, time, iso) == pytest.approx(2 * exposure.stop_for(lux, time, iso))
    assert exposure.stops_over(exposure.illuminance_for(2 * stop, time, iso), lux) == pytest.approx(
        2 + exposure.stops_over(exposure.illuminance_for(stop, time, iso), lux)
    )


def test_thirds() -> None:
    assert exposure.in_thirds(1.4) == pytest.approx(4 / 3)
    assert exposure.in_thirds(-0.1) == 0


def test_when_a_source_is_a_point() -> None:
    assert light.small_enough(0.6, 3.0)
    assert not light.small_enough(0.6, 2.9)


@given(st.floats(-25, 89), st.floats(0.01, 10), st.sampled_from(list(daylight.SKIES)))
def test_a_higher_sun_never_gives_less_light(height: float, more: float, condition: str) -> None:
    higher = min(90.0, height + more)
    assert daylight.sky(height, condition) <= daylight.sky(higher, condition) + 1e-9
    assert daylight.outdoors(height, condition) <= daylight.outdoors(higher, condition) + 1e-9


def test_noon_and_overcast() -> None:
    assert 90_000 < daylight.outdoors(60.0) < 130_000
    assert 15_000 < daylight.outdoors(60.0, "overcast") < 25_000
    assert daylight.direct(40.0, "overcast") == 0
    assert daylight.direct(-1.0) == 0
    assert daylight.sky(0.0) == 800.0


WINDOW = [(1.0, 0.0, 0.9), (2.3, 0.0, 0.9), (2.3, 0.0, 2.1), (1.0, 0.0, 2.1)]


def test_a_window_lights_less_with_distance_and_layers() -> None:
    near = daylight.through_window(10_000, WINDOW, (1.6, 1.0, 1.2), (0.0, -1.0, 0.0))
    far = daylight.through_window(10_000, WINDOW, (1.6, 3.0, 1.2), (0.0, -1.0, 0.0))
    assert near > 3 * far > 0
    layered = daylight.through_window(10_000, WINDOW, (1.6, 1.0, 1.2), (0.0, -1.0, 0.0), [0.5, 0.5])
    assert layered == pytest.approx(near / 4)
    assert daylight.through_window(10_000, WINDOW, (1.6, 1.0, 1.2), (0.0, 1.0, 0.0)) == 0


def test_what_a_window_must_lose() -> None:
    assert daylight.stops_needed(400, 100, 2) == pytest.approx(4)
    assert daylight.stops_needed(10, 100, 2) == 0
    assert daylight.dark_enough(25, 100, 2)
    assert not daylight.dark_enough(26, 100, 2)


@given(KELVIN, st.floats(-150, 70))
def test_a_filter_and_back(kelvin: float, shift: float) -> None:
    if colour.mired(kelvin) + shift > 10:
        assert colour.shifted(colour.shifted(kelvin, shift), -shift) == pytest.approx(kelvin)
    assert colour.kelvin(colour.mired(kelvin)) == pytest.approx(kelvin)


@given(KELVIN)
def test_a_source_at_its_balance_is_white(kelvin: float) -> None:
    assert colour.swatch(kelvin, kelvin) == "#ffffff"


@pytest.mark.parametrize(
    ("source", "balance", "said"),
    [
        (4000, 4000, "neutral"),
        (10000, 4000, "strong blue"),
        (2700, 4000, "strong orange"),
        (3200, 4000, "warm"),
        (5000, 4000, "slightly cool"),
        (3600, 4000, "slightly warm"),
        (5600, 4000, "cool"),
    ],
)
def test_words(source: float, balance: float, said: str) -> None:
    assert colour.words(colour.difference(source, balance)) == said


GELS = [colour.Gel("full blue", -135, 1.5), colour.Gel("half blue", -75, 1.0), colour.Gel("full orange", 160, 0.7)]


def test_the_gel_that_would_do() -> None:
    chosen, missing = colour.gels_for(3200, 5600, GELS)
    assert [gel.name for gel in chosen] == ["full blue"]
    assert abs(missing) < 2
    assert colour.gels_for(3200, 3250, GELS)[0] == ()
    assert [gel.name for gel in colour.gels_for(2700, 5600, GELS)[0]] == ["full blue", "half blue"]
    none, all_of_it = colour.gels_for(3200, 5600, [])
    assert none == ()
    assert all_of_it == pytest.approx(-133.9, abs=0.1)
