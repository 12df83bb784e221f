"""A lamp that comes from behind shines into the lens.

On set: the picture is milky, and somebody holds a hat beside the lens for the rest of the day.

How it is decided: a lamp that faces the camera (its aim and the camera's look point against each other), stands ahead
of the camera, and has the lens inside half its beam angle, at either end of a move. A grid before it, a modifier whose
beam leaves the lens outside, a flag that stands on the line between them, and walls and furniture stop it. Lamps
that shine in from outside of a window are left out. Source: geometry; half the beam angle is where the light has
fallen to 50 %.

Fix: a flag on the line between lamp and lens, a grid, or the lamp turned or moved by the degrees named.

When to accept it: the flare is wanted.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from ..facts import lamp as lamps
from ..facts import light as lights
from ..facts import places, views
from ..findings import NotChecked
from ..science import camera as cameras
from ..science import geometry, sight
from .physics import Case, causes, length
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.places import XYZ
    from ..findings import Finding
    from ..plan import Plan
    from ..plan.light import Light
    from ..plan.setup import Setup

    Met = tuple[Light, float, float, float, float]

RULE = "spill"
SEVERITY: Final = "warning"
TITLE = "a lamp from behind shines into the lens"

TRIGGERS = """
hotset: 1
locations: {landing: {sets: {hall: {size: 7 m x 5 m x 3.2 m, marks: {seat: {at: [3.5 m, 2.5 m]}}}}}}
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}
  normal: {kind: lens, focal: 50 mm}
  panel: {kind: light, gives: {bare: 800 lx at 1 m}, beam: 100 deg, size: 0.3 m x 0.1 m x 0.3 m}
setups:
  hall-wide:
    set: hall
    camera: {body: body-a, lens: normal, at: [3.5 m, 0.3 m], height: 1.5 m, aim: seat}
    lights:
      edge:  # <- here
        lamp: panel
        at: [5.5 m, 4.5 m]
        height: 2.0 m
        aim: seat
        role: edge
"""
PASSES = TRIGGERS.replace("beam: 100 deg", "beam: 30 deg").replace("  # <- here", "")
_FACING = -0.2
_FLAG = 0.5


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        ends = views.ends(plan, setup) if setup.lights else ()
        for item in setup.lights.values():
            if item.outside is not None or item.bounce is not None or not ends:
                continue
            here, aim = places.light(plan, setup, item), places.light_aim(plan, setup, item)
            lamp = plan.gear.get(item.lamp[0]) if item.lamp else None
            if here is None or aim is None or lamp is None or _gridded(plan, item):
                continue
            facing = [end for end in ends if _faces(end, here, aim)]
            if not facing:
                continue
            unsaid = [n for n in item.with_ if (m := plan.gear.get(n)) and m.kind == "modifier" and m.makes is None]
            if unsaid:
                wants = f"'makes:' of '{unsaid[0]}'"
                yield NotChecked(RULE, f"'{item.id}' in setup '{setup.id}'", wants)
                continue
            source = lamps.source_of(plan, item, lamp)
            beam = source.beam if isinstance(source, lamps.Source) else (float(lamp.beam.hi) if lamp.beam else None)
            if beam is None:
                yield NotChecked(RULE, f"'{item.id}' in setup '{setup.id}'", f"'beam:' of '{lamp.id}'")
                continue
            walls = views.blockers(plan, setup)
            for end in facing:
                off = lights.angle(here, aim, end.position)
                if off < beam / 2 - 0.5 and not _stopped(plan, setup, here, end.position, walls):
                    metres = math.dist(here, end.position)
                    cases.append(Case(item.path, setup.id, beam / 2 - off, (item, off, beam, metres, 0.0)))
    for cause in causes(plan, cases):
        item, off, beam, metres, _ = cause.worst.what
        yield finding(
            plan,
            (RULE, SEVERITY),
            item.path,
            f"'{item.id}' shines into the lens of '{cause.worst.who}' from {length(plan, metres)}: the lens lies "
            f"{off:.0f} deg off its axis, within its beam of {beam:g} deg{cause.also}",
            (
                "set a flag on the line between lamp and lens ('grip:', at half the way)",
                f"or put on a grid or doors that leave less than {2 * off:.0f} deg",
                f"or turn the lamp {beam / 2 - off:.0f} deg further away from the lens",
            ),
            (
                ("setup", cause.worst.who),
                ("light", item.id),
                ("off_axis_deg", round(off, 1)),
                ("beam_deg", beam),
                ("metres", round(metres, 2)),
            ),
            also=[(f"setups.{cause.worst.who}.camera", "the camera")],
        )


def _gridded(plan: Plan, item: Light) -> bool:
    """Whether something before the lamp holds its light together sideways: a grid, honeycomb, snoot or doors."""
    for name in item.with_:
        thing = plan.gear.get(name)
        words = f"{name} {thing.of or '' if thing else ''}".lower()
        if any(w in words for w in ("grid", "honeycomb", "snoot", "barn", "louvre", "egg crate")):
            return True
    return False


def _faces(camera: cameras.Camera, here: XYZ, aim: XYZ) -> bool:
    """Whether a lamp stands ahead of the camera and shines against its look."""
    way = lights.unit(here, aim)
    against = sum(a * b for a, b in zip(way, camera.forward, strict=True))
    return against < _FACING and cameras.to_camera(camera, here)[2] > 0.1


def _stopped(plan: Plan, setup: Setup, here: XYZ, lens: XYZ, walls: list[views.Blocker]) -> bool:
    """Whether a flag, a wall or furniture stands between lamp and lens."""
    for grip in setup.grip.values():
        at = places.thing(plan, setup, grip)
        if at is None or grip.on == "ceiling":
            continue
        half = max((float(s) for s in grip.size or ()), default=_FLAG * 2) / 2
        if geometry.distance_to_segment(at[:2], here[:2], lens[:2]) <= half:
            share = math.dist(at[:2], here[:2]) / max(math.dist(here[:2], lens[:2]), 1e-6)
            high = here[2] + (lens[2] - here[2]) * min(share, 1.0)
            if abs(high - at[2]) <= half:
                return True
    ray = (here[0] - lens[0], here[1] - lens[1], here[2] - lens[2])
    solids = [b for b in walls if isinstance(b, geometry.Prism)]
    return any(sight.depth_of_solid(lens, ray, solid) < 0.98 for solid in solids)
