"""The colour of each source of a setup: what it can be set to, what its gels make of it, what the camera sees."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..science import colour
from . import tint
from .tables import table

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.setup import Setup
    from ..source.quantities import Range

STEP = 20.0  # mired, just seen; common practice, no source


def made(lamp: Gear) -> Range | None:
    """The colours a lamp makes; None where the plan does not say, or says nought."""
    return lamp.colour if lamp.colour is not None and lamp.colour.lo > 0 else None


class Tone(NamedTuple):
    """A lamp or practical in a setup: its name, plan path, the lamps it may be (best liked first), the colour the plan
    sets it to (None: none), the mired its gels add, the gels whose shift is not said, and the points of green
    (negative: magenta) of the lamp and its gels (None: a cast of which no strength is known)."""

    words: str
    path: str
    lamps: tuple[Gear, ...]
    asked: float | None
    shift: float
    silent: tuple[str, ...]
    green: float | None = 0.0

    @property
    def lamp(self) -> Gear:
        """The best liked."""
        return self.lamps[0]

    def set_to(self) -> float | None:
        """Kelvin before the gels: as set, or the lamp's one colour."""
        own = made(self.lamp)
        if own is not None and own.lo == own.hi:
            return float(own.lo)
        return self.asked

    def seen(self) -> float | None:
        """Kelvin behind the gels; None where it is not known."""
        base = self.set_to()
        if base is None or self.silent:
            return None
        own = made(self.lamp)
        if self.asked is not None and own is not None and own.lo == own.hi and self.shift and _is_result(self):
            return self.asked
        total = colour.mired(base) + self.shift
        return 1e6 / total if total > 1.0 else None


def _is_result(tone: Tone) -> bool:
    """Whether a fixed lamp's `colour:` tells what comes out behind its gels."""
    own = made(tone.lamp)
    assert own is not None
    assert tone.asked is not None
    behind = colour.mired(float(own.lo)) + tone.shift
    return abs(colour.mired(tone.asked) - behind) <= STEP


def tones(plan: Plan, setup: Setup) -> tuple[Tone, ...]:
    """Every lamp and practical of a setup that is in the plan's gear."""
    found = []
    for item in setup.lights.values():
        lamps = tuple(plan.gear[n] for n in item.lamp if n in plan.gear)
        if lamps:
            shift, silent = _gels(plan, item.with_)
            asked = None if item.colour is None else float(item.colour)
            found.append(Tone(item.id, item.path, lamps, asked, shift, silent, _green(plan, lamps[0], item.with_)))
    for one in setup.practicals.values():
        names = [n for n in (one.bulb, one.prop) if n in plan.gear and n is not None]
        bulb = next((plan.gear[n] for n in names if made(plan.gear[n]) is not None), None)
        asked = None if one.colour is None else float(one.colour)
        if bulb is not None:
            found.append(Tone(one.id, one.path, (bulb,), asked, 0.0, (), _green(plan, bulb, ())))
    return tuple(found)


def _green(plan: Plan, lamp: Gear, names: tuple[str, ...]) -> float | None:
    """Points of green of a lamp behind its gels."""
    total = tint.points(lamp.tint or "")
    for name in names:
        thing = plan.stock.get(name) or plan.gear.get(name)
        more = tint.of_gel(f"{name} {(thing.of if thing is not None else None) or ''}")
        total = None if total is None else total + more
    return total


def _gels(plan: Plan, names: tuple[str, ...]) -> tuple[float, tuple[str, ...]]:
    total, silent = 0.0, []
    for name in names:
        thing = plan.stock.get(name) or plan.gear.get(name)
        if thing is None:
            continue
        if thing.shifts is not None:
            total += float(thing.shifts)
        elif (
            "gel" in f"{name} {thing.of or ''}".lower()
            and thing.loses is None
            and not tint.of_gel(f"{name} {thing.of or ''}")
        ):
            silent.append(name)
    return total, tuple(silent)


def gels(plan: Plan) -> tuple[colour.Gel, ...]:
    """What shifts colour in the plan's own stock and gear."""
    own = [
        colour.Gel(thing.id, float(thing.shifts), float(thing.loses or 0.0))
        for family in (plan.stock, plan.gear)
        for thing in family.values()
        if thing.shifts is not None
    ]
    return tuple(own)


def usual_gels() -> tuple[colour.Gel, ...]:
    """Lighting gels by their usual names, with typical shifts."""
    rows = table("filters")["lamp"]["gels"]
    return tuple(colour.Gel(name, float(row["mired"]), float(row["stops"])) for name, row in rows.items())


def best(source: float, wanted: float, known: tuple[colour.Gel, ...]) -> tuple[tuple[colour.Gel, ...], float]:
    """The gels, one or two that shift the same way, that bring a source (K) within what is just seen of a colour, and
    the mired still missing; none where no such two do."""
    missing = colour.mired(wanted) - colour.mired(source)
    same = [g for g in known if g.shift * missing > 0]
    for layers in (1, 2):
        chosen, left = colour.gels_for(source, wanted, same, layers) if same else ((), missing)
        if chosen and abs(left) <= STEP:
            return chosen, left
    return (), missing


def offer(plan: Plan, source: float, wanted: float) -> tuple[str, float, bool] | None:
    """The gels that bring a source (K) to a colour: their names in words, the kelvin they make, and whether they are
    typical ones and not the plan's own; None where none comes within what is just seen."""
    for known, typical in ((gels(plan), False), (usual_gels(), True)):
        chosen, left = best(source, wanted, known)
        if chosen:
            names = [g.name if typical else f"'{g.name}'" for g in chosen]
            return " and ".join(names), 1e6 / (colour.mired(wanted) - left), typical
    return None
