"""The fill is too strong or too weak for the key to fill ratio that is wanted.

On set: the contrast of the wide does not match the close-up that was lit in the morning.

How it is decided: lux of the key at the 'key-at' mark, on a meter turned to it, over the fill, on a meter turned to
the strongest lamp whose role is fill (away from the key where there is none): all fill lamps, boards and white cloth
that give light back, and the room itself. 2:1 is one stop, 4:1 two, 8:1 three. It is said from two thirds of a stop
on; from 1 2/3 for lamps told by lumens, and where more than a fifth of the fill comes from the room, which is an
estimate: matt walls at the reflectance said (else ceiling 70, walls 50, floor 20 %), each lamp's first bounce
followed, all later ones spread evenly as in an integrating sphere, E = lm x rho / (A (1 - rho)); furniture is left
out, black cloth and flags are not. Under the open sky without lamps the sun is the key, and the sky with ground and
boards the fill, from 1 2/3 stops on under every sky that may be. Source: arithmetic; photometry of rooms, tested
against a path tracer to a third of a stop (two thirds with cloth beside the mark); the tolerance is common practice, no
source.

Fix: take the fill or the key to the level named; where the room alone gives too much, hang black cloth on the side of
the fill.

When to accept it: the room was measured and is darker or brighter than reckoned.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts.exposure import role
from ..findings import NotChecked
from ..science import light as photometry
from . import unmet
from .physics import Case, causes, lux, stops
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.exposure import Reading
    from ..facts.light import Arrival
    from ..facts.room import RoomLight
    from ..findings import Finding
    from ..plan.setup import Setup

    Met = tuple[Setup, Reading, tuple[Arrival, ...], float, RoomLight | None, float]

RULE = "ratio-off"
SEVERITY: Final = "warning"
TITLE = "the fill does not make the ratio that is wanted"

TRIGGERS = """
hotset: 1
locations: {landing: {sets: {office: {size: 6 m x 4 m x 2.4 m, marks: {desk: {at: [2.0 m, 2.0 m], height: 1.5 m}}}}}}
gear:
  panel: {kind: light, gives: {bare: 1000 lx at 1 m}, beam: 100 deg, dims: 1-100 %, quantity: 2}
setups:
  office-wide:
    set: office
    key-at: desk
    key-to-fill: 4:1  # <- here
    lights:
      moon: {lamp: panel, role: key, at: [4.0 m, 2.0 m], height: 1.5 m, aim: desk, level: 50 %}
      soft: {lamp: panel, role: fill, at: [2.0 m, 0.5 m], height: 1.5 m, aim: desk, level: 25 %}
"""
PASSES = TRIGGERS.replace("level: 25 %", "level: 4 %").replace("  # <- here", "")
MEASURED, ESTIMATED = 0.5, 1.5
SHARE = 0.2  # of the fill, from which on the room's part makes it an estimate


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        if setup.key_to_fill is None or setup.key_to_fill <= 0:
            continue
        if not setup.lights:
            yield from _outside(facts, setup)
            continue
        reading = facts.readings.get(setup.id)
        fills = tuple(a for a in reading.arrivals if role(a) == "fill" and a.lux > 0) if reading else ()
        lacks = _lacks(setup, reading)
        if lacks or reading is None or reading.key is None:
            yield NotChecked(RULE, f"setup '{setup.id}'", lacks)
            continue
        room = facts.room_light(setup.id)
        lamps = sum(f.lux * max(0.0, _cosine(f, max(fills, key=lambda a: a.lux))) for f in fills)
        fill = lamps + (room.fill if room is not None else 0.0)
        if fill <= 0:
            yield NotChecked(RULE, f"setup '{setup.id}'", "'role: fill' at one of its lamps")
            continue
        off = photometry.ratio_stops(reading.key.lux / fill, float(setup.key_to_fill))
        estimate = reading.estimate or (room is not None and room.fill > SHARE * fill)
        if abs(off) > (ESTIMATED if estimate else MEASURED):
            met = (setup, reading, fills, lamps, room, off)
            cases.append(Case(f"{setup.path}.key-to-fill", setup.id, abs(off), met))
    for cause in causes(plan, cases):
        yield _finding(facts, cause.worst.what, cause.also)


def _outside(facts: Facts, setup: Setup) -> Iterator[Finding | NotChecked]:
    """The sun against the sky, where no lamp is: said where no sky that may be makes the ratio."""
    day, room = facts.daylights.get(setup.id), facts.plan.set_of(setup.id)
    if day is None or isinstance(day, str) or room is None or not room.outdoors:
        lacks = day if isinstance(day, str) else "'role: key' at a lamp that reaches the mark"
        yield NotChecked(RULE, f"setup '{setup.id}'", lacks)
        return
    astray = unmet.wrong_hour(facts, setup)
    if astray:
        yield NotChecked(RULE, f"setup '{setup.id}'", astray)
        return
    wanted = float(setup.key_to_fill or 1.0)
    have = sorted(level.key / level.fill for level in (day.least, day.most) if level.fill > 0)
    offs = [photometry.ratio_stops(one, wanted) for one in have]
    if not offs or (offs[0] <= ESTIMATED and offs[-1] >= -ESTIMATED):
        return
    hard = offs[0] > ESTIMATED
    off = offs[0] if hard else offs[-1]
    shown = " to ".join(f"{one:.1f}:1" for one in have if one in (have[0], have[-1]))
    way = (
        ("put a white board or cloth on the side away from the sun ('grip:')", "or a frame of diffusion before the sun")
        if hard
        else ("put black cloth on the side away from the light ('grip:')", "or wait for a clearer sky")
    )
    yield finding(
        facts.plan,
        (RULE, SEVERITY),
        f"{setup.path}.key-to-fill",
        f"sun to shade in '{setup.id}' is about {shown} {day.words}, not {wanted:g}:1: the fill is {stops(off)} "
        f"{'under' if hard else 'over'}",
        way,
        (("setup", setup.id), ("ratio", round(have[0] if hard else have[-1], 2)), ("wanted", wanted),
         ("stops", round(off, 2))),
    )  # fmt: skip


def _lacks(setup: Setup, reading: Reading | None) -> str:
    if setup.key_at is None:
        return "'key-at:' (the mark where the key is measured)"
    if reading is None:
        return f"the place of mark '{setup.key_at}'"
    if reading.key is None or reading.key.lux <= 0:
        return "'role: key' at a lamp that reaches the mark"
    if reading.unknown:
        return reading.unknown[0].wants
    if reading.daylight:
        return f"the light of {reading.daylight}, on a meter"
    return ""


def _cosine(one: Arrival, other: Arrival) -> float:
    return sum(a * b for a, b in zip(one.towards, other.towards, strict=True))


def _finding(facts: Facts, met: Met, also: str) -> Finding:
    setup, reading, fills, lamps, room, off = met
    key = reading.key
    assert key is not None
    own = room.fill if room is not None else 0.0
    fill, wanted = lamps + own, float(setup.key_to_fill or 1.0)
    have = key.lux / fill
    sources = [f"{lux(lamps)} from {quoted(f.item.id for f in fills)}"] if fills else []
    if own > 0.03 * fill:
        sources.append(f"about {lux(own)} back from the room")
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"{setup.path}.key-to-fill",
        f"key to fill at '{reading.mark}' in '{setup.id}' is {have:.1f}:1 ({lux(key.lux)} from '{key.item.id}', "
        f"{', '.join(sources)}), not {wanted:g}:1: the fill is {stops(off)} {'under' if off > 0 else 'over'}{also}",
        _ways(met),
        (
            ("setup", setup.id),
            ("key_lux", round(key.lux, 1)),
            ("fill_lux", round(fill, 1)),
            ("room_lux", round(own, 1)),
            ("ratio", round(have, 2)),
            ("wanted", wanted),
            ("stops", round(off, 2)),
        ),
        also=[(f.item.path, "the fill") for f in fills[:1]],
        typical=(*reading.typical, *(room.typical if room is not None and own > 0.03 * fill else ())),
    )


def _ways(met: Met) -> tuple[str, ...]:
    """Levels at which the ratio is right, each reckoned with what the room gives back of it."""
    _setup, reading, fills, lamps, room, off = met
    key, wanted = reading.key, float(met[0].key_to_fill or 1.0)
    assert key is not None
    of_fills, of_key = _parts(room, {f.item.id for f in fills}), _parts(room, {key.item.id})
    rest = (room.fill if room is not None else 0.0) - of_fills
    ways = []
    times = (key.lux / wanted - rest) / (lamps + of_fills) if lamps + of_fills > 0 else -1.0
    levels = [(f, _level(f) * times) for f in fills]
    if fills and times > 0 and all(_dims(f, level) for f, level in levels):
        ways.append("set " + " and ".join(f"'{f.item.id}' to {level * 100:.2g} %" for f, level in levels))
    elif fills and times <= 0:
        ways.append("turn the fill off and hang black cloth on its side ('grip:'): the room alone gives more than that")
    elif not fills and off < 0:
        ways.append("hang black cloth on the side away from the key ('grip:'): the room alone gives more than that")
    others = lamps + rest + of_fills - of_key
    turned = wanted * others / (key.lux - wanted * of_key) if key.lux > wanted * of_key else -1.0
    if turned > 0 and _dims(key, _level(key) * turned):
        change = photometry.ratio_stops(turned, 1.0)
        side = "more" if change > 0 else "less"
        ways.append(f"set '{key.item.id}' to {_level(key) * turned * 100:.2g} % ({stops(change)} {side} on the key)")
    if not ways:
        move = "move it or change what is before it" if fills else "add a lamp or a white board"
        ways.append(f"make the fill {stops(off)} {'brighter' if off > 0 else 'darker'}: {move}")
    return tuple(("or " if i else "") + way for i, way in enumerate(ways))


def _parts(room: RoomLight | None, names: set[str]) -> float:
    """Lux that the room gives back of the light of these lamps."""
    return sum(part for name, part in room.parts if name in names) if room is not None else 0.0


def _level(one: Arrival) -> float:
    return 1.0 if one.item.level is None else float(one.item.level)


def _dims(one: Arrival, level: float) -> bool:
    """Whether a lamp can be set to a level."""
    least = float(one.lamp.dims.lo) if one.lamp.dims is not None else 1.0
    return least - 1e-9 <= level <= 1.0 + 1e-9
