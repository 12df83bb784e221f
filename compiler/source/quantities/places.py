"""Lengths, sizes, coordinates, and places said from a mark."""

from __future__ import annotations

import re

from .units import fixed, measure, quote, take_number, written
from .values import Around, Coordinates, QuantityError, Towards

_DEGREES = re.compile(r"([+-]?\d{1,3}(?:\.\d{1,15})?) ?(?:deg)? ?([NSEWnsew]?)", re.ASCII)
_HOUR = re.compile(r"(\d{1,2})(?::(\d{2}))? ?o'clock", re.ASCII)


def show_length(metres: float, lengths: str) -> str:
    """Metric: mm below 10 cm, cm below 1 m, then m to the centimetre. Imperial: feet and inches to the half inch, but
    mm below 10 cm as well, since lenses, sensors and threads are in mm everywhere."""
    if lengths == "imperial" and round(abs(metres) * 1000, 1) >= 100:
        return _show_feet(metres)
    size = abs(metres)
    if round(size * 100, 1) >= 100:
        return f"{written(metres, 2)} m"
    if round(size * 1000, 1) >= 100:
        return f"{written(metres * 100, 1)} cm"
    millimetres = written(metres * 1000, 1)
    return f"{millimetres} mm" if millimetres != "0" else "0 m"


def _show_feet(metres: float) -> str:
    sign = "-" if metres < 0 else ""
    halves = round(abs(metres) / 0.0254 * 2)
    feet, rest = divmod(halves, 24)
    parts = [f"{feet} ft"] if feet else []
    parts += [f"{written(rest / 2, 1)} in"] if rest else []
    return sign + " ".join(parts)


def sides(text: str, count: int, example: str) -> tuple[float, ...]:
    """Metres of each side. One unit at the end counts for all (`36 x 24 mm`)."""
    parts = [part.strip() for part in text.replace("X", "x").split("x")]
    if len(parts) != count:
        found = "one side" if len(parts) == 1 else f"{len(parts)} sides"
        raise QuantityError(f"{quote(text)} has {found} where {count} are due", example)
    unit = _last_unit(parts[-1])
    return tuple(
        measure("length", part if _last_unit(part) or not unit else f"{part} {unit}", example, positive=True)
        for part in parts
    )


def _last_unit(text: str) -> str:
    return text.lstrip("0123456789.,/+- ").split(" ")[-1] if text else ""


def show_sides(value: tuple[float, ...], lengths: str) -> str:
    return " x ".join(show_length(side, lengths) for side in value)


def coordinates(text: str, example: str) -> Coordinates:
    """Latitude and longitude with their letters, or as two signed numbers in that order."""
    north, comma, east = text.partition(",")
    first, second = _DEGREES.fullmatch(north.strip()), _DEGREES.fullmatch(east.strip())
    if not comma or first is None or second is None:
        raise QuantityError(f"{quote(text)} is no latitude and longitude in degrees with a comma between", example)
    latitude = _one_side(first[1], first[2].upper(), "NS", 90, text, example)
    longitude = _one_side(second[1], second[2].upper(), "EW", 180, text, example)
    if bool(first[2]) != bool(second[2]):
        raise QuantityError(f"{quote(text)} has one letter of two (N or S, E or W)", example)
    return Coordinates(latitude, longitude)


def _one_side(number: str, letter: str, letters: str, most: int, text: str, example: str) -> float:
    if letter and letter not in letters:
        raise QuantityError(f"{quote(text)} wants the latitude (N or S) first, then the longitude (E or W)", example)
    value = float(number)
    if letter and number[0] in "+-":
        raise QuantityError(f"{quote(text)} has a sign and a letter; one is enough", example)
    if abs(value) > most:
        name = "latitude" if most == 90 else "longitude"
        raise QuantityError(f"{quote(text)} has a {name} beyond {most} degrees", example)
    return -value if letter and letter == letters[1] and value else value


def show_coordinates(value: Coordinates) -> str:
    north, east = fixed(value.latitude, 5), fixed(value.longitude, 5)
    side = "S" if north.startswith("-") else "N"
    return f"{north.lstrip('-')} {side}, {east.lstrip('-')} {'W' if east.startswith('-') else 'E'}"


def spot(text: str, example: str) -> Around | Towards:
    """`1.5 m at 10 o'clock of desk` or `2 m from desk towards door`."""
    if " from " in text:
        distance, _, way = text.partition(" from ")
        way = way.replace(" toward ", " towards ")
        start, found, end = way.partition(" towards ")
        if not found or not start.strip() or not end.strip():
            raise QuantityError(f"{quote(text)} does not say from which mark towards which", example)
        return Towards(measure("length", distance, example), start.strip(), end.strip())
    distance, at, face = text.partition(" at ")
    hour, of, mark = face.partition(" of ")
    if not at or not of or not mark.strip():
        raise QuantityError(f"{quote(text)} is no place said from a mark", example)
    return Around(measure("length", distance, example), _hour(hour.strip(), text, example), mark.strip())


def _hour(written_hour: str, text: str, example: str) -> float:
    found = _HOUR.fullmatch(written_hour)
    if found is None:
        raise QuantityError(f"{quote(text)} names no hour of a clock face", example)
    hour, minutes = int(found[1]), int(found[2] or 0)
    if not 1 <= hour <= 12 or minutes > 59:
        raise QuantityError(f"{quote(text)} names an hour that is on no clock face; they go from 1 to 12", example)
    return hour + minutes / 60


def show_spot(value: Around | Towards, lengths: str) -> str:
    distance = show_length(value.metres, lengths)
    if isinstance(value, Towards):
        return f"{distance} from {value.start} towards {value.end}"
    hour, minutes = divmod(round(value.hour * 60), 60)
    hour = (hour - 1) % 12 + 1
    clock = f"{hour}:{minutes:02d}" if minutes else str(hour)
    return f"{distance} at {clock} o'clock of {value.mark}"


def measure_range_part(text: str, other: str, dimension: str, example: str) -> float:
    """One side of a range; a side without unit takes the unit of `other`."""
    _, end = take_number(text, 0, text, example)
    if end == len(text):
        return measure(dimension, f"{text} {_last_unit(other)}".strip(), example)
    return measure(dimension, text, example)
