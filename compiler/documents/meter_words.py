"""What the meter will read at a setup's mark, in one line for whoever lights and whoever exposes."""

from __future__ import annotations

from ..facts import exposure, metered
from ..facts.metered import Stop
from ..plan.setup import Setup
from ..science import light as photometry
from ..source.quantities import show
from .desk import Desk
from .numbers import decimal
from .say import NO_BREAK, join, plain

LEAST = 1 / 6  # less of a stop than this is none: readings are told in thirds


def meter_words(desk: Desk, setup: Setup) -> str:
    """Lux and stop against the one that is set, key to fill, what is behind the mark, and what is not counted; empty
    where the plan says too little of the light or the camera."""
    _ = desk.words
    facts = desk.shoot.facts
    reading, camera = facts.readings.get(setup.id), setup.camera
    read = metered.metered(facts, setup)
    if not read.stops or camera is None or camera.stop is None:
        return ""
    lux = " – ".join(_number(desk, one.lux) for one in _apart(read.stops)) + f"{NO_BREAK}lx"
    said = _("{lux}, {stop}", lux=lux, stop=_stop(desk, setup, read.stops))
    key, fill = reading.key if reading else None, metered.fill(facts, setup, reading) if reading else 0.0
    ratio = ""
    if key is not None and key.lux > 0 and fill > 0 and len(read.stops) == 1:
        ratio = _("key to fill {ratio}", ratio=f"{decimal(f'{key.lux / fill:.2g}', desk.words)}:1")
        if setup.key_to_fill and abs(photometry.ratio_stops(key.lux / fill, setup.key_to_fill)) >= LEAST:
            ratio = _("{ratio}, wanted {other}", ratio=ratio, other=f"{setup.key_to_fill:g}:1")
    back = metered.behind(facts, setup) if len(read.stops) == 1 else None
    wall = _("behind it {off}", off=_off(desk, back.stops, _("grey"))) if back is not None else ""
    silent = [u.item.id for u in reading.unknown] if reading else []
    silent += [p.id for p in setup.practicals.values() if p.effect is None and reading and _dark(desk, setup, p.id)]
    missing = ", ".join(dict.fromkeys(plain(name) for name in silent))
    uncounted = _("without {names}", names=missing) if missing else ""
    mark = plain(setup.key_at) if setup.key_at else ""
    head = _("Meter at {mark}", mark=mark) if mark else _("Meter")
    return f"{head}: " + join(" · ", (said, ratio, wall, uncounted))


def _dark(desk: Desk, setup: Setup, practical: str) -> bool:
    reading = desk.shoot.facts.readings.get(setup.id)
    lit = {arrival.item.id for arrival in reading.arrivals} if reading else set()
    return practical not in lit and bool(exposure.unlit(desk.shoot.plan, setup.practicals[practical]))


def _apart(stops: tuple[Stop, ...]) -> tuple[Stop, ...]:
    """The two ends, or one where they read alike."""
    return stops[:1] if len(stops) == 2 and f"{stops[0].lux:.2g}" == f"{stops[1].lux:.2g}" else stops


def _number(desk: Desk, lux: float) -> str:
    """Two figures, as the inputs deserve."""
    return decimal(f"{float(f'{lux:.2g}'):g}", desk.words)


def _stop(desk: Desk, setup: Setup, stops: tuple[Stop, ...]) -> str:
    """The stop that the light gives, and how far that is from the one that is set."""
    _ = desk.words
    camera = setup.camera
    if camera is None or camera.stop is None:
        return ""
    letter, set_to = "T" if camera.stop.transmission else "f/", show("stop", camera.stop)
    marks = [f"{letter}{one.engraved:g}" if one.engraved is not None else f"{letter}{one.number:.2g}" for one in stops]
    if len(stops) == 1:
        over = stops[0].over
        if abs(over) < LEAST:
            return _("{stop} as set", stop=set_to)
        return _("{stop}, {off}", stop=marks[0], off=_off(desk, over, set_to))
    return _("{low} to {high} by daylight, set to {stop}", low=marks[0], high=marks[1], stop=set_to)


def _off(desk: Desk, stops: float, against: str) -> str:
    """So many stops over or under something."""
    _ = desk.words
    if abs(stops) < LEAST:
        return _("level with {what}", what=against)
    whole, rest = divmod(round(abs(stops) * 3), 3)
    parts = [f"{whole}"] * (whole > 0 or not rest) + [f"{rest}/3"] * (rest > 0)
    size = NO_BREAK.join((*parts, _("stop") if whole * 3 + rest <= 3 else _("stops")))
    if stops > 0:
        return _("{size} over {what}", size=size, what=against)
    return _("{size} under {what}", size=size, what=against)
