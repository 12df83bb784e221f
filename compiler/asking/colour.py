"""What a camera makes of a source, and the gel that would bring it where it is wanted."""

from __future__ import annotations

from ..facts import colours, tint
from ..science import colour
from .answer import Answer, Ask, Given, Line, Refused

HELP = "What the camera sees of a source, and the gel that would bring it elsewhere."
ASKS = (
    Ask("source", "kelvin", "colour of the source", "2700 K", needed=True),
    Ask("balance", "kelvin", "white balance of the camera", "4300 K"),
    Ask("wanted", "kelvin", "colour that is wanted", "3200 K"),
    Ask("gel", "mired", "mired a gel shifts", "-131 mired"),
    Ask("tint", "text", "green or magenta cast of the source", "half plus green"),
)
EXAMPLES = ('hotset ask colour --source "2700 K" --balance "4300 K" --wanted "3200 K"',)


def answer(given: Given) -> Answer:
    """Mired against the balance in crew words with its swatch, the colour behind a gel, the gels for a wish."""
    source = float(given["source"])
    green = tint.points(str(given.get("tint", "")))
    if green is None:
        raise Refused(
            f"'{given['tint']}' has no strength; write it like 'half plus green', 'slightly magenta' or CC15G"
        )
    found = [Line("mired", f"{colour.mired(source):.0f}", round(colour.mired(source), 1))]
    if "gel" in given:
        source = colour.shifted(source, float(given["gel"]))
        found.append(Line("behind the gel", f"{round(source, -1):.0f} K", round(source)))
    if "balance" in given:
        off = colour.difference(source, float(given["balance"]))
        found.append(Line("against the balance", f"{off:+.0f} mired, {colour.words(off)}", round(off, 1)))
        found.append(Line("swatch", colour.swatch(source, float(given["balance"]), green), None))
    if "tint" in given:
        against = tint.gel_against(green)
        words = f"{tint.words(green)}, {abs(green):g} points{f'; against it a {against} gel' if against else ''}"
        found.append(Line("cast", words, green))
    typical: tuple[str, ...] = ()
    if "wanted" in given:
        wanted = float(given["wanted"])
        chosen, missing = colours.best(source, wanted, colours.usual_gels())
        found.append(Line("to be shifted", f"{-colour.difference(source, wanted):+.0f} mired", None))
        if chosen:
            names, takes = " and ".join(gel.name for gel in chosen), sum(gel.stops for gel in chosen)
            made = 1e6 / (colour.mired(wanted) - missing)
            words = f"{names}, which makes {round(made, -1):.0f} K and takes {takes:.2g} stops"
            found.append(Line("gel", words, round(made)))
        else:
            found.append(Line("gel", "hardly seen: none" if abs(missing) <= colours.STEP else "no usual one or two do"))
        typical = ("shifts of lighting gels are typical; makers differ by some 10 mired",)
    return Answer(
        given.echo(),
        tuple(found),
        "mired = 10^6 / K; shifts add up",
        "definition of the mired; swatch: Planckian locus (Kang 2002), Bradford, sRGB",
        (*typical, "crew words from 20, 60 and 110 mired on are common practice, no source"),
    )
