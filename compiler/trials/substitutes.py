"""The plan with what serves put in the place of what is lost, so that light, size and load are judged with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import spare
from ..record import replace

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ..facts import Facts
    from ..facts.spare import Gap
    from ..plan import Plan
    from ..plan.setup import Setup


def served(facts: Facts, lost: Mapping[str, int]) -> Plan:
    """The plan in which every lamp, lens, body and support that another thing serves for is that other thing."""
    plan = facts.plan
    setups = dict(plan.setups)
    for setup, shot in facts.takes:
        for gap in spare.gaps(facts, setup, shot, lost):
            if gap.by in plan.gear and gap.by != gap.lost:
                setups[setup.id] = _with(setups[setup.id], gap)
    return replace(plan, setups=setups)


def _with(setup: Setup, gap: Gap) -> Setup:
    front, _, key = gap.path.rpartition(".")
    for name, light in setup.lights.items():
        if light.path == front and key == "lamp":
            return replace(setup, lights={**setup.lights, name: replace(light, lamp=(gap.by,))})
        if light.path == front and key == "on":
            return replace(setup, lights={**setup.lights, name: replace(light, on=gap.by)})
    camera = setup.camera
    if camera is not None and camera.path == front and key in ("body", "lens", "on"):
        return replace(setup, camera=replace(camera, **{key: gap.by}))
    return setup
