"""Generators and battery stations: power that comes with the film and not out of the house."""

from __future__ import annotations

from collections.abc import Iterable

from ..facts import loads
from ..plan.location import Circuit, Location
from .desk import Desk
from .say import join


def ours(circuit: Circuit) -> bool:
    """Whether a circuit is a generator or a battery station."""
    return circuit.gives is not None or circuit.holds is not None


def rating(desk: Desk, place: Location, circuit: Circuit) -> str:
    """What it may give in watts and amperes, and how long a tank or a charge lasts."""
    _ = desk.words
    say, volts = desk.say, loads.volts(place)
    amperes = round(circuit.gives / volts, 1) if circuit.gives and volts else None
    tank = say.value("duration", circuit.runs) if circuit.runs else ""
    return join(" · ", (
        _("gives {power}", power=say.value("power", circuit.gives)) if circuit.gives else "",
        say.value("current", amperes) if amperes else "",
        say.value("energy", circuit.holds) if circuit.holds else "",
        "" if not tank else _("runs {time}", time=tank) if circuit.holds else _("{time} on one tank", time=tank),
    ))  # fmt: skip


def joined(spans: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """Hours that touch one another as one, in order."""
    found: list[tuple[int, int]] = []
    for start, end in sorted(spans):
        if found and start <= found[-1][1]:
            found[-1] = (found[-1][0], max(end, found[-1][1]))
        else:
            found.append((start, end))
    return found
