"""What changes from one setup to the next: lamps, windows, cloth, practicals, as keep, new, move, change or remove."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from ..plan import Plan
from ..plan.light import Grip, Light, Practical, Treatment
from ..plan.setup import Setup
from ..record import fields_of, record

Step = Literal["keep", "new", "move", "change", "remove"]
# What the crew has to do something about; where a lamp stands, as against how it is set.
_SAID = frozenset({
    "with_", "on", "held_by", "during", "at", "outside", "away", "along", "in_", "through", "height", "aim", "colour",
    "level", "circuit", "battery", "bounce", "effect",
})  # fmt: skip
_PLACE = ("at", "outside", "away", "along", "in_", "height", "on", "held_by", "through")


@record
class LampStep:
    """One lamp against the setup before. `was` is its place's name there when it comes from another one; `changed`
    are the keys that differ where it stays under its name."""

    step: Step
    name: str
    light: Light
    was: str = ""
    changed: tuple[str, ...] = ()


@record
class ThingStep:
    """A window, a cloth or flag, or a practical against the setup before."""

    step: Step
    name: str
    thing: Treatment | Grip | Practical


def before_in_set(plan: Plan, order: tuple[str, ...], setup: str) -> Setup | None:
    """The setup shot last in the same set before this one on the day, or None when the set is fresh."""
    room = plan.setups[setup].set
    earlier = [name for name in order[: order.index(setup)] if plan.setups[name].set == room]
    return plan.setups[earlier[-1]] if earlier else None


def lamp_steps(now: Setup, before: Setup | None) -> tuple[LampStep, ...]:
    """Every lamp of a setup in the plan's order, then what leaves."""
    old = dict(before.lights) if before else {}
    steps: list[LampStep] = []
    left = dict(old)
    waiting: list[tuple[int, str, Light]] = []
    for name, light in now.lights.items():
        former = old.get(name)
        if former is not None and former.lamp == light.lamp:
            left.pop(name)
            changed = tuple(key for key in fields_of(Light) if key in _SAID and _differs(light, former, key))
            step: Step = "keep" if not changed else "move" if any(key in _PLACE for key in changed) else "change"
            steps.append(LampStep(step, name, light, changed=changed))
        else:
            waiting.append((len(steps), name, light))
            steps.append(LampStep("new", name, light))
    for index, name, light in waiting:
        # The same piece under another name has moved; only a single named lamp can be told to be the same piece.
        same = next((n for n, f in left.items() if len(light.lamp) == 1 and f.lamp == light.lamp), None)
        if same is not None:
            left.pop(same)
            steps[index] = LampStep("move", name, light, was=same)
    steps += [LampStep("remove", name, light) for name, light in left.items()]
    return tuple(steps)


def thing_steps(
    now: Mapping[str, Treatment] | Mapping[str, Grip] | Mapping[str, Practical],
    before: Mapping[str, Treatment] | Mapping[str, Grip] | Mapping[str, Practical],
) -> tuple[ThingStep, ...]:
    """Windows, grip or practicals by name; a window that is no longer named is as it was by itself."""
    steps: list[ThingStep] = []
    for name, thing in now.items():
        former = before.get(name)
        if former is None:
            steps.append(ThingStep("new", name, thing))
        else:
            same = _bare(former) == _bare(thing)
            moved = isinstance(thing, Grip) and isinstance(former, Grip) and thing.use == former.use
            steps.append(ThingStep("keep" if same else "move" if moved else "change", name, thing))
    steps += [ThingStep("remove", name, thing) for name, thing in before.items() if name not in now]
    return tuple(steps)


def lamp_numbers(plan: Plan, order: tuple[str, ...]) -> dict[tuple[str, str], int]:
    """A number for every lamp of a day, by set and name: counted in each set in the order of first use."""
    numbers: dict[tuple[str, str], int] = {}
    counts: dict[str, int] = {}
    for setup in order:
        room = plan.setups[setup].set or ""
        for name in plan.setups[setup].lights:
            if (room, name) not in numbers:
                counts[room] = counts.get(room, 0) + 1
                numbers[room, name] = counts[room]
    return numbers


def _differs(light: Light, former: Light, key: str) -> bool:
    return bool(_bare(getattr(light, key)) != _bare(getattr(former, key)))


def _bare(thing: Any) -> Any:
    """A noun as its values without path, id and notes, which differ between setups though nothing changes on set."""
    if not hasattr(thing, "path"):
        return thing
    return tuple(
        (key, _bare(getattr(thing, key))) for key in fields_of(type(thing)) if key not in ("id", "path", "note")
    )
