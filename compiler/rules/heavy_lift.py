"""A piece, or a packed case, is heavier than one person should lift, or hangs higher than its weight allows.

On set: somebody's back, on the stairs, at seven in the morning.

How it is decided: the weight of one piece, and of all that travels in one 'case:', against the greatest 'lifts:' of the
people of the plan; where nobody says theirs, against 25 kg, and a lamp with its modifiers above 1.8 m against 10 kg,
held close. A piece is silent where two thirds of what two of the crew lift together carry it (from memory). Source: the
lifting filter of HSE L23 and INDG143 (men, at elbow and at head height), read second hand: it tells where to look
closer, it is no limit, and it is lower for arms stretched out, twisting, stairs, many lifts and for women.

Fix: two people, a trolley, two cases instead of one, or a lighter piece.

When to accept it: it rolls, or it is carried by two who are named in a note.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..science import care
from .physics import Case, causes, length
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan import Plan

RULE = "heavy-lift"
SEVERITY: Final = "warning"
TITLE = "something is heavier than one person should lift"

TRIGGERS = """
hotset: 1
gear:
  old-lamp: {kind: light, weight: 28 kg}  # <- here
"""
PASSES = TRIGGERS.replace("28 kg", "25 kg").replace("  # <- here", "")

FLOOR_TO_ELBOW, OVER_HEAD = 25.0, 10.0
HEAD = 1.8


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    said = [float(p.lifts) for p in plan.people.values() if p.lifts is not None]
    limit = max(said, default=FLOOR_TO_ELBOW)
    team = sum(sorted(said)[-2:]) * care.team_factor(2) / 2 if len(said) > 1 else 0.0
    who = f"the {limit:g} kg that anybody here lifts" if said else f"{limit:g} kg, where HSE L23 asks for a closer look"
    cases: dict[str, list[tuple[str, float]]] = {}
    for gear in plan.gear.values():
        if gear.weight is None:
            continue
        weight = float(gear.weight)
        if gear.case:
            cases.setdefault(gear.case, []).append((gear.id, weight * (gear.quantity or 1)))
        if weight > max(limit, team) + 1e-9:
            yield _heavy(plan, f"gear.{gear.id}", f"'{gear.id}' weighs", weight, limit, who)
    for case, things in cases.items():
        total = sum(w for _, w in things)
        if total > limit + 1e-9 and max(w for _, w in things) < total:
            path = f"gear.{things[0][0]}.case"
            words = f"case '{case}' weighs, with {quoted(n for n, _ in things)} in it,"
            yield _heavy(plan, path, words, total, limit, who)
    yield from _high(facts)


def _heavy(plan: Plan, path: str, words: str, weight: float, limit: float, who: str) -> Finding:
    return finding(
        plan,
        (RULE, SEVERITY),
        path,
        f"{words} {weight:g} kg, more than {who}",
        ("let two people carry it, or a trolley, and say so in a note",),
        (("kilograms", round(weight, 2)), ("limit", limit)),
        typical=("lifting filter",) if "HSE" in who else (),
    )


def _high(facts: Facts) -> Iterator[Finding]:
    """Lamps that are heavy where they hang; a lamp that alone is too heavy is said once, above."""
    plan = facts.plan
    found: list[Case[float]] = []
    for setup in plan.setups.values():
        for light in setup.lights.values():
            lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
            if lamp is None or lamp.weight is None or light.height is None or float(light.height) <= HEAD:
                continue
            parts = [float(lamp.weight)]
            parts += [float(plan.gear[n].weight or 0.0) for n in light.with_ if n in plan.gear]
            if sum(parts) > OVER_HEAD + 1e-9 and float(lamp.weight) <= FLOOR_TO_ELBOW:
                found.append(Case(f"{light.path}.height", light.id, sum(parts), float(light.height)))
    for cause in causes(plan, found):
        case = cause.worst
        yield finding(
            plan,
            (RULE, SEVERITY),
            case.path,
            f"'{case.who}' weighs {case.bad:g} kg with what is on it, and goes up to {length(plan, case.what)}: above "
            f"the head one person lifts {OVER_HEAD:g} kg close to the body, half of it at arm's length (HSE L23)",
            ("mount it on the lowered stand and raise the stand, two people at it", "or take a lighter lamp up there"),
            (("light", case.who), ("kilograms", round(case.bad, 2)), ("height_m", case.what), ("limit", OVER_HEAD)),
            typical=("lifting filter",),
        )
