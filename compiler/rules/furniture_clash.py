"""A stand, the camera or a lamp is put where a piece of furniture stands.

On set: the tripod's place is inside the shelf, and the shelf belongs to the owner's grandmother.

How it is decided: the footprint of each piece of furniture against the feet of a stand (a quarter of its 'base:' around
the middle, the room that three legs need beside a flat side), against whoever holds a lamp or the camera, and against a
lamp that hangs lower than the furniture is high. What reaches over a table on an arm with a counterweight, and what is
put 'on:' the furniture, does not clash. Source: plane geometry.

Fix: move it by the length named, or move the furniture in this setup and say so under 'dressing:'.

When to accept it: the furniture is carried out for this setup.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import space
from ..science import geometry
from .physics import Case, causes, length, up
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.space import Stander
    from ..findings import Finding
    from ..plan.set import Furniture, Set
    from ..plan.setup import Setup

    Met = tuple[Stander, Furniture, float]

RULE = "furniture-clash"
SEVERITY: Final = "warning"
TITLE = "something is put where furniture stands"

TRIGGERS = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        furniture: {table: {at: [2.5 m, 1.75 m], size: 1.4 m x 0.7 m x 0.75 m}}
        marks: {door: {at: [0.5 m, 3.2 m]}}
gear: {sticks: {kind: support, base: 0.8 m}}
setups:
  office-door:
    set: office
    camera:
      on: sticks
      at: [1.9 m, 1.6 m]  # <- here
      height: 1.5 m
      aim: door
"""
PASSES = TRIGGERS.replace("[1.9 m, 1.6 m]", "[1.55 m, 1.6 m]").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    shapes = {
        room.id: [
            (piece, shape) for piece in room.furniture.values() if (shape := space.footprint(plan, room, piece.id))
        ]
        for room in plan.sets.values()
    }
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        for one in space.standers(plan, setup):
            room = plan.sets.get(one.room)
            for piece, shape in shapes.get(one.room, ()):
                need = _need(setup, room, one, piece)
                if need is None:
                    continue
                inside = geometry.inside(shape, one.at)
                away = min(geometry.distance_to_segment(one.at, a, b) for a, b in geometry.edges(shape))
                bite = need + away if inside else need - away
                if bite > 0.01:
                    cases.append(Case(one.at_path, setup.id, bite, (one, piece, away if inside else -away)))
    for cause in causes(plan, cases):
        one, piece, deep = cause.worst.what
        name = piece.id.rsplit("/", 1)[-1]
        where = f"stands {length(plan, deep)} inside" if deep > 0 else f"stands {length(plan, -deep)} from"
        legs = "" if deep > 0 else f", and its legs need {length(plan, one.base / 4)}"
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"{one.words} of '{cause.worst.who}' {where} '{name}'{legs}{cause.also}",
            (
                f"move it {length(plan, up(cause.worst.bad))} away from '{name}'",
                f"or move '{name}' for this setup, and write it under 'dressing:'",
            ),
            (("setup", cause.worst.who), ("furniture", name), ("overlap_m", round(cause.worst.bad, 3))),
            also=[(piece.path, "the furniture")],
        )


def _need(setup: Setup, room: Set | None, one: Stander, piece: Furniture) -> float | None:
    """Metres that must be free around a thing's middle; None where it does not clash with this piece."""
    if room is None or (one.stand is not None and one.stand.counterweight):
        return None
    on = {light.on for light in setup.lights.values() if f"'{light.id}'" == one.words}
    on |= {grip.on for grip in setup.grip.values() if f"'{grip.id}'" == one.words}
    name = piece.id.rsplit("/", 1)[-1]
    if name in on or piece.id in on or "table" in on:
        return None
    if one.held:
        return 0.1
    if one.stand is not None:
        return one.base / 4
    top = piece.height if piece.height is not None else (piece.size or (0.0, 0.0, 0.0))[2:3]
    high = float(top[0]) if isinstance(top, tuple) and top else float(top) if isinstance(top, float) else None
    below = one.height is not None and high is not None and one.height < high
    return 0.0 if below or one.words.startswith("the camera") else None
