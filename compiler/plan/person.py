"""The nouns of person: what a plan says, decoded. Keys and their meaning stand in schemas/nouns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import field, record

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ..source.quantities import ClockRange, Money
    from .location import Paper
    from .units import HalfMinutes, Kilograms, Metres, Seconds


@record
class Person:
    """Somebody of crew or cast."""

    id: str = ""
    path: str = ""
    name: str | None = None
    works: tuple[str, ...] = ()
    skills: tuple[str, ...] = ()
    plays: tuple[str, ...] = ()
    here: ClockRange | None = None
    days: Mapping[str, PersonDay] = field(default_factory=dict)
    call: HalfMinutes | None = None
    before: Seconds | None = None
    phone: str | None = None
    email: str | None = None
    emergency: str | None = None
    minor: bool | None = None
    age: int | None = None
    guardian: str | None = None
    eats: str | None = None
    health: str | None = None
    wears: Mapping[str, str] = field(default_factory=dict)
    tall: Metres | None = None
    release: Paper | None = None
    lifts: Kilograms | None = None
    by_air: bool | None = None
    wage: Money | None = None
    note: tuple[str, ...] = ()


@record
class PersonDay:
    """Hours of a person on one day."""

    id: str = ""
    path: str = ""
    here: ClockRange | None = None
    call: HalfMinutes | None = None
    note: tuple[str, ...] = ()
