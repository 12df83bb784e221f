"""Green and magenta casts as the crew says them, in points of colour compensation (CC): plus green is positive.

A full plus or minus green gel has 30 points, half 15, a quarter 7.5, an eighth 4; "slightly green" is taken as a
quarter, "green" without a strength has none (common practice, no source).
"""

from __future__ import annotations

from .tables import table

_SLIGHT = ("slight", "slightly", "little", "touch", "hint", "bit")


def seen() -> float:
    """Points from which on a cast is seen on a face."""
    return float(table("light")["casts"]["seen"])


def points(words: str) -> float | None:
    """Points of green of a cast in words (negative: magenta): 'half plus green', 'slightly magenta', 'CC15G', none;
    None where a cast is named without a strength."""
    said = words.lower().replace("-", " ").replace(",", " ").split()
    counted = next((n for w in said if (n := _counted(w)) is not None), None)
    if counted is not None:
        return counted
    green, magenta = "green" in said, "magenta" in said or "pink" in said
    if not green and not magenta:
        return 0.0
    sign = -1.0 if magenta or "minus" in said else 1.0
    known = table("light")["casts"]
    part = next((float(known["parts"][w]) for w in said if w in known["parts"]), None)
    if part is None:
        part = 0.25 if any(w in _SLIGHT for w in said) else 1.0 if "plus" in said or "minus" in said else None
    return None if part is None else sign * float(known["full"]) * part


def _counted(word: str) -> float | None:
    """CC15G, 15G, cc30m."""
    body = word.removeprefix("cc")
    if len(body) < 2 or body[-1] not in "gm" or not body[:-1].replace(".", "", 1).isdecimal():
        return None
    return float(body[:-1]) * (1.0 if body[-1] == "g" else -1.0)


def of_gel(words: str) -> float:
    """Points of green that a gel adds, by its name: 0 for one that is neither plus nor minus green."""
    said = words.lower().replace("-", " ").split()
    if "plus" not in said and "minus" not in said and not any(_counted(w) is not None for w in said):
        return 0.0
    return points(words) or 0.0


def gel_against(green: float) -> str:
    """The usual gel that takes points of green away, in words; "" where it is hardly seen."""
    size, full = abs(green), float(table("light")["casts"]["full"])
    if size < seen():
        return ""
    near = min((("full", 1.0), ("half", 0.5), ("quarter", 0.25)), key=lambda p: abs(size - full * p[1]))
    return f"{near[0]} {'minus' if green > 0 else 'plus'} green"


def words(green: float) -> str:
    """What is seen of points of green."""
    if abs(green) < seen():
        return "no cast"
    side = "green" if green > 0 else "magenta"
    return f"slightly {side}" if abs(green) < 10 else side if abs(green) < 22 else f"strongly {side}"
