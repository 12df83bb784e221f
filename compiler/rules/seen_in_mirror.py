"""A mirror in the picture shows the camera, its crew or a lamp.

On set: in the third take somebody sees themselves behind the actor, and has been there in the first two as well.

How it is decided: the camera is reflected across each reflecting surface of the set, and what stands in the room is
looked at through the mirror's outline, at both ends of a move and at fifteen places between: the lamps with their
stands as far as their size is said, and the camera with whoever stands at it, 60 cm wide and 1.75 m high (common
practice, no source). A surface that reflects less than a fifth ('reflects:') shows lamps alone. Formula: central
projection and plane reflection. Source: geometry.

Fix: move the camera or the lamp aside by the length named, turn or dull the mirror, or dress something before it.

When to accept it: it is painted out in post, or glass that reflects little is dark enough behind the lamp.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import places, views
from ..facts import walls as walls_of
from ..findings import NotChecked
from ..science import camera as cameras
from ..science import geometry, sight
from .physics import Case, along, causes, length
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan import Plan
    from ..plan.set import Mirror, Set
    from ..plan.setup import Setup

    Met = tuple[Mirror, str, float, str, str]

RULE = "seen-in-mirror"
SEVERITY: Final = "warning"
TITLE = "a mirror in the picture shows the camera or a lamp"

TRIGGERS = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        mirrors:
          wardrobe: {wall: north, from: 1.6 m, sill: 0.4 m, width: 0.8 m, height: 1.6 m}
        marks: {desk: {at: [2.0 m, 2.6 m]}}
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}
  normal: {kind: lens, focal: 35 mm}
setups:
  office-wide:
    set: office
    camera:  # <- here
      body: body-a
      lens: normal
      at: [2.0 m, 0.6 m]
      height: 1.5 m
      aim: desk
"""
PASSES = TRIGGERS.replace("at: [2.0 m, 0.6 m]", "at: [3.9 m, 0.6 m]").replace("  # <- here", "")
_CREW_WIDE, _CREW_HIGH = 0.6, 1.75
_DULL = 0.2
_LEAST = 0.0005
_STEP, _FURTHEST = 0.1, 1.5
_PARTS = 16  # of a move


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        room = plan.set_of(setup.id)
        if room is None or not room.mirrors or setup.camera is None:
            continue
        ends = views.ends(plan, setup)
        if not ends:
            yield NotChecked(RULE, f"setup '{setup.id}'", views.missing_for_view(plan, setup) or "the camera's place")
            continue
        for mirror in room.mirrors.values():
            pane = _pane(room, mirror)
            if pane is None:
                wants = f"'wall:', 'from:', 'width:' and 'height:' of '{mirror.id.rsplit('/', 1)[-1]}'"
                yield NotChecked(RULE, f"mirror '{mirror.id}'", wants)
                continue
            cases += _in_mirror(plan, setup, room, mirror, pane, ends)
    for cause in causes(plan, cases):
        mirror, what, share, when, way = cause.worst.what
        name = mirror.id.rsplit("/", 1)[-1]
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"mirror '{name}' shows {what} in the picture of '{cause.worst.who}'{when}, over {share * 100:.2g} % of it"
            f"{cause.also}",
            (*([way] if way else []), f"{'or ' if way else ''}turn or dull the mirror, or dress something before it"),
            (("setup", cause.worst.who), ("mirror", name), ("share", round(share, 4))),
            also=[(mirror.path, "the mirror")],
            typical=("size of the camera's crew",) if "camera" in what else (),
        )


def _pane(room: Set, mirror: Mirror) -> sight.Pane | None:
    found = walls_of.opening(room, mirror, float(mirror.sill or 0.0), mirror.height)
    if found is None:
        return None
    return (
        (*found.start, found.low),
        (*found.end, found.low),
        (*found.end, found.high),
        (*found.start, found.high),
    )


def _in_mirror(
    plan: Plan, setup: Setup, room: Set, mirror: Mirror, pane: sight.Pane, ends: tuple[cameras.Camera, ...]
) -> Iterator[Case[Met]]:
    """The camera and each lamp that this mirror shows, at the worst part of the move."""
    walls = views.blockers(plan, setup, furniture=False)
    assert setup.camera is not None
    move = _parts(ends, pane)
    dull = mirror.reflects is not None and float(mirror.reflects) < _DULL
    share, part = (0.0, 0.0) if dull else _worst(move, pane, None, walls)
    if share > _LEAST:
        way = _aside(plan, setup, room, pane, ends, walls)
        when = along(part, len(ends) > 1)
        yield Case(setup.camera.path, setup.id, share, (mirror, "the camera and its crew", share, when, way))
    for light in setup.lights.values():
        found = [_worst(move, pane, solid.shape, walls) for solid in views.lamp_solids(plan, setup, light)]
        share, part = max(found, default=(0.0, 0.0))
        if share > _LEAST:
            when = along(part, len(ends) > 1)
            yield Case(light.path, setup.id, share, (mirror, f"'{light.id}'", share, when, "move the lamp or flag it"))


def _parts(ends: tuple[cameras.Camera, ...], pane: sight.Pane) -> list[tuple[float, cameras.Camera]]:
    """The camera at each part of its move that is looked at, where any of the mirror is ahead of it."""
    if len(ends) == 1:
        row = [(0.0, ends[0])]
    else:
        row = [(n / _PARTS, cameras.between(ends[0], ends[1], n / _PARTS)) for n in range(_PARTS + 1)]
    return [(part, camera) for part, camera in row if any(cameras.to_camera(camera, corner)[2] > 0 for corner in pane)]


def _worst(
    move: list[tuple[float, cameras.Camera]],
    pane: sight.Pane,
    solid: geometry.Prism | None,
    walls: list[views.Blocker],
) -> tuple[float, float]:
    """The greatest part of the frame in which the mirror shows a solid (None: the camera itself), and where on the
    move that is."""
    looks = [(sight.seen_in_mirror(camera, pane, solid or _crew(camera), walls)[0], -part) for part, camera in move]
    share, part = max(looks, default=(0.0, 0.0))
    return share, -part


def _crew(camera: cameras.Camera) -> geometry.Prism:
    """The camera with whoever stands behind it."""
    x, y, z = camera.position
    return geometry.cylinder((x, y), _CREW_WIDE / 2, 0.0, max(z + 0.1, _CREW_HIGH))


def _aside(
    plan: Plan,
    setup: Setup,
    room: Set,
    pane: sight.Pane,
    ends: tuple[cameras.Camera, ...],
    walls: list[views.Blocker],
) -> str:
    """The shortest step to a side from which the camera, aimed as before, does not see itself, anywhere on its move;
    found by looking."""
    floor = walls_of.corners(room)
    start = places.camera(plan, setup)
    if start is None:
        return ""
    aims = (start.aim, (places.camera_end(plan, setup) or start).aim)
    for n in range(1, round(_FURTHEST / _STEP) + 1):
        for side, word in ((1.0, "right"), (-1.0, "left")):
            dx, dy = (axis * side * n * _STEP for axis in ends[0].right[:2])
            moved = tuple(
                cameras.looking_at(
                    (end.position[0] + dx, end.position[1] + dy, end.position[2]), aim, end.half_width, end.half_height
                )
                for end, aim in zip(ends, aims, strict=False)
            )
            if floor and not all(geometry.inside(floor, one.position[:2]) for one in moved):
                continue
            if _worst(_parts(moved, pane), pane, None, walls)[0] <= _LEAST:
                return f"move the camera {length(plan, n * _STEP)} to the {word}, aimed as before"
    return ""
