"""Exposure by incident light.

ISO 2720 as quoted by others: N^2 / t = E S / C with N the stop (T where known), t seconds, E lux, S the ISO speed and
C = 250 for a flat receptor, a value hotset states wherever it is used.
"""

from __future__ import annotations

from math import log2, log10, sqrt

C = 250.0
#: Lux in a foot-candle: 1 / 0.3048^2.
FOOT_CANDLE = 10.763910417


def illuminance_for(stop: float, time: float, iso: float, constant: float = C) -> float:
    """Lux that a stop, a shutter time and a speed ask for: E = C N^2 / (t S)."""
    return constant * stop * stop / (time * iso)


def stop_for(lux: float, time: float, iso: float, constant: float = C) -> float:
    """The stop that lux at a shutter time and a speed give: N = sqrt(E t S / C)."""
    return sqrt(lux * time * iso / constant)


def stops_over(lux: float, wanted: float) -> float:
    """Stops by which light is more (positive) or less than wanted: log2(E / E wanted)."""
    return log2(lux / wanted)


def exposure_value(lux: float, constant: float = C) -> float:
    """EV at ISO 100: log2(100 E / C)."""
    return log2(100.0 * lux / constant)


def lux_of(exposure_value_: float, constant: float = C) -> float:
    """Lux of an EV at ISO 100."""
    return float(constant / 100.0 * 2.0**exposure_value_)


def density_stops(density: float) -> float:
    """Stops of a neutral density filter: D / log10(2)."""
    return density / log10(2.0)


def density_for(stops: float) -> float:
    """Density of a filter that takes so many stops."""
    return stops * log10(2.0)


def loss_stops(transmittance: float) -> float:
    """Stops lost through a layer: -log2 of its transmittance (0 to 1)."""
    return -log2(transmittance)


def transmittance(stops: float) -> float:
    """Part of the light that passes a loss of so many stops."""
    return float(2.0**-stops)


#: Stops as lenses and meters print them, in thirds from 1 on.
_MARKS = (
    "1", "1.1", "1.3", "1.4", "1.6", "1.8", "2", "2.2", "2.5", "2.8", "3.2", "3.5", "4", "4.5", "5", "5.6", "6.3",
    "7.1", "8", "9", "10", "11", "13", "14", "16", "18", "20", "22", "25", "29", "32",
)  # fmt: skip


def marked(number: float) -> float | None:
    """The nearest stop as lenses and meters print it, in thirds (ISO 517, read second hand); None beyond 0.9 to 36."""
    if not 0.9 <= number <= 36.0:
        return None
    return float(_MARKS[max(0, min(round(6.0 * log2(number)), len(_MARKS) - 1))])


def in_thirds(stops: float) -> float:
    """Stops rounded to a third, as inputs deserve."""
    return round(stops * 3.0) / 3.0
