"""The light at the mark where a setup measures its key, against what its stop, shutter, ISO and filters ask for.

The meter stands at the mark, flat, turned to the key lamp: every lamp counts by the cosine of the angle between it and
the key, what comes from behind not at all, nor do lamps that flash or flicker. Formula: ISO 2720,
N^2 / t = E S / C with C = 250.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..science import exposure, flicker
from ..science import light as optics
from . import light, sky, walls
from .light import Arrival, Unknown

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.light import Practical
    from ..plan.set import Set
    from ..plan.setup import Setup
    from . import Facts
    from .places import XYZ

BRIGHTEST = 100_000.0  # lux of sun and sky on open ground, an upper bound; common practice, no source


class Reading(NamedTuple):
    """A setup's light at its `key-at`. `key` is the key lamp, None where none is told; `lux` what falls on a surface
    turned to it; `unknown` the lamps whose light is not known; `daylight` says what lets the sky in ("": nothing, or
    too little to count)."""

    mark: str
    at: XYZ
    arrivals: tuple[Arrival, ...]
    unknown: tuple[Unknown, ...]
    key: Arrival | None
    lux: float
    daylight: str

    def of_role(self, *roles: str) -> tuple[Arrival, ...]:
        """The lamps of a role."""
        return tuple(a for a in self.arrivals if role(a) in roles)

    @property
    def estimate(self) -> bool:
        """Whether any of the light is an estimate."""
        return any(a.source.estimate for a in self.arrivals)

    @property
    def typical(self) -> tuple[str, ...]:
        """The typical values it rests on."""
        return tuple(dict.fromkeys(t for a in self.arrivals for t in a.typical))


def role(arrival: Arrival) -> str:
    """The first word of a lamp's role, in lower case."""
    return (arrival.item.role or "").lower().split(" ")[0].split("-")[0]


def reading(facts: Facts, setup: Setup) -> Reading | None:
    """The light at a setup's `key-at`; None where nothing is lit or its mark's place is not known. Without a lamp the
    brightest practical is the key: a scene by candlelight."""
    plan = facts.plan
    if not (setup.lights or setup.practicals) or setup.key_at is None:
        return None
    at = light.spot_of(plan, setup, setup.key_at)
    if at is None:
        return None
    met = (*light.arrivals(plan, setup, at), *light.practicals(plan, setup, at))
    found = tuple(a for a in met if isinstance(a, Arrival))
    unknown = tuple(u for u in met if isinstance(u, Unknown) and not _pulses(u))
    steady = [a for a in found if not _pulses(a)]
    key = _key(steady, alone=len(setup.lights) <= 1)
    lux = sum(a.lux * max(0.0, _cosine(a, key)) for a in steady) if key else 0.0
    return Reading(setup.key_at, at, tuple(steady), unknown, key, lux, daylight(facts, setup, at, lux))


def unlit(plan: Plan, one: Practical) -> str:
    """The detail without which the light of a practical is not known."""
    names = [n for n in (one.bulb, one.prop) if n is not None and n in plan.gear]
    if not any(plan.gear[n].gives for n in names):
        return f"'gives:' of '{names[0] if names else one.id}', such as bare: 1 lx at 1 m"
    return f"the place of practical '{one.id}' ('at:' and 'height:')"


def fill_way(reading: Reading) -> XYZ:
    """The direction a meter for the fill is turned in: to the strongest fill lamp, else away from the key, upright."""
    fills = [a for a in reading.of_role("fill") if a.lux > 0]
    if fills:
        return max(fills, key=lambda a: a.lux).towards
    if reading.key is None:
        return 1.0, 0.0, 0.0
    x, y, _ = reading.key.towards
    flat = (x * x + y * y) ** 0.5
    return (-x / flat, -y / flat, 0.0) if flat > 1e-6 else (1.0, 0.0, 0.0)


def _pulses(one: Arrival | Unknown) -> bool:
    return one.item.effect is not None or (one.item.role or "").lower().startswith("effect")


def _key(steady: list[Arrival], *, alone: bool) -> Arrival | None:
    keys = [a for a in steady if role(a) == "key"] or (steady if alone else [])
    return max(keys, key=lambda a: a.lux, default=None)


def _cosine(one: Arrival, key: Arrival) -> float:
    return sum(a * b for a, b in zip(one.towards, key.towards, strict=True))


def filter_stops(plan: Plan, setup: Setup) -> float:
    """Stops that filters and adapters before or behind the lens take."""
    camera = setup.camera
    names = (*camera.filters, *camera.adapters) if camera else ()
    return sum(float(plan.gear[n].loses or 0.0) for n in names if n in plan.gear)


def shutter(setup: Setup) -> float | None:
    """Seconds the shutter is open."""
    camera = setup.camera
    if camera is None or camera.shutter is None:
        return None
    if camera.shutter.seconds is not None:
        return float(camera.shutter.seconds)
    if camera.fps is None or not camera.shutter.degrees:
        return None
    return flicker.shutter_time(camera.shutter.degrees, float(camera.fps))


def missing(setup: Setup) -> str:
    """The detail of the camera without which nothing says how much light is wanted; "" where nothing lacks."""
    camera = setup.camera
    if camera is None:
        return "a 'camera:' with stop, shutter, fps and iso"
    lacks = [k for k, v in (("stop", camera.stop), ("iso", camera.iso), ("shutter", camera.shutter)) if v is None]
    if not lacks and shutter(setup) is None:
        lacks = ["fps"]
    return f"of the camera: {', '.join(lacks)}" if lacks else ""


def wanted(plan: Plan, setup: Setup) -> float | None:
    """Lux that the setup's stop, shutter, ISO and filters ask for."""
    camera, time = setup.camera, shutter(setup)
    if camera is None or camera.stop is None or not camera.iso or camera.iso <= 0 or time is None:
        return None
    lux = exposure.illuminance_for(float(camera.stop.number), time, float(camera.iso))
    return lux / exposure.transmittance(filter_stops(plan, setup))


def daylight(facts: Facts, setup: Setup, at: XYZ, lamps: float) -> str:
    """What lets the sky in while the setup may be shot, in words; "" after dark, behind cloth, and behind layers so
    dense that even the brightest sky stays under a tenth of the lamps."""
    room = facts.plan.set_of(setup.id)
    if room is None or setup.needs == "dark":
        return ""
    words = "the open sky" if room.outdoors else _let_in(facts.plan, setup, room, at, lamps)
    return "" if words and _after_dark(facts, setup) else words


def _let_in(plan: Plan, setup: Setup, room: Set, at: XYZ, lamps: float) -> str:
    """The first window of a room that lets in more than a tenth of the lamps by day."""
    covers = {t.id: t for t in setup.windows.values()}
    for window in room.windows.values():
        cover = covers.get(window.id)
        short = window.id.rsplit("/", 1)[-1]
        if cover is None or cover.open:
            return f"window '{short}', which nothing covers"
        if cover.black_out or cover.tent:
            continue
        lost = sum(float(thing.loses or 0.0) for n in cover.layers if (thing := plan.stock.get(n) or plan.gear.get(n)))
        opening = walls.window_opening(plan, window.id)
        share = 0.5
        if opening is not None:
            a, b = opening.start, opening.end
            pane = ((*a, opening.low), (*b, opening.low), (*b, opening.high), (*a, opening.high))
            middle = (*opening.middle, (opening.low + opening.high) / 2)
            share = optics.polygon_factor(pane, at, light.unit(at, middle))
        if BRIGHTEST * share * 2.0**-lost > 0.1 * lamps:
            return f"window '{short}' with its layers"
    return ""


def _after_dark(facts: Facts, setup: Setup) -> bool:
    """Whether the agreed order rolls the setup in the dark."""
    rolling, day = facts.rolling(setup.id), facts.day_of[setup.id]
    place = facts.plan.location_of(setup.id)
    if rolling is None or day is None or place is None:
        return False
    spans = sky.when(facts.plan, day, place.id, "dark") or ()
    return any(start <= rolling[0] and rolling[1] <= end for start, end in spans)
