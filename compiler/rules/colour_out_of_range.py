"""A lamp is set to a colour it cannot make.

On set: the knob stops at 2800 K, and the candle looks like an office.

How it is decided: the 'colour:' of the lamp in the setup against the range of the lamp, with the gels before it counted
in mired (10^6 / K, which add up). Where the lamp may be 'any of' several, one that can is enough. The gel that would do
is looked for in the plan's own stock first, then among usual lighting gels (their shifts: common practice, no source;
makers differ by some 10 mired). Source of the arithmetic: the definition of the mired.

Fix: set the nearest colour the lamp makes, put on the gel named, or take another lamp.

When to accept it: the maker's figure is cautious, and you have tried it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import colours
from ..findings import NotChecked
from ..science import colour
from .physics import Case, causes
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.colours import Tone
    from ..findings import Finding

RULE = "colour-out-of-range"
SEVERITY: Final = "error"
TITLE = "a lamp is set to a colour it cannot make"

TRIGGERS = """
hotset: 1
gear: {panel: {kind: light, colour: 2800-6500 K}}
setups:
  office-wide:
    lights:
      till:
        lamp: panel
        colour: 2000 K  # <- here
"""
PASSES = TRIGGERS.replace("colour: 2000 K  # <- here", "colour: 2800 K")
_NEAR = 5.0


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Tone]] = []
    for setup in plan.setups.values():
        for tone in colours.tones(plan, setup):
            own = colours.made(tone.lamp)
            if tone.asked is None or (own is not None and own.lo == own.hi):
                continue
            if own is None:
                yield NotChecked(RULE, f"'{tone.words}' in setup '{setup.id}'", f"'colour:' of '{tone.lamp.id}'")
            elif not _can(tone):
                cases.append(Case(f"{tone.path}.colour", setup.id, 0.0, tone))
    for cause in causes(plan, cases):
        tone = cause.worst.what
        own, asked = colours.made(tone.lamp), tone.asked or 1.0
        assert own is not None
        nearest = float(own.lo) if asked < own.lo else float(own.hi)
        away = abs(colour.difference(asked, nearest))
        found = colours.offer(plan, nearest, asked)
        ways = [f"set it to {nearest:.0f} K, {away:.0f} mired from what is asked{', hardly seen' if away < 20 else ''}"]
        if found:
            ways.append(f"or {nearest:.0f} K behind {found[0]}, which makes {round(found[1], -1):.0f} K")
        others = _others(facts, asked, tone)
        ways += [f"or take {quoted(others, 'or')}"] if others else []
        yield finding(
            plan,
            (RULE, SEVERITY),
            f"{tone.path}.colour",
            f"'{tone.words}' is to be {asked:.0f} K, and '{tone.lamp.id}' makes {own.lo:.0f} to {own.hi:.0f} K"
            f"{cause.also}",
            tuple(ways),
            (("lamp", tone.lamp.id), ("asked_kelvin", asked), ("nearest_kelvin", nearest), ("mired", round(away))),
            also=[(f"{tone.lamp.path}.colour", "the lamp")],
            typical=("shift of the gel",) if found and found[2] else (),
        )


def _can(tone: Tone) -> bool:
    """Whether one of the lamps is set to the colour, or makes it behind its gels."""
    asked = tone.asked or 1.0
    for lamp in tone.lamps:
        own = colours.made(lamp)
        if own is None or own.lo <= asked <= own.hi:
            return True
        bare = colour.mired(asked) - tone.shift
        if tone.shift and colour.mired(own.hi) - _NEAR <= bare <= colour.mired(own.lo) + _NEAR:
            return True
    return False


def _others(facts: Facts, asked: float, tone: Tone) -> list[str]:
    tried = {lamp.id for lamp in tone.lamps}
    return [
        g.id
        for g in facts.plan.gear.values()
        if g.kind == "light" and g.colour is not None and g.colour.lo <= asked <= g.colour.hi and g.id not in tried
    ]
