"""A circuit carries more than four fifths of its breaker's rating.

On set: it holds, until the fridge starts or somebody makes tea.

How it is decided: as for circuit-overloaded; above 80 % of the rating and up to the rating, where no law says so.
The 80 % are a house margin outside the reach of NEC 210.20(A); common practice, no source.

Fix: hang a lamp on another circuit, or keep kettles and heaters off this one.

When to accept it: the breaker map is known, and someone watches the circuit.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from . import circuit_overloaded

if TYPE_CHECKING:
    from ..facts import Facts
    from ..findings import Finding

RULE = "circuit-near-limit"
SEVERITY: Final = "warning"
TITLE = "a circuit carries more than 80 % of its rating"

TRIGGERS = circuit_overloaded.PASSES.replace("draws: 1000 W", "draws: 1500 W")
PASSES = circuit_overloaded.PASSES


def check(facts: Facts) -> Iterator[Finding]:
    for moment, limit, why in circuit_overloaded.worst(facts, above_rating=False):
        yield circuit_overloaded.finding(facts, moment, limit, why, RULE, SEVERITY)
