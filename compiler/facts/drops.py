"""The voltage that is left at a lamp: what its leads lose, at the current that flows through them.

Volts lost = millivolts per ampere and metre (BS 7671, flexible cable) x amperes x metres, or 2 x R x length x amperes
with the resistance of IEC 60228 where the table lacks the section. The house's own wiring is not counted.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..science import power
from . import loads
from .tables import table

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.light import Light
    from ..plan.location import Location
    from ..plan.setup import Setup


class Drop(NamedTuple):
    """A lamp's leads one after the other: the greatest current through any of them, the current through each, metres in
    all, the volts of the place, the volts lost, and whether a power factor is a typical one."""

    lamp: Gear
    leads: tuple[Gear, ...]
    amperes: float
    flows: tuple[float, ...]
    metres: float
    volts: float
    lost: float
    typical: bool

    @property
    def at_lamp(self) -> float:
        """Volts that arrive at the lamp."""
        return max(0.0, self.volts - self.lost)


def at_lamp(plan: Plan, setup: Setup, light: Light, spent: frozenset[str] = frozenset()) -> Drop | str | None:
    """What a lamp's leads lose; the detail that is wanting; None for a lamp without lead or circuit. Leads in `spent`
    are left out: lamps share them, and they have been counted."""
    place = plan.location_of(setup.id)
    lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
    leads = tuple(plan.gear[n] for n in light.lead if n in plan.gear and n not in spent)
    if not leads or lamp is None or light.circuit is None or place is None:
        return None
    volts = loads.volts(place)
    lacks = _lacks(lamp, leads, volts, place)
    if lacks or volts is None:
        return lacks
    found = [loads.through_lead(plan, setup, light, g.id, volts) for g in leads]
    flows = tuple(a for a, _ in found)
    return Drop(
        lamp,
        leads,
        max(flows),
        flows,
        sum(float(g.long or 0.0) for g in leads),
        volts,
        sum(along(a, g) for a, g in zip(flows, leads, strict=True)),
        any(guessed for _, guessed in found),
    )


def _lacks(lamp: Gear, leads: tuple[Gear, ...], volts: float | None, place: Location) -> str:
    if volts is None:
        return f"'mains:' of '{place.id}', such as 230 V 50 Hz"
    if lamp.draws is None:
        return f"'draws:' of '{lamp.id}'"
    short = next((g for g in leads if g.long is None or g.section is None), None)
    return "" if short is None else f"'long:' and 'section:' of '{short.id}'"


def along(amperes: float, lead: Gear, section: float | None = None) -> float:
    """Volts lost along one lead, of its own section or another."""
    mains = table("mains")
    return power.lead_drop(
        amperes,
        float(lead.long or 0.0),
        section if section is not None else float(lead.section or 0.0),
        mains["flexible"]["millivolt"],
        mains["conductors"]["ohm-per-km"],
        float(mains["conductors"]["warm"]["value"]),
    )


def share(place: Location) -> float:
    """Part of the voltage that may be lost on the way to a lamp, as the rules of the place hold good for lighting."""
    rules = loads.profile(place)
    profiles = table("mains")["profiles"]
    return float(profiles[rules.name if rules else "230 V 50 Hz"]["drop"]["lighting"])
