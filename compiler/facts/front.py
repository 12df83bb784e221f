"""What stands before the lens: rings, filters, hood and matte box, how far ahead each reaches and what it leaves clear.

The first name under `filters:` sits on the lens, the next one before it. A filter that slides into a holder (`fits:`
and no thread) adds nothing to the length of the holder.
"""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING, NamedTuple

from ..science import lens as optics
from . import focus, views
from .fits import thread

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.scene import Shot
    from ..plan.setup import Setup

# Common practice, no source; `thick:` and `clear:` of the thing override them.
FILTER_THICK = 0.005  # of a filter in its rim, in metres
RING_THICK = 0.003
RIM = 0.004  # by which a filter's clear diameter is smaller than its thread


class Part(NamedTuple):
    """One thing before the lens: its outer edge is `ahead` metres before the front glass, and it leaves `width` by
    `height` metres clear (`round_`: a circle of that diameter). `typical` says which of that is a typical value."""

    thing: str
    path: str
    ahead: float
    width: float
    height: float
    round_: bool
    typical: tuple[str, ...]


class Stack(NamedTuple):
    """All that stands before a lens, from the glass outwards; `wants` is the detail without which it is not known."""

    parts: tuple[Part, ...]
    wants: str = ""


class Cut(NamedTuple):
    """A part, what must be clear there (metres: the diagonal of the picture for a round part, else its sides), and by
    how much it is short."""

    part: Part
    width: float
    height: float
    short: float


class Eye(NamedTuple):
    """Where the picture is seen from: focal length used, picture on the sensor, depth of the pupil; all metres."""

    focal: float
    width: float
    height: float
    depth: float


def stack(plan: Plan, glass: Gear, names: tuple[str, ...], path: str) -> Stack:
    """What `filters:` puts before a lens."""
    parts: list[Part] = []
    ahead, ring = 0.0, ""
    for i, name in enumerate(names):
        thing = plan.gear.get(name)
        if thing is None or (thing.kind == "filter" and thing.thread is None and thing.fits):
            continue
        typical: list[str] = []
        if thing.thread is not None and not ring:
            ring = thread(plan, glass, thing).ring
            ahead += _thick(plan.gear[ring], RING_THICK, typical) if ring else 0.0
        screws = thing.thread is not None
        if not screws and thing.clear is None and thing.opening is None:
            if thing.thick is None and thing.kind == "filter":
                continue  # a plain filter of which nothing is said: its thread is asked for elsewhere
            return Stack(tuple(parts), f"'clear:' or 'opening:' of '{name}'")
        if not screws and thing.thick is None:
            return Stack(tuple(parts), f"'thick:' of '{name}'")
        ahead += _thick(thing, FILTER_THICK, typical)
        parts.append(_part(thing, f"{path}.{i}", ahead, typical))
    return Stack(tuple(parts))


def _thick(thing: Gear, usual: float, typical: list[str]) -> float:
    if thing.thick is not None:
        return float(thing.thick)
    typical.append(f"'{thing.id}' {usual * 1000:g} mm thick")
    return usual


def _part(thing: Gear, path: str, ahead: float, typical: list[str]) -> Part:
    if thing.opening is not None:
        wide, high = (float(side) for side in thing.opening)
        return Part(thing.id, path, ahead, wide, high, False, tuple(typical))
    if thing.clear is not None:
        across = float(thing.clear)
    else:
        across = float(thing.thread or 0.0) - RIM
        typical.append(f"a rim of {RIM * 500:g} mm round '{thing.id}'")
    return Part(thing.id, path, ahead, across, across, True, tuple(typical))


def eye(plan: Plan, setup: Setup, shot: Shot | None, glass: Gear) -> Eye | str:
    """How a shot looks through the front of its lens, at its widest; or the detail that is wanting."""
    gate, focal = views.picture(plan, setup, shot), views.focal(plan, setup, shot, widest=True)
    if gate is None or focal is None:
        body = setup.camera.body if setup.camera else None
        sensor = f"the sensor of '{body}'" if body else "'body:' of the camera"
        return f"the focal length of '{glass.id}'" if gate is not None else sensor
    zoom = setup.move.zoom_to if setup.move and (shot is None or focus.moves(shot)) else None
    used = min(focal, float(zoom)) if zoom is not None else focal
    if glass.front is None or glass.opens is None:
        return f"'{'front' if glass.front is None else 'opens'}:' of '{glass.id}'"
    diagonal = hypot(gate.width, gate.height)
    circle = max(float(glass.circle), diagonal) if glass.circle is not None else diagonal
    ends = {used, glass.focal.lo if glass.focal is not None else used}
    number = float(glass.opens.number)
    depth = min(optics.pupil_depth(float(glass.front), f / number, f, circle) for f in ends)
    return Eye(used, gate.width, gate.height, depth)


def cuts(seen: Eye, parts: tuple[Part, ...]) -> list[Cut]:
    """The parts that stand in the picture."""
    found = []
    for part in parts:
        wide, high = (optics.clear_needed(s, seen.focal, seen.depth, part.ahead) for s in (seen.width, seen.height))
        if part.round_:
            wide = high = hypot(wide, high)
        short = max(wide - part.width, high - part.height)
        if short > 1e-9:
            found.append(Cut(part, wide, high, short))
    return found
