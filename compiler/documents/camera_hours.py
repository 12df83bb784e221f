"""What the clock says at a camera: when each shot of a setup begins, when its light is over, when a battery is low."""

from __future__ import annotations

from collections.abc import Iterator

from ..facts import cells, sky
from ..facts.changeover import half_minutes
from ..plan.setup import Setup
from .desk import Desk
from .say import join
from .shoot import DayLine
from .window_words import sky_words

LOW = 0.1  # of a charge, from which on the sheet says that a battery is low; common practice, no source
SKIES = ("dusk", "golden", "daylight", "sun")


def begins(desk: Desk, line: DayLine, setup: Setup) -> dict[str, int]:
    """When each shot of a setup begins if they are taken in the plan's order; empty where a shot has no time."""
    shots, slot = desk.shoot.plan.shots_of(setup.id), line.of_setup(setup.id, "shoot")
    if slot is None or any(shot.takes is None for shot in shots):
        return {}
    now, found = slot.start, {}
    for shot in shots:
        found[shot.id] = now
        now += half_minutes(float(shot.takes or 0.0))
    return found


def closes(desk: Desk, line: DayLine, setup: Setup) -> str:
    """When what a setup needs of the hour is over, in words; "" for a setup that nothing presses."""
    _ = desk.words
    say, slot = desk.say, line.of_setup(setup.id, "shoot")
    if slot is None:
        return ""
    ends = []
    if setup.needs in SKIES:
        spans = sky.when(desk.shoot.plan, line.day.id, line.day.location or "", setup.needs) or ()
        ends = [(b, sky_words(say, setup.needs, setup.id)) for a, b in spans if a <= slot.start < b]
    if setup.between is not None:
        ends.append((setup.between.end, _("its own hours")))
    if not ends:
        return ""
    end, what = min(ends)
    return _("{what} closes at {time}", what=what, time=say.clock(end))


def lens_words(desk: Desk, line: DayLine, setup: Setup) -> str:
    """The times of the shots of a setup where the lens is changed in it while its hours run out."""
    _ = desk.words
    shots, closing = desk.shoot.plan.shots_of(setup.id), closes(desk, line, setup)
    if not closing or len({(shot.lens, shot.zoom) for shot in shots}) < 2:
        return ""
    own = setup.camera.lens if setup.camera and setup.camera.lens else ""
    times = begins(desk, line, setup)
    told = [
        join(" ", (shot.id, _("from {time}", time=desk.say.clock(times[shot.id])) if shot.id in times else "",
                   _("on {lens}", lens=desk.say.thing(shot.lens or own)) if shot.lens or own else ""))
        for shot in shots
    ]  # fmt: skip
    return _("LENS CHANGE INSIDE A WINDOW: {shots}; {closes}", shots=", ".join(told), closes=closing)


def low_cells(desk: Desk, line: DayLine, setup: Setup) -> Iterator[str]:
    """The batteries of the camera that are nearly empty when a setup ends."""
    _ = desk.words
    slot = line.of_setup(setup.id, "shoot")
    body = setup.camera.body if setup.camera else None
    if slot is None or not body:
        return
    for store in cells.stores(desk.shoot.facts, line.day.id):
        for spell in store.day.spells:
            start, end = spell.start * 2, spell.end * 2
            if spell.what.rpartition(" ")[0] != body:
                continue
            if slot.start < end < slot.end and spell.after < 1e-6:
                yield _("BATTERY SWAP inside this setup: {battery} no. {n} is flat at {time}",
                        battery=desk.say.thing(store.gear.id), n=spell.cell + 1, time=desk.say.clock(int(end)))
            if not start < slot.end <= end + 1 or end <= slot.start:
                continue
            part = min(max((slot.end - start) / (end - start), 0.0), 1.0)
            left = (spell.before + (spell.after - spell.before) * part) / store.full
            if left < LOW:
                told = desk.say.value("percent", round(max(left, 0.0), 2))
                yield _(
                    "BATTERY LOW: {battery} no. {n} ends this setup at {left} of its charge; have the next one ready",
                    battery=desk.say.thing(store.gear.id), n=spell.cell + 1, left=told,
                )  # fmt: skip
