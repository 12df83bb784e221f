"""The leads to a lamp lose more of the voltage than is held good.

On set: the lamp at the end of three thin leads is dim, flickers when the kettle starts, and the leads are warm.

How it is decided: volts lost = millivolts per ampere and metre x amperes x metres (BS 7671, table for flexible cable),
or 2 x R x length x amperes with the resistance of IEC 60228 where the table lacks the section, with the lamp's full
current; against the share of the voltage that the country's rules hold good for lighting (3 % after BS 7671 Appendix
4). The house's own wiring is not counted. Source: those tables, read second hand.

Fix: take the thicker or shorter lead named, a nearer socket, or a lamp that draws less.

When to accept it: the maker of the lamp allows a wider range of voltage. Warm leads are never accepted.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import loads
from ..facts.tables import table
from ..findings import NotChecked
from .lead_overloaded import over
from .physics import Case, causes
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.light import Light
    from ..plan.location import Location

    Met = tuple[Light, Gear, tuple[Gear, ...], float, float, float, bool]

RULE = "lead-too-long"
SEVERITY: Final = "warning"
TITLE = "the leads to a lamp lose too much of the voltage"

TRIGGERS = """
hotset: 1
locations:
  landing: {mains: 230 V 50 Hz, circuits: {yard: {breaker: 16 A}}, sets: {quay: {size: 12 m x 6 m, outdoors: true}}}
gear:
  big-lamp: {kind: light, draws: 2000 W, factor: 1}
  thin-reel: {kind: power, long: 50 m, section: 1.5 mm2}
setups:
  quay-dark:
    set: quay
    lights:
      moon:
        lamp: big-lamp
        circuit: yard
        lead: thin-reel  # <- here
"""
PASSES = TRIGGERS.replace("section: 1.5 mm2", "section: 4 mm2").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        place = plan.location_of(setup.id)
        volts = loads.volts(place) if place else None
        shared: set[str] = set()
        for light in setup.lights.values():
            lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
            leads = tuple(plan.gear[n] for n in light.lead if n in plan.gear and n not in shared)
            shared |= {g.id for g in leads if loads.scarce(plan, setup, g.id)}
            if not leads or lamp is None or light.circuit is None or place is None:
                continue
            lacks = _lacks(lamp, leads, volts, place)
            if lacks:
                yield NotChecked(RULE, f"'{light.id}' in setup '{setup.id}'", lacks)
                continue
            flows = [loads.through_lead(plan, setup, light, g.id, float(volts or 1.0)) for g in leads]
            amperes, typical = max(a for a, _ in flows), any(guessed for _, guessed in flows)
            lost = sum(drop(a, g) for (a, _), g in zip(flows, leads, strict=True))
            limit = float(volts or 0.0) * _share(place)
            burns = any(over(g, a) for (a, _), g in zip(flows, leads, strict=True))
            if lost > limit + 1e-9 and not burns:  # a lead that may not carry it at all is said by lead-overloaded
                cases.append(
                    Case(f"{light.path}.lead", setup.id, lost, (light, lamp, leads, amperes, lost, limit, typical))
                )
    for cause in causes(plan, cases):
        yield _finding(facts, cause.worst)


def _lacks(lamp: Gear, leads: tuple[Gear, ...], volts: float | None, place: Location) -> str:
    if volts is None:
        return f"'mains:' of '{place.id}', such as 230 V 50 Hz"
    if lamp.draws is None:
        return f"'draws:' of '{lamp.id}'"
    short = next((g for g in leads if g.long is None or g.section is None), None)
    return "" if short is None else f"'long:' and 'section:' of '{short.id}'"


def _share(place: Location) -> float:
    rules = loads.profile(place)
    profiles = table("mains")["profiles"]
    return float(profiles[rules.name if rules else "230 V 50 Hz"]["drop"]["lighting"])


def drop(amperes: float, lead: Gear, section: float | None = None) -> float:
    """Volts lost along one lead, of its own section or another."""
    from ..science import power

    mains = table("mains")
    lost = power.lead_drop(
        amperes,
        float(lead.long or 0.0),
        section if section is not None else float(lead.section or 0.0),
        mains["flexible"]["millivolt"],
        mains["conductors"]["ohm-per-km"],
        float(mains["conductors"]["warm"]["value"]),
    )
    return lost or 0.0


def _finding(facts: Facts, case: Case[Met]) -> Finding:
    light, lamp, leads, amperes, lost, limit, typical = case.what
    metres = sum(float(g.long or 0.0) for g in leads)
    place = facts.plan.location_of(case.who)
    assert place is not None
    volts = loads.volts(place) or 1.0
    share = limit / volts
    ways = []
    for text in table("mains")["flexible"]["millivolt"]:
        thick = float(text)
        if all(thick > float(g.section or 0.0) for g in leads) and sum(drop(amperes, g, thick) for g in leads) <= limit:
            ways.append(f"take leads of {text} mm2")
            break
    shorter = int(metres * limit / lost)
    ways.append(f"{'or ' if ways else ''}no more than {shorter} m of this lead, from a nearer socket")
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        case.path,
        f"'{light.id}' hangs on {metres:g} m of lead ({quoted(g.id for g in leads)}) and takes {amperes:.1f} A: "
        f"{lost:.1f} V of {volts:g} V are lost, {lost / volts * 100:.1f} %, above the {share * 100:g} % held good",
        tuple(ways),
        (
            ("setup", case.who),
            ("light", light.id),
            ("amperes", round(amperes, 2)),
            ("metres", round(metres, 1)),
            ("volts_lost", round(lost, 2)),
            ("limit_volts", round(limit, 2)),
        ),
        also=[(leads[0].path, "the lead"), (lamp.path, "the lamp")],
        typical=("power factor",) if typical else (),
    )
