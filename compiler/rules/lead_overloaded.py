"""A lead carries more than it is rated for.

On set: the plug gets hot, the cable gets soft, and it burns before the breaker notices: a breaker guards the wall.

How it is decided: amperes of the lamp (watts / (volts x power factor)) against the lead's 'rating:', for every lead of
a chain. Where a setup names a lead more often than it is there, lamps must share a piece: it is an error only when no
way of sharing them holds. A power factor that is not said is a typical one, marked as such. Source: single phase
current; the rating is the lead's label.

Fix: take a lead that is rated for it, or split the lamps over several leads. Local codes and licensed practice decide.

When to accept it: never.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import loads
from .physics import Case, causes
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.light import Light

    Met = tuple[Light, Gear, float, bool]

RULE = "lead-overloaded"
SEVERITY: Final = "error"
TITLE = "a lead carries more than it is rated for"

TRIGGERS = """
hotset: 1
locations:
  landing:
    mains: 230 V 50 Hz
    circuits: {ground-floor: {breaker: 16 A}}
    sets: {office: {size: 6 m x 4 m x 2.4 m}}
gear:
  big-lamp: {kind: light, draws: 2300 W, factor: 1}
  stinger: {kind: power, rating: 6 A}
setups:
  wide:
    set: office
    lights:
      moon:
        lamp: big-lamp
        circuit: ground-floor
        lead: stinger  # <- here
"""
PASSES = TRIGGERS.replace("rating: 6 A", "rating: 10 A").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup, light, lead, amperes, typical in loads.leads(plan):
        if over(lead, amperes):
            cases.append(Case(f"{light.path}.lead", setup.id, amperes, (light, lead, amperes, typical)))
    for cause in causes(plan, cases):
        light, lead, amperes, typical = cause.worst.what
        stronger = [
            g.id for g in plan.gear.values()
            if g.kind == "power" and g.id != lead.id and g.rating is not None and float(g.rating) >= amperes - 1e-9
        ]  # fmt: skip
        ways = [f"take {quoted(stronger, 'or')}"] if stronger else ["take a lead that is rated for it"]
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"'{lead.id}' is rated for {float(lead.rating or 0.0):g} A, and in '{cause.worst.who}' it carries "
            f"{amperes:.1f} A for '{light.id}'{cause.also}",
            (*ways, "or run a smaller lamp, or one on a battery"),
            (("setup", cause.worst.who), ("light", light.id), ("lead", lead.id), ("amperes", round(amperes, 2)),
             ("rating", float(lead.rating or 0.0))),
            also=[(lead.path, "the lead")],
            typical=("power factor",) if typical else (),
        )  # fmt: skip


def over(lead: Gear, amperes: float) -> bool:
    """Whether so much current is more than a lead is rated for."""
    return lead.rating is not None and amperes > float(lead.rating) + 1e-9
