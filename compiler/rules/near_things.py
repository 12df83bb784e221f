"""Near misses of things: breakers, leads, stands, the edge of the picture, cloth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import cloth as cloths
from ..facts import loads, views
from ..facts.eye import Eye
from . import support_overloaded
from .near_misses import Margin
from .words import quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts

# From which part of what is allowed on something counts as near; common practice, no source.
POWER = 0.65
CLOTH = 0.75
WEIGHT = 0.85
EDGE = 3.0  # degrees outside of the picture


def circuits(facts: Facts) -> Iterator[Margin]:
    """The fullest moment of each circuit below what it may carry."""
    fullest: dict[str, loads.Moment] = {}
    for moment in facts.circuit_moments:
        name = moment.circuit.id
        if name not in fullest or round(moment.share, 9) > round(fullest[name].share, 9):
            fullest[name] = moment
    for name, moment in fullest.items():
        rules = loads.profile(facts.plan.locations[name.split("/")[0]])
        limit = moment.breaker * (rules.share if rules is not None and rules.law else 1.0)
        used = moment.amperes / limit
        if POWER <= used <= 1.0:
            law = f" ({rules.share:.0%} of {moment.breaker:g} A)" if rules is not None and rules.law else ""
            yield Margin(
                "circuit-overloaded",
                f"circuit '{name.rsplit('/', 1)[1]}' at {used:.0%} in '{moment.setup}': {moment.amperes:.1f} A of "
                f"{limit:g} A{law}, {limit - moment.amperes:.1f} A left",
                facts.plan.where(moment.circuit.path),
                used,
            )


def lamps(facts: Facts) -> Iterator[Margin]:
    """Lamps and stands just outside the picture."""
    plan = facts.plan
    for setup in plan.setups.values():
        if not setup.lights or views.missing_for_view(plan, setup):
            continue
        eye = Eye(views.ends(plan, setup), views.blockers(plan, setup))
        for light in setup.lights.values():
            for solid in views.lamp_solids(plan, setup, light):
                view = eye.look(solid.shape)[1]
                if not view.seen and -EDGE < view.margin < 0.0:
                    edge = {"bottom": "lower", "top": "upper"}.get(view.edge, view.edge)
                    yield Margin(
                        "light-in-frame",
                        f"{solid.words} stays out of the picture of '{setup.id}' by {-view.margin:.1f} deg, over its "
                        f"{edge} edge",
                        plan.where(light.path),
                        1.0 + view.margin / (10 * EDGE),
                    )


def stocks(facts: Facts) -> Iterator[Margin]:
    """The setup that takes the most of each cloth, gel and diffusion, with what is held hot meanwhile."""
    plan = facts.plan
    held = {m.setup: m.held for m in facts.moments}
    fullest: dict[str, tuple[float, float, str]] = {}
    for setup in plan.setups.values():
        area: dict[str, float] = {}
        for name in (*held.get(setup.id, ()), setup.id):
            for need in cloths.needs(plan, plan.setups[name]):
                if isinstance(need, cloths.Need):
                    area[need.stock] = area.get(need.stock, 0.0) + sum(p.width * p.height for p in need.panels)
        for stock, wanted in area.items():
            have = sum(s.width * s.length for s in cloths.sheets(plan.stock[stock]))
            cut = plan.stock[stock].roll is not None  # a piece of the right size is used whole, and meant to be
            if cut and have and wanted <= have and wanted / have > fullest.get(stock, (0.0, 0.0, ""))[0]:
                fullest[stock] = (wanted / have, have - wanted, setup.id)
    for stock, (used, left, where) in fullest.items():
        if used >= CLOTH:
            rule = f"{cloths.kind(plan.stock[stock])}-short"
            sentence = f"'{stock}': {left:.1f} m2 left beside what '{where}' takes, {used:.0%} are used"
            yield Margin(rule, sentence, plan.where(f"stock.{stock}"), used)


def supports(facts: Facts) -> Iterator[Margin]:
    """Stands and heads that carry nearly all they are made for."""
    plan = facts.plan
    for setup in plan.setups.values():
        for on, path, what in support_overloaded._loads(setup):
            support = plan.gear.get(on or "")
            if support is None or not support.carries:
                continue
            weights = [plan.gear[n].weight for n in what if n in plan.gear]
            used = sum(float(w) for w in weights if w is not None) / float(support.carries)
            if WEIGHT <= used <= 1.0:
                yield Margin(
                    "support-overloaded",
                    f"'{support.id}' carries {used:.0%} of what it is made for under {quoted(what)}",
                    plan.where(path),
                    used,
                )


ASKED = (circuits, lamps, stocks, supports)
