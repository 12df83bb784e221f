"""The kinds of quantity: for each the words that name it, an example, how it is read and how it is shown."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Any

from ...record import record
from . import optics, places, times, zones
from .units import (
    DIMENSION_WORDS,
    SPELLINGS,
    UNITS,
    bare,
    clean,
    fixed,
    largest_unit,
    measure,
    quote,
    refuse_comma,
    split_range,
    take_number,
    written,
)
from .values import Coordinates, Mains, Money, QuantityError, Range

Reads = Callable[[str, str], Any]
Shows = Callable[[Any, str], str]


@record
class Kind:
    """One kind of quantity. `words` name it after "is not" or "wants" ("a length with its unit")."""

    words: str
    example: str
    reads: Reads
    shows: Shows


def _measured(
    words: str, dimension: str, example: str, shows: Shows, *, signed: bool = False, positive: bool = False
) -> Kind:
    def reads(text: str, example: str) -> float:
        return measure(dimension, text, example, signed=signed, positive=positive)

    return Kind(words, example, reads, shows)


def _in(unit: str, places_: int) -> Shows:
    return lambda value, _lengths: f"{written(value, places_)} {unit}"


def _stepped(*steps: tuple[float, str, int]) -> Shows:
    return lambda value, _lengths: largest_unit(value, steps)


def _range(words: str, dimension: str, example: str, shows: Shows) -> Kind:
    def reads(text: str, example: str) -> Range:
        both = split_range(text)
        if both is None:
            single = measure(dimension, text, example)
            return Range(single, single)
        if not both[0] or not both[1]:
            raise QuantityError(f"{quote(text)} lacks one end of its range", example)
        lo = places.measure_range_part(both[0], both[1], dimension, example)
        hi = measure(dimension, both[1], example)
        if lo > hi:
            raise QuantityError(f"{quote(text)} runs backwards, the larger end first", example)
        return Range(lo, hi)

    return Kind(words, example, reads, shows)


def _range_in(unit: str, size: float, places_: int) -> Shows:
    def shows(value: Range, _lengths: str) -> str:
        lo, hi = fixed(value.lo / size, places_), fixed(value.hi / size, places_)
        return f"{hi} {unit}" if lo == hi else f"{lo}-{hi} {unit}"

    return shows


def _show_length_range(value: Range, lengths: str) -> str:
    """Focal lengths and the like stay in mm everywhere; from a metre on the range is written as lengths are."""
    if round(value.hi * 1000, 1) < 1000:
        return _range_in("mm", 0.001, 1)(value, lengths)
    if lengths == "metric":
        return _range_in("m", 1, 2)(value, lengths)
    lo, hi = places.show_length(value.lo, lengths), places.show_length(value.hi, lengths)
    return hi if lo == hi else f"{lo}-{hi}"


def _show_duration_range(value: Range, lengths: str) -> str:
    # What is shown to a tenth of a second decides, so that two ends shown alike read back as one.
    tenths = round(value.lo * 10), round(value.hi * 10)
    if tenths[0] == tenths[1] or tenths[1] < 600 or tenths[0] % 600 or tenths[1] % 600:
        lo, hi = times.show_duration(value.lo), times.show_duration(value.hi)
        return hi if lo == hi else f"{lo}-{hi}"
    return _range_in("min", 60, 1)(value, lengths)


def _money(text: str, example: str) -> Money:
    refuse_comma(text)
    signs = {"€": "EUR", "£": "GBP", "$": "USD"}
    for sign, name in signs.items():
        if sign in text:
            better = f"{text.replace(sign, '').strip()} {name}"
            raise QuantityError(f"{quote(text)} names its money by a sign, not by three letters", better)
    amount, end = take_number(text, 0, text, example)
    currency = text[end:].strip()
    if not currency:
        raise QuantityError(f"{quote(text)} does not say which money", f"{text} EUR")
    if len(currency) != 3 or not (currency.isascii() and currency.isupper()):
        raise QuantityError(f"{quote(text)} wants its money as three capital letters", example)
    if amount < 0:
        raise QuantityError(f"{quote(text)} is below zero", example)
    if len(text[:end].partition(".")[2]) > 2:
        raise QuantityError(f"{quote(text)} is finer than a cent", example)
    return Money(round(amount * 100), currency)


def _show_money(value: Money, _lengths: str) -> str:
    return f"{value.cents // 100}.{value.cents % 100:02d} {value.currency}"


def _mains(text: str, example: str) -> Mains:
    volts, found, hertz = text.partition("V")
    if not found or not hertz.strip():
        raise QuantityError(f"{quote(text)} wants volts and hertz", example)
    return Mains(
        measure("voltage", f"{volts}V", example, positive=True),
        measure("frequency", hertz.strip(" ,/"), example, positive=True),
    )


def _whole(text: str, example: str) -> int:
    value = bare(text, example)
    if not text.isdecimal():
        raise QuantityError(f"{quote(text)} is no whole number", written(value, 0))
    return int(text)


_ANSWERS = {"yes": True, "true": True, "no": False, "false": False}


def _yes_no(text: str, example: str) -> bool:
    answer = _ANSWERS.get(text.lower())
    if answer is None:
        raise QuantityError(f"{quote(text)} is neither yes nor no", example)
    return answer


def _turn(text: str, example: str) -> float:
    degrees = measure("angle", text, example, signed=True)
    if abs(degrees) > 360:
        raise QuantityError(f"{quote(text)} is more than a full turn", example)
    return degrees


def _show_stops(value: float, _lengths: str) -> str:
    sign = "-" if value < 0 else ""
    for over, below in ((1, 4), (1, 3), (1, 2), (2, 3), (3, 4)):
        if abs(abs(value) - over / below) < 0.005:
            return f"{sign}{over}/{below} stop"
    text = fixed(value, 2)
    return f"{text} stop{'s' * (text not in ('1', '-1'))}"


def _show_mired(value: float, _lengths: str) -> str:
    text = fixed(value, 1)
    return f"{'+' * (text != '0' and value > 0)}{text} mired"


def _show_coordinates(value: Coordinates, _lengths: str) -> str:
    return places.show_coordinates(value)


def _alone(show: Callable[[Any], str]) -> Shows:
    return lambda value, _lengths: show(value)


_POWER = _in("W", 1)
KINDS: dict[str, Kind] = {
    "length": _measured("a length with its unit", "length", "1.8 m", places.show_length),
    "offset": _measured("a length with its unit", "length", "-0.3 m", places.show_length, signed=True),
    "angle": Kind("an angle in degrees", "20 deg", _turn, _in("deg", 2)),
    "kelvin": _measured("a colour temperature in kelvin", "kelvin", "2700 K", _in("K", 0), positive=True),
    "kelvin-range": _range(
        "a colour temperature or a range of it, in kelvin", "kelvin", "2800-6500 K", _range_in("K", 1, 0)
    ),
    "angle-range": _range("an angle or a range of angles, in degrees", "angle", "15-45 deg", _range_in("deg", 1, 2)),
    "length-range": _range("a length or a range of lengths, with its unit", "length", "24-70 mm", _show_length_range),
    "power": _measured("a power in watts", "power", "360 W", _POWER),
    "energy": _measured("an energy in watt-hours", "energy", "98 Wh", _in("Wh", 1)),
    "current": _measured("a current in amperes", "current", "16 A", _in("A", 2)),
    "voltage": _measured("a voltage in volts", "voltage", "14.4 V", _in("V", 2)),
    "duration": _measured("a length of time with its unit", "duration", "35 min", _alone(times.show_duration)),
    "duration-range": _range(
        "a length of time or a range of it, with its unit", "duration", "30-40 min", _show_duration_range
    ),
    "clock": Kind("a time of day as hours and minutes", "07:30", times.clock, _alone(times.show_clock)),
    "clock-range": Kind(
        "two times of day with a dash between", "09:00-18:00", times.clock_range, _alone(times.show_clock_range)
    ),
    "date": Kind("a date, year first", "2026-11-14", times.calendar_date, _alone(lambda day: str(day.isoformat()))),
    "moment": Kind("a date and a time", "2026-11-14 21:00", times.moment, _alone(times.show_moment)),
    "percent": _measured(
        "a percentage", "percent", "60 %", lambda value, _lengths: f"{fixed(value * 100, 1)} %"
    ),
    "percent-range": _range("a percentage or a range of it", "percent", "20-70 %", _range_in("%", 0.01, 1)),
    "stops": _measured("a number of stops", "stops", "1.5 stops", _show_stops, signed=True),
    "data-rate": _measured(
        "a data rate in Mbit/s", "data-rate", "100 Mbit/s", _in("Mbit/s", 1)
    ),
    "data-volume": _measured(
        "a data volume in GB", "data-volume", "512 GB", _stepped((1000, "TB", 3), (1, "GB", 1), (0.001, "MB", 1))
    ),
    "data-speed": _measured("a writing speed in MB/s", "data-speed", "300 MB/s", _in("MB/s", 1)),
    "money": Kind("an amount of money with its three letters", "12.50 EUR", _money, _show_money),
    "weight": _measured("a weight in kilograms", "weight", "2.4 kg", _stepped((1, "kg", 2), (0.001, "g", 0))),
    "frequency": _measured(
        "a frequency in hertz", "frequency", "1200 Hz", _in("Hz", 2), positive=True
    ),
    "rate": _measured("so many times per s or per min", "rate", "1.5 per s", _alone(optics.show_rate)),
    "mains": Kind(
        "the voltage and frequency of the mains", "230 V 50 Hz", _mains,
        lambda value, _lengths: f"{written(value.volts, 1)} V {written(value.hertz, 1)} Hz",
    ),
    "stop": Kind("an f-stop or a T-stop", "f/2.8", optics.stop, _alone(optics.show_stop)),
    "shutter": Kind("a shutter time or angle", "1/50 s", optics.shutter, _alone(optics.show_shutter)),
    "fps": _measured("a frame rate in fps", "fps", "25 fps", _in("fps", 3), positive=True),
    "output": Kind(
        "what a lamp gives: lux at a distance, candela or lumen", "6000 lx at 1 m", optics.output, optics.show_output
    ),
    "lux": _measured("an illuminance in lux", "lux", "300 lx", _alone(optics.show_lux)),
    "size": Kind(
        "two sides with an x between, with their unit", "1.5 m x 12 m",
        lambda text, example: places.sides(text, 2, example), places.show_sides,
    ),
    "box": Kind(
        "width, depth and height with an x between, with their unit", "4.2 m x 3.6 m x 2.4 m",
        lambda text, example: places.sides(text, 3, example), places.show_sides,
    ),
    "coordinates": Kind("a latitude and a longitude", "55.01 N, 1.44 W", places.coordinates, _show_coordinates),
    "zone": Kind("a time zone by its name", "Europe/London", zones.zone, _alone(str)),
    "aspect": Kind("the proportion of the picture", "16:9", optics.proportion, _alone(optics.show_proportion)),
    "ratio": Kind("a ratio of so much to one", "4:1", optics.proportion, _alone(optics.show_proportion)),
    "eighths": Kind("pages of script in eighths", "2 3/8", optics.eighths, _alone(optics.show_eighths)),
    "mired": _measured("a mired shift", "mired", "+120 mired", _show_mired, signed=True),
    "section": _measured("a cable section in mm2", "section", "1.5 mm2", _in("mm2", 2), positive=True),
    "density": Kind("a density, as a number alone", "0.6", bare, _alone(lambda value: written(value, 3))),
    "number": Kind(
        "a number alone", "1.4", lambda text, example: bare(text, example, signed=True),
        _alone(lambda value: written(value, 4)),
    ),
    "whole": Kind("a whole number", "2", _whole, _alone(str)),
    "yes-no": Kind("yes or no", "yes", _yes_no, _alone(lambda value: "yes" if value else "no")),
    "text": Kind("some words", "She turns.", lambda text, _example: text, _alone(str)),
    "spot": Kind(
        "a place said from a mark", "1.5 m at 10 o'clock of desk", places.spot, places.show_spot
    ),
}  # fmt: skip
LONGEST_TEXT = 400


@lru_cache(maxsize=4096)
def parse(kind: str, text: str, example: str = "") -> Any:
    """The value of `text` as a quantity of `kind`, in the units `values` names; QuantityError where it is none, with
    `example` (the kind's own where none is given) or what the text most likely means.

    A KeyError means that `kind` is no kind: a fault of the caller, not of the text.
    """
    known = KINDS[kind]
    if kind == "text":
        return text
    if len(text) > LONGEST_TEXT:
        raise QuantityError(f"{quote(text)} is too long to be {known.words}", known.example)
    tidy = clean(text)
    if not tidy:
        raise QuantityError("nothing is written here", known.example)
    return known.reads(tidy, example or known.example)


def show(kind: str, value: Any, lengths: str = "metric") -> str:
    """A value as the crew reads it, rounded to what matters on set; what it gives always reads back.

    `lengths` is `metric` or `imperial` and bears on lengths alone.
    """
    return KINDS[kind].shows(value, lengths)


def kinds_of_unit(unit: str) -> tuple[str, ...]:
    """The names of what a unit measures ("a length" for m), for a message about a misplaced value."""
    plain = SPELLINGS.get(unit, unit)
    return tuple(DIMENSION_WORDS[name] for name, units in UNITS.items() if plain in units)
