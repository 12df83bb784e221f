"""The conflicts a plan can have: one file a rule, the list explicit and in the order of the catalogue.

`RULES` is the catalogue, `run(facts)` asks every rule and gives what was found and what could not be checked.
"""

from __future__ import annotations

from . import (
    accepted_nothing,
    bad_include,
    bad_name,
    bad_quantity,
    broken_rule,
    cast_missing,
    cast_window,
    circuit_near_limit,
    circuit_overloaded,
    cloth_short,
    diffusion_short,
    due_back,
    duplicate_key,
    filter_thread,
    flashing_light,
    framing_differs,
    gel_short,
    include_clash,
    light_in_frame,
    like_cycle,
    lost_text,
    missing_adapter,
    missing_battery,
    missing_key,
    missing_lead,
    missing_media,
    missing_modifier,
    missing_unit,
    modifier_does_not_fit,
    more_than_owned,
    night_scene_in_daylight,
    no_emergency_contact,
    no_file,
    no_hospital,
    no_insurance,
    no_permission,
    no_release,
    no_support,
    nobody_free,
    not_in_hands_yet,
    not_yaml,
    outside_availability,
    person_in_two_places,
    piece_in_two_places,
    role_uncovered,
    scene_without_shots,
    setup_without_shots,
    shot_without_setup,
    too_large,
    two_ways,
    unknown_key,
    unknown_name,
    unused_item,
    wrong_kind,
)
from .rule import Rule, rule
from .run import Coverage, run

RULES: tuple[Rule, ...] = tuple(
    rule(module)
    for module in (
        # Reading
        no_file,
        not_yaml,
        too_large,
        bad_include,
        include_clash,
        duplicate_key,
        lost_text,
        unknown_key,
        missing_key,
        wrong_kind,
        missing_unit,
        bad_quantity,
        bad_name,
        unknown_name,
        two_ways,
        like_cycle,
        accepted_nothing,
        broken_rule,
        unused_item,
        scene_without_shots,
        setup_without_shots,
        shot_without_setup,
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
        not_in_hands_yet,
        due_back,
        # Stock
        cloth_short,
        diffusion_short,
        gel_short,
        # People
        person_in_two_places,
        nobody_free,
        cast_missing,
        role_uncovered,
        outside_availability,
        # Space
        light_in_frame,
        framing_differs,
        # Daylight
        night_scene_in_daylight,
        # Power
        circuit_overloaded,
        circuit_near_limit,
        # Time
        cast_window,
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
