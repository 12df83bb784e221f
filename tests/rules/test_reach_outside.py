"""A lamp outside of a window, or in the next room, stands on something that must reach as high as it works."""

from __future__ import annotations

import pytest
from hotset.pipeline import compile_plan

PLAN = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        windows: {hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}}
gear:
  panel: {kind: light}
  stand: {kind: support, reaches: 1.0-2.6 m, carries: 8 kg}
setups:
  office-wide:
    set: office
    lights: {moon: {lamp: panel, on: stand, outside: hatch, away: 1 m, height: HIGH}}
"""


@pytest.mark.parametrize(("high", "speaks"), [("2.6 m", False), ("2.65 m", False), ("4.5 m", True), ("0.5 m", True)])
def test_outside_of_a_window(high: str, speaks: bool) -> None:
    found = compile_plan(["-"], PLAN.replace("HIGH", high).encode()).findings
    said = [f.sentence for f in found if f.rule == "does-not-fit"]
    assert bool(said) is speaks
    if speaks:
        assert "'stand' reaches" in said[0]
        assert "'moon' is to work at" in said[0]
