"""What under-exposed and over-exposed share: the stops between the light at `key-at` and the stop that is set, and the
ways out, each worked out again before it is offered."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..facts import exposure
from ..findings import NotChecked
from ..science import exposure as optics
from ..source.quantities import show
from . import metered_ways, unmet
from .physics import Case, causes, lux, stops
from .words import clock, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.daylight import Daylight
    from ..facts.exposure import Reading
    from ..facts.passing import Loss
    from ..facts.room import RoomLight
    from ..findings import Finding, Severity
    from ..plan.setup import Setup

MEASURED, ESTIMATED = 1.0, 2.0
NOTHING = 90.0
TOLD = 2 / 3  # stops from which on a loss is worth naming


class Off(NamedTuple):
    """A setup whose light is off: the lamps at its mark (None: it has none), its daylight (None: none comes in), what
    the room gives back where that was needed, the lux it was judged by, those wanted, and the stops over (positive)
    or under."""

    setup: Setup
    reading: Reading | None
    day: Daylight | None
    room: RoomLight | None
    lux: float
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
    dead = [c for c in cases if c.what.stops < -NOTHING]
    alive = [c for c in cases if c.what.stops >= -NOTHING]
    for cause in (*causes(facts.plan, dead), *causes(facts.plan, alive)):
        yield _finding(facts, cause.worst.what, cause.also, rule)


def _off(facts: Facts, setup: Setup, rule: str, over: bool) -> Off | NotChecked | None:
    plan, subject = facts.plan, f"setup '{setup.id}'"
    if setup.camera is None:
        return None
    if not setup.lights and (setup.key_at is None or not setup.practicals):
        return _by_day(facts, setup, rule, over)
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
    if reading.key is None and not setup.lights:
        if facts.daylights.get(setup.id) is not None:
            return _by_day(facts, setup, rule, over)
        return NotChecked(rule, subject, exposure.unlit(plan, next(iter(setup.practicals.values()))))
    if reading.key is None:
        wants = reading.unknown[0].wants if reading.unknown else "'role: key' at one of its lamps"
        return NotChecked(rule, subject, wants)
    if not over and reading.unknown:
        return NotChecked(rule, subject, reading.unknown[0].wants)
    day = facts.daylights.get(setup.id)
    if isinstance(day, str):
        if not over:
            return NotChecked(rule, subject, day)
        day = None
    astray = unmet.wrong_hour(facts, setup) if day is not None else ""
    return NotChecked(rule, subject, astray) if astray else _judged(facts, setup, reading, day, over)


def _by_day(facts: Facts, setup: Setup, rule: str, over: bool) -> Off | NotChecked | None:
    """A setup without lamps: under the open sky, or by its windows."""
    day = facts.daylights.get(setup.id)
    if day is None:
        return None
    lacks = exposure.missing(setup) or (day if isinstance(day, str) else "")
    if lacks or isinstance(day, str):
        return NotChecked(rule, f"setup '{setup.id}'", lacks) if not over else None
    astray = unmet.wrong_hour(facts, setup)
    if astray:
        return NotChecked(rule, f"setup '{setup.id}'", astray)
    return _judged(facts, setup, None, day, over)


def _judged(facts: Facts, setup: Setup, reading: Reading | None, day: Daylight | None, over: bool) -> Off | None:
    """Over by the darkest that it may be, under by the brightest: lamps, daylight, and what the room gives back."""
    wanted = exposure.wanted(facts.plan, setup)
    if wanted is None:
        return None
    lamps = reading.lux if reading is not None else 0.0
    sky = 0.0 if day is None else day.least.key if over else day.most.key
    if lamps + sky <= 0:
        return None if over or reading is None else Off(setup, reading, day, None, 0.0, wanted, -99.0)
    bound = ESTIMATED if day is not None or (reading is not None and reading.estimate) else MEASURED
    side = 1.0 if over else -1.0
    if not _beyond(lamps + sky, wanted, side, bound):
        return None
    room = facts.room_light(setup.id) if not over else None
    whole = lamps + sky + (room.key if room is not None else 0.0)
    if not _beyond(whole, wanted, side, bound):
        return None
    return Off(setup, reading, day, room, whole, wanted, optics.stops_over(whole, wanted))


def _beyond(light: float, wanted: float, side: float, bound: float) -> bool:
    return side * optics.in_thirds(optics.stops_over(light, wanted)) > bound + 0.01


def _path(off: Off) -> str:
    if off.reading is not None and off.reading.key is not None:
        return off.reading.key.item.path
    return f"{off.setup.path}.camera"


def _finding(facts: Facts, off: Off, also: str, rule: tuple[str, Severity]) -> Finding:
    plan, setup, reading = facts.plan, off.setup, off.reading
    camera = setup.camera
    assert camera is not None
    assert camera.stop is not None
    key = reading.key if reading is not None else None
    if off.stops < -NOTHING:
        assert reading is not None
        sentence, ways = _nothing(off, reading)
    else:
        side = "over" if off.stops > 0 else "under"
        least = ("about " if off.day.said else "at least ") if off.day is not None else ""
        sentence = f"{_gets(off)}, and {_asks(facts, off)}: {least}{stops(off.stops)} {side}{_lost(off)}"
        ways = metered_ways.ways(plan, off)
    return finding(
        plan,
        rule,
        _path(off),
        sentence + also,
        ways,
        (
            ("setup", setup.id),
            ("mark", reading.mark if reading is not None else setup.key_at or ""),
            ("lux", round(off.lux, 1)),
            ("wanted_lux", round(off.wanted, 1)),
            ("stops", round(off.stops, 2)),
            ("key", key.item.id if key is not None else "daylight"),
            ("metres", round(key.metres, 2) if key is not None else ""),
        ),
        also=[(f"{camera.path}.stop", "the stop")],
        typical=_typical(off),
    )


def _typical(off: Off) -> tuple[str, ...]:
    found = [*(off.reading.typical if off.reading is not None else ())]
    found += off.room.typical if off.room is not None and off.room.key > 0.03 * off.lux else ()
    found += off.day.typical if off.day is not None else ()
    return tuple(dict.fromkeys(found))


def _asks(facts: Facts, off: Off) -> str:
    """T2.8 at 800 ISO and 180 deg behind 6 stops of filters asks for 235 lx."""
    camera = off.setup.camera
    assert camera is not None
    losses = exposure.filter_stops(facts.plan, off.setup)
    behind = f" behind {stops(losses)} of filters" if losses > 0.1 else ""
    return (
        f"{show('stop', camera.stop)} at {camera.iso:g} ISO and {show('shutter', camera.shutter)}{behind} asks for "
        f"{lux(off.wanted)}"
    )


def _gets(off: Off) -> str:
    """What arrives where, and from what."""
    setup, reading, day = off.setup, off.reading, off.day
    parts = []
    if reading is not None and reading.key is not None:
        joined = " and what joins it" if reading.lux > 1.03 * reading.key.lux else ""
        parts.append(f"{lux(reading.lux)} from '{reading.key.item.id}'{joined}")
    if off.room is not None and off.room.key > 0.03 * off.lux:
        parts.append(f"about {lux(off.room.key)} back from the room")
    if day is not None:
        few, many = lux(day.least.key), lux(day.most.key)
        span = few if few == many else f"{few.removesuffix(' lx')} to {many}"
        first, last = sorted((day.least.hour.clock, day.most.hour.clock))
        when = f"at {clock(first)}" if first == last else f"between {clock(first)} and {clock(last)}"
        parts.append(f"about {span} of daylight {when} {day.words}")
    where = f"'{reading.mark}' in '{setup.id}'" if reading is not None else f"'{setup.id}'"
    return f"{where} gets {' and '.join(parts)}"


def _lost(off: Off) -> str:
    """The greatest loss on the way of a key that is too dark, where it is worth naming."""
    loss = worst(off)
    return f"; the most, {stops(loss.stops)}, is lost to {loss.words}" if loss is not None else ""


def worst(off: Off) -> Loss | None:
    """The greatest loss of a key that is too dark."""
    key = off.reading.key if off.reading is not None else None
    losses = key.losses if key is not None and off.stops < 0 else ()
    return losses[0] if losses and losses[0].stops >= TOLD else None


def _nothing(off: Off, reading: Reading) -> tuple[str, tuple[str, ...]]:
    """A key of which nothing arrives: what stops it, and what to do."""
    key = reading.key
    assert key is not None
    head = f"nothing of '{key.item.id}' arrives at '{reading.mark}' in '{off.setup.id}': "
    stopped = next((x for x in key.losses if x.stops > NOTHING), None)
    if stopped is None:
        return f"{head}it is set to nothing", (f"set the level of '{key.item.id}'",)
    if stopped.off:
        return (
            f"{head}{stopped.words} stops it",
            (f"take {stopped.words} out of its way", "or put the lamp on this side of it"),
        )
    return f"{head}a wall stands between", ("move the lamp, or say which window or door it shines 'through:'",)
