"""How long a battery runs, how many a day takes, and what may be done with it by air."""

from __future__ import annotations

from math import inf

from ..facts.tables import table
from ..science import cells, power
from .answer import Answer, Ask, Given, Line

HELP = "How long a battery runs a lamp, how many a day takes, and whether it may fly."
ASKS = (
    Ask("holds", "energy", "what the battery holds", "98 Wh", needed=True, above_zero=True),
    Ask("draws", "power", "what the lamp draws", "45 W", needed=True),
    Ask("level", "percent", "level it is set to", "50 %"),
    Ask("for", "duration", "how long it has to burn", "4 h"),
    Ask("number", "whole", "how many batteries there are", "2", above_zero=True),
    Ask("fills", "duration", "time the charger takes for a full one", "3 h", above_zero=True),
    Ask("slots", "whole", "how many charge at a time", "2", above_zero=True),
)
EXAMPLES = ('hotset ask battery --holds "98 Wh" --draws "45 W" --for "4 h" --number 2 --fills "3 h"',)


def answer(given: Given) -> Answer:
    """Minutes on one charge; with a time the number needed; with batteries and a charger whether they last."""
    holds = float(given["holds"])
    watts = float(given["draws"]) * float(given.get("level", 1.0))
    minutes = cells.run_time(holds, watts)
    words = "without end" if minutes == inf else f"{minutes:.0f} min"
    found = [Line("runs", words, None if minutes == inf else round(minutes, 2))]
    if "for" in given and watts > 0:
        time = float(given["for"]) / 60.0
        need = cells.number_needed(watts, time, holds)
        found.append(Line("without charging", f"{need} {'battery' if need == 1 else 'batteries'}", need))
        if "number" in given:
            fills = float(given["fills"]) / 60.0 if "fills" in given else None
            slots = int(given.get("slots", 1)) if fills is not None else 0
            day = cells.along_the_day([cells.Use(0.0, time, watts, "lamp")], holds, int(given["number"]), fills, slots)
            when = "" if day.flat is None else f", flat after {day.flat.time:.0f} min"
            found.append(
                Line("what there is", "lasts" if day.lasts else f"does not last{when}", "yes" if day.lasts else "no")
            )
    air = table("mains")["air-travel"]
    state = power.air_travel(holds, float(air["free-watt-hours"]), float(air["approval-watt-hours"]))
    says = {"free": "free, in the cabin", "approval": "the airline must approve it", "refused": "not as luggage"}
    found.append(Line("by air", says[state], state))
    return Answer(
        given.echo(level="100 %"),
        tuple(found),
        "minutes = Wh x 0.8 / W x 60",
        "arithmetic; carriers' guides of 2024 for flights, read second hand: ask the airline",
        ("four fifths of the energy are usable: common practice, no source",),
    )
