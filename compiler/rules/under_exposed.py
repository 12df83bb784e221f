"""The key is too dark for the stop that is set.

On set: the lamp is up, the meter says two stops less, and either the picture gets noisy or the lens opens and the focus
gets hard.

How it is decided: lux of every lamp at the 'key-at' mark by distance (inverse square; a soft source as a disc), level,
angle off its axis, layers and bounce, less what flags, frames, cloth on windows and walls on the way take; a flat
meter at the mark is turned to the key lamp and every lamp counts by the cosine; in a setup without lamps the brightest
practical is the key. Where daylight comes in it is added:
by the sun's height, the 'sky:' of the day (the brightest sky where it is not said) and, indoors, glass, layers and
the part of the meter's view that the window fills. Last is added what the room gives back, an estimate. Against all
that the lux that stop, shutter, ISO and filters ask for: N2 / t = E S / C with C = 250 (ISO 2720, read second hand).
It is said from 1 1/3 stops under on; from 2 1/3 for lamps told by lumens and by day: a night is often a stop under on
purpose (common practice, no source). The greatest loss is named. Source: physics; IES 1984 and the CIE skies for
daylight (mean values, which a moment may double or halve), read second hand.

Fix: take off what takes most, open the lens to the stop named, raise the ISO, or bring the key nearer or up to the
level named.

When to accept it: the scene is meant to be this dark; then set the stop you mean.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import metered

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding, NotChecked

RULE = "under-exposed"
SEVERITY: Final = "warning"
TITLE = "the key is too dark for the stop that is set"

TRIGGERS = """
hotset: 1
locations: {landing: {sets: {office: {size: 6 m x 4 m x 2.4 m, marks: {desk: {at: [2.0 m, 2.0 m], height: 1.5 m}}}}}}
gear:
  panel: {kind: light, gives: {bare: 1000 lx at 1 m}, beam: 100 deg, dims: 1-100 %}
setups:
  office-wide:
    set: office
    key-at: desk
    camera: {stop: T2.8, iso: 800, shutter: 1/50 s}
    lights:
      moon:  # <- here
        lamp: panel
        role: key
        at: [4.0 m, 2.0 m]
        height: 1.5 m
        aim: desk
        level: 14 %
"""
PASSES = TRIGGERS.replace("level: 14 %", "level: 20 %").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    return metered.check(facts, (RULE, SEVERITY), over=False)
