"""How a lamp shines with what is before it: lux on its axis, its lit face, its beam, by its colour setting.

Lux at a distance or candela are measurements of the maker; what follows from lumens and an angle is an estimate, a
stop to either side.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from ..science import light
from ..source.quantities import Output
from .passing import loss_of

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.light import Light

NARROW = 15.0  # degrees off the axis within which a lamp without a beam angle counts as even


class Source(NamedTuple):
    """How a lamp shines: lux at `metres` on its axis, the radius of its lit face (0: a point), the beam and field
    angle (None: not said), whether it is an estimate, what of it is typical, and what is before it with the stops that
    it takes."""

    lux: float
    metres: float
    radius: float
    beam: float | None
    field: float | None
    estimate: bool
    typical: tuple[str, ...]
    before: tuple[tuple[str, float], ...] = ()

    def at(self, distance: float) -> float:
        """Lux on the axis at a distance in metres."""
        if self.radius > 0:
            return light.disc_at_distance(self.lux, self.metres, distance, self.radius)
        return light.at_distance(self.lux, self.metres, distance)


def source_of(plan: Plan, item: Light, lamp: Gear) -> Source | str:
    """How a lamp shines with what is before it, or the detail that is wanting, in words."""
    named = next((n for n in item.with_ if n in lamp.gives), "bare")
    output = (_by_colour(item, lamp) if named == "bare" else None) or lamp.gives.get(named)
    if output is None:
        return f"'gives:' of '{lamp.id}', such as bare: 800 lx at 1 m"
    left, before = 1.0, []
    for name in (n for n in item.with_ if n != named):
        loses = loss_of(plan, name)
        if loses is None:
            return f"'loses:' of '{name}', or what '{lamp.id}' gives with it ('{name}: ... lx at 1 m')"
        left *= 2.0**-loses
        before.append((name, loses))
    soft, beam, field = _face(plan, lamp, item.with_)
    lux, metres = axis(output, lamp)
    if lux is None:
        return f"'beam:' of '{lamp.id}', without which lumens give no lux"
    typical = ("lux from lumens",) if output.unit == "lm" else ()
    return Source(lux * left, metres, soft, beam, field, output.unit == "lm", typical, tuple(before))


def _by_colour(item: Light, lamp: Gear) -> Output | None:
    """What a lamp gives at the colour it is set to, where the plan tells it for some ("3200 K: 500 lx at 1 m"): evenly
    in mired between two of them, at the nearest beyond; None where it tells none in one unit and at one distance."""
    named = ((1e6 / float(name.strip()[:-1]), out) for name, out in lamp.gives.items() if _kelvin_key(name))
    told = sorted(named, key=lambda pair: pair[0])
    if item.colour is None or float(item.colour) <= 0 or not told:
        return None
    first = told[0][1]
    if any((out.unit, out.metres) != (first.unit, first.metres) for _, out in told):
        return None
    wanted = 1e6 / float(item.colour)
    for (low, less), (high, more) in pairwise(told):
        if low <= wanted <= high:
            part = (wanted - low) / (high - low)
            return Output(less.value + part * (more.value - less.value), less.unit, less.metres)
    return told[0][1] if wanted < told[0][0] else told[-1][1]


def _kelvin_key(name: str) -> bool:
    """Whether a name of what a lamp gives is a colour setting: 3200 K."""
    number = name.strip().removesuffix("K").strip()
    return name.strip().endswith("K") and number.isdecimal() and 1000 <= int(number[:6]) <= 40000


def _face(plan: Plan, lamp: Gear, before: tuple[str, ...]) -> tuple[float, float | None, float | None]:
    """Radius of the lit face, beam and field angle: those of the outermost modifier that changes them, else the
    lamp's own at its widest."""
    soft, beam = lamp.soft, float(lamp.beam.hi) if lamp.beam is not None else None
    field = float(lamp.field.hi) if lamp.field is not None else None
    for name in before:
        modifier = plan.gear.get(name)
        if modifier is not None and modifier.soft:
            soft = modifier.soft
        if modifier is not None and modifier.makes is not None:
            beam, field = float(modifier.makes), None
    sides = [float(s) for s in soft or ()]
    radius = light.equal_disc(sides[0], sides[-1]) if sides else 0.0
    return radius, beam, field


def axis(output: Output, lamp: Gear) -> tuple[float | None, float]:
    """Lux at some metres on the axis of a lamp."""
    if output.unit == "lx":
        return float(output.value), float(output.metres or 1.0)
    if output.unit == "cd":
        return float(output.value), 1.0
    if lamp.beam is None or not 0 < lamp.beam.hi < 180:
        return None, 1.0
    return light.beam_candela(float(output.value), float(lamp.beam.hi)), 1.0


def beam_share(source: Source, off: float) -> float | None:
    """Part of the axis's light at an angle off it; None where no beam angle is said and the angle is not small."""
    if source.beam is None or source.beam <= 0:
        return 1.0 if off <= NARROW else None
    return light.fall_off(off, source.beam, source.field)
