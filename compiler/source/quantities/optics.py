"""Stops, shutters, lamp outputs, ratios."""

from __future__ import annotations

import re

from .units import LONGEST, bare, largest_unit, measure, quote, refuse_comma, take_number, written
from .values import Output, QuantityError, Shutter, Stop

_STOP = re.compile(r"([fFtT]) ?/? ?(\d+(?:\.\d+)?|\.\d+)", re.ASCII)


def stop(text: str, example: str) -> Stop:
    refuse_comma(text)
    found = _STOP.fullmatch(text)
    if found is None:
        if text.replace(".", "", 1).isdecimal():
            raise QuantityError(f"{quote(text)} does not say whether it is an f-stop or a T-stop", f"f/{text[:9]}")
        raise QuantityError(f"{quote(text)} is no f-stop or T-stop", example)
    if len(found[2]) > LONGEST:
        raise QuantityError(f"{quote(text)} has a number of more than {LONGEST} digits", example)
    if float(found[2]) == 0:
        raise QuantityError(f"{quote(text)} is nought, which no lens has", example)
    return Stop(float(found[2]), found[1] in "tT")


def show_stop(value: Stop) -> str:
    return ("T" if value.transmission else "f/") + written(value.number, 2)


def shutter(text: str, example: str) -> Shutter:
    refuse_comma(text)
    if "deg" in text:
        degrees = measure("angle", text, example, positive=True)
        if degrees > 360:
            raise QuantityError(f"{quote(text)} is more than a full turn", example)
        return Shutter(None, degrees)
    _, end = take_number(text, 0, text, example)
    if end == len(text):
        better = f"{text} s" if "/" in text else f"{text} deg"
        raise QuantityError(f"{quote(text)} has no unit; a shutter is a time in s or an angle in deg", better)
    return Shutter(measure("duration", text, example, positive=True), None)


def show_shutter(value: Shutter) -> str:
    if value.degrees is not None:
        return f"{written(value.degrees, 2)} deg"
    seconds = value.seconds or 0.0
    below = round(1 / seconds) if 0 < seconds <= 0.5 else 0
    if below and abs(seconds * below - 1) < 1e-9:
        return f"1/{below} s"
    return f"{written(seconds, 5)} s"


def output(text: str, example: str) -> Output:
    """Lux with its distance, candela or lumen."""
    amount, found, distance = text.partition(" at ")
    metres = measure("length", distance, example, positive=True) if found else None
    for unit, dimension in (("cd", "intensity"), ("lm", "flux")):
        if amount.endswith(unit):
            if metres is not None:
                raise QuantityError(f"{quote(text)} gives {unit} at a distance; only lx has one", example)
            return Output(measure(dimension, amount, example), "cd" if unit == "cd" else "lm", None)
    value = measure("lux", amount, example)
    if metres is None:
        raise QuantityError(f"{quote(text)} does not say at which distance", f"{text} at 1 m")
    return Output(value, "lx", metres)


def show_output(value: Output, lengths: str) -> str:
    if value.metres is None:
        return f"{written(value.value, 1)} {value.unit}"
    at = written(value.metres, 2) + " m" if lengths == "metric" else written(value.metres / 0.3048, 2) + " ft"
    return f"{written(value.value, 1)} lx at {at}"


def show_lux(value: float) -> str:
    return f"{written(value, 0 if value >= 100 else 1)} lx"


def proportion(text: str, example: str) -> float:
    """`16:9` or `4:1` as one number."""
    refuse_comma(text)
    left, colon, right = text.partition(":")
    if not colon:
        value = bare(text, example)
        raise QuantityError(f"{quote(text)} has no second side", f"{written(value, 4)}:1")
    over, below = bare(left.strip(), example), bare(right.strip(), example)
    if over == 0 or below == 0:
        raise QuantityError(f"{quote(text)} has a side of nought", example)
    return over / below


def show_proportion(value: float) -> str:
    """So much to one where two decimals say it (`2.39:1`), else small whole numbers where they do (`16:9`)."""
    said = float(written(value, 4))
    if abs(said - round(said, 2)) > 1e-9:
        for below in range(2, 33):
            over = round(value * below)
            if 0 < over <= 64 and (abs(over / below / value - 1) < 1e-9 or over / below == said):
                return f"{over}:{below}"
    return f"{written(value, 4)}:1"


def eighths(text: str, example: str) -> int:
    """Script pages in eighths: `2 3/8` is 19."""
    value = bare(text, example) * 8
    if value != int(value):
        raise QuantityError(f"{quote(text)} is no whole number of eighths of a page", example)
    return int(value)


def show_eighths(value: int) -> str:
    pages, rest = divmod(value, 8)
    if not rest:
        return str(pages)
    return f"{pages} {rest}/8" if pages else f"{rest}/8"


def show_rate(value: float) -> str:
    return largest_unit(value, ((1, "per s", 3), (1 / 60, "per min", 3), (1 / 3600, "per h", 3)))
