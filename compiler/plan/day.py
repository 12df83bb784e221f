"""The nouns of day: what a plan says, decoded. Keys and their meaning stand in schemas/nouns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import field, record

if TYPE_CHECKING:
    import datetime
    from collections.abc import Mapping
    from typing import Literal

    from ..source.quantities import ClockRange
    from .units import HalfMinutes, Seconds


@record
class Day:
    """One shooting day."""

    id: str = ""
    path: str = ""
    date: datetime.date | None = None
    call: HalfMinutes | None = None
    wrap: HalfMinutes | None = None
    unit: Literal["main", "second"] | None = None
    location: str | None = None
    setups: tuple[str, ...] = ()
    people: tuple[str, ...] = ()
    meal: Meal | None = None
    meals: Mapping[str, Meal] = field(default_factory=dict)
    hours: Hours | None = None
    order: tuple[str, ...] = ()
    pinned: Mapping[str, HalfMinutes] = field(default_factory=dict)
    load_in: Seconds | None = None
    wrap_out: Seconds | None = None
    buffer: Seconds | None = None
    dark_at: HalfMinutes | None = None
    sky: Literal["clear", "partly-cloudy", "overcast"] | None = None
    ahead: tuple[Ahead, ...] = ()
    first_aid: str | None = None
    weather: str | None = None
    note: tuple[str, ...] = ()


@record
class Meal:
    """A meal, clear of work."""

    id: str = ""
    path: str = ""
    takes: Seconds | None = None
    at: HalfMinutes | None = None
    between: ClockRange | None = None
    where: str | None = None
    note: tuple[str, ...] = ()


@record
class Hours:
    """Limits of the working time."""

    id: str = ""
    path: str = ""
    profile: str | None = None
    longest: Seconds | None = None
    meal_within: Seconds | None = None
    rest: Seconds | None = None
    note: tuple[str, ...] = ()


@record
class Ahead:
    """A setup rigged ahead by named people."""

    id: str = ""
    path: str = ""
    setup: str | None = None
    by: tuple[str, ...] = ()
    from_: HalfMinutes | None = None
    to: HalfMinutes | None = None
    note: tuple[str, ...] = ()
