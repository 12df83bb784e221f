"""Where a shot is sharp: the lens it is taken with, how far its subject is, and from where to where it is in focus."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..plan.spots import Named
from ..science import camera as cameras
from ..science import geometry, lens
from . import places, views

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.scene import Shot
    from ..plan.setup import Setup


class Distance(NamedTuple):
    """Metres from the camera to what is sharp, and at which end of the move ("" where it does not move)."""

    metres: float
    end: str


def glass(plan: Plan, setup: Setup, shot: Shot | None) -> Gear | None:
    """The lens of a shot."""
    name = (shot.lens if shot else None) or (setup.camera.lens if setup.camera else None)
    return plan.gear.get(name) if name else None


def moves(shot: Shot) -> bool:
    """Whether a shot uses its setup's move."""
    return shot.move is not None and shot.move != "static"


def distances(plan: Plan, setup: Setup, shot: Shot) -> tuple[Distance, ...]:
    """How far what is sharp is, at the start and, for a shot that moves, at the end; empty where it is not known."""
    found = []
    for end in (False, True) if moves(shot) else (False,):
        metres = _distance(plan, setup, shot, end)
        if metres is not None:
            found.append(Distance(metres, "end" if end else "start"))
    return tuple(found) if len(found) == 2 else tuple(d._replace(end="") for d in found)


def _distance(plan: Plan, setup: Setup, shot: Shot, end: bool) -> float | None:
    sharp = setup.camera.focus if setup.camera and not shot.of else None
    if sharp is not None:
        stand = places.camera_end(plan, setup) if end else places.camera(plan, setup)
        at = places.spot(plan, setup, sharp)
        if stand is None or at is None:
            return None
        eyes = places.mark_eyes(plan, setup, sharp.mark) if isinstance(sharp, Named) else None
        level = stand.aim[2] if eyes is None else eyes
        return float((geometry.distance(stand.at[:2], at) ** 2 + (stand.at[2] - level) ** 2) ** 0.5)
    found = views.subject_distance(plan, setup, shot, end=end)
    return found[1] if found else None


def stop(setup: Setup) -> float | None:
    """The number of the setup's stop; a T-number is taken for the f-number, which makes the depth a little larger."""
    return float(setup.camera.stop.number) if setup.camera and setup.camera.stop else None


def blur(plan: Plan, setup: Setup, shot: Shot) -> float | None:
    """The blur still called sharp on the part of the sensor that makes the picture, in metres."""
    gate = views.picture(plan, setup, shot)
    return lens.circle_of_confusion(gate.width, gate.height) if gate else None


def sharp(plan: Plan, setup: Setup, shot: Shot, at: float, number: float | None = None) -> lens.Focus | None:
    """From where to where a shot is sharp that is focused at so many metres, at its stop or another."""
    focal, circle = views.focal(plan, setup, shot), blur(plan, setup, shot)
    used = number or stop(setup)
    if focal is None or circle is None or used is None or at <= focal:
        return None
    return lens.focus(focal, used, circle, at)


def missing(plan: Plan, setup: Setup, shot: Shot) -> str:
    """The detail that would let the depth of field be worked out; "" where nothing lacks."""
    lacks = views.missing_for_view(plan, setup)
    if lacks:
        return lacks
    if views.focal(plan, setup, shot) is None:
        return "'zoom:' of the camera"
    if stop(setup) is None:
        return "'stop:' of the camera"
    return "" if distances(plan, setup, shot) else "the place of what it looks at"


def depths(plan: Plan, setup: Setup, names: tuple[str, ...]) -> tuple[float, ...]:
    """How far ahead of the lens, along its axis, marks lie at the start; only those whose place is known."""
    ends = views.ends(plan, setup)
    if not ends:
        return ()
    found = []
    for name in names:
        at = places.spot(plan, setup, Named(name))
        eyes = places.mark_eyes(plan, setup, name)
        if at is not None:
            found.append(cameras.to_camera(ends[0], (at[0], at[1], ends[0].position[2] if eyes is None else eyes))[2])
    return tuple(found)


def subject(setup: Setup, shot: Shot) -> str:
    """The mark a shot is of: its own word, else what is sharp, else what the camera aims at; "" where it is none."""
    aim = setup.camera.aim.at if setup.camera and setup.camera.aim else None
    sharp_at = setup.camera.focus if setup.camera else None
    return shot.of or next((s.mark for s in (sharp_at, aim) if isinstance(s, Named)), "")
