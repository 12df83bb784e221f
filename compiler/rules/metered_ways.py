"""The ways out of a wrong exposure: stop, ISO, filter, what stands before the key, its level, its distance."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ..facts import exposure
from ..science import exposure as optics
from ..source.quantities import Stop, show
from .physics import length, stops

if TYPE_CHECKING:
    from ..facts.light import Arrival
    from ..plan import Plan
    from .metered import Off

_ISO = (100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400, 12800)
_NEAREST, _FURTHEST = 0.3, 30.0
_OFF = 2 / 3  # stops of a layer from which on taking it off is offered


def ways(plan: Plan, off: Off) -> tuple[str, ...]:
    """Each does by itself; the one that changes least on set comes first."""
    key = off.reading.key if off.reading is not None else None
    offers = [_by_layer(off, key), _by_filter(plan, off), _by_stop(plan, off), _by_iso(plan, off)]
    offers.append(_by_lamp(plan, off, key) if key is not None and off.day is None else "")
    found = [way for way in offers if way]
    return tuple(("or " if i else "") + way for i, way in enumerate(found)) or ("take another lamp for the key",)


def _middle(off: Off) -> float:
    """Lux to set the camera by: of daylight the middle, in stops, of the darkest and the brightest."""
    if off.day is None:
        return off.lux
    rest = off.lux - (off.day.least.key if off.stops > 0 else off.day.most.key)
    return max(rest, 0.0) + math.sqrt(max(off.day.least.key, 1e-3) * max(off.day.most.key, 1e-3))


def _by_layer(off: Off, key: Arrival | None) -> str:
    """To take off what takes the most, where that is cloth or a gel and the light is enough without it."""
    loss = next((x for x in key.losses if x.off), None) if key is not None and off.stops < 0 else None
    if loss is None or loss.stops < _OFF or off.reading is None:
        return ""
    assert key is not None
    back = key.lux * (2.0**loss.stops - 1.0)
    if optics.stops_over(off.lux + back, off.wanted) < -1.0:
        return ""
    return f"take {loss.words} off, or something thinner ({stops(loss.stops)} now)"


def _by_filter(plan: Plan, off: Off) -> str:
    """A grey filter for what is too bright by day: the plan's own where it has one, else its strength."""
    if off.stops < 0 or off.day is None:
        return ""
    over = optics.stops_over(_middle(off), off.wanted)
    used = set(off.setup.camera.filters) if off.setup.camera is not None else set()
    own = [g for g in plan.gear.values()
           if g.kind == "filter" and g.loses is not None and g.shifts is None and g.id not in used]  # fmt: skip
    near = min(own, key=lambda g: abs(float(g.loses or 0.0) - over), default=None)
    first = ""
    if near is not None and near.loses is not None and float(near.loses) <= over + 1.0:
        first, over = f"'{near.id}' ({stops(float(near.loses))})", over - float(near.loses)
    whole = round(over)
    more = f"a grey filter of {stops(whole)} (density {whole * 0.3:.1f})" if whole > (1 if first else 0) else ""
    both = " and ".join(x for x in (first, more) if x)
    return f"put {both} before the lens" if both else ""


def _by_stop(plan: Plan, off: Off) -> str:
    """The stop that this light gives, as lenses print it, where the lens has it."""
    camera, time = off.setup.camera, exposure.shutter(off.setup)
    assert camera is not None
    assert camera.stop is not None
    light = _middle(off) * optics.transmittance(exposure.filter_stops(plan, off.setup))
    number = optics.marked(optics.stop_for(light, time or 1.0, float(camera.iso or 1)))
    lens = plan.gear.get(camera.lens or "")
    opens = float(lens.opens.number) if lens is not None and lens.opens is not None else 0.0
    if number is None or number < opens - 0.05 or number > 22.0:
        return ""
    what = "open to" if off.stops < 0 else "stop down to"
    return f"{what} {show('stop', Stop(number, camera.stop.transmission))}"


def _by_iso(plan: Plan, off: Off) -> str:
    """The nearest ISO of the series at which the set stop is right, or a base ISO of the body that is as near."""
    camera = off.setup.camera
    assert camera is not None
    exact = float(camera.iso or 0.0) * off.wanted / max(_middle(off), 1e-9)
    if exact <= 0:
        return ""
    body = plan.gear.get(camera.body or "")
    bases = [float(iso) for iso in (body.iso if body is not None else ()) or () if iso > 0]
    near = [iso for iso in bases if abs(math.log2(iso / exact)) <= 2 / 3 and iso != camera.iso]
    if near:
        best = min(near, key=lambda iso: abs(math.log2(iso / exact)))
        return f"set {best:g} ISO, a base of '{camera.body}'"
    fits = [iso for iso in _ISO if abs(math.log2(iso / exact)) <= 1 / 3 + 0.01]
    return f"set {min(fits, key=lambda iso: abs(math.log2(iso / exact)))} ISO" if fits else ""


def _by_lamp(plan: Plan, off: Off, key: Arrival) -> str:
    """The key's level, where its dimmer reaches it, else its distance in the same direction."""
    assert off.reading is not None
    rest = off.reading.lux - key.lux
    needed = off.wanted - rest
    if needed <= 0 or key.lux <= 0:
        return ""
    level = (1.0 if key.item.level is None else float(key.item.level)) * needed / key.lux
    least = float(key.lamp.dims.lo) if key.lamp.dims is not None else 1.0
    if least - 1e-9 <= level <= 1.0 + 1e-9:
        return f"set '{key.item.id}' to {level * 100:.0f} %"
    if key.bounced:
        return ""
    near, far = _NEAREST, _FURTHEST
    if not key.lux_from(far) <= needed <= key.lux_from(near):
        return ""
    for _ in range(50):
        middle = (near + far) / 2
        near, far = (middle, far) if key.lux_from(middle) > needed else (near, middle)
    return f"put '{key.item.id}' {length(plan, near)} from the mark, not {length(plan, key.metres)}"
