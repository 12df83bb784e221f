"""The sun's behaviour: days, spans and the light through an opening."""

from __future__ import annotations

from datetime import date
from math import cos, radians, tan

import pytest
from hotset.science import geometry, roots, sun, sunlight
from hypothesis import given
from hypothesis import strategies as st

DAY = 86400.0
DATES = st.dates(date(1990, 1, 1), date(2050, 12, 31))
LATITUDES = st.floats(-70, 70)
LONGITUDES = st.floats(-180, 180)


@given(DATES)
def test_days_count_as_the_calendar_does(when: date) -> None:
    assert sun.days_since_1970(when.year, when.month, when.day) == when.toordinal() - date(1970, 1, 1).toordinal()


@given(LATITUDES, LONGITUDES, DATES)
def test_the_sun_stands_at_the_height_of_its_crossing(latitude: float, longitude: float, when: date) -> None:
    day = sun.days_since_1970(when.year, when.month, when.day)
    found = sun.crossings(latitude, longitude, day, sun.CIVIL, longitude / 15)
    for time in (found.rising, found.setting):
        if time is not None:
            assert sun.elevation(latitude, longitude, time) == pytest.approx(sun.CIVIL, abs=0.001)
            assert abs(time - sun.mean_noon(longitude, day, longitude / 15)) <= DAY / 2
    if found.state == "normal":
        assert found.rising is not None or found.setting is not None
    else:
        assert found.rising is None
        assert found.setting is None


@given(LATITUDES, LONGITUDES, DATES)
def test_above_and_below_share_the_day(latitude: float, longitude: float, when: date) -> None:
    start = sun.days_since_1970(when.year, when.month, when.day) * DAY
    above = sun.when_above(latitude, longitude, start, start + DAY, -6.0)
    below = sun.when_below(latitude, longitude, start, start + DAY, -6.0)
    total = sum(b - a for a, b in above) + sum(b - a for a, b in below)
    assert total == pytest.approx(DAY, abs=2.0)


def test_the_offset_picks_the_date_beyond_the_date_line() -> None:
    day = sun.days_since_1970(2026, 6, 1)
    here = sun.mean_noon(-172.0, day, 13.0)
    assert abs(here - (day * DAY + DAY / 2 - 13 * 3600)) < DAY / 2
    assert sun.mean_noon(-172.0, day, -11.0) == here + DAY


def test_golden_light_is_the_sun_between_two_heights() -> None:
    start = sun.days_since_1970(2026, 11, 14) * DAY
    morning, evening = sun.when_between(55.01, -1.44, start, start + DAY, -4.0, 6.0)
    for time in morning + evening:
        assert min(abs(sun.elevation(55.01, -1.44, time) - h) for h in (-4.0, 6.0)) < 0.001


def test_a_short_dip_between_samples_is_found() -> None:
    changes = roots.sign_changes(lambda t: abs(t - 1777.0) - 30.0, 0.0, 10000.0, 1200.0)
    assert [round(t) for t, _ in changes] == [1747, 1807]
    assert [up for _, up in changes] == [False, True]


def test_an_empty_span_has_no_changes() -> None:
    assert roots.sign_changes(lambda t: t, 5.0, 5.0) == []
    assert roots.spans(lambda t: t, 5.0, 4.0) == []


def test_shadows() -> None:
    assert sun.shadow_length(1.8, 45.0) == pytest.approx(1.8)
    assert sun.shadow_length(1.8, 0.0) is None


def test_midday_sun_strikes_the_south_side_only() -> None:
    noon = sun.transit(10.0, sun.days_since_1970(2026, 3, 20))
    high = sun.position(50.0, 10.0, noon)
    assert sunlight.strike_margin(high, 180.0) > 0
    assert sunlight.strike_margin(high, 0.0) < 0
    assert sunlight.incidence(high.azimuth, high.elevation, 180.0) == pytest.approx(
        cos(radians(high.elevation)), abs=1e-4
    )


def test_an_east_window_has_sun_in_the_morning_and_hills_shorten_it() -> None:
    start = sun.days_since_1970(2026, 3, 20) * DAY
    ((rise, noon),) = sunlight.strikes(50.0, 0.0, start, start + DAY, 90.0)
    assert sun.position(50.0, 0.0, noon).azimuth == pytest.approx(180.0, abs=0.01)
    ((late, still_noon),) = sunlight.strikes(50.0, 0.0, start, start + DAY, 90.0, lambda _: 20.0)
    lifted = sun.elevation(50.0, 0.0, late)
    assert lifted + sun.refraction(lifted) == pytest.approx(20.0, abs=0.01)
    assert rise < late < noon
    assert still_noon == pytest.approx(noon, abs=1)


def test_direction_follows_the_set_north() -> None:
    assert sunlight.sun_direction(110.0, 30.0, 20.0) == pytest.approx((cos(radians(30)), 0.0, 0.5))


ROOM = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))
SOUTH_WINDOW = ((1.0, 0.0, 1.0), (2.0, 0.0, 1.0), (2.0, 0.0, 2.0), (1.0, 0.0, 2.0))


def test_the_patch_on_the_floor_reaches_as_far_as_the_angle_says() -> None:
    to_sun = sunlight.sun_direction(180.0, 50.0, 0.0)
    patch = sunlight.floor_patch(SOUTH_WINDOW, to_sun, ROOM)
    far = max(y for _, y in patch)
    assert far == pytest.approx(sunlight.reach(2.0, 180.0, 50.0, 180.0))
    assert geometry.area(patch) == pytest.approx(1.0 / tan(radians(50)))
    assert sunlight.wall_patches(SOUTH_WINDOW, to_sun, ROOM, 2.4) == []


def test_low_sun_climbs_the_opposite_wall() -> None:
    to_sun = sunlight.sun_direction(180.0, 10.0, 0.0)
    ((wall, patch),) = sunlight.wall_patches(SOUTH_WINDOW, to_sun, ROOM, 2.4)
    assert wall == 2
    assert geometry.area(patch) == pytest.approx(1.0)
    assert max(z for _, z in patch) == pytest.approx(2.0 - 3.0 * tan(radians(10)))
    assert sunlight.floor_patch(SOUTH_WINDOW, to_sun, ROOM) == []


def test_no_patch_without_sun() -> None:
    below = sunlight.sun_direction(180.0, -5.0, 0.0)
    assert sunlight.floor_patch(SOUTH_WINDOW, below, ROOM) == []
    assert sunlight.reach(2.0, 180.0, -5.0, 180.0) is None
    assert sunlight.reach(2.0, 0.0, 40.0, 180.0) is None
    behind = sunlight.sun_direction(0.0, 20.0, 0.0)
    assert sunlight.wall_patches(SOUTH_WINDOW, behind, ROOM, 2.4) == []
