"""What lamps draw from a circuit, what of it is left, and what a lead loses."""

from __future__ import annotations

from ..facts.tables import table
from ..science import power
from .answer import Answer, Ask, Given, Line, Refused

HELP = "What lamps draw, what a breaker has left, and what a lead loses."
ASKS = (
    Ask("draws", "power", "what a lamp draws; say it again for more lamps", "360 W", needed=True, many=True),
    Ask("mains", "mains", "the mains", "230 V 50 Hz", needed=True),
    Ask("factor", "number", "power factor (0.9 when left out)", "0.95"),
    Ask("breaker", "current", "rating of the breaker", "16 A", above_zero=True),
    Ask("already", "power", "what the house draws on it", "300 W"),
    Ask("lead", "length", "length of the lead", "25 m"),
    Ask("section", "section", "section of its conductors", "1.5 mm2", above_zero=True),
)
EXAMPLES = ('hotset ask power --draws "1000 W" --draws "360 W" --mains "230 V 50 Hz" --breaker "16 A"',)


def answer(given: Given) -> Answer:
    """Amperes; with a breaker what is left of it; with a lead the volts it loses."""
    mains = table("mains")
    volts, typical = float(given["mains"].volts), float(mains["power-factor"]["unstated"])
    factor = float(given.get("factor", typical))
    if not 0 < factor <= 1:
        raise Refused("a power factor lies between 0 and 1, such as 0.95")
    amperes = sum(power.current(float(w), volts, factor) for w in given["draws"])
    found = [Line("current", f"{amperes:.2f} A", round(amperes, 3))]
    notes = [] if "factor" in given else [f"power factor {typical:g} is a typical value"]
    if "breaker" in given:
        found += _breaker(given, amperes, volts)
    if "lead" in given:
        found += _lead(given, amperes, volts)
    notes.append("advice for planning; local codes and those licensed for it decide")
    return Answer(
        given.echo(factor=f"{typical:g}"),
        tuple(found),
        "I = P / (V pf); volts lost = mV/A/m x A x m",
        "arithmetic; NEC 210.20(A) for 80 %; BS 7671 Table 4F3B and IEC 60228 class 5, read second hand",
        tuple(notes),
    )


def _breaker(given: Given, amperes: float, volts: float) -> list[Line]:
    house = power.current(float(given.get("already", 0.0)), volts)
    load = power.load([amperes, house], float(given["breaker"]))
    words = "over the breaker" if load.over_rating else "above 80 %" if load.over_continuous else "within 80 %"
    return [
        Line("on the breaker", f"{load.ampere:.2f} A, {load.share * 100:.0f} %: {words}", round(load.share, 4)),
        Line("left of it", f"{load.left:.2f} A, {load.left_continuous:.2f} A under 80 %", round(load.left, 3)),
    ]


def _lead(given: Given, amperes: float, volts: float) -> list[Line]:
    mains = table("mains")
    if "section" not in given:
        raise Refused("a lead loses by its section; add '--section', such as '1.5 mm2'")
    section = float(given["section"])
    tabled, plain = mains["flexible"]["millivolt"], mains["conductors"]["ohm-per-km"]
    lost = power.lead_drop(amperes, float(given["lead"]), section, tabled, plain)
    share = lost / volts
    words = "within the 3 % held good for lighting" if share <= 0.03 else "above the 3 % held good for lighting"
    arrives = max(0.0, volts - lost)
    return [
        Line("lost on the lead", f"{lost:.2f} V, {share * 100:.1f} %: {words}", round(lost, 3)),
        Line("at the lamp", f"{arrives:.1f} V of {volts:g} V", round(arrives, 2)),
    ]
