"""Where the sun stands, when it rises, sets, is golden, and when it strikes a window."""

from __future__ import annotations

import json

from ..facts import sky
from ..facts.hours import full_minute
from ..plan import Plan, decode
from ..science import sun as solar
from ..science import sunlight
from ..source import read
from ..source.quantities import show
from .answer import Answer, Ask, Given, Line, Refused

HELP = "When the sun rises, sets, is golden and where it stands; when it strikes a window."
ASKS = (
    Ask("at", "coordinates", "where", "55.01 N, 1.44 W", needed=True),
    Ask("date", "date", "on which day", "2026-11-14", needed=True),
    Ask("zone", "zone", "time zone of the clock", "Europe/London", needed=True),
    Ask("clock", "clock", "at which time, for the sun's place", "15:00"),
    Ask("faces", "angle", "compass bearing a window looks to", "110 deg"),
    Ask("top", "length", "height of the window's upper edge", "2.1 m"),
    Ask("thing", "length", "height of a thing that throws a shadow", "1.7 m"),
)
EXAMPLES = ('hotset ask sun --at "55.01 N, 1.44 W" --date 2026-11-14 --zone Europe/London',)


def answer(given: Given) -> Answer:
    """The day's hours; with a clock time the sun's place; with a bearing the hours of a window."""
    plan = _plan(given)
    over = sky.sky(plan, "1", "here")
    if over is None:
        raise Refused(f"no time zone '{given['zone']}'; write it like Europe/London")
    found = [
        Line("rises", _clock(over.sunrise), _clock(over.sunrise)),
        Line("sets", _clock(over.sunset), _clock(over.sunset)),
    ]
    if over.sunrise is None and over.sunset is None:
        found = [Line("all day", "the sun does not come up")]
    if over.always:
        found = [Line("all day", "the sun does not set" if over.always == "sun" else "the sun does not come up")]
    found += [Line("dark from", _clock(over.dark_from)), Line("dark until", _clock(over.dark_until))]
    black = sky.black(plan, "1", "here")
    if over.dark_from is not None:
        found.append(Line("black night from", _clock(black), _clock(black)))
    for name in ("golden", "dusk"):
        spans = [s for s in sky.when(plan, "1", "here", name) or () if s[0] < sky.DAY]
        found.append(Line(name, ", ".join(f"{_clock(a)} to {_clock(b)}" for a, b in spans) or "not on this day"))
    if "clock" in given:
        found += _place(given, plan)
    if "faces" in given:
        struck = [s for s in sky.struck(plan, "1", "here", float(given["faces"])) or () if s[0] < sky.DAY]
        words = ", ".join(f"{_clock(a)} to {_clock(b)}" for a, b in struck) or "not on this day"
        found.append(Line("direct sun on the window", words))
    return Answer(
        given.echo(),
        tuple(found),
        "sun's place in the sky by its mean elements with the larger disturbances; hours by searching its height",
        "own closed form, within 0.02 deg of NREL/TP-560-34302; heights -0.833 and -6 deg: Almanac for Computers 1990",
        (
            "dark: the sun 6 deg below the horizon, the sky still blue; black night: 12 deg below",
            "golden from -4 to 6 deg is common practice, from memory",
            "clouds, hills and houses are not known",
        ),
    )


def _place(given: Given, plan: Plan) -> list[Line]:
    position = sky.sun_at(plan, "1", "here", float(given["clock"]))
    if position is None:
        return []
    found = [
        Line("bearing", f"{position.azimuth:.1f} deg from north", round(position.azimuth, 2)),
        Line("height", f"{position.elevation:.1f} deg", round(position.elevation, 2)),
    ]
    if "faces" in given and "top" in given:
        deep = sunlight.reach(float(given["top"]), position.azimuth, position.elevation, float(given["faces"]))
        words = "does not reach the floor" if deep is None else f"{deep:.2g} m from the window's wall"
        found.append(Line("patch on the floor", words, None if deep is None else round(deep, 2)))
    if "thing" in given:
        shadow = solar.shadow_length(float(given["thing"]), position.elevation)
        words = "none" if shadow is None else f"{shadow:.2g} m"
        found.append(Line("shadow", words, None if shadow is None else round(shadow, 2)))
    return found


def _plan(given: Given) -> Plan:
    """The smallest plan that has this day at this place, so that a question and a plan are answered alike."""
    zone = json.dumps(str(given["zone"])[:60])
    at = show("coordinates", given["at"])
    text = f"hotset: 1\ndays: {{1: {{date: {show('date', given['date'])}, location: here}}}}\n"
    text += f'locations: {{here: {{at: "{at}", zone: {zone}}}}}\n'
    plan, _ = decode(read(["-"], stdin_text=text.encode()))
    if plan is None:
        raise Refused("the place or the day could not be read")
    return plan


def _clock(half_minutes: int | None) -> str:
    if half_minutes is None:
        return "not on this day"
    day, rest = divmod(full_minute(half_minutes), sky.DAY)
    return f"{rest // 120:02d}:{rest % 120 // 2:02d}" + (" the day after" if day == 1 else "")
