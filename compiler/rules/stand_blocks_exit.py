"""A stand leaves less than 0.6 m of a way out or of a walkway clear.

On set: somebody has to leave the room quickly, in the dark, past a lamp on a stand.

How it is decided: the feet of every stand ('base:') and the camera's support, as circles, against the strip 0.6 m deep
before each exit (the doors marked 'exit: true', or the only door) and against each walkway over its whole width; the
widest gap left must be 0.6 m. Stands of which no base is said are not counted. Source: 0.6 m is common practice, no
source; local rules may ask for more, and they decide.

Fix: move the stand by the length named, or take one with narrower feet.

When to accept it: another exit is open, marked and told to everybody.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from ..facts import space
from .physics import Case, causes, length, up
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.space import Lane, Stander
    from ..facts.walls import XY
    from ..findings import Finding

    Met = tuple[str, str, float, float, list[Stander]]

RULE = "stand-blocks-exit"
SEVERITY: Final = "warning"
TITLE = "a stand leaves too little of a way out clear"

TRIGGERS = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        doors: {yard: {wall: west, from: 2.0 m, width: 0.9 m, exit: true}}
        marks: {desk: {at: [2.0 m, 1.5 m]}}
gear:
  cob: {kind: light}
  stand: {kind: support, base: 0.8 m}
setups:
  office-wide:
    set: office
    lights:
      moon:
        lamp: cob
        on: stand
        at: [0.4 m, 2.2 m]  # <- here
        height: 1.9 m
        aim: desk
"""
PASSES = TRIGGERS.replace("[0.4 m, 2.2 m]", "[0.4 m, 1.9 m]").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        room = plan.set_of(setup.id)
        if room is None or not (room.doors or room.walkways):
            continue
        feet = [s for s in space.standers(plan, setup) if s.base > 0 and s.room == room.id and not s.held]
        for name, path, door in space.exits(plan, room) if feet else ():
            width = math.dist(door.start, door.end)
            taken = [(space.in_strip(s.at, s.base / 2, door.start, door.end, space.EXIT, door.out), s) for s in feet]
            cases += _case(setup.id, f"door '{name}'", path, width, taken)
        for lane in space.lanes(plan, setup, room) if feet else ():
            taken = [(_across(lane, s.at, s.base / 2), s) for s in feet]
            cases += _case(setup.id, lane.words, lane.path, lane.width, taken)
    for cause in causes(plan, cases):
        words, path, width, free, standers = cause.worst.what
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"{' and '.join(dict.fromkeys(s.words for s in standers))} {'leaves' if len(standers) == 1 else 'leave'} "
            f"{length(plan, max(free, 0.0))} of {words} clear ({length(plan, width)} wide) in "
            f"{quoted([cause.worst.who, *cause.others])}: {length(plan, space.EXIT)} have to stay clear",
            (
                f"move {'it' if len(standers) == 1 else 'them'} {length(plan, up(space.EXIT - free))} aside",
                "or take a stand with narrower feet, or hang the lamp",
            ),
            (
                ("setup", cause.worst.who),
                ("free_m", round(max(free, 0.0), 3)),
                ("least_m", space.EXIT),
                ("width_m", round(width, 3)),
            ),
            also=[(path, words)],
            typical=("0.6 m stay clear",),
        )


def _case(
    setup: str,
    words: str,
    path: str,
    width: float,
    taken: list[tuple[tuple[float, float] | None, Stander]],
) -> list[Case[Met]]:
    """The case of one way, at the stand that takes most of it; none where enough is free or it is narrow itself."""
    spans = [(span, s) for span, s in taken if span is not None]
    free = space.free_across(width, [span for span, _ in spans])
    if not spans or free >= space.EXIT - 1e-6 or width < space.EXIT:
        return []
    widest = max(spans, key=lambda one: min(one[0][1], width) - max(one[0][0], 0.0))
    guilty = [s for _, s in spans]
    return [Case(widest[1].at_path, setup, space.EXIT - free, (words, path, width, free, guilty))]


def _across(lane: Lane, at: XY, radius: float) -> tuple[float, float] | None:
    """The part of a walkway's width that a circle takes; None beside it."""
    run = math.dist(lane.start, lane.end)
    ux, uy = (lane.end[0] - lane.start[0]) / run, (lane.end[1] - lane.start[1]) / run
    along = (at[0] - lane.start[0]) * ux + (at[1] - lane.start[1]) * uy
    across = (at[0] - lane.start[0]) * -uy + (at[1] - lane.start[1]) * ux + lane.width / 2
    beyond = max(-along, along - run, 0.0)
    if beyond >= radius:
        return None
    half = math.sqrt(radius * radius - beyond * beyond)
    return (across - half, across + half) if across + half > 0 and across - half < lane.width else None
