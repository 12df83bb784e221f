"""Which marks of a set a setup or a shot uses, as far as the plan says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...facts import hours
from ...plan.spots import Named

if TYPE_CHECKING:
    from ...plan import Plan
    from ...plan.scene import Shot
    from ...plan.set import Set
    from ...plan.setup import Setup


def marks(plan: Plan, setup: Setup, room: Set, shot: Shot | None = None) -> tuple[tuple[str, ...], int]:
    """The names of the marks in use, in the order of the set, and how many of the cast have none.

    Used are the marks that the shots name under `marks:` and `of:`, and those that camera, move and focus look at.
    Where more people play than marks for people are named, all other such marks count if there are just as many of
    them; with more of them to choose from nobody is put anywhere.
    """
    shots = (shot,) if shot is not None else plan.shots_of(setup.id)
    named = {name for one in shots for name in (*one.marks, one.of or "")}
    if not all(one.marks for one in shots) or not shots:
        named |= _looked_at(setup)
    people = [name for name, mark in room.marks.items() if not mark.thing]
    used = [name for name in people if name in named]
    cast = _cast(plan, setup, shot)
    rest = [name for name in people if name not in named]
    lacking = max(cast - len(used), 0)
    if lacking and (len(rest) == lacking or (not used and len(rest) < lacking)):
        used, lacking = [*used, *rest], lacking - len(rest)
    kept = {*used, *(name for name, mark in room.marks.items() if mark.thing and name in named)}
    return tuple(name for name in room.marks if name in kept), lacking


def _looked_at(setup: Setup) -> set[str]:
    """The marks that camera, move and focus name."""
    camera, move = setup.camera, setup.move
    spots = [camera.aim.at if camera and camera.aim else None, camera.focus if camera else None,
             move.aim_to.at if move and move.aim_to else None]  # fmt: skip
    return {spot.mark for spot in spots if isinstance(spot, Named)}


def _cast(plan: Plan, setup: Setup, shot: Shot | None) -> int:
    """How many play: in the shot where it says so, else at most at once in the setup."""
    if shot is not None and shot.cast is not None:
        return len(shot.cast)
    said = [len(one.cast) for one in plan.shots_of(setup.id) if one.cast is not None]
    return max(said) if said else len(hours.cast_of(plan, setup.id))
