"""How one setup of a plan is lit: each lamp's share at the mark, the room, daylight, exposure, windows, colours."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import Facts, colours, daylight, exposure, light, metered, night, sky, sunpatch, tint
from ..plan import decode
from ..record import replace
from ..science import colour
from ..science import light as photometry
from ..source import read
from ..source.quantities import show
from .answer import Answer, Ask, Given, Line, Refused, rounded
from .light import stops_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts.exposure import Reading
    from ..plan.setup import Setup

HELP = "How a setup of a plan is lit: lamps, room, daylight, windows, exposure, colours."
ASKS = (
    Ask("plan", "text", "the plan", "examples/last-boat/plan.yaml", needed=True),
    Ask("name", "text", "the setup", "office-wide", needed=True),
    Ask("under", "stops", "how far under the key a night's window should look (4 stops when left out)", "3 stops"),
)
EXAMPLES = ("hotset ask setup --plan examples/last-boat/plan.yaml --name office-wide",)


def answer(given: Given) -> Answer:
    """Everything that is known of the light of a setup, in the order in which one would ask."""
    facts, setup = _setup(given)
    under = float(given.get("under", night.UNDER))
    found = [*_lamps(facts, setup), *_day(facts, setup), *_camera(facts, setup), *_windows(facts, setup, under),
             *_colours(facts, setup)]  # fmt: skip
    if not found:
        raise Refused(f"setup '{setup.id}' has no lamps, no daylight and no windows that the plan says enough of")
    typical = dict.fromkeys(t for t in _typical(facts, setup))
    notes = ["C = 250, a flat meter turned to the key; the room's part is an estimate, daylight a mean"]
    notes += [f"typical values: {'; '.join(typical)}"] if typical else []
    return Answer(
        given.echo(under="4 stops"),
        tuple(found),
        "E = E0 (d0 / d)^2 x beam x level x layers; room: first bounce, then lm rho / (A (1 - rho)); N^2 / t = E S / C",
        "physics; ISO 2720 and IES 1984 read second hand; CIE clear and overcast sky",
        tuple(notes),
    )


def _setup(given: Given) -> tuple[Facts, Setup]:
    plan, findings = decode(read([str(given["plan"])]))
    if plan is None:
        why = findings[0].sentence if findings else "nothing in it"
        raise Refused(f"the plan could not be read: {why}")
    name = str(given["name"])
    if name not in plan.setups:
        from difflib import get_close_matches

        near = get_close_matches(name, plan.setups, n=1, cutoff=0.4)
        offer = f"did you mean '{near[0]}'?" if near else f"there are: {', '.join(list(plan.setups)[:8])}"
        raise Refused(f"no setup '{name}' in the plan; {offer}")
    return Facts(plan), plan.setups[name]


def _lux(value: float) -> str:
    return f"{rounded(value):g} lx"


def _lamps(facts: Facts, setup: Setup) -> Iterator[Line]:
    """Each lamp at the mark, by how much of the light on the key's meter it gives; the fill; the ratio."""
    reading = facts.readings.get(setup.id)
    if reading is None:
        if setup.lights or setup.practicals:
            wants = f"the place of mark '{setup.key_at}'" if setup.key_at else "'key-at:' (where the key is measured)"
            yield Line("measured at", f"not known: wants {wants}")
        return
    yield Line("measured at", f"'{reading.mark}', {reading.at[2]:.2g} m high", reading.mark)
    for arrival in reading.arrivals:
        share = ""
        if reading.key is not None and reading.lux > 0:
            cosine = sum(a * b for a, b in zip(arrival.towards, reading.key.towards, strict=True))
            share = f", {max(0.0, arrival.lux * cosine) / reading.lux * 100:.0f} % of what the key's meter reads"
        lost = f"; most is lost to {arrival.losses[0].words}" if arrival.losses else ""
        yield Line(f"'{arrival.item.id}'", f"{_lux(arrival.lux)}{share}{lost}", round(arrival.lux, 2))
    for unknown in reading.unknown:
        yield Line(f"'{unknown.item.id}'", f"not known: wants {unknown.wants}")
    lit = {arrival.item.id for arrival in reading.arrivals}
    for one in setup.practicals.values():
        if one.id not in lit and one.effect is None:
            yield Line(f"'{one.id}'", f"not known: wants {exposure.unlit(facts.plan, one)}")
    room, key = facts.room_light(setup.id), reading.key
    if key is None:
        return
    if room is not None:
        yield Line("the room, to the key", f"about {_lux(room.key)}", round(room.key, 2))
        left = f"; without {', '.join(room.left_out)}, whose beam is not said" if room.left_out else ""
        yield Line("the room, to the fill", f"about {_lux(room.fill)}{left}", round(room.fill, 2))
        if room.cloth >= 1 / 6:
            yield Line("black cloth takes", f"{stops_words(room.cloth)} of the room's fill", round(room.cloth, 2))
    fill = metered.fill(facts, setup, reading)
    if fill > 0 and key.lux > 0:
        off = photometry.ratio_stops(key.lux, fill)
        wanted = f", wanted {setup.key_to_fill:g}:1" if setup.key_to_fill else ""
        yield Line("key to fill", f"{key.lux / fill:.2g}:1, {_signed(off)}{wanted}", round(key.lux / fill, 2))
    yield from _backgrounds(facts, setup, reading)
    back = metered.behind(facts, setup)
    if back is not None:
        words = f"about {_lux(back.lux)} on {back.what}, {_against(back.stops)} the key's grey"
        yield Line(f"behind '{reading.mark}'", words, round(back.stops, 2))


def _backgrounds(facts: Facts, setup: Setup, reading: Reading) -> Iterator[Line]:
    """Lamps for the background, where they aim, against the key."""
    from ..facts import places

    key = reading.key
    for item in setup.lights.values():
        aim = places.light_aim(facts.plan, setup, item)
        if not (item.role or "").lower().startswith("background") or aim is None or key is None or key.lux <= 0:
            continue
        there = [a for a in light.arrivals(facts.plan, setup, aim) if isinstance(a, light.Arrival) and a.item is item]
        if there and there[0].lux > 0:
            off = photometry.ratio_stops(there[0].lux, key.lux)
            words = f"{_lux(there[0].lux)} where it aims, {_against(off)} the key"
            yield Line(f"background '{item.id}'", words, round(off, 2))


def _signed(off: float) -> str:
    side = "over" if off > 0 else "under"
    return f"{stops_words(off)} {side}" if abs(off) >= 1 / 6 else "level"


def _against(off: float) -> str:
    said = _signed(off)
    return "level with" if said == "level" else said


def _day(facts: Facts, setup: Setup) -> Iterator[Line]:
    """Daylight on the meter, and sun against sky under the open sky."""
    day = facts.daylights.get(setup.id)
    if isinstance(day, str):
        yield Line("daylight", f"not known: wants {day}")
    if day is None or isinstance(day, str):
        return
    when = "in the agreed order" if day.agreed else "as no order is agreed, in all hours it may be taken in"
    yield Line("daylight", f"{_lux(day.least.key)} to {_lux(day.most.key)} {day.words}, {when}", round(day.most.key))
    room = facts.plan.set_of(setup.id)
    if room is not None and room.outdoors:
        for words, level in (("darkest", day.least), ("brightest", day.most)):
            off = photometry.ratio_stops(level.key, level.fill) if level.fill > 0 else 0.0
            sun = f"sun to shade {stops_words(off)}" if level.hour.disc else "no sun"
            yield Line(
                words,
                f"at {_clock(level.hour.clock)}, sun {level.hour.height:.0f} deg high, {level.hour.condition}: "
                f"key {_lux(level.key)}, fill {_lux(level.fill)}, {sun}",
                round(off, 2),
            )


def _camera(facts: Facts, setup: Setup) -> Iterator[Line]:
    """What the stop asks for, what arrives in all, the stop that gives, the filter for what is too much."""
    lacks, camera = exposure.missing(setup), setup.camera
    if lacks and (setup.id in facts.readings or facts.daylights.get(setup.id) is not None):
        yield Line("exposure", f"not known: wants {lacks}")
    read = metered.metered(facts, setup)
    if not read.stops or read.wanted is None or camera is None or camera.stop is None:
        return
    filters = f" behind {stops_words(read.filters)} of filters" if read.filters > 0.1 else ""
    yield Line("asked for", f"{_lux(read.wanted)} for {show('stop', camera.stop)}{filters}", round(read.wanted, 2))
    names = ("gets",) if len(read.stops) == 1 else ("gets at least", "gets at most")
    for words, one in zip(names, read.stops, strict=True):
        letter = "T" if camera.stop.transmission else "f/"
        mark = f"{letter}{one.engraved:g}" if one.engraved is not None else f"{letter}{one.number:.2g}"
        more = f"; grey filter of {stops_words(round(one.over))}" if one.over > 1.0 else ""
        yield Line(words, f"{_lux(one.lux)}: {mark}, {_signed(one.over)}{more}", round(one.over, 2))


def _windows(facts: Facts, setup: Setup, under: float) -> Iterator[Line]:
    """Each window: sun on it and on which mark, how it looks against the key, what it must lose, from when not."""
    plan, room, place = facts.plan, facts.plan.set_of(setup.id), facts.plan.location_of(setup.id)
    day = facts.day_of[setup.id]
    if room is None or place is None or day is None or sky.missing(plan, day, place.id):
        return
    key = exposure.wanted(plan, setup) or 0.0
    bare = replace(setup, windows={})
    for window in room.windows.values():
        name = window.id.rsplit("/", 1)[-1]
        yield from _sun(facts, setup, window.id, name, day, place.id)
        if key <= 0:
            continue
        spans, _ = daylight.times(facts, setup)
        hours = list(daylight.hours(plan, setup, day, place.id, spans))
        for state, words in ((bare, "bare"), (setup, "as treated")):
            if state is setup and (state.windows == bare.windows or daylight.passes(plan, setup, window) <= 0):
                continue
            looks = [night.over_grey(plan, state, window, hour, key) for hour in hours]
            bright = max((x for x in looks if x is not None), default=None)
            if bright is not None:
                loses = night.to_lose(bright, under)
                need = (
                    f"must lose {stops_words(loses)} ({2.0**-loses * 100.0:.2g} % through)" if loses > 0 else "is dark"
                )
                said = f"{_against(bright)} the key's grey; {need} to look {under:g} stops under"
                yield Line(f"'{name}' {words}", said, round(bright, 2))
            late = night.dark_enough(plan, state, window, day, place.id, key, under)
            said = "not before midnight" if late is None else "all day" if late == 0 else f"from {_clock(late)}"
            yield Line(f"dark enough {words}", f"'{name}' {said}", None if late is None else _clock(late))


def _sun(facts: Facts, setup: Setup, window: str, name: str, day: str, place: str) -> Iterator[Line]:
    """When sun stands on a window, where its patch lies, and which mark it reaches when, over the whole day."""
    from ..facts import walls

    plan, room, bearing = facts.plan, facts.plan.set_of(setup.id), walls.facing(facts.plan, window)
    spans = [s for s in sky.struck(plan, day, place, bearing) or () if s[0] < sky.DAY] if bearing is not None else []
    if room is None or not spans:
        return
    covered = daylight.passes(plan, setup, plan.windows[window]) <= 0
    hours = ", ".join(f"{_clock(a)} to {_clock(b)}" for a, b in spans)
    yield Line(f"sun on '{name}'", f"{hours}{', kept out by its cloth' if covered else ''}", hours)
    if covered:
        return
    for mark, thing in room.marks.items():
        at = None if thing.thing else light.spot_of(plan, setup, mark)
        met = sunpatch.on_point(plan, room, window, day, at, tuple(spans)) if at is not None else ()
        if met:
            words = ", ".join(f"{_clock(a)} to {_clock(b)}" for a, b in met)
            yield Line(f"sun on mark '{mark}'", f"{words}, through '{name}'", words)
    for start, end in spans:
        step = max(60, (end - start) // 4 // 2 * 2)
        for clock in range(start + step // 2, end, step):
            patch = sunpatch.patch(plan, room, window, day, clock)
            if patch is not None and (patch.deep is not None or patch.walls):
                yield Line(f"patch of '{name}'", f"{_clock(clock)}: {_lies(patch)}")


def _lies(patch: sunpatch.Patch) -> str:
    parts = [f"floor up to {patch.deep:.2g} m from the wall"] if patch.deep is not None else []
    parts += [f"wall {name} from {low:.2g} to {high:.2g} m high" for name, low, high in patch.walls]
    return ", ".join(parts)


def _colours(facts: Facts, setup: Setup) -> Iterator[Line]:
    """Each source against the white balance, and the spread of those on the mark."""
    white = setup.camera.white_balance if setup.camera is not None else None
    if not white:
        return
    on_face: list[float] = []
    reading = facts.readings.get(setup.id)
    lit = {a.item.path for a in reading.arrivals if a.lux > 0.1 * reading.lux} if reading is not None else set()
    for tone in colours.tones(facts.plan, setup):
        seen = tone.seen()
        if seen is None:
            continue
        off = colour.difference(seen, float(white))
        patch = colour.swatch(seen, float(white), tone.green or 0.0)
        words = f"{round(seen, -1):.0f} K, {off:+.0f} mired, {colour.words(off)}, {patch}"
        if tone.green is None or abs(tone.green) >= tint.seen():
            words += f", {tint.words(tone.green) if tone.green is not None else tone.lamp.tint}"
        yield Line(f"colour of '{tone.words}'", words, round(off, 1))
        if tone.path in lit:
            on_face.append(off)
    if len(on_face) > 1:
        spread = max(on_face) - min(on_face)
        said = "one colour" if spread < colour.SEEN else "mixed light" if spread < colour.STRONG else "two colours"
        yield Line("on one face", f"{spread:.0f} mired apart: {said}", round(spread, 1))


def _typical(facts: Facts, setup: Setup) -> Iterator[str]:
    reading, room, day = facts.readings.get(setup.id), facts.room_light(setup.id), facts.daylights.get(setup.id)
    yield from reading.typical if reading is not None else ()
    yield from room.typical if room is not None else ()
    if day is not None and not isinstance(day, str):
        yield from day.typical


def _clock(half_minutes: int) -> str:
    day, rest = divmod(half_minutes, sky.DAY)
    return f"{rest // 120:02d}:{rest % 120 // 2:02d}" + (" the day after" if day == 1 else "")
