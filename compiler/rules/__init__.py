"""The conflicts a plan can have: one file a rule, the list explicit and in the order of the catalogue.

`RULES` is the catalogue, `run(facts)` asks every rule and gives what was found and what could not be checked.
"""

from __future__ import annotations

from . import (
    circuit_near_limit,
    circuit_overloaded,
    filter_thread,
    flashing_light,
    framing_differs,
    light_in_frame,
    missing_adapter,
    missing_battery,
    missing_lead,
    missing_media,
    missing_modifier,
    modifier_does_not_fit,
    more_than_owned,
    no_emergency_contact,
    no_hospital,
    no_insurance,
    no_permission,
    no_release,
    no_support,
    piece_in_two_places,
)
from .rule import Rule, rule
from .run import Coverage, run

RULES: tuple[Rule, ...] = tuple(
    rule(module)
    for module in (
        # Gear
        piece_in_two_places,
        more_than_owned,
        missing_modifier,
        modifier_does_not_fit,
        missing_adapter,
        filter_thread,
        no_support,
        missing_lead,
        missing_battery,
        missing_media,
        # Space
        light_in_frame,
        framing_differs,
        # Power
        circuit_overloaded,
        circuit_near_limit,
        # Care
        flashing_light,
        # Paper
        no_hospital,
        no_permission,
        no_release,
        no_insurance,
        no_emergency_contact,
    )
)

__all__ = ["RULES", "Coverage", "Rule", "run"]
