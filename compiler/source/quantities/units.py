"""Numbers with units: the table of units, how a number is read, how one is written so that it reads back.

Sizes of the imperial and photometric units are their exact definitions: 1 in = 25.4 mm, 1 ft = 12 in (international
yard and pound agreement, 1959), 1 lb = 0.45359237 kg (same), 1 lm/ft2 = 1/0.3048^2 lx.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from .values import QuantityError

# Each unit is (factor, divisor): dividing by a whole number keeps 57 cm at 0.57 m, which multiplying by 0.01 does not.
Unit = tuple[float, float]

UNITS: dict[str, dict[str, Unit]] = {
    "length": {"m": (1, 1), "cm": (1, 100), "mm": (1, 1000), "km": (1000, 1), "ft": (0.3048, 1), "in": (0.0254, 1)},
    "angle": {"deg": (1, 1)},
    "kelvin": {"K": (1, 1)},
    "power": {"W": (1, 1), "kW": (1000, 1), "mW": (1, 1000)},
    "energy": {"Wh": (1, 1), "kWh": (1000, 1)},
    "current": {"A": (1, 1), "mA": (1, 1000)},
    "voltage": {"V": (1, 1), "kV": (1000, 1), "mV": (1, 1000)},
    "duration": {"s": (1, 1), "min": (60, 1), "h": (3600, 1)},
    "percent": {"%": (1, 100)},
    "stops": {"stops": (1, 1), "stop": (1, 1)},
    "data-rate": {"Mbit/s": (1, 1), "Gbit/s": (1000, 1), "kbit/s": (1, 1000)},
    "data-volume": {"GB": (1, 1), "TB": (1000, 1), "MB": (1, 1000)},
    "data-speed": {"MB/s": (1, 1), "GB/s": (1000, 1)},
    "weight": {"kg": (1, 1), "g": (1, 1000), "t": (1000, 1), "lb": (0.45359237, 1), "oz": (0.45359237, 16)},
    "frequency": {"Hz": (1, 1), "kHz": (1000, 1)},
    "rate": {"per s": (1, 1), "per min": (1, 60), "per h": (1, 3600)},
    "fps": {"fps": (1, 1)},
    "lux": {"lx": (1, 1), "klx": (1000, 1), "fc": (1, 0.09290304)},
    "intensity": {"cd": (1, 1), "kcd": (1000, 1)},
    "flux": {"lm": (1, 1), "klm": (1000, 1)},
    "mired": {"mired": (1, 1)},
    "section": {"mm2": (1, 1)},
}

DIMENSION_WORDS: dict[str, str] = {
    "length": "a length",
    "angle": "an angle",
    "kelvin": "a colour temperature",
    "power": "a power",
    "energy": "an energy",
    "current": "a current",
    "voltage": "a voltage",
    "duration": "a length of time",
    "percent": "a percentage",
    "stops": "a number of stops",
    "data-rate": "a data rate",
    "data-volume": "a data volume",
    "data-speed": "a writing speed",
    "weight": "a weight",
    "frequency": "a frequency",
    "rate": "a rate",
    "fps": "a frame rate",
    "lux": "an illuminance",
    "intensity": "a luminous intensity",
    "flux": "a luminous flux",
    "mired": "a mired shift",
    "section": "a cable section",
}

# Whole words people write for a unit; none of them can mean anything else.
SPELLINGS: dict[str, str] = {
    "metre": "m", "metres": "m", "meter": "m", "meters": "m", "feet": "ft", "foot": "ft", "inch": "in",
    "inches": "in", "degree": "deg", "degrees": "deg", "kelvin": "K", "watt": "W", "watts": "W", "amp": "A",
    "amps": "A", "volt": "V", "volts": "V", "hour": "h", "hours": "h", "hr": "h", "hrs": "h", "minute": "min",
    "minutes": "min", "mins": "min", "second": "s", "seconds": "s", "sec": "s", "secs": "s", "percent": "%",
    "lbs": "lb", "mireds": "mired", "lux": "lx", "per second": "per s", "per minute": "per min", "per hour": "per h",
    "frames per second": "fps", "Mbps": "Mbit/s", "Gbps": "Gbit/s", "Mb/s": "Mbit/s", "Gb/s": "Gbit/s",
}  # fmt: skip

_BLANKS = str.maketrans({
    "\u00a0": " ", "\u202f": " ", "\u2009": " ", "\t": " ", "\u2212": "-", "\u2013": "-", "\u2011": "-", "\u00d7": "x",
    "\u2019": "'", "\u00b2": "2", "\u00bd": " 1/2", "\u00bc": " 1/4", "\u00be": " 3/4", "\u215b": " 1/8",
    "\u215c": " 3/8", "\u215d": " 5/8", "\u215e": " 7/8", "\u00b0": " deg ",
})  # fmt: skip
_NUMBER = re.compile(r"([+-]?)(?:(\d+) )?(\d+(?:\.\d+)?|\.\d+)(?:/(\d+))?", re.ASCII)
_FEET = re.compile(r"(\S+?) ?(?:ft|feet|foot) (\S+)", re.ASCII)
_LONG = 50.0
_COMMA = re.compile(r"(\d+),(\d+)", re.ASCII)
LONGEST = 18


def clean(text: str) -> str:
    """The text with its blanks, minus signs, multiplication signs and degree signs in one form each."""
    return " ".join(text.translate(_BLANKS).split()) if not text.isascii() else " ".join(text.split())


def quote(text: str) -> str:
    """A text in single quotes, shortened in the middle when nobody would read it to the end."""
    return f"'{text}'" if len(text) <= 60 else f"'{text[:40]}...{text[-10:]}'"


def refuse_comma(text: str) -> None:
    """Say what to write instead of a comma inside a number."""
    found = _COMMA.search(text)
    if found is None:
        return
    thousands = len(found[2]) == 3 and found[1] != "0"
    joined = found[1] + ("" if thousands else ".") + found[2]
    written = text[: found.start()] + joined + text[found.end() :]
    if thousands:
        raise QuantityError(f"{quote(text)} has a comma inside the number", written)
    raise QuantityError(f"{quote(text)} has a decimal comma where a point is due", written)


def take_number(text: str, at: int, whole: str, example: str) -> tuple[float, int]:
    """The number that starts at `at` and the position after it. Fractions read as crews write them: `1/4`, `2 1/2`."""
    found = _NUMBER.match(text, at)
    if found is None:
        raise QuantityError(f"{quote(whole)} has no number where one is due", example)
    sign, units, digits, below = found.groups()
    if len(digits) > LONGEST or len(units or "") > LONGEST or len(below or "") > LONGEST:
        raise QuantityError(f"{quote(whole)} has a number of more than {LONGEST} digits", example)
    if units is not None and below is None:
        raise QuantityError(f"{quote(whole)} has two numbers side by side", example)
    value = float(digits)
    if below is not None:
        if float(below) == 0:
            raise QuantityError(f"{quote(whole)} divides by nought", example)
        value /= float(below)
    if units is not None:
        value += float(units)
    return (-value if sign == "-" and value else value), found.end()


def bare(text: str, example: str, *, signed: bool = False) -> float:
    """A number alone, without unit."""
    refuse_comma(text)
    value, end = take_number(text, 0, text, example)
    if end != len(text):
        raise QuantityError(f"{quote(text)} is not a number alone", example)
    if value < 0 and not signed:
        raise QuantityError(f"{quote(text)} is below zero", example)
    return value


def convert(value: float, unit: str, dimension: str, whole: str, example: str) -> float:
    """A number of some unit in the SI unit of its dimension."""
    units = UNITS[dimension]
    factors = units.get(unit) or units.get(SPELLINGS.get(unit, ""))
    if factors is not None:
        return value * factors[0] / factors[1]
    raise QuantityError(_wrong_unit(unit, dimension, whole), _instead(value, unit, dimension, whole, example))


def _instead(value: float, unit: str, dimension: str, whole: str, example: str) -> str:
    """What would be right for a unit that is not read here, where it can be worked out; else the example."""
    if dimension == "length" and ("'" in unit or '"' in unit):
        feet, _, inches = whole.replace("''", '"').partition("'")
        tail = inches.replace('"', "").strip()
        if '"' in feet:
            return f"{feet.replace(chr(34), '').strip()} in"
        return f"{feet.strip()} ft" + (f" {tail} in" if tail else "")
    if dimension == "section" and unit.upper() == "AWG" and 0 <= value <= 40:
        return f"{gauge(value):.3g} mm2"
    return example


def gauge(number: float) -> float:
    """Square millimetres of an American wire gauge: d = 0.127 mm x 92^((36 - n) / 39) (ASTM B258, from memory)."""
    diameter: float = 0.127 * 92.0 ** ((36.0 - number) / 39.0)
    return math.pi / 4.0 * diameter**2


def _wrong_unit(unit: str, dimension: str, whole: str) -> str:
    if dimension == "energy" and unit.lower() in ("ah", "mah"):
        return f"{quote(whole)} is a charge; energy in Wh is volts x ampere-hours"
    for known in UNITS[dimension]:
        if known.lower() == unit.lower():
            return f"{quote(whole)} spells its unit '{unit}'; it is written '{known}'"
    for other, units in UNITS.items():
        if unit in units or SPELLINGS.get(unit) in units:
            return f"{quote(whole)} is {DIMENSION_WORDS[other]} where {DIMENSION_WORDS[dimension]} is due"
    known_units = [u for u in UNITS[dimension] if u != "stop"]
    words = f"use {known_units[0]}" if len(known_units) == 1 else f"known are {', '.join(known_units)}"
    return f"{quote(whole)} has the unit {quote(unit)}, which is no unit of {DIMENSION_WORDS[dimension]}; {words}"


def measure(dimension: str, text: str, example: str, *, signed: bool = False, positive: bool = False) -> float:
    """A quantity of one dimension, of one part or of several in falling units (`6 ft 2 in`, `1 h 30 min`)."""
    refuse_comma(text)
    total, at, last, parts = 0.0, 0, float("inf"), 0
    while at < len(text):
        value, end = take_number(text, at, text, example)
        unit, at = _take_unit(text, end)
        if not unit:
            lacks = "no unit after its last number" if parts else "no unit"
            raise QuantityError(f"{quote(text)} has {lacks}", _with_unit(text, value, dimension, parts, example))
        if value < 0 and (parts or not signed):
            raise QuantityError(f"{quote(text)} is below zero", example)
        part = convert(value, unit, dimension, text, example)
        size = convert(1.0, unit, dimension, text, example)
        if size >= last:
            raise QuantityError(f"{quote(text)} says two amounts; write one, the larger unit first", example)
        total = total - part if total < 0 else total + part
        last, parts = size, parts + 1
    if parts == 0:
        raise QuantityError("nothing is written", example)
    if parts > 1 and dimension not in ("length", "duration", "weight"):
        raise QuantityError(f"{quote(text)} says two amounts where one is due", example)
    if positive and total == 0:
        raise QuantityError(f"{quote(text)} is nought, which cannot be", example)
    return total


def _with_unit(text: str, value: float, dimension: str, parts: int, example: str) -> str:
    """The text with the unit it most likely lacks: the one of the example, and cm for lengths that are too long."""
    if parts == 0 and dimension == "stops":
        return f"{text} {'stop' if abs(value) <= 1 else 'stops'}"
    if parts == 0 and dimension != "length":
        usual = example.rpartition(" ")[2]
        return f"{text} {usual if usual in UNITS[dimension] else next(iter(UNITS[dimension]))}"
    if parts == 0:
        usual = example.rpartition(" ")[2]
        unit = "cm" if usual == "m" and value >= _LONG else usual
        return f"{text} {unit}" if unit in UNITS["length"] and " x " not in example else example
    feet = _FEET.fullmatch(text)
    return f"{feet[1]} ft {feet[2]} in" if parts == 1 and feet else example


def _take_unit(text: str, at: int) -> tuple[str, int]:
    """The unit after a number, up to the next blank that a digit follows, and the position after that blank."""
    end = at
    while end < len(text) and not (text[end] == " " and end + 1 < len(text) and text[end + 1] in "0123456789+-."):
        end += 1
    return text[at:end].strip(), end + 1


def split_range(text: str) -> tuple[str, str] | None:
    """Both sides of the dash of a range, or None where there is none. The first character may be a sign."""
    at = text.find("-", 1)
    return (text[:at].strip(), text[at + 1 :].strip()) if at > 0 else None


def written(value: float, places: int) -> str:
    """A number in plain digits: rounded to `places`, but never to nought and never with an exponent."""
    text = fixed(value, places)
    if 0 < abs(value) < 10**-places:
        first = int(f"{abs(value):e}".partition("e-")[2])  # decimals up to its first figure
        text = fixed(value, min(max(first, places + 1), 12))
    return text


def fixed(value: float, places: int) -> str:
    """A number in plain digits, rounded to `places`, without noughts at its end."""
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def largest_unit(value: float, steps: Sequence[tuple[float, str, int]]) -> str:
    """`value` in the first unit of `steps` (size in SI, unit, decimals) that it fills; else in the last."""
    for size, unit, places in steps:
        if float(written(abs(value) / size, places)) >= 1:
            return f"{written(value / size, places)} {unit}"
    size, unit, places = steps[-1]
    return f"{written(value / size, places)} {unit}"
