"""Mains: current, load on a circuit, voltage at the end of a lead, batteries by air.

Volts, amperes, watts, metres, square millimetres. Tables of conductors and rules come as arguments. Everything here is
advice for planning: local codes and a licensed electrician decide.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import isclose
from typing import NamedTuple


class Load(NamedTuple):
    """A circuit at one moment: amperes, the share of its rating, and amperes left under the continuous rule and the
    rating.
    """

    ampere: float
    share: float
    left_continuous: float
    left: float
    over_rating: bool
    over_continuous: bool


def current(watt: float, volt: float, power_factor: float = 1.0) -> float:
    """Amperes of a single phase load: I = P / (V pf)."""
    return watt / (volt * power_factor)


def watts(ampere: float, volt: float, share: float = 1.0) -> float:
    """Watts a circuit carries at power factor 1, or a share of it."""
    return ampere * volt * share


def load(amperes: Iterable[float], breaker: float, share: float = 0.8) -> Load:
    """A breaker's load by the sum of the currents on it.

    `share` is the part of the rating a load that runs for hours may take: 0.8 is 1 / 1.25 of NEC 210.20(A). Equality
    passes; sums are compared to a millionth so that ten lamps of 1.28 A do not trip by rounding.
    """
    total = sum(amperes)
    limit = breaker * share

    def over(bound: float) -> bool:
        return total > bound and not isclose(total, bound, rel_tol=1e-6)

    return Load(total, total / breaker, limit - total, breaker - total, over(breaker), over(limit))


def needed_breaker(continuous: float, other: float, share: float = 0.8) -> float:
    """Least rating (A) for continuous and other currents: continuous / share + other (NEC 210.20(A): 1.25 and 1)."""
    return continuous / share + other


def conductor_resistance(ohm_per_km: float, celsius: float, per_kelvin: float = 0.00393) -> float:
    """Ohm per metre of one conductor at a temperature: R20 (1 + a (T - 20)); a of copper 0.00393 per kelvin."""
    return ohm_per_km / 1000.0 * (1.0 + per_kelvin * (celsius - 20.0))


def drop(ampere: float, length: float, ohm_per_km: float, celsius: float = 60.0) -> float:
    """Volts lost along a lead of two conductors: 2 R L I, unity power factor, reactance left out."""
    return 2.0 * conductor_resistance(ohm_per_km, celsius) * length * ampere


def drop_tabled(ampere: float, length: float, millivolt: float) -> float:
    """Volts lost by a cable table's mV per ampere and metre (both ways counted in it)."""
    return millivolt * ampere * length / 1000.0


def section_key(square_mm: float, table: Mapping[str, float]) -> str | None:
    """A conductor's section as the tables write it (`1.5`, `4`); None when the table does not have it."""
    return next((key for key in table if isclose(float(key), square_mm)), None)


def lead_drop(
    ampere: float,
    length: float,
    square_mm: float,
    millivolt: Mapping[str, float],
    ohm_per_km: Mapping[str, float],
    celsius: float = 60.0,
) -> float:
    """Volts lost along a lead, by the cable table where it has the section (it is the larger), else by resistance.

    A section that neither table has (a wire gauge) is taken by the greatest product of resistance and section in the
    table of resistances, which is a little too much for any.
    """
    tabled, plain = section_key(square_mm, millivolt), section_key(square_mm, ohm_per_km)
    if tabled is not None:
        return drop_tabled(ampere, length, millivolt[tabled])
    if plain is not None:
        return drop(ampere, length, ohm_per_km[plain], celsius)
    greatest = max(float(section) * ohm for section, ohm in ohm_per_km.items())
    return drop(ampere, length, greatest / square_mm, celsius)


def longest_lead(ampere: float, volt: float, share: float, millivolt: float) -> float:
    """Metres of lead at which the loss reaches a share of the voltage."""
    return volt * share * 1000.0 / (millivolt * ampere)


def air_travel(watt_hours: float, free: float = 100.0, approval: float = 160.0) -> str:
    """What a passenger may do with a battery: `free`, `approval` (ask the airline) or `refused`."""
    if watt_hours <= free:
        return "free"
    return "approval" if watt_hours <= approval else "refused"
