"""What runs on batteries along a day: which thing on which battery, from when to when, at how many watts.

A thing burns while its setup's takes run and for some minutes before; a lamp that is dimmed draws in proportion.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.setup import Setup
    from ..science.cells import Day
    from . import Facts

MANY = 1000  # batteries of a kind that are looked at
BEFORE = 20  # half-minutes a lamp or camera is on before the first take; common practice, no source
OWN = "own"


class Drain(NamedTuple):
    """One thing of a setup on a battery: the plan path, its name in the setup, the gear, the battery (`own` for one
    that is built in), watts (0 where it is not said), and the share of its full power."""

    path: str
    words: str
    gear: Gear
    battery: str
    watts: float
    level: float


class Burn(NamedTuple):
    """A drain on the day: setup, from and to in half-minutes, and which of several alike (from 1)."""

    drain: Drain
    setup: str
    start: float
    end: float
    number: int


class Store(NamedTuple):
    """The batteries of one kind along a day: the battery, or the thing that has its own; how many there are; what one
    full one gives (Wh; of a thing's own battery minutes at full power); and how the day goes with them."""

    gear: Gear
    own: bool
    pieces: int
    full: float
    day: Day


def energy(battery: Gear) -> float | None:
    """Watt-hours a battery holds; None where the plan does not say them."""
    from ..source.quantities import QuantityError, parse

    if not battery.holds:
        return None
    try:
        return float(parse("energy", battery.holds))
    except QuantityError:
        return None


def batteries(plan: Plan) -> list[Gear]:
    """The batteries of the plan."""
    return [g for g in plan.gear.values() if g.kind == "battery"]


def battery_of(plan: Plan, gear: Gear, named: str | None) -> str:
    """What a thing runs on: a battery by name, `own`, or "" where it runs on none or on none that is known."""
    if named == OWN or (named is None and gear.battery is None and gear.runs is not None):
        return OWN
    wants = named or gear.battery
    if not wants:
        return ""
    if wants in plan.gear:
        return wants
    return next((g.id for g in batteries(plan) if wants in (g.plate, g.mount)), "")


def drains(plan: Plan, setup: Setup) -> Iterator[Drain]:
    """Everything of a setup that runs on a battery."""
    camera = setup.camera
    body = plan.gear.get(camera.body) if camera and camera.body else None
    if camera is not None and body is not None:
        on = battery_of(plan, body, camera.battery)
        if on:
            yield Drain(f"{camera.path}.battery", body.id, body, on, float(body.draws or 0.0), 1.0)
    for light in setup.lights.values():
        lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
        if lamp is None or light.circuit is not None:
            continue
        on = battery_of(plan, lamp, light.battery)
        if on:
            level = 1.0 if light.level is None else float(light.level)
            yield Drain(f"{light.path}.battery", light.id, lamp, on, float(lamp.draws or 0.0), level)
    for practical in setup.practicals.values():
        prop = plan.gear.get(practical.prop or "")
        if prop is None or practical.circuit is not None:
            continue
        on = battery_of(plan, prop, practical.battery)
        if on:
            level = 1.0 if practical.level is None else float(practical.level)
            yield Drain(f"{practical.path}.battery", practical.id, prop, on, float(prop.draws or 0.0), level)


def burns(facts: Facts, day_id: str) -> tuple[Burn, ...]:
    """What burns when on a day with an agreed order."""
    line = facts.timelines.get(day_id)
    found: list[Burn] = []
    if line is None:
        return ()
    until: dict[str, float] = {}
    for step in line.steps:
        if step.kind != "setup" or step.setup not in facts.plan.setups:
            continue
        count: dict[str, int] = {}
        for drain in drains(facts.plan, facts.plan.setups[step.setup]):
            number = count[drain.gear.id] = count.get(drain.gear.id, 0) + 1
            what = f"{drain.gear.id} {number}"
            start = max(float(step.start - BEFORE), until.get(what, float(line.call)))
            until[what] = float(step.end)
            found.append(Burn(drain, step.setup, start, float(step.end), number))
    return tuple(found)


def charger(plan: Plan, battery: Gear) -> tuple[Gear, float, int] | None:
    """What charges a battery: the charger, minutes for a full charge, how many at a time."""
    for gear in plan.gear.values():
        fits = battery.id in gear.charges or (gear.plate is not None and gear.plate == battery.plate)
        if gear.kind == "charger" and fits and gear.fills is not None:
            return gear, float(gear.fills) / 60.0, (gear.slots or 1) * (gear.quantity or 1)
    return None


def along(plan: Plan, battery: Gear, holds: float, count: int, burnt: Sequence[Burn]) -> Day:
    """How a day goes for so many batteries of a kind, of `holds` Wh each, with the plan's charger."""
    from ..science import cells

    uses = [
        cells.Use(b.start / 2, b.end / 2, b.drain.watts * b.drain.level, f"{b.drain.gear.id} {b.number}") for b in burnt
    ]
    found = charger(plan, battery)
    fills, slots = (found[1], found[2]) if found else (None, 0)
    return cells.along_the_day(uses, holds, min(count, MANY), fills, min(slots, MANY))


def stores(facts: Facts, day_id: str) -> tuple[Store, ...]:
    """Every kind of battery that is used on a day with an agreed order, as far as the plan says what they hold."""
    from ..science import cells

    kinds: dict[tuple[str, str], list[Burn]] = {}
    for burn in burns(facts, day_id):
        on = burn.drain.battery
        kinds.setdefault((on, burn.drain.gear.id if on == OWN else ""), []).append(burn)
    found: list[Store] = []
    for (battery, thing), burnt in kinds.items():
        gear = facts.plan.gear.get(thing or battery)
        if gear is None:
            continue
        count = gear.quantity or 1
        if battery == OWN:
            if gear.runs is not None and gear.runs > 0:
                runs = float(gear.runs) / 60.0
                uses = [cells.Use(b.start / 2, b.end / 2, 60.0 * b.drain.level, f"{thing} {b.number}") for b in burnt]
                day = cells.along_the_day(uses, runs, min(count, MANY), usable=1.0)
                found.append(Store(gear, True, count, runs, day))
            continue
        holds = energy(gear)
        if holds is not None and holds > 0 and all(b.drain.watts > 0 for b in burnt):
            day = along(facts.plan, gear, holds, count, burnt)
            found.append(Store(gear, False, count, holds * cells.USABLE, day))
    return tuple(found)
