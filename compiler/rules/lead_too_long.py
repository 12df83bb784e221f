"""The leads to a lamp lose more of the voltage than is held good.

On set: the lamp at the end of three thin leads is dim, flickers when the kettle starts, and the leads are warm.

How it is decided: volts lost = millivolts per ampere and metre x amperes x metres (BS 7671, table for flexible cable),
or 2 x R x length x amperes with the resistance of IEC 60228 at 60 C where that table lacks the section (of a wire gauge
that neither has, by its square millimetres), with the lamp's full current; against the share of the voltage that the
country's rules hold good for lighting (3 % after BS 7671 Appendix 4). The house's own wiring is not counted: a socket
far from the board has lost some already. Source: those tables, read second hand.

Fix: take the thicker or shorter lead named, a nearer socket, or a lamp that draws less.

When to accept it: the maker of the lamp allows a wider range of voltage. Warm leads are never accepted.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import drops, loads
from ..facts.tables import table
from ..findings import NotChecked
from .lead_overloaded import over
from .physics import Case, causes
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.light import Light

    Met = tuple[Light, drops.Drop, float]

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
        shared: set[str] = set()
        for light in setup.lights.values():
            found = drops.at_lamp(plan, setup, light, frozenset(shared))
            shared |= {name for name in light.lead if loads.scarce(plan, setup, name)}
            if isinstance(found, str):
                yield NotChecked(RULE, f"'{light.id}' in setup '{setup.id}'", found)
            if not isinstance(found, drops.Drop) or place is None:
                continue
            limit = found.volts * drops.share(place)
            burns = any(over(g, a) for a, g in zip(found.flows, found.leads, strict=True))
            if found.lost > limit + 1e-9 and not burns:  # a lead that may not carry it at all: lead-overloaded says so
                cases.append(Case(f"{light.path}.lead", setup.id, found.lost, (light, found, limit)))
    for cause in causes(plan, cases):
        yield _finding(facts, cause.worst)


def _finding(facts: Facts, case: Case[Met]) -> Finding:
    light, found, limit = case.what
    ways = []
    for text in table("mains")["flexible"]["millivolt"]:
        thick = float(text)
        lost = sum(drops.along(a, g, thick) for a, g in zip(found.flows, found.leads, strict=True))
        if all(thick > float(g.section or 0.0) for g in found.leads) and lost <= limit:
            ways.append(f"take leads of {text} mm2")
            break
    shorter = int(found.metres * limit / found.lost)
    ways.append(f"{'or ' if ways else ''}no more than {shorter} m of this lead, from a nearer socket")
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        case.path,
        f"'{light.id}' hangs on {found.metres:g} m of lead ({quoted(g.id for g in found.leads)}) and takes "
        f"{found.amperes:.1f} A: {found.lost:.1f} V of {found.volts:g} V are lost, "
        f"{found.lost / found.volts * 100:.1f} %, above the {limit / found.volts * 100:g} % held good, and "
        f"{found.at_lamp:.0f} V arrive at the lamp",
        tuple(ways),
        (
            ("setup", case.who),
            ("light", light.id),
            ("amperes", round(found.amperes, 2)),
            ("metres", round(found.metres, 1)),
            ("volts_lost", round(found.lost, 2)),
            ("limit_volts", round(limit, 2)),
            ("volts_at_lamp", round(found.at_lamp, 1)),
        ),
        also=[(found.leads[0].path, "the lead"), (found.lamp.path, "the lamp")],
        typical=("power factor",) if found.typical else (),
    )
