"""A lamp of one colour is asked for another, and no gel makes it.

On set: the old lamp is 3200 K and nothing else, the gel is at home, and the whole scene is balanced around it.

How it is decided: the 'colour:' asked for in the setup against the lamp's one colour, with the mired of its gels added;
a difference of more than 20 mired (just seen; common practice, no source) is said. The gel that would do is looked for
in the plan's own stock first, then among usual lighting gels. Source of the arithmetic: the definition of the mired.

Fix: put on the gel named (it takes light, see its stops), or write the colour the lamp has.

When to accept it: the difference is wanted and the white balance is set for it; then write the lamp's own colour.
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

RULE = "colour-fixed"
SEVERITY: Final = "error"
TITLE = "a lamp of one colour is asked for another"

TRIGGERS = """
hotset: 1
gear: {fresnel: {kind: light, colour: 3200 K}}
setups:
  office-wide:
    lights:
      moon:
        lamp: fresnel
        colour: 5600 K  # <- here
"""
PASSES = (
    TRIGGERS.replace("lamp: fresnel", "lamp: fresnel\n        with: blue")
    .replace(
        "setups:",
        "stock: {blue: {of: full blue gel, roll: 1.2 m x 7.6 m, shifts: -131 mired, loses: 1.7 stops}}\nsetups:",
    )
    .replace("  # <- here", "")
)


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Tone]] = []
    for setup in plan.setups.values():
        for tone in colours.tones(plan, setup):
            own = colours.made(tone.lamp)
            if tone.asked is None or own is None or own.lo != own.hi or len(tone.lamps) > 1:
                continue
            if tone.silent:
                yield NotChecked(RULE, f"'{tone.words}' in setup '{setup.id}'", f"'shifts:' of '{tone.silent[0]}'")
                continue
            away = colour.difference(tone.asked, float(own.lo))
            if min(abs(away), abs(away - tone.shift)) > colours.STEP:
                cases.append(Case(f"{tone.path}.colour", setup.id, abs(away), tone))
    for cause in causes(plan, cases):
        yield _finding(facts, cause.worst.what, cause.also)


def _finding(facts: Facts, tone: Tone, also: str) -> Finding:
    plan, own, asked = facts.plan, colours.made(tone.lamp), tone.asked or 1.0
    assert own is not None
    away = colour.difference(asked, float(own.lo))
    found = colours.offer(plan, float(own.lo), asked)
    ways = []
    if found:
        ways.append(f"put {found[0]} before it, which makes {round(found[1], -1):.0f} K")
    others = [
        g.id
        for g in plan.gear.values()
        if g.kind == "light"
        and g.colour is not None
        and g.colour.lo <= asked <= g.colour.hi
        and g.colour.lo < g.colour.hi
    ]
    ways += [f"{'or ' if ways else ''}take {quoted(others, 'or')}, which can be set to it"] if others else []
    ways.append(f"{'or ' if ways else ''}write 'colour: {own.lo:.0f} K', which it has")
    with_gels = f", {1e6 / (colour.mired(own.lo) + tone.shift):.0f} K behind its gels" if tone.shift else ""
    return finding(
        plan,
        (RULE, SEVERITY),
        f"{tone.path}.colour",
        f"'{tone.words}' is to be {asked:.0f} K, and '{tone.lamp.id}' is {own.lo:.0f} K and nothing else{with_gels}: "
        f"{away:+.0f} mired are missing{also}",
        tuple(ways),
        (
            ("lamp", tone.lamp.id),
            ("asked_kelvin", asked),
            ("lamp_kelvin", float(own.lo)),
            ("mired", round(away, 1)),
            ("gel_mired", round(tone.shift, 1)),
        ),
        also=[(f"{tone.lamp.path}.colour", "the lamp")],
        typical=("shift of the gel",) if found and found[2] else (),
    )
