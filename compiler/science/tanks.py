"""Battery stations and generators: how far what hangs on them empties them along a day.

Watts, watt hours, minutes. A span is (from, to, part of a full station or tank that a minute takes).
"""

from __future__ import annotations

from collections.abc import Sequence

#: Part of its full consumption that an engine takes without any load (common practice, no source; small ones take
#: more).
IDLE = 0.3
#: Part of the printed energy of a station that comes out: its inverter takes the rest (common practice, no source).
USABLE = 0.8

Span = tuple[float, float, float]


def station_rate(watt: float, watt_hours: float, usable: float = USABLE) -> float:
    """Part of a full station a minute takes: W / 60 / (Wh x usable)."""
    return watt / 60.0 / (watt_hours * usable)


def engine_rate(watt: float, full_watt: float, full_minutes: float, idle: float = IDLE) -> float:
    """Part of a full tank a minute takes: (idle + (1 - idle) x load) / minutes at full power, the load as a part of it.

    A straight line from idling to full power; never more than full power, which the circuit's limit is about.
    """
    return (idle + (1.0 - idle) * min(watt / full_watt, 1.0)) / full_minutes


def taken(spans: Sequence[Span], until: float) -> float:
    """Full stations or tanks that are used up by a time (minutes)."""
    return sum((min(end, until) - start) * rate for start, end, rate in spans if start < until)


def since(spans: Sequence[Span], time: float) -> list[Span]:
    """What is left of spans from a time on."""
    return [(max(start, time), end, rate) for start, end, rate in spans if end > time]


def dry(spans: Sequence[Span], fills: int = 1) -> float | None:
    """When so many full stations or tanks are used up (minutes); None where they last. Spans must not overlap."""
    left = float(fills)
    for start, end, rate in sorted(spans):
        used = (end - start) * rate
        if used > left + 1e-9:
            return start + left / rate
        left -= used
    return None
