"""How much light of a lamp arrives, and which stop that gives."""

from __future__ import annotations

from ..facts.lamp import Source
from ..science import exposure, flicker
from ..science import light as photometry
from .answer import Answer, Ask, Given, Line, Refused, rounded

HELP = "How much light of a lamp arrives, and the stop it gives."
ASKS = (
    Ask("gives", "output", "what the lamp gives", "800 lx at 1 m", needed=True),
    Ask("away", "length", "how far it is", "2.5 m", needed=True),
    Ask("soft", "size", "size of its lit face", "60 cm x 60 cm"),
    Ask("beam", "angle", "beam angle, for lumens and off the axis", "60 deg", above_zero=True),
    Ask("off", "angle", "degrees off its axis", "20 deg"),
    Ask("level", "percent", "level it is set to", "40 %"),
    Ask("loses", "stops", "stops that gels and cloth take", "1 stop"),
    Ask("stop", "stop", "the stop that is set", "T2.8"),
    Ask("iso", "whole", "ISO (800 when left out)", "800", above_zero=True),
    Ask("shutter", "shutter", "shutter (180 deg when left out)", "1/50 s"),
    Ask("fps", "fps", "frame rate (25 fps when left out)", "25 fps", above_zero=True),
)
EXAMPLES = ('hotset ask light --gives "800 lx at 1 m" --away "2.5 m" --level "50 %" --stop T2.8',)


def answer(given: Given) -> Answer:
    """Lux at the distance, the stop they give, and how far that is from the stop that is set."""
    lux = _lux(given)
    time = time_of(given)
    iso = float(given.get("iso", 800))
    found = [Line("arrives", f"{rounded(lux):g} lx", round(lux, 3))]
    stop = exposure.stop_for(lux, time, iso) if lux > 0 else 0.0
    printed = exposure.marked(stop)
    words = "none: no light arrives" if lux <= 0 else f"{stop:.2g}" if printed is None else f"{printed:g}"
    found.append(Line("stop", words, round(stop, 3)))
    if "stop" in given:
        wanted = exposure.illuminance_for(float(given["stop"].number), time, iso)
        found.append(Line("asked for", f"{rounded(wanted):g} lx", round(wanted, 3)))
        if lux > 0:
            off = exposure.stops_over(lux, wanted)
            side = "over" if off > 0 else "under"
            found.append(Line("difference", f"{stops_words(off)} {side}", round(off, 3)))
    notes = ["C = 250, a flat meter turned to the lamp"]
    if given["gives"].unit == "lm":
        notes.append("lux from lumens are an estimate, a stop to either side")
    return Answer(
        given.echo(iso="800", shutter="180 deg", fps="25 fps"),
        tuple(found),
        "E = E0 (d0 / d)^2, for a soft face r^2 / (r^2 + d^2); N^2 / t = E S / C",
        "inverse square and Lambert's disc: physics; ISO 2720, read second hand",
        tuple(notes),
    )


def _lux(given: Given) -> float:
    gives, sides = given["gives"], given.get("soft")
    beam = float(given["beam"]) if "beam" in given else None
    radius = photometry.equal_disc(float(sides[0]), float(sides[1])) if sides else 0.0
    if gives.unit == "lm":
        if beam is None:
            raise Refused("lumens give lux only with a beam angle; add '--beam', such as '60 deg'")
        base, metres = photometry.beam_candela(float(gives.value), beam), 1.0
    else:
        base, metres = float(gives.value), float(gives.metres or 1.0)
    away = float(given["away"])
    if away <= 0:
        raise Refused("'--away' is nought; a lamp stands at some distance, such as '2.5 m'")
    source = Source(base, metres, radius, beam, None, False, ())
    off = float(given.get("off", 0.0))
    if off and beam is None:
        raise Refused("light off the axis wants '--beam', such as '60 deg'")
    share = photometry.fall_off(off, beam) if beam is not None else 1.0
    return (
        source.at(away)
        * share
        * float(given.get("level", 1.0))
        * exposure.transmittance(float(given.get("loses", 0.0)))
    )


def stops_words(value: float) -> str:
    """Stops to the third: 1 1/3 stops."""
    whole, rest = divmod(round(abs(value) * 3), 3)
    parts = [f"{whole}"] * (whole > 0 or not rest) + [f"{rest}/3"] * (rest > 0)
    return " ".join(parts) + (" stop" if whole * 3 + rest <= 3 else " stops")


def time_of(given: Given) -> float:
    """Seconds the shutter is open."""
    shutter = given.get("shutter")
    if shutter is not None and shutter.seconds is not None:
        return float(shutter.seconds)
    degrees = float(shutter.degrees) if shutter is not None and shutter.degrees else 180.0
    return flicker.shutter_time(degrees, float(given.get("fps", 25.0)))
