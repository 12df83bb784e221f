"""Flicker and flashing light against exact fractions, stored tables and the accessibility standard."""

from __future__ import annotations

import pytest
from hotset.science import care, flicker

#: Shutter times that hold whole light pulses: mains Hz, frames a second, pulses, seconds, degrees, frame rate locked to
#: the mains. Exact fractions; 172.8 and 144 at 24 fps and 75, 150, 225, 300 at 25 fps stand in three stored pages too.
CLEAN = """
50 23.976 1 0.010000 86.314 no
50 23.976 3 0.030000 258.941 no
50 23.976 4 0.040000 345.255 no
50 24 2 0.020000 172.800 no
50 24 3 0.030000 259.200 no
50 25 1 0.010000 90.000 yes
50 25 2 0.020000 180.000 yes
50 25 4 0.040000 360.000 yes
50 29.97 1 0.010000 107.892 no
50 29.97 3 0.030000 323.676 no
50 30 1 0.010000 108.000 no
50 30 3 0.030000 324.000 no
50 48 1 0.010000 172.800 no
50 50 1 0.010000 180.000 yes
50 50 2 0.020000 360.000 yes
50 60 1 0.010000 216.000 no
50 100 1 0.010000 360.000 yes
60 23.976 2 0.016667 143.856 no
60 23.976 3 0.025000 215.784 no
60 23.976 5 0.041667 359.640 no
60 24 1 0.008333 72.000 yes
60 24 3 0.025000 216.000 yes
60 24 4 0.033333 288.000 yes
60 25 1 0.008333 75.000 no
60 25 2 0.016667 150.000 no
60 25 4 0.033333 300.000 no
60 29.97 1 0.008333 89.910 no
60 29.97 3 0.025000 269.730 no
60 29.97 4 0.033333 359.640 no
60 30 2 0.016667 180.000 yes
60 30 3 0.025000 270.000 yes
60 48 1 0.008333 144.000 no
60 48 2 0.016667 288.000 no
60 50 2 0.016667 300.000 no
60 59.94 1 0.008333 179.820 no
60 60 1 0.008333 180.000 yes
60 60 2 0.016667 360.000 yes
60 120 1 0.008333 360.000 yes
"""

#: Ripple left of a sine-modulated lamp, part of the mean: pulse rate Hz, shutter s, variation. Closed form.
RIPPLES = [(100, 1 / 48, 0.0395), (120, 1 / 50, 0.126), (100, 1 / 60, 0.165), (25000, 1 / 48, 0.0003)]


def rows(table: str) -> list[list[str]]:
    return [line.split() for line in table.strip().splitlines()]


def rate(text: str) -> float:
    return {"23.976": 24000 / 1001, "29.97": 30000 / 1001, "59.94": 60000 / 1001}.get(text, float(text))


@pytest.mark.parametrize("row", rows(CLEAN), ids=" ".join)
def test_clean_shutters(row: list[str]) -> None:
    mains, fps, pulses = float(row[0]), rate(row[1]), int(row[2])
    found = next(s for s in flicker.clean_shutters(fps, mains) if s.pulses == pulses)
    assert found.time == pytest.approx(float(row[3]), abs=1e-6)
    assert found.angle == pytest.approx(float(row[4]), abs=flicker.TOLERANCE)
    assert flicker.locked(fps, mains) is (row[5] == "yes")
    assert flicker.is_clean(found.time, fps, mains)


@pytest.mark.parametrize(
    ("fps", "mains", "angles"),
    [
        (24, 50, [86.4, 172.8, 259.2, 345.6]),
        (24, 60, [72, 144, 216, 288, 360]),
        (25, 50, [90, 180, 270, 360]),
        (25, 60, [75, 150, 225, 300]),
        (30, 50, [108, 216, 324]),
        (48, 50, [172.8, 345.6]),
        (50, 60, [150, 300]),
        (100, 50, [360]),
        (120, 50, []),
    ],
)
def test_every_clean_angle(fps: float, mains: float, angles: list[float]) -> None:
    assert [s.angle for s in flicker.clean_shutters(fps, mains)] == pytest.approx(angles, abs=0.05)


@pytest.mark.parametrize(("pulse_rate", "time", "variation"), RIPPLES)
def test_ripple(pulse_rate: float, time: float, variation: float) -> None:
    assert flicker.ripple(time, pulse_rate) == pytest.approx(variation, rel=0.01, abs=5e-5)


def test_narrow_pulses_under_one_per_cent() -> None:
    """Bound 2 / (pi f t): 3.2 kHz at 1/50 s, derived, no published source."""
    assert flicker.pulse_rate_for(1 / 50) == pytest.approx(3200, rel=0.01)
    assert flicker.narrow_pulse_bound(1 / 50, 3200) == pytest.approx(0.01, rel=0.01)


@pytest.mark.parametrize(("rate", "too_many"), [(2.9, False), (3.0, False), (3.1, True), (4.0, True)])
def test_flash_limit(rate: float, too_many: bool) -> None:
    """WCAG 2.x, success criterion 2.3.1: no more than three flashes in any one second."""
    assert flicker.too_many_flashes(rate) is too_many


@pytest.mark.parametrize(("flashes", "most"), [(3, 3), (4, 4)])
def test_flashes_in_any_one_second(flashes: int, most: int) -> None:
    times = [0.3 * i for i in range(flashes)]
    assert flicker.most_in_a_second(times) == most
    assert flicker.too_many_flashes(flicker.most_in_a_second(times)) is (flashes > 3)


@pytest.mark.parametrize(
    ("who", "zone", "close", "far"),
    [
        ("men", "head", 10, 5),
        ("men", "shoulder", 20, 10),
        ("men", "elbow", 25, 15),
        ("men", "knuckle", 20, 10),
        ("men", "lower leg", 10, 5),
        ("women", "head", 7, 3),
        ("women", "shoulder", 13, 7),
        ("women", "elbow", 16, 10),
        ("women", "knuckle", 13, 7),
        ("women", "lower leg", 7, 3),
    ],
)
def test_lifting_filter(who: str, zone: str, close: float, far: float) -> None:
    """HSE L23 and INDG143, as printed on two stored pages (read second hand)."""
    assert care.lifting_filter(who, (zone,)) == close
    assert care.lifting_filter(who, (zone,), arms_length=True) == far


@pytest.mark.parametrize(("kilograms", "within"), [(24.9, True), (25.0, True), (25.1, False)])
def test_lifting_at_the_edge(kilograms: float, within: bool) -> None:
    assert care.lift(kilograms, "men", ("elbow",)).within is within


@pytest.mark.parametrize(("twist", "left"), [(0, 1.0), (45, 1.0), (46, 0.9), (90, 0.9), (91, 0.8)])
def test_twisting(twist: float, left: float) -> None:
    """HSE: past 45 degrees 10 % less, past 90 degrees 20 % less."""
    assert care.twist_factor(twist) == left


@pytest.mark.parametrize(("a_minute", "left"), [(0.5, 1.0), (1, 0.7), (2, 0.7), (5, 0.5), (8, 0.5), (13, 0.2)])
def test_lifting_often(a_minute: float, left: float) -> None:
    """HSE: 1 to 2 a minute 30 % less, 5 to 8 50 % less, above 12 80 % less."""
    assert care.frequency_factor(a_minute) == left


@pytest.mark.parametrize(("rest", "short"), [(10 + 59 / 60, 1 / 60), (11.0, 0.0), (11.5, 0.0)])
def test_daily_rest(rest: float, short: float) -> None:
    """Directive 2003/88/EC, article 3: eleven hours."""
    assert care.rest_short_by(rest) == pytest.approx(short)


@pytest.mark.parametrize(("hours", "due"), [(6.0, False), (6.1, True)])
def test_break(hours: float, due: bool) -> None:
    """Directive 2003/88/EC, article 4: a break where the day is longer than six hours."""
    assert care.break_due(hours) is due


def test_working_time_of_the_directive() -> None:
    """Directive 2003/88/EC, articles 5, 6 and 8."""
    assert (care.WEEKLY_REST, care.WEEK, care.NIGHT_WORK) == (24.0, 48.0, 8.0)


def test_ladder() -> None:
    """HSE INDG402 and guidance pages: 75 degrees, one out for four up, thirty minutes."""
    assert (care.LADDER_ANGLE, care.LADDER_MINUTES) == (75.0, 30.0)
    assert care.ladder_foot(4.0) == 1.0
