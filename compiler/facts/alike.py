"""What could serve instead of a thing: its 'plan-b:', and other gear that does at least the same by what the plan says.

Only what the plan tells is compared: a lens with another mount, a lamp without a colour that is needed, a stand that
carries less serve nobody. Where the plan tells nothing to compare, only things with the same words under 'of:' are
alike.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from ..plan import Plan
    from ..plan.gear import Gear
    from ..source.quantities import Output, Range

LIGHT_ENOUGH = 0.7  # of the other's output, half a stop less; common practice, no source


def instead(plan: Plan, thing: str) -> tuple[str, ...]:
    """What could serve instead, the plan's own word first, then what is alike, in the order of the plan."""
    gear = plan.gear[thing]
    named = [name for name in gear.plan_b if name in plan.gear and name != thing]
    others = [g.id for g in plan.gear.values() if g.id != thing and g.id not in named and alike(gear, g)]
    return (*named, *others)


def alike(lost: Gear, other: Gear) -> bool:
    """Whether `other` does at least what `lost` does."""
    if lost.kind is None or lost.kind != other.kind:
        return False
    if lost.of and lost.of == other.of and lost.kind != "light":
        return True
    judge = _JUDGES.get(lost.kind)
    return judge is not None and judge(lost, other)


def _within(inner: Range | None, outer: Range | None) -> bool:
    if inner is None:
        return True
    return outer is not None and outer.lo <= inner.lo * 1.001 and outer.hi >= inner.hi * 0.999


def _at_least(wanted: float | None, has: float | None) -> bool:
    return wanted is None or (has is not None and float(has) >= float(wanted) * 0.999)


def _lens(lost: Gear, other: Gear) -> bool:
    same_glass = lost.focal is not None and _within(lost.focal, other.focal) and lost.mount == other.mount
    fast = lost.opens is None or (other.opens is not None and other.opens.number <= lost.opens.number + 1e-6)
    return same_glass and fast and _at_least(lost.circle, other.circle)


def _light(lost: Gear, other: Gear) -> bool:
    if lost.colour is None or not _within(lost.colour, other.colour) or not _overlap(lost.beam, other.beam):
        return False
    bare, has = lost.gives.get("bare"), other.gives.get("bare")
    if bare is None:
        return True
    return has is not None and has.unit == bare.unit and _output(has) >= LIGHT_ENOUGH * _output(bare)


def _overlap(one: Range | None, other: Range | None) -> bool:
    """Whether two beams meet; one that is not told meets every other."""
    return one is None or other is None or (one.lo <= other.hi and other.lo <= one.hi)


def _output(output: Output) -> float:
    """Brought to one metre: the light falls off with the square of the distance."""
    return output.value * (output.metres or 1.0) ** 2


def _support(lost: Gear, other: Gear) -> bool:
    told = lost.carries is not None or lost.reaches is not None or lost.moves
    return (
        bool(told)
        and set(lost.moves) <= set(other.moves)
        and _at_least(lost.carries, other.carries)
        and _within(lost.reaches, other.reaches)
        and bool(other.counterweight) >= bool(lost.counterweight)
    )


def _filter(lost: Gear, other: Gear) -> bool:
    same = lost.loses is not None and lost.loses == other.loses and lost.thread == other.thread
    return same and lost.shifts == other.shifts and (lost.of is None or other.of is None)


def _adapter(lost: Gear, other: Gear) -> bool:
    return bool(lost.from_ and lost.to) and (lost.from_, lost.to, lost.thick) == (other.from_, other.to, other.thick)


def _battery(lost: Gear, other: Gear) -> bool:
    return lost.plate is not None and lost.plate == other.plate


def _media(lost: Gear, other: Gear) -> bool:
    return lost.holds is not None and _at_least(lost.writes, other.writes) and other.holds is not None


def _lead(lost: Gear, other: Gear) -> bool:
    told = lost.long is not None and _at_least(lost.long, other.long)
    return told and (lost.plug, lost.outlet) == (other.plug, other.outlet) and _at_least(lost.section, other.section)


def _modifier(lost: Gear, other: Gear) -> bool:
    same = lost.makes is not None or lost.loses is not None
    return same and set(lost.fits) <= set(other.fits) and (lost.loses, lost.makes) == (other.loses, other.makes)


def _camera(lost: Gear, other: Gear) -> bool:
    told = lost.sensor is not None and lost.sensor == other.sensor and lost.mount == other.mount
    return told and set(lost.codecs) <= set(other.codecs)


_JUDGES: dict[str, Callable[[Gear, Gear], bool]] = {
    "lens": _lens,
    "light": _light,
    "support": _support,
    "filter": _filter,
    "adapter": _adapter,
    "battery": _battery,
    "media": _media,
    "power": _lead,
    "modifier": _modifier,
    "camera": _camera,
}
