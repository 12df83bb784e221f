"""What under-exposed and over-exposed share: the stops between the light at `key-at` and the stop that is set, and the
three ways out, each worked out again before it is offered."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from ..facts import exposure
from ..findings import NotChecked
from ..science import exposure as optics
from ..source.quantities import Stop, show
from .physics import Case, causes, length, lux, stops
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.exposure import Reading
    from ..facts.light import Arrival
    from ..findings import Finding, Severity
    from ..plan import Plan
    from ..plan.setup import Setup

MEASURED, ESTIMATED = 1.0, 2.0
_ISO = (100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400, 12800)
_NEAREST, _FURTHEST = 0.3, 30.0


class Off(NamedTuple):
    """A setup whose light is off: the reading, lux wanted, and the stops over (positive) or under."""

    setup: Setup
    reading: Reading
    wanted: float
    stops: float


def check(facts: Facts, rule: tuple[str, Severity], *, over: bool) -> Iterator[Finding | NotChecked]:
    """Every setup whose key is too dark, or with `over` too bright."""
    cases: list[Case[Off]] = []
    for setup in facts.plan.setups.values():
        found = _off(facts, setup, rule[0], over)
        if isinstance(found, NotChecked):
            yield found
        elif found is not None:
            cases.append(Case(_path(found), setup.id, abs(found.stops), found))
    for cause in causes(facts.plan, cases):
        yield _finding(facts, cause.worst.what, cause.also, rule)


def _off(facts: Facts, setup: Setup, rule: str, over: bool) -> Off | NotChecked | None:
    plan, subject = facts.plan, f"setup '{setup.id}'"
    if not setup.lights or setup.camera is None:
        return None
    lamps = [plan.gear[i.lamp[0]] for i in setup.lights.values() if i.lamp and i.lamp[0] in plan.gear]
    if setup.key_at is None:
        told = any(g.gives for g in lamps)
        return NotChecked(rule, subject, "'key-at:' (the mark where the key is measured)") if told else None
    reading = facts.readings.get(setup.id)
    if reading is None:
        return NotChecked(rule, subject, f"the place of mark '{setup.key_at}'")
    lacks = exposure.missing(setup)
    if lacks:
        return NotChecked(rule, subject, lacks)
    if reading.key is None:
        wants = reading.unknown[0].wants if reading.unknown else "'role: key' at one of its lamps"
        return NotChecked(rule, subject, wants)
    wanted = exposure.wanted(plan, setup)
    if wanted is None or reading.lux <= 0:
        return None if wanted is None or over else _dark(setup, reading, wanted)
    if not over and (reading.daylight or reading.unknown):
        wants = reading.unknown[0].wants if reading.unknown else f"the light of {reading.daylight}, on a meter"
        return NotChecked(rule, subject, wants)
    difference = optics.stops_over(reading.lux, wanted)
    bound = ESTIMATED if reading.estimate else MEASURED
    wrong = optics.in_thirds(difference) > bound + 0.01 if over else optics.in_thirds(difference) < -bound - 0.01
    return Off(setup, reading, wanted, difference) if wrong else None


def _dark(setup: Setup, reading: Reading, wanted: float) -> Off | None:
    """A key of which nothing arrives: a wall stands between."""
    return None if reading.daylight or reading.unknown else Off(setup, reading, wanted, -99.0)


def _path(off: Off) -> str:
    assert off.reading.key is not None
    return off.reading.key.item.path


def _finding(facts: Facts, off: Off, also: str, rule: tuple[str, Severity]) -> Finding:
    plan, setup, reading = facts.plan, off.setup, off.reading
    camera, key = setup.camera, reading.key
    assert camera is not None
    assert camera.stop is not None
    assert key is not None
    losses = exposure.filter_stops(plan, setup)
    behind = f" behind {stops(losses)} of filters" if losses > 0.1 else ""
    asks = (
        f"{show('stop', camera.stop)} at {camera.iso:g} ISO and {show('shutter', camera.shutter)}{behind} asks for "
        f"{lux(off.wanted)}"
    )
    if off.stops < -90:
        sentence = f"nothing of '{key.item.id}' arrives at '{reading.mark}' in '{setup.id}': a wall stands between"
        ways: tuple[str, ...] = ("move the lamp, or say which window or door it shines 'through:'",)
    else:
        joined = " and what joins it" if reading.lux > 1.03 * key.lux else ""
        side = "over" if off.stops > 0 else "under"
        sentence = (
            f"'{reading.mark}' in '{setup.id}' gets {lux(reading.lux)} from '{key.item.id}'{joined}, and "
            f"{asks}: {stops(off.stops)} {side}"
        )
        ways = _ways(plan, off)
    return finding(
        plan,
        rule,
        _path(off),
        sentence + also,
        ways,
        (
            ("setup", setup.id),
            ("mark", reading.mark),
            ("lux", round(reading.lux, 1)),
            ("wanted_lux", round(off.wanted, 1)),
            ("stops", round(off.stops, 2)),
            ("key", key.item.id),
            ("metres", round(key.metres, 2)),
        ),
        also=[(f"{camera.path}.stop", "the stop")],
        typical=reading.typical,
    )


def _ways(plan: Plan, off: Off) -> tuple[str, ...]:
    camera, key = off.setup.camera, off.reading.key
    assert camera is not None
    assert camera.stop is not None
    assert key is not None
    ways = [w for w in (_by_stop(plan, off), _by_iso(off), _by_lamp(plan, off, key)) if w]
    return tuple(("or " if i else "") + way for i, way in enumerate(ways)) or ("take another lamp for the key",)


def _by_stop(plan: Plan, off: Off) -> str:
    """The stop that this light gives, where the lens has it."""
    camera, time = off.setup.camera, exposure.shutter(off.setup)
    assert camera is not None
    assert camera.stop is not None
    number = optics.stop_for(
        off.reading.lux * optics.transmittance(exposure.filter_stops(plan, off.setup)),
        time or 1.0,
        float(camera.iso or 1),
    )
    lens = plan.gear.get(camera.lens or "")
    opens = float(lens.opens.number) if lens is not None and lens.opens is not None else 0.0
    if number < opens - 0.05 or number > 32.0:
        return ""
    what = "open to" if off.stops < 0 else "stop down to"
    return f"{what} {show('stop', Stop(round(number, 1), camera.stop.transmission))}"


def _by_iso(off: Off) -> str:
    """The nearest ISO of the series at which the set stop is right."""
    camera = off.setup.camera
    assert camera is not None
    exact = float(camera.iso or 0.0) * off.wanted / off.reading.lux
    fits = [iso for iso in _ISO if abs(math.log2(iso / exact)) <= 1 / 3 + 0.01]
    return f"set {min(fits, key=lambda iso: abs(math.log2(iso / exact)))} ISO" if fits else ""


def _by_lamp(plan: Plan, off: Off, key: Arrival) -> str:
    """The key's level, where its dimmer reaches it, else its distance in the same direction."""
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
