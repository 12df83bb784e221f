"""How long a card records, what a take is large, and how long copying takes."""

from __future__ import annotations

from math import isinf

from ..facts.cards import USABLE
from ..science import data
from .answer import Answer, Ask, Given, Line

HELP = "How long a card records, how large the takes are, how long copying takes."
ASKS = (
    Ask("holds", "data-volume", "what the card holds", "128 GB", needed=True, above_zero=True),
    Ask("rate", "data-rate", "rate of the codec", "100 Mbit/s", needed=True, above_zero=True),
    Ask("rolls", "duration", "recorded time", "90 min"),
    Ask("speed", "data-speed", "slowest of card, reader and drive", "90 MB/s", above_zero=True),
    Ask("writes", "data-speed", "what the card writes without pause", "60 MB/s"),
)
EXAMPLES = ('hotset ask card --holds "128 GB" --rate "100 Mbit/s" --rolls "90 min" --speed "90 MB/s"',)


def answer(given: Given) -> Answer:
    """Minutes on a card; with a time gigabytes and cards; with a speed minutes of copying."""
    holds, rate = float(given["holds"]), float(given["rate"])
    minutes = data.minutes_on(holds, rate, USABLE)
    found = [
        Line(
            "records",
            "without end" if isinf(minutes) else f"{minutes:.0f} min",
            None if isinf(minutes) else round(minutes, 2),
        )
    ]
    volume = holds
    if "rolls" in given:
        volume = data.gigabytes(rate, float(given["rolls"]) / 60.0)
        cards = data.cards_needed(volume, holds, USABLE)
        found.append(Line("volume", f"{volume:.1f} GB", round(volume, 3)))
        found.append(Line("cards", str(cards), cards))
    if "speed" in given and float(given["speed"]) > 0:
        copying = data.copy_minutes(volume, float(given["speed"]))
        what = "copying and verifying it" if "rolls" in given else "copying and verifying a full card"
        found.append(Line(what, f"{copying:.0f} min", round(copying, 2)))
    if "writes" in given:
        fast = data.card_is_fast_enough(rate, float(given["writes"]))
        found.append(
            Line("fast enough", "yes" if fast else f"no: {rate / 8:g} MB/s are asked for", "yes" if fast else "no")
        )
    return Answer(
        given.echo(),
        tuple(found),
        "GB = Mbit/s x min x 60 / 8000; minutes to copy = GB x 1000 / (MB/s) / 60, and as long again to verify",
        "arithmetic, GB of 10^9 byte; the rate is the stated one",
        ("a card is filled to 90 %: common practice, no source",),
    )
