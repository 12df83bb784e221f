"""What changes from one setup to the next: lamps, windows, cloth, practicals, as keep, new, move, change or remove."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from ..plan import Plan
from ..plan.light import Grip, Light, Practical, Treatment
from ..plan.setup import Setup
from ..record import fields_of, record, replace

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
    """The setup shot last in the same set before this one on the day, without the lamps and flags that were taken
    elsewhere since; None when the set is fresh."""
    room, here = plan.setups[setup].set, order.index(setup)
    last = next((k for k in range(here - 1, -1, -1) if plan.setups[order[k]].set == room), None)
    if last is None:
        return None
    before = plan.setups[order[last]]
    since = [plan.setups[name] for name in order[last + 1 : here]]
    lamps = {n: light.lamp[0] for n, light in before.lights.items() if len(light.lamp) == 1}
    flags = {n: grip.use for n, grip in before.grip.items() if grip.use}
    away = _away(plan, lamps, [[one.lamp[0] for one in s.lights.values() if len(one.lamp) == 1] for s in since])
    gone = _away(plan, flags, [[one.use for one in s.grip.values() if one.use] for s in since])
    if not away and not gone:
        return before
    lights = {n: light for n, light in before.lights.items() if n not in away}
    return replace(before, lights=lights, grip={n: grip for n, grip in before.grip.items() if n not in gone})


def _away(plan: Plan, stood: Mapping[str, str], elsewhere: list[list[str]]) -> frozenset[str]:
    """Of what stood in a set (its name there, its piece), what the setups shot elsewhere since had to take: of pieces
    that are alike, only so many as there were too few of, the last named first."""
    gone: set[str] = set()
    for piece in dict.fromkeys(stood.values()):
        gear = plan.gear.get(piece)
        mine = [name for name, one in stood.items() if one == piece]
        wanted = max((names.count(piece) for names in elsewhere), default=0)
        short = wanted + len(mine) - (gear.quantity or 1) if gear is not None and wanted else 0
        gone.update(mine[len(mine) - min(short, len(mine)) :] if short > 0 else ())
    return frozenset(gone)


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
