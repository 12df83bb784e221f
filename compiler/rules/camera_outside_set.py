"""The camera stands behind a wall of its set.

On set: the place that the drawing gives the camera is inside the neighbour's wardrobe.

How it is decided: the camera's place, at both ends of its move, against the floor of its set. A camera that looks in
through a door, or through a window that nothing covers, may stand outside: the line from it to what it looks at must
cross the wall there. Outdoors there is no wall. Source: plane geometry.

Fix: move the camera to the place named, let it look through a door, or mend the set's size.

When to accept it: the wall is taken out; then draw the set without it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from ..facts import places, space, views, walls
from ..findings import NotChecked
from ..science import geometry
from .physics import Case, causes, length
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.space import Stander
    from ..facts.walls import XY
    from ..findings import Finding
    from ..plan import Plan
    from ..plan.set import Set
    from ..plan.setup import Setup

RULE = "camera-outside-set"
SEVERITY: Final = "error"
TITLE = "the camera stands behind a wall of its set"

TRIGGERS = """
hotset: 1
locations: {landing: {sets: {office: {size: 4.2 m x 3.6 m x 2.4 m, marks: {desk: {at: [2.0 m, 1.5 m]}}}}}}
setups:
  office-wide:
    set: office
    camera:
      at: [4.6 m, 0.4 m]  # <- here
      height: 1.5 m
      aim: desk
"""
PASSES = TRIGGERS.replace("[4.6 m, 0.4 m]", "[4.1 m, 0.4 m]").replace("  # <- here", "")
_INSIDE = 0.3


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[tuple[Stander, Set]]] = []
    for setup in plan.setups.values():
        room = plan.set_of(setup.id)
        if room is None or room.outdoors or setup.camera is None or setup.camera.at is None:
            continue
        if not walls.corners(room):
            yield NotChecked(RULE, f"set '{room.id}'", "'size:' of the set, such as 4.2 m x 3.6 m x 2.4 m")
            continue
        for one in space.standers(plan, setup):
            if (
                one.words.startswith("the camera")
                and space.outside(room, one.at)
                and not _through(plan, setup, room, one)
            ):
                cases.append(Case(one.at_path, setup.id, 0.0, (one, room)))
    for cause in causes(plan, cases):
        one, room = cause.worst.what
        wall = space.nearest_wall(room, one.at)
        name, away = wall if wall else ("", 0.0)
        better = _nearest_inside(room, one.at)
        spot = f"[{round(better[0], 2):g} m, {round(better[1], 2):g} m]" if better else ""
        ways = [f"put it at {spot}, {length(plan, _INSIDE)} from that wall"] if better else []
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"{one.words} of '{cause.worst.who}' stands {length(plan, away)} behind the wall '{name}' of "
            f"'{room.id.rsplit('/', 1)[-1]}'{cause.also}",
            (*ways, "or let it look in through a door, or mend the size of the set"),
            (
                ("setup", cause.worst.who),
                ("set", room.id),
                ("wall", name),
                ("outside_m", round(away, 3)),
                ("x", round(one.at[0], 3)),
                ("y", round(one.at[1], 3)),
            ),
            also=[(room.path, "the set")],
        )


def _through(plan: Plan, setup: Setup, room: Set, one: Stander) -> bool:
    """Whether the camera looks in through a door or an uncovered window."""
    end = one.words.endswith("move")
    stand = places.camera_end(plan, setup) if end else places.camera(plan, setup)
    if stand is None or stand.down:
        return False
    target = (stand.aim[0], stand.aim[1])
    if not geometry.inside(walls.corners(room), target):
        return False
    for wall in walls.walls(room):
        at = geometry.crossing(one.at, target, wall.start, wall.end)
        if at is not None:
            along = math.dist(wall.start, at)
            holes = views.holes(plan, setup, room, wall)
            return any(hole.start - 1e-6 <= along <= hole.end + 1e-6 for hole in holes)
    return False


def _nearest_inside(room: Set, at: XY) -> XY | None:
    """The nearest spot of the floor a little away from the wall."""
    floor = walls.corners(room)
    best: XY | None = None
    for wall in walls.walls(room):
        share = (
            (at[0] - wall.start[0]) * (wall.end[0] - wall.start[0])
            + (at[1] - wall.start[1]) * (wall.end[1] - wall.start[1])
        ) / max(wall.length**2, 1e-9)
        margin = min(_INSIDE / max(wall.length, 1e-9), 0.5)
        on = wall.along(wall.length * min(max(share, margin), 1.0 - margin))
        spot = (on[0] - wall.out[0] * _INSIDE, on[1] - wall.out[1] * _INSIDE)
        if geometry.inside(floor, spot) and (best is None or math.dist(at, spot) < math.dist(at, best)):
            best = spot
    return best
