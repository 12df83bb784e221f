"""No lead reaches from the lamp to its socket, or its plug goes into no socket there.

On set: the lamp stands, and its plug hangs two metres before the wall.

How it is decided: the cable's way is 1.3 times the straight line from the lamp to the nearest socket of its circuit
(common practice, no source). The lamp's own 'lead:' and the leads it names under 'lead:' must reach; where it names
none, all leads the plan owns ('long:') may be joined. Its 'plug:' must be that of the socket, or a lead or adapter must
turn one into the other. A lamp or a socket without a place is left out.

Fix: bring the lead that is named, move the lamp, or hang it on a nearer circuit.

When to accept it: the lead belongs to the house. A lead is never made longer by hand, and a drum is unwound wholly.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import reach
from ..findings import NotChecked
from ..source.quantities import show
from .words import Once, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.reach import Way
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.light import Light
    from ..plan.setup import Setup

RULE = "missing-lead"
SEVERITY: Final = "error"
TITLE = "no lead reaches from the lamp to its socket"

TRIGGERS = """
hotset: 1
locations:
  landing:
    circuits: {ground-floor: {breaker: 16 A}}
    sets:
      office:
        size: 6 m x 4 m x 2.4 m
        outlets: {by-door: {wall: west, from: 1 m, circuit: ground-floor}}
gear:
  fresnel: {kind: light, lead: 3 m}
setups:
  wide:
    set: office
    lights:
      key: {lamp: fresnel, at: [5 m, 1 m], circuit: ground-floor}  # <- here
"""
PASSES = TRIGGERS.replace("lead: 3 m}", "lead: 3 m}\n  extension: {kind: power, long: 5 m}").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    fresh = Once(plan)
    for setup in plan.setups.values():
        for light in setup.lights.values():
            lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
            if lamp is None or light.circuit is None:
                continue
            path = f"{light.path}.circuit"
            way = reach.way(plan, setup, light)
            if way is not None and lamp.lead is not None:
                found = _too_short(facts, setup, light, lamp, way)
                if found is not None and fresh(path):
                    yield found
            elif way is not None and _speaks_of_leads(facts):
                yield NotChecked(RULE, f"'{light.id}' in '{setup.id}'", f"'lead:' of '{lamp.id}'")
            plug = _no_plug(facts, setup, light, lamp)
            if plug is not None and fresh(path, "plug"):
                yield plug


def _speaks_of_leads(facts: Facts) -> bool:
    return any(g.lead is not None or g.long is not None for g in facts.plan.gear.values())


def _too_short(facts: Facts, setup: Setup, light: Light, lamp: Gear, way: Way) -> Finding | None:
    plan = facts.plan
    owned = reach.leads(plan)
    by_name = {name: length for name, length, _ in owned}
    own = float(lamp.lead or 0.0)
    if any(name not in by_name for name in light.lead):
        return None
    extra = sum(by_name[name] for name in light.lead) if light.lead else sum(n * length for _, length, n in owned)
    if own + extra >= way.route - 1e-9:
        return None
    lengths = plan.film.lengths or "metric"
    lacks = way.route - own
    with_ = f" and {quoted(light.lead)}" if light.lead else " and every lead of the plan" if owned else ""
    will = [name for name, length, _ in owned if length >= lacks and name not in light.lead]
    ways = [f"hang {quoted(will, 'or')} on it"] if will else [f"a lead of {show('length', lacks, lengths)} would do"]
    ways.append("or move the lamp, or hang it on a nearer circuit")
    return finding(
        plan,
        (RULE, SEVERITY),
        f"{light.path}.circuit",
        f"'{light.id}' in '{setup.id}' stands {show('length', way.straight, lengths)} from socket '{way.outlet.id}', "
        f"{show('length', way.route, lengths)} of cable, and the lead of '{lamp.id}'{with_} reaches only "
        f"{show('length', own + extra, lengths)}",
        tuple(ways),
        (
            ("setup", setup.id),
            ("light", light.id),
            ("straight_m", round(way.straight, 2)),
            ("route_m", round(way.route, 2)),
            ("reaches_m", round(own + extra, 2)),
        ),
        also=[(way.outlet.path, "the socket")],
        typical=("cable's way 1.3 times the straight line",),
    )


def _no_plug(facts: Facts, setup: Setup, light: Light, lamp: Gear) -> Finding | None:
    plan = facts.plan
    sockets = reach.sockets(plan, setup, light.circuit or "")
    kinds = list(dict.fromkeys(o.plug for o in sockets if o.plug))
    if not lamp.plug or not kinds or lamp.plug in kinds:
        return None
    if any(o.plug is None for o in sockets):
        return None
    for gear in plan.gear.values():
        sides = {(gear.from_, gear.to), (gear.plug, gear.outlet)}
        if gear.kind in ("power", "adapter") and any((kind, lamp.plug) in sides for kind in kinds):
            return None
    return finding(
        plan,
        (RULE, SEVERITY),
        f"{light.path}.circuit",
        f"'{lamp.id}' has a plug '{lamp.plug}', and the sockets of '{light.circuit}' are {quoted(kinds)}",
        (
            f"a lead or adapter from '{kinds[0]}' to '{lamp.plug}' would do",
            "or hang the lamp on a circuit with its sockets",
        ),
        (("setup", setup.id), ("light", light.id), ("plug", lamp.plug), ("sockets", ", ".join(kinds))),
        also=[(sockets[0].path, "a socket there")],
    )
