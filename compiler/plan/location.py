"""The nouns of location: what a plan says, decoded. Keys and their meaning stand in schemas/nouns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import field, record

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Literal

    from ..source.quantities import ClockRange, Coordinates, Mains, Moment
    from .set import Set
    from .units import Amperes, Degrees, HalfMinutes, Seconds, WattHours, Watts


@record
class Location:
    """A place where the film is shot."""

    id: str = ""
    path: str = ""
    name: str | None = None
    address: str | None = None
    at: Coordinates | None = None
    zone: str | None = None
    parking: str | None = None
    toilets: str | None = None
    hospital: Hospital | None = None
    access: ClockRange | None = None
    permission: Paper | None = None
    insurance: Paper | None = None
    contact: str | None = None
    phone: str | None = None
    mains: Mains | None = None
    profile: str | None = None
    circuits: Mapping[str, Circuit] = field(default_factory=dict)
    noise: Mapping[str, Noise] = field(default_factory=dict)
    skyline: Mapping[str, Degrees] = field(default_factory=dict)
    dark_at: HalfMinutes | None = None
    travel: Mapping[str, Seconds] = field(default_factory=dict)
    waiting: str | None = None
    restore: tuple[str, ...] = ()
    sets: Mapping[str, Set] = field(default_factory=dict)
    note: tuple[str, ...] = ()


@record
class Hospital:
    """The nearest hospital with an emergency department."""

    id: str = ""
    path: str = ""
    name: str | None = None
    address: str | None = None
    phone: str | None = None
    away: Seconds | None = None
    note: tuple[str, ...] = ()


@record
class Paper:
    """State of a paper: a permission, an insurance, a release."""

    id: str = ""
    path: str = ""
    state: Literal["granted", "asked", "missing", "not-needed"] | None = None
    by: str | None = None
    until: Moment | None = None
    paper: str | None = None
    note: tuple[str, ...] = ()


@record
class Circuit:
    """A breaker, or a battery station or generator that feeds like one."""

    id: str = ""
    path: str = ""
    breaker: Amperes | None = None
    already: Watts | None = None
    outlets: tuple[str, ...] = ()
    feeds: tuple[str, ...] = ()
    holds: WattHours | None = None
    gives: Watts | None = None
    runs: Seconds | None = None
    note: tuple[str, ...] = ()


@record
class Noise:
    """A source of noise."""

    id: str = ""
    path: str = ""
    what: str | None = None
    when: ClockRange | None = None
    silenced_by: str | None = None
    sets: tuple[str, ...] = ()
    note: tuple[str, ...] = ()
