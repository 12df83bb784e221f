"""Lamps that are switched on together pull more in the first moment than the breaker lets through.

On set: everything is plugged into one bar, somebody presses its switch, and the breaker is out although the sum of the
watts was right.

How it is decided: the sum of the 'inrush:' of all lamps on a circuit in one setup against five times the breaker, at
which a breaker of type B (3 to 5 times its rating) trips at once. Lamps that do not say theirs are not counted.
Source: IEC 60898-1, read second hand; the makers of lamps give the current for some thousandths of a second.

Fix: switch the lamps on one after the other, or spread them over two circuits.

When to accept it: the breaker is of type C (5 to 10 times) or D. Ask who knows; only someone licensed opens the board.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import loads
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.location import Circuit

RULE = "inrush"
SEVERITY: Final = "warning"
TITLE = "lamps switched on together trip the breaker"

TRIGGERS = """
hotset: 1
locations:
  landing:
    mains: 230 V 50 Hz
    circuits: {ground-floor: {breaker: 10 A}, first-floor: {breaker: 10 A}}
    sets: {office: {size: 4 m x 3 m x 2.4 m}}
gear: {cob: {kind: light, draws: 300 W, factor: 0.95, inrush: 40 A, quantity: 2}}
setups:
  wide:
    set: office
    lights:
      quay: {lamp: cob, circuit: ground-floor}  # <- here
      moon: {lamp: cob, circuit: ground-floor}
"""
PASSES = TRIGGERS.replace(
    "moon: {lamp: cob, circuit: ground-floor}", "moon: {lamp: cob, circuit: first-floor}"
).replace("  # <- here", "")
_AT_ONCE = 5.0


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    if not any(g.inrush is not None for g in plan.gear.values()):
        return
    worst: dict[str, tuple[float, str, Circuit, list[tuple[str, str, float]]]] = {}
    for setup in plan.setups.values():
        place = plan.location_of(setup.id)
        for circuit in place.circuits.values() if place else ():
            here = []
            for path, words, name, gear in loads.plugged(plan, setup):
                surge = plan.gear[gear].inrush if gear in plan.gear else None
                if name == circuit.id and surge is not None:
                    here.append((path, words, float(surge)))
            total = sum(one[2] for one in here)
            bound = _AT_ONCE * float(circuit.breaker or 0.0)
            if circuit.breaker and total > bound + 1e-9 and total > worst.get(circuit.id, (0.0,))[0]:
                worst[circuit.id] = (total, setup.id, circuit, here)
    for total, setup_id, circuit, here in worst.values():
        breaker = float(circuit.breaker or 0.0)
        alone = max(one[2] for one in here) <= _AT_ONCE * breaker
        ways = ["switch them on one after the other"] if alone else []
        ways.append(f"{'or ' if ways else ''}spread them over two circuits")
        yield finding(
            plan,
            (RULE, SEVERITY),
            here[0][0],
            f"{quoted(one[1] for one in here)} switched on together pull {total:g} A for a moment in '{setup_id}', and "
            f"circuit '{circuit.id.rsplit('/', 1)[-1]}' ({breaker:g} A) may trip above {_AT_ONCE * breaker:g} A",
            tuple(ways),
            (("circuit", circuit.id), ("setup", setup_id), ("inrush_amperes", total), ("breaker", breaker)),
            also=[(circuit.path, "the circuit")],
            typical=("a breaker of type B",),
        )
