"""How much light sun and sky give outdoors by the sun's height, the stop it makes, and what a window lets in."""

from __future__ import annotations

from ..facts import night
from ..facts.daylight import CONDITIONS, clear_glass
from ..science import daylight, exposure
from ..science import light as photometry
from ..source.quantities import show
from .answer import Answer, Ask, Given, Line, Refused, rounded
from .light import stops_words, time_of

HELP = "What sun and sky give outdoors and through a window, the stop, the grey filter."
ASKS = (
    Ask("height", "angle", "height of the sun (`hotset ask sun` tells it)", "30 deg", needed=True),
    Ask("sky", "text", "clear, partly-cloudy or overcast (all three when left out)", "clear"),
    Ask("turned", "angle", "degrees between what the window faces and the sun (180 when left out)", "90 deg"),
    Ask("window", "size", "width x height of a window", "1.3 m x 1.2 m"),
    Ask("away", "length", "how far from the window the mark is", "2 m"),
    Ask("loses", "stops", "stops that layers on the window take", "4 stops"),
    Ask("under", "stops", "how far under the key the window should look (4 stops when left out)", "3 stops"),
    Ask("stop", "stop", "the stop that is set", "T2.8"),
    Ask("iso", "whole", "ISO (800 when left out)", "800", above_zero=True),
    Ask("shutter", "shutter", "shutter (180 deg when left out)", "1/50 s"),
    Ask("fps", "fps", "frame rate (25 fps when left out)", "25 fps", above_zero=True),
)
EXAMPLES = (
    'hotset ask daylight --height "30 deg" --sky clear --stop T2.8',
    'hotset ask daylight --height "15 deg" --window "1.3 m x 1.2 m" --away "2 m" --stop T2.8',
)


def answer(given: Given) -> Answer:
    """For each sky: sun and shade, the stop they make, the filter; with a window what it lets in and must lose."""
    height = float(given["height"])
    if not -18.0 <= height <= 90.0:
        raise Refused("the sun stands between -18 deg (below it is night) and 90 deg; write it like '30 deg'")
    said = str(given["sky"]) if "sky" in given else ""
    if said and said not in CONDITIONS:
        raise Refused(f"no sky '{said}'; write clear, partly-cloudy or overcast")
    found: list[Line] = []
    for condition in (said,) if said else CONDITIONS:
        head = "" if said else f"{condition}: "
        found += _open(given, height, condition, head)
        found += _window(given, height, condition, head) if "window" in given else []
    return Answer(
        given.echo(iso="800", shutter="180 deg", fps="25 fps", under="4 stops", turned="180 deg"),
        tuple(found),
        "sun 127.5 klx exp(-m / sin h), clear m = 0.21, partly cloudy 0.80; sky a + b sin^c h; N^2 / t = E S / C",
        "IES 1984, read second hand; CIE clear and overcast sky; twilight: glossary of the American Met. Society",
        (
            "means: a given moment may have half or twice as much",
            "ground before it gives back 20 %: common practice, no source",
        ),
    )


def _open(given: Given, height: float, condition: str, head: str) -> list[Line]:
    """Sun, shade, the stops between, and what they ask of the camera."""
    sun = condition != "overcast" and height > 0
    key = daylight.turned_to_sun(height, condition) if sun else daylight.upright(height, 90.0, condition, sun=False)
    shade = daylight.upright(height, 180.0, condition)
    ground = daylight.outdoors(height, condition)
    found = [Line(f"{head}level ground", f"{rounded(ground):g} lx", round(ground, 2))]
    if sun:
        found.append(Line(f"{head}turned to the sun", f"{rounded(key):g} lx", round(key, 2)))
        found.append(Line(f"{head}in the shade", f"{rounded(shade):g} lx", round(shade, 2)))
        off = photometry.ratio_stops(key, shade)
        found.append(Line(f"{head}sun to shade", stops_words(off), round(off, 2)))
    else:
        found.append(Line(f"{head}on a face", f"{rounded(key):g} lx", round(key, 2)))
    number = exposure.stop_for(key, time_of(given), float(given.get("iso", 800)))
    printed = exposure.marked(number)
    words = f"{printed:g}" if printed is not None else f"{number:.2g}, which no lens has"
    found.append(Line(f"{head}stop", words, round(number, 2)))
    if "stop" in given:
        off = exposure.stops_over(key, _wanted(given))
        side = "over" if off > 0 else "under"
        filtered = f": a grey filter of {stops_words(round(off))} (density {round(off) * 0.3:.1f})" if off > 1 else ""
        against = f"{stops_words(off)} {side} {show('stop', given['stop'])}{filtered}"
        found.append(Line(f"{head}difference", against, round(off, 2)))
    return found


def _wanted(given: Given) -> float:
    return exposure.illuminance_for(float(given["stop"].number), time_of(given), float(given.get("iso", 800)))


def _window(given: Given, height: float, condition: str, head: str) -> list[Line]:
    """What a window without sun on it throws on a mark that faces it, and what it must lose to look like night."""
    turned = float(given.get("turned", 180.0))
    sides = given["window"]
    through = clear_glass() * exposure.transmittance(float(given.get("loses", 0.0)))
    whole = daylight.upright(height, turned, condition, sun=False) * through
    found = []
    if "away" in given:
        away = float(given["away"])
        if away <= 0:
            raise Refused("'--away' is nought; a mark lies at some distance from the window, such as '2 m'")
        lux = whole * photometry.rectangle_factor(float(sides[0]), float(sides[1]), away)
        found.append(Line(f"{head}by the window", f"{rounded(lux):g} lx", round(lux, 2)))
    if "stop" in given:
        bright = photometry.ratio_stops(whole, night.GREY * _wanted(given))
        under = float(given.get("under", night.UNDER))
        need = night.to_lose(bright, under)
        side = "over" if bright > 0 else "under"
        found.append(Line(f"{head}the window looks", f"{stops_words(bright)} {side} the key's grey", round(bright, 2)))
        words = f"{stops_words(need)} more ({2.0**-need * 100:.2g} % through)" if need > 0 else "nothing more"
        found.append(Line(f"{head}it must lose", f"{words} to look {under:g} stops under", round(need, 2)))
    return found
