"""Where the sun stands over a place of the plan at an hour of its day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..science import sun
from .sky import missing, zone_of

if TYPE_CHECKING:
    from ..plan import Plan


def sun_at(plan: Plan, day_id: str, place_id: str, clock: int) -> sun.Position | None:
    """Bearing and height in degrees at `clock` half-minutes after the day's local midnight; None where the plan lacks
    date, coordinates or zone."""
    day, place = plan.days.get(day_id), plan.locations.get(place_id)
    if day is None or place is None or missing(plan, day_id, place_id):
        return None
    seconds = utc(plan, day_id, place_id, clock)
    assert place.at is not None
    assert seconds is not None
    return sun.position(place.at.latitude, place.at.longitude, seconds)


def utc(plan: Plan, day_id: str, place_id: str, clock: int) -> int | None:
    """Seconds since 1970 of a time on the clocks of the place; None without date or zone. Of an hour that the clocks
    show twice the first is meant."""
    day, place = plan.days.get(day_id), plan.locations.get(place_id)
    zone = zone_of(place) if place else None
    if day is None or day.date is None or zone is None:
        return None
    from datetime import datetime, timedelta

    at = datetime(day.date.year, day.date.month, day.date.day) + timedelta(minutes=clock // 2)
    return int(at.replace(tzinfo=zone).timestamp())
