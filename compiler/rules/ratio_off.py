"""The fill is too strong or too weak for the key to fill ratio that is wanted.

On set: the contrast of the wide does not match the close-up that was lit in the morning.

How it is decided: lux of the key at the 'key-at' mark, on a meter turned to it, over lux of all lamps whose role is
fill, on a meter turned to the strongest of them; against 'key-to-fill:'. 2:1 is one stop, 4:1 two, 8:1 three. It is
said from two thirds of a stop on, for lamps told by lumens from 1 2/3. Light that walls give back is not counted, so
in a white room the measured ratio is lower. Source: arithmetic; the tolerance is common practice, no source.

Fix: take the fill to the level named, or move it.

When to accept it: the room's own bounce is the fill; then measure it on the day.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts.exposure import role
from ..findings import NotChecked
from ..science import light as photometry
from .physics import Case, causes, lux, stops
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.exposure import Reading
    from ..facts.light import Arrival
    from ..findings import Finding
    from ..plan.setup import Setup

    Met = tuple[Setup, Reading, tuple[Arrival, ...], float, float]

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
PASSES = TRIGGERS.replace("level: 25 %", "level: 7 %").replace("  # <- here", "")
MEASURED, ESTIMATED = 0.5, 1.5


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        if setup.key_to_fill is None or setup.key_to_fill <= 0:
            continue
        reading = facts.readings.get(setup.id)
        fills = tuple(a for a in reading.arrivals if role(a) == "fill" and a.lux > 0) if reading else ()
        lacks = _lacks(setup, reading, fills)
        if lacks or reading is None or reading.key is None:
            yield NotChecked(RULE, f"setup '{setup.id}'", lacks)
            continue
        fill = sum(f.lux * max(0.0, _cosine(f, max(fills, key=lambda a: a.lux))) for f in fills)
        have = reading.key.lux / fill
        off = photometry.ratio_stops(have, float(setup.key_to_fill))
        if abs(off) > (ESTIMATED if reading.estimate else MEASURED):
            cases.append(Case(f"{setup.path}.key-to-fill", setup.id, abs(off), (setup, reading, fills, fill, off)))
    for cause in causes(plan, cases):
        yield _finding(facts, cause.worst.what, cause.also)


def _lacks(setup: Setup, reading: Reading | None, fills: tuple[Arrival, ...]) -> str:
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
    return "" if fills else "'role: fill' at one of its lamps"


def _cosine(one: Arrival, other: Arrival) -> float:
    return sum(a * b for a, b in zip(one.towards, other.towards, strict=True))


def _finding(facts: Facts, met: Met, also: str) -> Finding:
    setup, reading, fills, fill, off = met
    key = reading.key
    assert key is not None
    have, wanted = key.lux / fill, float(setup.key_to_fill or 1.0)
    ways = []
    if len(fills) == 1:
        one = fills[0]
        level = (1.0 if one.item.level is None else float(one.item.level)) * have / wanted
        least = float(one.lamp.dims.lo) if one.lamp.dims is not None else 1.0
        if least - 1e-9 <= level <= 1.0 + 1e-9:
            ways.append(f"set '{one.item.id}' to {level * 100:.0f} %")
    if not ways:
        ways.append(
            f"make the fill {stops(off)} {'brighter' if off > 0 else 'darker'}: move it or change what is before it"
        )
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"{setup.path}.key-to-fill",
        f"key to fill at '{reading.mark}' in '{setup.id}' is {have:.1f}:1 ({lux(key.lux)} from '{key.item.id}', "
        f"{lux(fill)} from {quoted(f.item.id for f in fills)}), not {wanted:g}:1: the fill is {stops(off)} "
        f"{'under' if off > 0 else 'over'}{also}",
        tuple(ways),
        (
            ("setup", setup.id),
            ("key_lux", round(key.lux, 1)),
            ("fill_lux", round(fill, 1)),
            ("ratio", round(have, 2)),
            ("wanted", wanted),
            ("stops", round(off, 2)),
        ),
        also=[(fills[0].item.path, "the fill")],
        typical=reading.typical,
    )
