"""A reel stays partly wound and carries more than it may when wound.

On set: the reel smells, the cable on it has melted into one piece, and its cut-out trips in the take.

How it is decided: the current through the reel (of every lamp that has to share it) against what it carries wound up
('coiled:', its label; where a reel or drum does not say it, a third of its 'rating:'), where the way to the socket (1.3
times the straight line) is shorter than reel and leads together, so that turns stay on it. Source: the label of the
reel; the third and the 1.3 are common practice, no source.

Fix: unwind the reel wholly, lay the rest in wide loops away from walkways, or take a shorter lead.

When to accept it: never above the figure on the label; a reel is unwound wholly.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import loads, reach
from ..facts.tables import table
from ..findings import NotChecked
from .lead_overloaded import over
from .physics import Case, causes, length
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.light import Light

    Met = tuple[Light, Gear, float, float, float, tuple[str, ...]]

RULE = "lead-coiled"
SEVERITY: Final = "warning"
TITLE = "a reel that stays wound carries too much"

TRIGGERS = """
hotset: 1
locations:
  landing:
    mains: 230 V 50 Hz
    circuits: {ground-floor: {breaker: 16 A}}
    sets:
      office:
        size: 6 m x 4 m x 2.4 m
        outlets: {by-door: {wall: west, from: 1 m, circuit: ground-floor}}
gear:
  big-lamp: {kind: light, draws: 1500 W, factor: 1, lead: 2 m}
  reel: {kind: power, long: 25 m, section: 2.5 mm2, rating: 16 A, coiled: 4 A}
setups:
  wide:
    set: office
    lights:
      moon:
        lamp: big-lamp
        at: [5 m, 1 m]
        circuit: ground-floor
        lead: reel  # <- here
"""
PASSES = TRIGGERS.replace("coiled: 4 A", "coiled: 7 A").replace("  # <- here", "")
_REELS = ("reel", "drum", "coil")
_SPARE = 1.0  # metres that hang off any reel


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup, light, reel, amperes, guessed in loads.leads(plan):
        lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
        limit, typical = _limit(reel)
        if lamp is None or lamp.draws is None or limit is None or reel.long is None or amperes <= limit + 1e-9:
            continue
        if over(reel, amperes):
            continue  # said by lead-overloaded: it may not carry it unwound either
        way = reach.way(plan, setup, light)
        if way is None:
            yield NotChecked(RULE, f"'{light.id}' in setup '{setup.id}'", "the place of the lamp and its socket")
            continue
        there = sum(float(plan.gear[n].long or 0.0) for n in light.lead if n in plan.gear)
        wound = there + float(lamp.lead or 0.0) - way.route
        if wound > _SPARE:
            said = (*["coiled rating"] * typical, *["power factor"] * guessed)
            met = (light, reel, amperes, limit, min(wound, float(reel.long)), said)
            cases.append(Case(f"{light.path}.lead", setup.id, amperes, met))
    for cause in causes(plan, cases):
        light, reel, amperes, limit, wound, typical_ = cause.worst.what
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"about {length(plan, round(wound))} of '{reel.id}' stay wound while '{light.id}' draws {amperes:.1f} A "
            f"through it, above the {limit:.1f} A it carries wound up",
            ("unwind the reel wholly before it is plugged in", "or take a lead that is just long enough"),
            (
                ("setup", cause.worst.who),
                ("light", light.id),
                ("amperes", round(amperes, 2)),
                ("coiled_amperes", round(limit, 2)),
                ("wound_m", round(wound, 1)),
            ),
            also=[(reel.path, "the reel")],
            typical=("cable's way 1.3 times the straight line", *typical_),
        )


def _limit(reel: Gear) -> tuple[float | None, bool]:
    """Amperes a reel carries wound up, and whether that is a typical value; None for what is no reel."""
    if reel.coiled is not None:
        return float(reel.coiled), False
    words = f"{reel.id} {reel.of or ''}".lower()
    if reel.rating is not None and any(w in words for w in _REELS):
        return float(reel.rating) * float(table("mains")["coiled"]["share"]), True
    return None, False
