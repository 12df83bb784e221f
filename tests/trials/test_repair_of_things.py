"""Repairs of things: what is offered can stand in at that place, and mends without a new conflict."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.pipeline import compile_plan
from hotset.trials.repair import repairs

LAST_BOAT = (Path(__file__).resolve().parents[2] / "examples" / "last-boat" / "plan.yaml").read_text("utf-8")
STAND = "stand: {kind: support, quantity: "


@pytest.mark.parametrize(
    ("old", "new", "rule", "lines"),
    [
        # one change mends both that the sticks are too short and that they would stand in the table
        ("normal-50, on: overhead-arm", "normal-50, on: sticks", "furniture-clash",
         ["setups.office-till.camera.on: overhead-arm"]),
        # the only other lamps on the quay run on batteries of their own
        ("LED panel 30 cm, quantity: 2", "LED panel 30 cm, quantity: 1", "piece-in-two-places",
         ["setups.quay-dark.lights.edge.lamp: tube", "setups.quay-dark.lights.edge.battery: own"]),
        # a flag is hung on what stands still, not on the slider
        (f"{STAND}4", f"{STAND}2", "more-than-owned", ["setups.hall-night-door.grip.dark-side.on: overhead-arm"]),
        ("colour: 3200 K               #", "colour: 5600 K               #", "colour-fixed",
         ["setups.office-wide.lights.quay-lamp.lamp: cob"]),
        ("    value: 300 GBP", "    return: {by: bea, at: 2026-11-14 20:30, takes: 40 min}\n    value: 300 GBP",
         "errand-clash", ["gear.fresnel.return.by: olek"]),
        ("portrait-85, adapters: long-to-short", "portrait-85, adapters: step-55-67", "missing-adapter",
         ["setups.hall-sun-close.camera.adapters: [long-to-short]"]),
    ],
)  # fmt: skip
def test_what_is_offered_can_stand_in(old: str, new: str, rule: str, lines: list[str]) -> None:
    assert old in LAST_BOAT
    before = compile_plan(["-"], stdin_text=LAST_BOAT.replace(old, new, 1).encode())
    found = repairs(before)
    first = found.found[0]
    assert (first.finding.rule, [edit.line for edit in first.edits]) == (rule, lines)
    assert first.finding not in found.after


@pytest.mark.parametrize(
    ("old", "new", "rule"),
    [
        # nothing else pushes in and carries the camera: no arm that stands still is offered for the move
        ("slide], carries: 5 kg", "slide], carries: 1 kg", "support-overloaded"),
        ("fits: bayonet-b", "fits: bayonet-c", "modifier-does-not-fit"),
    ],
)
def test_where_nothing_can_nothing_is_offered(old: str, new: str, rule: str) -> None:
    found = repairs(compile_plan(["-"], stdin_text=LAST_BOAT.replace(old, new, 1).encode()))
    assert found.found == ()
    assert rule in [f.rule for f in found.left]


FILTERS = """
hotset: 1
gear:
  body: {kind: camera, sensor: 36 mm x 24 mm}
  wide: {kind: lens, focal: 20 mm, opens: T2, circle: 43.3 mm, front: 44 mm, thread: 67 mm}
  glass: {kind: filter, thread: 67 mm, thick: 5 mm, clear: 63 mm}
  grey: {kind: filter, thread: 67 mm, thick: 8 mm, clear: 63 mm}
  mist: {kind: filter, thread: 67 mm, thick: 6 mm}
setups: {one: {camera: {body: body, lens: wide, filters: [glass, grey, mist]}}}
"""


def test_the_filter_in_the_picture_is_taken_off() -> None:
    found = repairs(compile_plan(["-"], stdin_text=FILTERS.encode()))
    assert [edit.line for edit in found.found[0].edits] == ["setups.one.camera.filters: [glass, grey]"]
