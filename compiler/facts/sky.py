"""The sky over a place on a day: when it is light, golden, dark, in the local time of the plan.

Half-minutes of the local clock since the day's midnight; past 24 h is the next day. None where the plan gives no
date, no coordinates or no time zone: nothing is guessed. "Dark" is the sun's centre below -6 deg, the civil limit;
the evening's hour is rounded up to the minute, the morning's down, and `dark-at:` of the day or the place overrides
it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ..record import record
from ..science import sun

if TYPE_CHECKING:
    from datetime import date
    from zoneinfo import ZoneInfo

    from ..plan import Plan
    from ..plan.day import Day
    from ..plan.location import Location

Span = tuple[int, int]
DAY = 2880  # half-minutes
GOLDEN = (-4.0, 6.0)  # degrees of the sun's centre; common practice, from memory


@record
class Sky:
    """One place on one day. Each time is None where the sun does not cross that height on the day; `said` tells
    that the plan itself says when it is dark."""

    sunrise: int | None
    sunset: int | None
    dark_from: int | None
    dark_until: int | None
    always: str  # "", or "sun" / "dark" where it is so all day
    said: bool = False


def missing(plan: Plan, day_id: str, place_id: str) -> str:
    """The details without which the sky cannot be worked out, in words; "" where nothing is missing."""
    day, place = plan.days.get(day_id), plan.locations.get(place_id)
    if day is None or place is None:
        return "a day with its location"
    lacks = []
    if day.date is None:
        lacks.append(f"'date:' of day {day_id}")
    if place.at is None:
        lacks.append(f"'at:' (coordinates) of '{place_id}'")
    if zone_of(place) is None:
        lacks.append(f"'zone:' of '{place_id}', such as Europe/London")
    return " and ".join(lacks)


def zone_of(place: Location) -> ZoneInfo | None:
    """The time zone of a place, or None where the plan names none or none that is known."""
    if not place.zone:
        return None
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

    try:
        return ZoneInfo(place.zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None


def sky(plan: Plan, day_id: str, place_id: str) -> Sky | None:
    """The sky over a place on a day, or None where `missing` says what lacks."""
    if missing(plan, day_id, place_id):
        return None
    day, place = plan.days[day_id], plan.locations[place_id]
    assert day.date is not None
    assert place.at is not None
    zone = zone_of(place)
    assert zone is not None
    base, offset = _number(day.date), _offset(day.date, zone)
    rise = sun.crossings(place.at.latitude, place.at.longitude, base, sun.RISE_SET, offset)
    civil = sun.crossings(place.at.latitude, place.at.longitude, base, sun.CIVIL, offset)
    always = "sun" if rise.state == "always-above" else "dark" if civil.state == "always-below" else ""
    said = day.dark_at if day.dark_at is not None else place.dark_at
    return Sky(
        sunrise=_local(rise.rising, day.date, zone, up=True),
        sunset=_local(rise.setting, day.date, zone, up=False),
        dark_from=int(said) if said is not None else _local(civil.setting, day.date, zone, up=True),
        dark_until=_local(civil.rising, day.date, zone, up=False),
        always=always,
        said=said is not None,
    )


def black(plan: Plan, day_id: str, place_id: str) -> int | None:
    """From when in the evening the sky is no longer blue: the sun's centre below -12 deg (nautical limit), rounded up
    to the minute; None where it does not get there on the day, where the plan says itself when it is dark, and where
    it cannot be worked out."""
    if missing(plan, day_id, place_id):
        return None
    day, place = plan.days[day_id], plan.locations[place_id]
    zone = zone_of(place)
    if day.dark_at is not None or place.dark_at is not None or zone is None or place.at is None or day.date is None:
        return None
    base, offset = _number(day.date), _offset(day.date, zone)
    found = sun.crossings(place.at.latitude, place.at.longitude, base, sun.NAUTICAL, offset)
    return _local(found.setting, day.date, zone, up=True)


def when(plan: Plan, day_id: str, place_id: str, need: str) -> tuple[Span, ...] | None:
    """The spans of the day and the night after it in which the sky is as a setup needs it (dark, dusk, golden,
    daylight, sun, any); None where it cannot be worked out.

    `sun` asks that the sun stands above the skyline of the place; whether clouds let it through, nobody knows.
    """
    if need == "any":
        return ((0, 2 * DAY),)
    if missing(plan, day_id, place_id):
        return None
    day, place = plan.days[day_id], plan.locations[place_id]
    zone = zone_of(place)
    assert day.date is not None
    assert place.at is not None
    assert zone is not None
    lat, lon = place.at.latitude, place.at.longitude
    start = _number(day.date) * 86400.0 - _offset(day.date, zone) * 3600.0
    end = start + 2 * 86400.0
    if need == "dark":
        found = _dark(day, place, sun.when_below(lat, lon, start, end, sun.CIVIL), zone)
    elif need == "dusk":
        found = [s for s in _spans(sun.when_between(lat, lon, start, end, sun.CIVIL, sun.RISE_SET), day.date, zone)
                 if s[0] % DAY > DAY // 2]  # fmt: skip
    elif need == "golden":
        found = _spans(sun.when_between(lat, lon, start, end, *GOLDEN), day.date, zone)
    elif need == "daylight":
        found = _spans(sun.when_above(lat, lon, start, end, sun.RISE_SET), day.date, zone)
    else:
        found = _sun(place, start, end, day.date, zone)
    return tuple(found)


def struck(plan: Plan, day_id: str, place_id: str, bearing: float) -> tuple[Span, ...] | None:
    """When direct sun falls on an upright opening that faces a compass bearing, over the place's skyline, on the day
    and the morning after; None where it cannot be worked out. Whether clouds let it through, nobody knows."""
    from ..science import sunlight

    if missing(plan, day_id, place_id):
        return None
    day, place = plan.days[day_id], plan.locations[place_id]
    zone = zone_of(place)
    assert day.date is not None
    assert place.at is not None
    assert zone is not None
    start = _number(day.date) * 86400.0 - _offset(day.date, zone) * 3600.0
    over = (lambda azimuth: skyline(place, azimuth)) if place.skyline else None
    found = sunlight.strikes(place.at.latitude, place.at.longitude, start, start + 1.25 * 86400.0, bearing, over)
    return tuple(_spans(found, day.date, zone))


def sun_at(plan: Plan, day_id: str, place_id: str, clock: float) -> sun.Position | None:
    """Where the sun stands when the clocks of the place show half-minutes of a day; None where it cannot be worked out.
    Of an hour that they show twice the first is meant."""
    if missing(plan, day_id, place_id):
        return None
    day, place = plan.days[day_id], plan.locations[place_id]
    zone = zone_of(place)
    assert day.date is not None
    assert place.at is not None
    assert zone is not None
    from datetime import datetime, timedelta

    at = datetime(day.date.year, day.date.month, day.date.day) + timedelta(seconds=clock * 30.0)
    return sun.position(place.at.latitude, place.at.longitude, at.replace(tzinfo=zone).timestamp())


def _dark(day: Day, place: Location, below: list[tuple[float, float]], zone: ZoneInfo) -> list[Span]:
    assert day.date is not None
    spans = _spans(below, day.date, zone)
    said = day.dark_at if day.dark_at is not None else place.dark_at
    if said is None:
        return spans
    found = [s for s in spans if s[1] <= said]
    later = [s[1] for s in spans if s[1] > said]
    return [*found, (int(said), later[0] if later else 2 * DAY)]


def _sun(place: Location, start: float, end: float, date: date, zone: ZoneInfo) -> list[Span]:
    """Above the skyline, looked at every five minutes where a skyline is told, to the second where none is."""
    assert place.at is not None
    lat, lon = place.at.latitude, place.at.longitude
    if not place.skyline:
        return _spans(sun.when_above(lat, lon, start, end, sun.RISE_SET), date, zone)
    found: list[tuple[float, float]] = []
    for i in range(int((end - start) / 300.0)):
        at = start + i * 300.0
        position = sun.position(lat, lon, at)
        if position.elevation > skyline(place, position.azimuth):
            if found and found[-1][1] >= at - 301.0:
                found[-1] = (found[-1][0], at)
            else:
                found.append((at, at))
    return _spans([f for f in found if f[1] > f[0]], date, zone)


_COMPASS = {"north": 0.0, "north-east": 45.0, "east": 90.0, "south-east": 135.0, "south": 180.0,
            "south-west": 225.0, "west": 270.0, "north-west": 315.0}  # fmt: skip


def skyline(place: Location, azimuth: float) -> float:
    """Height of the horizon in degrees at a bearing: told at compass words, straight in between."""
    told = sorted((_COMPASS[k], float(v)) for k, v in place.skyline.items() if k in _COMPASS)
    if not told:
        return 0.0
    if len(told) == 1:
        away = abs((azimuth - told[0][0] + 180.0) % 360.0 - 180.0)
        return told[0][1] if away <= 45.0 else 0.0
    for (a, low), (b, high) in zip(told, [*told[1:], (told[0][0] + 360.0, told[0][1])], strict=True):
        at = azimuth if azimuth >= a else azimuth + 360.0
        if a <= at <= b:
            return low + (high - low) * (at - a) / (b - a)
    return 0.0


def _number(date: date) -> int:
    return sun.days_since_1970(date.year, date.month, date.day)


def _offset(date: date, zone: ZoneInfo) -> float:
    """Hours by which local noon is ahead of UTC."""
    from datetime import datetime

    ahead = datetime(date.year, date.month, date.day, 12, tzinfo=zone).utcoffset()
    return ahead.total_seconds() / 3600.0 if ahead else 0.0


def _local(utc: float | None, date: date, zone: ZoneInfo, *, up: bool) -> int | None:
    """Half-minutes of the local clock, rounded to the whole minute, up or down."""
    if utc is None:
        return None
    from datetime import datetime

    minutes = math.ceil(utc / 60.0) if up else math.floor(utc / 60.0)
    at = datetime.fromtimestamp(minutes * 60, zone)
    return ((at.date() - date).days * 1440 + at.hour * 60 + at.minute) * 2


def _spans(found: list[tuple[float, float]], date: date, zone: ZoneInfo) -> list[Span]:
    spans = ((_local(a, date, zone, up=True), _local(b, date, zone, up=False)) for a, b in found)
    return [(max(a, 0), b) for a, b in spans if a is not None and b is not None and b > max(a, 0)]
