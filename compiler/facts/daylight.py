"""Daylight on a setup while it is taken: from the open sky, or through the windows that let it in.

Lux. The sky is as the day's `sky:` says; where it says nothing, the least and the most of overcast, partly cloudy and
clear are given (with `needs: sun` without overcast). Outdoors the sun is taken to reach the mark; with
`needs: daylight` it may as well stand in the shade. Times are those of the agreed order; without one, the hours
between call and wrap that the setup may be shot in. A mean that a given moment may double or halve.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..science import daylight as science
from ..science import light as optics
from ..science import sunlight
from . import light, open_sky, sky, sunpatch, walls
from .open_sky import Hour, Level
from .tables import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan import Plan
    from ..plan.set import Set, Window
    from ..plan.setup import Setup
    from . import Facts
    from .places import XYZ
    from .sky import Span

CONDITIONS = ("overcast", "partly-cloudy", "clear")
NIGHT = -6.0  # degrees of the sun below which daylight is not counted as a light of its own
EVERY = 40  # half-minutes between two looks at the sky


class Daylight(NamedTuple):
    """The darkest and the brightest that a setup's daylight may be, whether the plan says the sky, whether the times
    are of an agreed order, and the typical values it rests on."""

    least: Level
    most: Level
    said: bool
    agreed: bool
    typical: tuple[str, ...]

    @property
    def words(self) -> str:
        """Which sky is meant, in words."""
        one = self.most.hour.condition.replace("-", " ")
        return (
            f"under {'an' if one[0] == 'o' else 'a'} {one} sky" if self.said else "under any sky ('sky:' is not said)"
        )


def daylight(facts: Facts, setup: Setup, at: XYZ | None, towards: XYZ | None) -> Daylight | str:
    """The daylight of a setup at a point on a meter turned in a direction (None: to the sun, or to the camera); the
    detail that is wanting, in words, where it is not known."""
    plan, room = facts.plan, facts.plan.set_of(setup.id)
    day, place = facts.day_of[setup.id], plan.location_of(setup.id)
    if room is None or place is None or day is None:
        return "the day and the set of the setup"
    lacks = sky.missing(plan, day, place.id)
    if lacks:
        return lacks
    spans, agreed = times(facts, setup)
    if not spans:
        return f"'call:' and 'wrap:' of day {day}, or an agreed order"
    said = plan.days[day].sky
    found: list[Level] = []
    for hour in hours(plan, setup, day, place.id, spans):
        level = (
            open_sky.level(plan, setup, room, hour, at, towards)
            if room.outdoors
            else _indoors(plan, setup, room, hour, at, towards)
        )
        found.append(level)
    if not found:
        return f"'call:' and 'wrap:' of day {day}, or an agreed order"
    least, most = min(found, key=lambda x: x.key), max(found, key=lambda x: x.key)
    typical = () if room.outdoors else tuple(dict.fromkeys(_typical(plan, setup, room)))
    return Daylight(least, most, said is not None, agreed, typical)


def of(facts: Facts, setup: Setup) -> Daylight | str | None:
    """The daylight of a setup where the sky comes in: under the open sky, and past windows to its `key-at`; None where
    it does not, or where the setup has neither lamps nor daylight to count with."""
    reading, room = facts.readings.get(setup.id), facts.plan.set_of(setup.id)
    if reading is not None:
        towards = reading.key.towards if reading.key is not None else None
        return daylight(facts, setup, reading.at, towards) if reading.daylight else None
    if room is None or setup.lights or setup.needs == "dark":
        return None
    at = light.spot_of(facts.plan, setup, setup.key_at) if setup.key_at is not None else None
    if at is None and not room.outdoors:
        return None
    found = daylight(facts, setup, at, None)
    return None if not isinstance(found, str) and (found.most.hour.height < NIGHT or found.most.key <= 0) else found


def times(facts: Facts, setup: Setup) -> tuple[tuple[Span, ...], bool]:
    """When the setup is taken, and whether an agreed order says so; else the hours of its day in which it may be."""
    rolling = facts.rolling(setup.id)
    if rolling is not None:
        return (rolling,), True
    day = facts.plan.days[facts.day_of[setup.id] or ""]
    place = facts.plan.location_of(setup.id)
    if day.call is None or day.wrap is None or place is None:
        return (), False
    start = int(day.call)
    end = int(day.wrap) + (sky.DAY if day.wrap < day.call else 0)
    if setup.between is not None and setup.between.start < setup.between.end:
        start, end = max(start, int(setup.between.start)), min(end, int(setup.between.end))
    needs = sky.when(facts.plan, day.id, place.id, setup.needs or "any") or ()
    return tuple((max(a, start), min(b, end)) for a, b in needs if min(b, end) > max(a, start)), False


def hours(plan: Plan, setup: Setup, day: str, place: str, spans: tuple[Span, ...]) -> Iterator[Hour]:
    """Every moment and condition of the sky that is looked at."""
    said = plan.days[day].sky
    may = (said,) if said is not None else CONDITIONS[1:] if setup.needs == "sun" else CONDITIONS
    where, room = plan.locations[place], plan.set_of(setup.id)
    shade = setup.needs == "daylight" and room is not None and bool(room.outdoors)
    for start, end in spans:
        steps = max(1, -(-(end - start) // EVERY))
        for i in range(steps + 1):
            clock = start + (end - start) * i // steps
            position = sky.sun_at(plan, day, place, clock)
            if position is None:
                continue
            free = position.elevation > max(0.0, sky.skyline(where, position.azimuth))
            for condition in may:
                sun = free and condition != "overcast"
                yield Hour(clock, position.elevation, position.azimuth, condition, sun)
                if sun and shade:
                    yield Hour(clock, position.elevation, position.azimuth, condition, False)


def _indoors(plan: Plan, setup: Setup, room: Set, hour: Hour, at: XYZ | None, towards: XYZ | None) -> Level:
    """Through the windows, on a meter turned as said, or to the window that gives most."""
    if at is None:
        return Level(hour, 0.0, 0.0, 0.0)
    panes = [(w, sunpatch.pane(plan, w.id)) for w in room.windows.values()]
    open_ = [(w, pane) for w, pane in panes if pane and passes(plan, setup, w) > 0]
    if towards is not None:
        back = _room(plan, setup, hour, open_)
        lux = back + sum(_window(plan, setup, hour, at, towards, w, pane) for w, pane in open_)
        disc = sum(_disc(plan, setup, room, hour, at, towards, w) for w, _ in open_)
        return Level(hour, lux + disc, 0.0, disc)
    best = Level(hour, 0.0, 0.0, 0.0)
    for _, pane in open_:
        middle = tuple(sum(c[i] for c in pane) / 4 for i in range(3))
        level = _indoors(plan, setup, room, hour, at, light.unit(at, (middle[0], middle[1], middle[2])))
        best = max(best, level, key=lambda x: x.key)
    return best


def _room(plan: Plan, setup: Setup, hour: Hour, open_: list[tuple[Window, tuple[XYZ, ...]]]) -> float:
    """Lux that the room gives back of what comes in by its windows, spread evenly: the split flux of daylight tables,
    E = lumens x rho / (A (1 - rho))."""
    from ..science import room as rooms
    from . import room as shells

    shell = shells.enclosure(plan, setup, ()) if open_ else None
    if shell is None:
        return 0.0
    flux = 0.0
    for window, pane in open_:
        facing = walls.facing(plan, window.id)
        lux = glass(plan, setup, hour, window)
        if facing is not None and hour.disc and not scatters(plan, setup, window.id):
            slant = max(0.0, sunlight.incidence(hour.bearing, hour.height, facing))
            lux += science.direct(hour.height, hour.condition) * slant * passes(plan, setup, window)
        a, b, c = pane[0], pane[1], pane[2]
        flux += lux * ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 * (c[2] - b[2])
    return rooms.sphere(flux, shell.area, min(shell.mean, 0.95))


def _window(
    plan: Plan, setup: Setup, hour: Hour, at: XYZ, towards: XYZ, window: Window, pane: tuple[XYZ, ...]
) -> float:
    """Lux of a window on a meter: the part of the meter's view it fills times what leaves the glass."""
    return optics.polygon_factor(pane, at, towards) * glass(plan, setup, hour, window)


def glass(plan: Plan, setup: Setup, hour: Hour, window: Window) -> float:
    """Lux that leaves a window into the room, spread evenly: sky and ground before it, and the sun on it where a
    layer scatters, each behind glass and layers."""
    facing = walls.facing(plan, window.id)
    if facing is None:
        return 0.0
    off = facing - hour.bearing
    whole = science.upright(hour.height, off, hour.condition, sun=hour.disc)
    if hour.disc and not scatters(plan, setup, window.id):
        whole -= science.direct(hour.height, hour.condition) * max(
            0.0, sunlight.incidence(hour.bearing, hour.height, facing)
        )
    return whole * passes(plan, setup, window)


def _disc(plan: Plan, setup: Setup, room: Set, hour: Hour, at: XYZ, towards: XYZ, window: Window) -> float:
    """Lux of direct sun through a window on a meter at a point."""
    if not hour.disc or scatters(plan, setup, window.id):
        return 0.0
    way = sunlight.sun_direction(hour.bearing, hour.height, float(room.north or 0.0))
    cosine = sum(a * b for a, b in zip(way, towards, strict=True))
    if cosine <= 0 or not sunpatch.reaches(plan, window.id, at, way):
        return 0.0
    return science.direct(hour.height, hour.condition) * cosine * passes(plan, setup, window)


def clear_glass() -> float:
    """The part of daylight that passes a window of which no loss is said."""
    return float(table("light")["window"]["glass-passes"]["likely"])


def passes(plan: Plan, setup: Setup, window: Window) -> float:
    """The part of daylight that glass and treatment of a window let through: nothing behind cloth."""
    cover = next((t for t in setup.windows.values() if t.id == window.id), None)
    left = clear_glass() if window.loses is None else 2.0 ** -float(window.loses)
    if cover is None or cover.open:
        return left
    if cover.black_out or cover.tent:
        return 0.0
    for name in cover.layers:
        thing = plan.stock.get(name) or plan.gear.get(name)
        if thing is not None and getattr(thing, "opaque", None):
            return 0.0
        left *= 2.0 ** -float((thing.loses if thing is not None else None) or 0.0)
    return left


def scatters(plan: Plan, setup: Setup, window: str) -> bool:
    """Whether a layer on a window spreads the light: whatever is neither a grey nor a coloured gel."""
    cover = next((t for t in setup.windows.values() if t.id == window), None)
    for name in cover.layers if cover is not None else ():
        thing = plan.stock.get(name) or plan.gear.get(name)
        words = f"{name} {(thing.of if thing is not None else None) or ''}".lower()
        coloured = thing is not None and thing.shifts is not None
        if not coloured and not any(w in words.replace("-", " ").split() for w in ("nd", "grey", "gray", "gel")):
            return True
    return False


def _typical(plan: Plan, setup: Setup, room: Set) -> Iterator[str]:
    for window in room.windows.values():
        if window.loses is None and passes(plan, setup, window) > 0:
            yield "what window glass takes"
