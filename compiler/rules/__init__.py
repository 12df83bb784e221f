"""The conflicts a plan can have: one file a rule, the list explicit and in the order of the catalogue.

`RULES` is the catalogue, `run(facts)` asks every rule and gives what was found and what could not be checked.
"""

from __future__ import annotations

from . import (
    circuit_near_limit,
    circuit_overloaded,
    framing_differs,
    light_in_frame,
    no_hospital,
)
from .rule import Rule, rule
from .run import Coverage, run

RULES: tuple[Rule, ...] = tuple(
    rule(module)
    for module in (
        # Space
        light_in_frame,
        framing_differs,
        # Power
        circuit_overloaded,
        circuit_near_limit,
        # Paper
        no_hospital,
    )
)

__all__ = ["RULES", "Coverage", "Rule", "run"]
