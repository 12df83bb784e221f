"""What quantities mean once read: plain values in SI units, whole half-minutes, whole cents."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from ...record import record

if TYPE_CHECKING:
    from datetime import date


class QuantityError(ValueError):
    """Text that is no quantity of its kind. `reason` quotes the text and says what is wrong with it;
    `example` is a form that would have been read."""

    def __init__(self, reason: str, example: str) -> None:
        super().__init__(f"{reason}; write it like {example}")
        self.reason = reason
        self.example = example


@record
class Range:
    """From `lo` to `hi` in the unit of its kind (kelvin, degrees, metres, seconds, fraction); a single value has both
    ends alike."""

    lo: float
    hi: float


@record
class ClockRange:
    """Half-minutes since midnight; an end past midnight counts on from 24 h (2880)."""

    start: int
    end: int


@record
class Moment:
    """A day of the calendar and half-minutes since its midnight."""

    date: date
    clock: int


@record
class Money:
    """Whole cents of a currency named by its three letters."""

    cents: int
    currency: str


@record
class Mains:
    """Nominal voltage and frequency of the supply."""

    volts: float
    hertz: float


@record
class Stop:
    """An aperture: f-number, or T-number when `transmission` is true."""

    number: float
    transmission: bool


@record
class Shutter:
    """An exposure time in seconds or a shutter angle in degrees; exactly one is given."""

    seconds: float | None
    degrees: float | None


@record
class Output:
    """What a lamp gives: lux at a distance in metres, candela, or lumen (both without distance)."""

    value: float
    unit: Literal["lx", "cd", "lm"]
    metres: float | None


@record
class Coordinates:
    """Degrees; north and east count positive."""

    latitude: float
    longitude: float


@record
class Around:
    """A place `metres` from a mark, in the direction of an hour on a clock face laid on it (10.5 is half past ten)."""

    metres: float
    hour: float
    mark: str


@record
class Towards:
    """A place `metres` from the mark `start` on the way to the mark `end`."""

    metres: float
    start: str
    end: str
