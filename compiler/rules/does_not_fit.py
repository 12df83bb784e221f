"""A lamp, a stand or a tent does not fit where it is put.

On set: the soft box touches the ceiling half a metre too low, and the stand's legs are wider than the corner.

How it is decided: the top of a lamp with its modifier against the ceiling; the feet of a stand against the nearest wall
(the three legs turned so that one side lies along it need a quarter of their 'base:'); whether it stands in its set at
all; a height against what its support 'reaches:'; a lamp outside of a window against the depth of the tent around it.
What has no size counts as a point. Source: plane geometry and the sizes in the plan.

Fix: lower it, move it by the length named, or take the stand that reaches.

When to accept it: the ceiling is open there, or the furniture and the wall were measured wrong: then mend the set.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

from ..facts import space, walls
from .physics import Case, causes, length
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.space import Stander
    from ..findings import Finding
    from ..plan import Plan
    from ..plan.set import Set
    from ..plan.setup import Setup

RULE = "does-not-fit"
SEVERITY: Final = "error"
TITLE = "a lamp, a stand or a tent does not fit where it is put"

TRIGGERS = """
hotset: 1
locations: {landing: {sets: {office: {size: 4.2 m x 3.6 m x 2.4 m, marks: {desk: {at: [2.0 m, 1.5 m]}}}}}}
gear:
  cob: {kind: light, mount: bayonet-b}
  soft-60: {kind: modifier, fits: bayonet-b, soft: 0.6 m x 0.6 m}
  stand: {kind: support, reaches: 1-2.7 m, base: 0.8 m}
setups:
  office-wide:
    set: office
    lights:
      moon:
        lamp: cob
        with: soft-60
        on: stand
        at: [3.0 m, 0.6 m]
        height: 2.2 m  # <- here
        aim: desk
"""
PASSES = TRIGGERS.replace("height: 2.2 m", "height: 2.1 m").replace("  # <- here", "")
_REACH = 0.05
_TOUCH = 0.005


class Misfit(NamedTuple):
    """What does not fit: the plan path, the sentence without the setup, ways out, by how much, and a second place."""

    path: str
    words: str
    ways: tuple[str, ...]
    metres: float
    also: tuple[str, str] | None = None


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    cases: list[Case[Misfit]] = []
    for setup in plan.setups.values():
        for one in space.standers(plan, setup):
            found = _misfit(plan, one)
            if found is not None:
                cases.append(Case(found.path, setup.id, found.metres, found))
        reaches = (_in_reach(plan, one) for one in space.standers_elsewhere(plan, setup))
        cases += [Case(m.path, setup.id, m.metres, m) for m in reaches if m is not None]
        cases += [Case(m.path, setup.id, m.metres, m) for m in _tents(plan, setup)]
    for cause in causes(plan, cases):
        misfit = cause.worst.what
        yield finding(
            plan,
            (RULE, SEVERITY),
            misfit.path,
            f"{misfit.words} in '{cause.worst.who}'{cause.also}",
            misfit.ways,
            (("setup", cause.worst.who), ("lacks_m", round(misfit.metres, 3))),
            also=[misfit.also] if misfit.also else [],
        )


def _misfit(plan: Plan, one: Stander) -> Misfit | None:
    room = plan.sets.get(one.room)
    if room is None:
        return None
    return _in_height(plan, one, room) or _in_room(plan, one, room) or _in_reach(plan, one)


def _in_height(plan: Plan, one: Stander, room: Set) -> Misfit | None:
    high = None if room.outdoors else walls.ceiling(room)
    if one.height is None or high is None:
        return None
    over = one.height + one.half - high
    if over <= _TOUCH:
        return None
    top = f"its top at {length(plan, one.height + one.half)}" if one.half else f"at {length(plan, one.height)}"
    return Misfit(
        one.height_path,
        f"{one.words} does not fit under the ceiling of {length(plan, high)}: {top} is {length(plan, over)} too high",
        (f"lower it to {length(plan, high - one.half)} or less", "or take a smaller modifier"),
        over,
        (room.path, "the set"),
    )


def _in_room(plan: Plan, one: Stander, room: Set) -> Misfit | None:
    if room.outdoors or not walls.corners(room):
        return None
    wall = space.nearest_wall(room, one.at)
    short = room.id.rsplit("/", 1)[-1]
    if space.outside(room, one.at):
        if one.words.startswith("the camera") or wall is None:
            return None
        return Misfit(
            one.at_path,
            f"{one.words} stands {length(plan, wall[1])} behind the wall '{wall[0]}' of '{short}'",
            ("move it into the set", "or say which window it stands 'outside:' of, or which set it stands 'in:'"),
            wall[1],
            (room.path, "the set"),
        )
    need = one.base / 4 if one.stand is not None and not one.held else 0.0
    if wall is None or wall[1] >= need - _TOUCH:
        return None
    return Misfit(
        one.at_path,
        f"the stand of {one.words} does not fit beside the wall '{wall[0]}' of '{short}': its legs need "
        f"{length(plan, need)} and have {length(plan, wall[1])}",
        (f"move it {length(plan, need - wall[1])} away from the wall", "or take a stand with narrower feet"),
        need - wall[1],
        (one.stand.path, "the stand") if one.stand else None,
    )


def _in_reach(plan: Plan, one: Stander) -> Misfit | None:
    reach = one.stand.reaches if one.stand is not None and not one.held else None
    if reach is None or one.height is None or one.stand is None:
        return None
    over = one.height - float(reach.hi)
    under = float(reach.lo) - one.height if reach.lo < reach.hi else 0.0
    if max(over, under) <= _REACH:
        return None
    others = [
        g.id
        for g in plan.gear.values()
        if g.kind == "support"
        and g.id != one.stand.id
        and g.reaches is not None
        and float(g.reaches.lo) - _REACH <= one.height <= float(g.reaches.hi) + _REACH
        and bool(g.moves) == bool(one.stand.moves)
    ]
    bound = float(reach.hi) if over > 0 else float(reach.lo)
    ways = [f"take {quoted(others, 'or')}"] if others else []
    ways.append(f"{'or ' if ways else ''}{'lower it to' if over > 0 else 'raise it to'} {length(plan, bound)}")
    return Misfit(
        one.height_path,
        f"{one.words} is to work at {length(plan, one.height)}, and '{one.stand.id}' reaches "
        f"{'only' if over > 0 else 'no lower than'} {length(plan, bound)}",
        tuple(ways),
        max(over, under),
        (one.stand.path, "the support"),
    )


def _tents(plan: Plan, setup: Setup) -> Iterator[Misfit]:
    """Lamps outside of a window, in the tent around it."""
    covers = {t.id: t for t in setup.windows.values()}
    for light in setup.lights.values():
        cover = covers.get(light.outside or "")
        lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
        if cover is None or not cover.tent or cover.depth is None or light.away is None or lamp is None:
            continue
        half = float(max(lamp.size[:2])) / 2 if lamp.size else 0.0
        over = float(light.away) + half - float(cover.depth)
        if over > _TOUCH:
            window = cover.id.rsplit("/", 1)[-1]
            yield Misfit(
                f"{light.path}.away",
                f"'{light.id}' does not fit into the tent at '{window}': it stands {length(plan, float(light.away))} "
                f"away with {length(plan, half)} behind it, and the tent is {length(plan, float(cover.depth))} deep",
                (
                    f"put it {length(plan, float(cover.depth) - half)} away or less",
                    f"or make the tent {length(plan, float(light.away) + half)} deep",
                ),
                over,
                (cover.path, "the tent"),
            )
