"""Any of several lamps: the message names the smallest set of setups that together want too much, and nobody else."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

from hotset.facts import occupancy
from hotset.facts.occupancy import Use
from hotset.plan import Plan

from .plans import compiled, conflicts

INSIDE = """
hotset: 1
gear: {panel: {kind: light}, tube: {kind: light}, spot: {kind: light, quantity: 2}, flood: {kind: light}}
setups:
  wide:
    lights:
      sky: {lamp: [spot, flood]}
      key: {lamp: [panel, tube]}
      fill: {lamp: [tube, panel]}
      door: {lamp: spot}
      edge: {lamp: [panel, tube]}
"""


def test_inside_a_setup_only_those_that_compete_are_named(tmp_path: Path) -> None:
    """Five lamps are wanted and five are there; the three that may take only panel or tube are one too many."""
    found = conflicts(INSIDE, tmp_path)
    assert [f.rule for f in found] == ["more-than-owned"]
    assert found[0].sentence == (
        "of 'panel' and 'tube' there are 2 pieces, but 'wide' needs 3 for 'key', 'fill', 'edge'; "
        "none of these uses may take anything else"
    )


HELD = """
hotset: 1
days: {1: {call: "08:00", load-in: 30 min, order: [dusk, porch, attic, cellar]}}
gear: {panel: {kind: light}, tube: {kind: light}, spot: {kind: light, quantity: 3}}
setups:
  dusk: {takes: 10 min, lights: {moon: {lamp: [panel, tube]}, far: {lamp: spot}}, held-until: cellar}
  porch: {takes: 10 min, lights: {near: {lamp: [tube, panel]}}, held-until: cellar}
  attic: {takes: 10 min, lights: {lick: {lamp: [panel, tube]}, top: {lamp: [spot, panel]}}}
  cellar: {takes: 10 min}
"""


def test_two_held_setups_and_the_one_shot_meanwhile(tmp_path: Path) -> None:
    found = conflicts(HELD, tmp_path)
    assert [f.rule for f in found] == ["more-than-owned"]
    assert found[0].sentence == (
        "of 'panel' and 'tube' there are 2 pieces: 'dusk' 1 for 'moon' and 'porch' 1 for 'near', which stay hot, and "
        "'attic' is shot meanwhile and needs 1 for 'lick'; the 3 setups together want 3; none of these uses may take "
        "anything else"
    )
    assert found[0].place.path == "setups.attic.lights.lick.lamp"


def test_a_held_setup_that_takes_others_is_not_named(tmp_path: Path) -> None:
    """The porch keeps a spot, and of those there are enough: dusk and attic alone want three of two."""
    text = HELD.replace("{near: {lamp: [tube, panel]}}", "{near: {lamp: spot}}").replace(
        "{moon: {lamp: [panel, tube]}", "{moon: {lamp: [panel, tube]}, star: {lamp: tube}"
    )
    found = conflicts(text, tmp_path)
    assert [f.rule for f in found] == ["more-than-owned"]
    assert "'dusk', hot until 'cellar', keeps 2 for 'moon' and 'star'" in found[0].sentence
    assert "'attic' is shot meanwhile and needs 1 for 'lick'" in found[0].sentence
    assert "porch" not in found[0].sentence


def lacks(plan: Plan, some: tuple[Use, ...]) -> bool:
    """Whether uses want more pieces than all the things that they may take have (Hall, 1935)."""
    things = {thing for use in some for thing in use.among}
    return len(some) > sum(occupancy.owned(plan, thing) for thing in things)


def test_the_set_named_is_the_smallest_of_all(tmp_path: Path) -> None:
    """Against every subset of the uses; where two are too many, both stand in the one set."""
    scarce = HELD.replace("[tube, panel]", "[tube, panel, spot]").replace("quantity: 3", "quantity: 1")
    for text in (INSIDE, HELD, scarce):
        plan = compiled(text, tmp_path).plan
        assert plan is not None
        uses = [u for setup in plan.setups.values() for u in occupancy.uses(plan, setup)]
        short = occupancy.short(plan, uses)
        sets = ((n, some) for n in range(1, len(uses) + 1) for some in combinations(uses, n))
        smallest = next(n for n, some in sets if lacks(plan, some))
        assert min(few.pieces + 1 for few in short) == smallest
        assert all(lacks(plan, few.uses) for few in short)
