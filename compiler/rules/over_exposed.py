"""The key is too bright for the stop that is set.

On set: the lamp is as low as it goes, and the face is still white.

How it is decided: lux at the 'key-at' mark and the lux that the camera asks for, as for under-exposed: inverse square
or disc, level, beam, layers, bounce; a flat meter turned to the key; N2 / t = E S / C with C = 250 (ISO 2720, read
second hand). By day light of sun and sky is added, or stands alone: under the open sky on a meter turned to the sun,
without sun on an upright one turned to the camera; the darkest that it may be while the setup is taken, under the
'sky:' of the day or, where it is not said, under an overcast one; with 'needs: daylight' in the shade. It is said from
1 1/3 stops over on; from 2 1/3 for lamps told by lumens and by day. Source: the formula of ISO 2720; IES 1984 and the
CIE skies for daylight, read second hand, against the exposure tables of ANSI PH2.7; the tolerance is common practice,
no source.

Fix: put a grey filter before the lens, stop down, lower the ISO, or take the key to the level or distance named.

When to accept it: the look is meant to burn out.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import metered

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding, NotChecked

RULE = "over-exposed"
SEVERITY: Final = "warning"
TITLE = "the key is too bright for the stop that is set"

TRIGGERS = """
hotset: 1
locations: {landing: {sets: {office: {size: 6 m x 4 m x 2.4 m, marks: {desk: {at: [2.0 m, 2.0 m], height: 1.5 m}}}}}}
gear:
  panel: {kind: light, gives: {bare: 1000 lx at 1 m}, beam: 100 deg, dims: 1-100 %}
setups:
  office-wide:
    set: office
    key-at: desk
    camera: {stop: T2, iso: 800, shutter: 1/50 s}
    lights:
      moon:  # <- here
        lamp: panel
        role: key
        at: [4.0 m, 2.0 m]
        height: 1.5 m
        aim: desk
        level: 100 %
"""
PASSES = TRIGGERS.replace("level: 100 %", "level: 55 %").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    return metered.check(facts, (RULE, SEVERITY), over=True)
