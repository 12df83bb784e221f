"""A thing runs on a battery that the plan does not have, or on one with another plate.

On set: the monitor is black, and the batteries in the bag have the other plate.

How it is decided: a thing that a setup takes and that says 'battery:' (a plate, or a battery by name) needs a thing of
kind battery with that 'plate:' or name, unless it hangs on a circuit or has a 'plug:'. A battery named in a setup must
be of kind battery and, where both say it, have the plate of the thing. How long it lasts is another matter.
Source: the plates the plan names.

Fix: add the battery to the gear, or name one with the right plate.

When to accept it: the battery is built in ('battery: own').
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import Once, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan import Plan
    from ..plan.gear import Gear

RULE = "missing-battery"
SEVERITY: Final = "error"
TITLE = "a thing has no battery that fits it"

TRIGGERS = """
hotset: 1
gear:
  body-a: {kind: camera, battery: slide-plate}
  brick: {kind: battery, plate: wedge-plate, holds: 98 Wh}
setups:
  wide:
    camera:
      body: body-a  # <- here
"""
PASSES = TRIGGERS.replace("plate: wedge-plate", "plate: slide-plate").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    fresh = Once(plan)
    for setup in plan.setups.values():
        camera = setup.camera
        if camera is not None and camera.body in plan.gear and camera.body is not None:
            yield from _thing(plan, plan.gear[camera.body], camera.battery, camera.path, "body", fresh)
        for light in setup.lights.values():
            if light.lamp and light.circuit is None and light.lamp[0] in plan.gear:
                yield from _thing(plan, plan.gear[light.lamp[0]], light.battery, light.path, "lamp", fresh)
        for practical in setup.practicals.values():
            if practical.prop in plan.gear and practical.prop is not None and practical.circuit is None:
                yield from _thing(plan, plan.gear[practical.prop], practical.battery, practical.path, "prop", fresh)
        sound = setup.sound
        if sound is not None and sound.recorder in plan.gear and sound.recorder is not None:
            yield from _thing(plan, plan.gear[sound.recorder], None, sound.path, "recorder", fresh)


def _answers(battery: Gear, wants: str) -> bool:
    return wants in (battery.id, battery.plate, battery.mount)


def _thing(plan: Plan, thing: Gear, named: str | None, path: str, key: str, fresh: Once) -> Iterator[Finding]:
    wants = thing.battery
    if named == "own" or (wants is None and named is None):
        return
    if named is not None and named in plan.gear:
        battery = plan.gear[named]
        if battery.kind and battery.kind not in ("battery", "power") and fresh(f"{path}.battery"):
            yield _finding(
                plan,
                f"{path}.battery",
                f"'{thing.id}' is to run on '{named}', but that is a {battery.kind}, no battery",
                ("write the battery that is meant",),
                thing,
                named,
            )
        elif wants and battery.plate and not _answers(battery, wants) and fresh(f"{path}.battery"):
            yield _finding(
                plan,
                f"{path}.battery",
                f"'{named}' has plate '{battery.plate}', and '{thing.id}' takes '{wants}'",
                _ways(plan, wants),
                thing,
                named,
            )
        return
    if wants is None or wants == "own" or thing.plug:
        return
    batteries = [g for g in plan.gear.values() if g.kind == "battery"]
    if any(_answers(g, wants) or (not g.plate and not g.mount) for g in batteries):
        return
    if fresh(f"{path}.{key}"):
        others = f"; the plan's batteries have {quoted(g.plate or g.mount or g.id for g in batteries)}"
        yield _finding(
            plan,
            f"{path}.{key}",
            f"'{thing.id}' runs on '{wants}', and the plan has no such battery{others if batteries else ''}",
            _ways(plan, wants),
            thing,
            wants,
        )


def _ways(plan: Plan, wants: str) -> tuple[str, ...]:
    fitting = [g.id for g in plan.gear.values() if g.kind == "battery" and _answers(g, wants)]
    if fitting:
        return (f"take {quoted(fitting, 'or')}",)
    return (f"add a battery with 'plate: {wants}' to the gear", "or write 'battery: own' if it is built in")


def _finding(plan: Plan, path: str, sentence: str, ways: tuple[str, ...], thing: Gear, wants: str) -> Finding:
    return finding(
        plan,
        (RULE, SEVERITY),
        path,
        sentence,
        ways,
        (("thing", thing.id), ("battery", wants)),
        also=[(f"gear.{thing.id}", "what it takes")],
    )
