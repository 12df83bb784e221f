"""The sun against published positions, almanac minutes and twilights."""

from __future__ import annotations

from datetime import UTC, datetime
from math import cos, radians

import pytest
from hotset.science import sun

#: NREL/TP-560-34302 (Reda and Andreas), the Solar Position Algorithm, as implemented by pvlib 0.16.1 `spa_python` with
#: delta-T 69.2 s at sea level: latitude, longitude east, UTC, azimuth, elevation, elevation lifted by refraction.
POSITIONS = """
0 37 2026-03-20T04:47:00 90.1717 16.8664 16.9206
0 37 2026-06-21T07:32:00 49.4501 52.2767 52.2897
0 37 2026-08-08T13:02:00 290.2751 37.1349 37.1570
0 37 2026-10-31T07:32:00 119.9697 60.7229 60.7323
0 37 2026-12-21T13:02:00 241.4997 33.5324 33.5577
35 139.75 2026-03-20T06:11:00 244.6687 31.2142 31.2418
35 139.75 2026-08-07T21:56:00 85.9547 23.2181 23.2569
35 139.75 2026-08-08T06:11:00 260.9683 40.8170 40.8365
35 139.75 2026-12-20T21:56:00 119.9912 1.1655 1.5109
52 13.4 2026-03-20T06:21:00 103.4455 10.1210 10.2098
52 13.4 2026-06-21T15:51:00 270.3814 30.0144 30.0434
52 13.4 2026-08-08T06:21:00 93.3241 23.1948 23.2337
52 13.4 2026-10-31T15:51:00 249.7370 -2.4130 -2.4130
52 13.4 2026-12-21T14:36:00 227.0352 1.5756 1.8866
60 18 2026-06-21T08:48:00 136.2763 47.7256 47.7409
60 18 2026-06-21T15:33:00 265.8677 29.6955 29.7249
60 18 2026-10-31T08:48:00 154.2361 12.9594 13.0298
60 18 2026-12-21T06:03:00 118.0252 -11.1352 -11.1352
68 20 2026-03-20T14:10:00 232.7509 13.7294 13.7959
68 20 2026-06-21T08:40:00 141.4942 41.6878 41.7067
68 20 2026-08-08T14:10:00 238.6069 28.8199 28.8503
68 20 2026-10-31T15:25:00 251.1863 -7.8377 -7.8377
-34 151 2026-03-19T21:11:00 80.6341 14.0656 14.1306
-34 151 2026-03-20T05:26:00 294.5182 31.8333 31.8603
-34 151 2026-08-07T21:11:00 66.8774 4.6242 4.7944
-34 151 2026-10-30T23:56:00 55.9081 59.2125 59.2225
-34 151 2026-12-21T05:26:00 268.3522 42.8406 42.8587
"""

#: Zero crossings of the same algorithm's elevation at -0.8333, -6 and -12 degrees, within the local mean noon +-12 h:
#: latitude, longitude, local date, state, sunrise, sunset, civil dawn and dusk, nautical dawn and dusk (UTC).
EVENTS = """
0 37 2026-03-20 normal 03-20T03:36:13 03-20T15:42:43 03-20T03:15:33 03-20T16:03:23 03-20T02:51:33 03-20T16:27:22
0 37 2026-08-08 normal 08-08T03:34:15 08-08T15:41:06 08-08T03:12:44 08-08T16:02:36 08-08T02:47:43 08-08T16:27:36
0 37 2026-10-31 normal 10-31T03:12:12 10-31T15:19:02 10-31T02:50:53 10-31T15:40:21 10-31T02:26:08 10-31T16:05:08
35 139.75 2026-03-20 normal 03-19T20:45:24 03-20T08:52:16 03-19T20:20:10 03-20T09:17:32 03-19T19:50:44 03-20T09:47:02
35 139.75 2026-06-21 normal 06-20T19:27:20 06-21T09:58:08 06-20T18:57:35 06-21T10:27:53 06-20T18:20:49 06-21T11:04:39
35 139.75 2026-10-31 normal 10-30T21:00:36 10-31T07:48:13 10-30T20:34:30 10-31T08:14:18 10-30T20:04:39 10-31T08:44:09
35 139.75 2026-12-21 normal 12-20T21:44:49 12-21T07:32:55 12-20T21:16:38 12-21T08:01:06 12-20T20:44:55 12-21T08:32:49
52 13.4 2026-06-21 normal 06-21T02:46:11 06-21T19:30:14 06-21T01:57:15 06-21T20:19:10 06-21T00:38:43 06-21T21:37:42
52 13.4 2026-08-08 normal 08-08T03:39:01 08-08T18:44:02 08-08T02:59:20 08-08T19:23:28 08-08T02:07:03 08-08T20:15:14
52 13.4 2026-12-21 normal 12-21T07:12:10 12-21T14:56:43 12-21T06:31:11 12-21T15:37:42 12-21T05:47:25 12-21T16:21:28
60 18 2026-03-20 normal 03-20T04:50:01 03-20T17:02:17 03-20T04:08:31 03-20T17:43:58 03-20T03:18:43 03-20T18:34:06
60 18 2026-08-08 normal 08-08T02:45:08 08-08T19:00:29 08-08T01:49:34 08-08T19:55:23 08-08T00:16:21 08-08T21:25:28
60 18 2026-10-31 normal 10-31T06:07:23 10-31T14:54:53 10-31T05:22:26 10-31T15:39:46 10-31T04:33:05 10-31T16:29:01
68 20 2026-03-20 normal 03-20T04:40:18 03-20T16:56:36 03-20T03:44:37 03-20T17:52:41 03-20T02:35:07 03-20T19:03:01
68 20 2026-06-21 polar_day - - - - - -
68 20 2026-10-31 normal 10-31T06:46:18 10-31T13:59:40 10-31T05:41:51 10-31T15:04:00 10-31T04:34:59 10-31T16:10:41
68 20 2026-12-21 polar_night - - 12-21T07:59:01 12-21T13:17:03 12-21T06:29:36 12-21T14:46:28
-34 151 2026-06-21 normal 06-20T21:01:08 06-21T06:54:19 06-20T20:33:21 06-21T07:22:06 06-20T20:02:03 06-21T07:53:24
-34 151 2026-08-08 normal 08-07T20:42:47 08-08T07:21:01 08-07T20:16:41 08-08T07:47:08 08-07T19:46:55 08-08T08:16:54
-34 151 2026-12-21 normal 12-20T18:41:08 12-21T09:06:36 12-20T18:11:54 12-21T09:35:49 12-20T17:35:54 12-21T10:11:50
"""

#: Sunrise and sunset of the US Naval Observatory, as quoted in the tests of pvlib: latitude, longitude, hours from UTC,
#: date, local standard time of rise and set, rounded to the minute.
ALMANAC = """
39.0 -105.0 -7 2015-01-02 07:19 16:49
39.0 -105.0 -7 2015-04-02 05:43 18:24
39.0 -105.0 -7 2015-08-02 05:01 19:10
39.0 -105.0 -7 2015-12-02 07:01 16:38
39.917 116.383 8 2015-01-02 07:36 17:00
39.917 116.383 8 2015-04-02 05:58 18:39
39.917 116.383 8 2015-08-02 05:13 19:28
39.917 116.383 8 2015-12-02 07:17 16:50
"""

#: Rise and set in UTC of 35 S and 35 N on the meridian of Greenwich, from the tests of pvlib for the same algorithm.
SPA_RISE_SET = [
    (-35.0, "1996-07-05", "07:08:15", "17:01:04"),
    (-35.0, "2004-12-04", "04:38:57", "19:02:02"),
    (35.0, "1994-01-02", "07:08:12", "16:59:55"),
]

#: The worked example of NREL/TP-560-34302: 2003-10-17 12:30:30 UTC-7, 39.742476 N, 105.1786 W.
EXAMPLE = (39.742476, -105.1786, datetime(2003, 10, 17, 19, 30, 30, tzinfo=UTC).timestamp())


def rows(table: str) -> list[list[str]]:
    return [line.split() for line in table.strip().splitlines()]


def utc(text: str) -> float:
    return datetime.fromisoformat(text + "+00:00").timestamp()


def day_of(date: str) -> int:
    year, month, day = map(int, date.split("-"))
    return sun.days_since_1970(year, month, day)


@pytest.mark.parametrize("row", rows(POSITIONS), ids=" ".join)
def test_position_is_within_a_fiftieth_of_a_degree(row: list[str]) -> None:
    found = sun.position(float(row[0]), float(row[1]), utc(row[2]))
    turn = (found.azimuth - float(row[3]) + 180) % 360 - 180
    assert abs(turn) * cos(radians(found.elevation)) < 0.005
    assert found.elevation == pytest.approx(float(row[4]), abs=0.005)
    if found.elevation > 0:
        lifted = found.elevation + sun.refraction(found.elevation)
        assert lifted == pytest.approx(float(row[5]), abs=0.02)


@pytest.mark.parametrize(
    ("index", "name"),
    list(enumerate(("sunrise", "sunset", "civil_dawn", "civil_dusk", "nautical_dawn", "nautical_dusk"), start=4)),
)
@pytest.mark.parametrize("row", rows(EVENTS), ids=lambda row: " ".join(row[:3]))
def test_events_are_within_half_a_minute(row: list[str], index: int, name: str) -> None:
    longitude = float(row[1])
    found = sun.events(float(row[0]), longitude, day_of(row[2]), round(longitude / 15))
    assert found.state == row[3]
    time = getattr(found, name)
    if row[index] == "-":
        assert time is None
    else:
        assert time == pytest.approx(utc("2026-" + row[index]), abs=30)


@pytest.mark.parametrize("row", rows(ALMANAC), ids=" ".join)
def test_almanac_minutes_agree(row: list[str]) -> None:
    latitude, longitude, offset = map(float, row[:3])
    found = sun.events(latitude, longitude, day_of(row[3]), offset)
    for time, printed in ((found.sunrise, row[4]), (found.sunset, row[5])):
        assert time == pytest.approx(utc(f"{row[3]}T{printed}:00") - offset * 3600, abs=60)


@pytest.mark.parametrize(("latitude", "date", "rise", "set_"), SPA_RISE_SET)
def test_rise_and_set_of_the_reference_algorithm(latitude: float, date: str, rise: str, set_: str) -> None:
    found = sun.events(latitude, 0.0, day_of(date))
    assert found.sunrise == pytest.approx(utc(f"{date}T{rise}"), abs=30)
    assert found.sunset == pytest.approx(utc(f"{date}T{set_}"), abs=30)


def test_example_azimuth() -> None:
    assert sun.position(*EXAMPLE).azimuth == pytest.approx(194.34024, abs=0.02)


def test_example_elevation_and_apparent_zenith() -> None:
    height = sun.position(*EXAMPLE).elevation
    assert height == pytest.approx(39.872046, abs=0.02)
    assert 90 - height - sun.refraction(height) == pytest.approx(50.11162, abs=0.02)
    assert sun.refraction(39.872046) == pytest.approx(0.016332, abs=0.004)


def test_example_equation_of_time() -> None:
    assert sun.equation_of_time(EXAMPLE[2]) == pytest.approx(14.64, abs=0.01)


@pytest.mark.parametrize(
    ("name", "date", "clock"),
    [
        ("sunrise", "2003-10-17", "06:12:43"),
        ("transit", "2003-10-17", "11:46:05"),
        ("sunset", "2003-10-16", "17:20:19"),
    ],
)
def test_example_rise_transit_set(name: str, date: str, clock: str) -> None:
    """The example takes its events within the UTC day 2003-10-17; its sunset is the local evening of the 16th."""
    found = sun.events(EXAMPLE[0], EXAMPLE[1], day_of(date), -7)
    assert getattr(found, name) == pytest.approx(utc(f"{date}T{clock}") + 7 * 3600, abs=30)


def test_heights_of_rise_and_twilights() -> None:
    """Almanac for Computers 1990, US Naval Observatory: zenith distances 90 deg 50', 96, 102 and 108."""
    heights = (sun.RISE_SET, sun.CIVIL, sun.NAUTICAL, sun.ASTRONOMICAL)
    assert heights == pytest.approx((-50 / 60, -6.0, -12.0, -18.0), abs=1e-4)


def test_dusk_after_local_midnight_belongs_to_the_evening_before() -> None:
    """60 N 18 E at midsummer: civil dusk 22:02:25 UTC, two minutes past midnight in UTC+2 (NREL algorithm's root)."""
    dusk = sun.events(60.0, 18.0, day_of("2026-06-21"), 2).civil_dusk
    assert dusk == pytest.approx(utc("2026-06-21T22:02:25"), abs=60)


def test_a_grazing_dusk_is_found() -> None:
    """68 N 20 E, 2026-08-08: civil dusk 22:25:44 UTC, no civil dawn in the day's window (NREL algorithm's root)."""
    found = sun.events(68.0, 20.0, day_of("2026-08-08"), 2)
    assert found.civil_dusk == pytest.approx(utc("2026-08-08T22:25:44"), abs=60)
    assert found.civil_dawn is None
