"""Names of time zones, as the tz database has them (Europe/London)."""

from __future__ import annotations

import os
import re
from functools import lru_cache

from .units import quote
from .values import QuantityError

#: So far from Greenwich, written as people write it; the database has it only with the sign turned round.
_AHEAD = re.compile(r"(?:UTC|GMT|Z)? ?[+-] ?\d{1,2}(?::?\d{2})?|(?:UTC|GMT) ?\d{1,2}", re.ASCII | re.IGNORECASE)


def zone(text: str, example: str) -> str:
    """The name of a zone that is known; for any other the nearest that is."""
    known = _known()
    if text in known:
        return text
    if _AHEAD.fullmatch(text):
        reason = f"{quote(text)} is a distance from Greenwich, and says nothing of summer time"
        raise QuantityError(f"{reason}; name the zone by its largest city", "Europe/Amsterdam")
    near, none = _nearest(text, known), f"there is no time zone {quote(text)}"
    if not near:
        raise QuantityError(f"{none}; it is named by a continent and a large city", example)
    raise QuantityError(f"{none}; did you mean '{near}'?", near)


@lru_cache(maxsize=1)
def _known() -> frozenset[str]:
    """The list that comes with the tz database, read once; where it is not installed, the zones of the machine."""
    from importlib.machinery import PathFinder

    spec = PathFinder.find_spec("tzdata")
    try:
        if spec is not None and spec.origin:
            with open(os.path.join(os.path.dirname(spec.origin), "zones"), encoding="utf-8") as lines:
                return frozenset(lines.read().split())
    except OSError:
        pass  # a database without its list: the machine's own is asked
    from zoneinfo import available_timezones

    return frozenset(available_timezones())


def _nearest(text: str, known: frozenset[str]) -> str:
    """The name that is meant most likely: of the same city, else spelt most like it; "" where none is near."""
    plain = text.lower().replace(" ", "_")
    city = plain.rpartition("/")[2]
    # Of names that fit alike the one in Europe, then the first of the alphabet, so that the answer is always one.
    names = sorted(known, key=lambda name: (not name.startswith("Europe/"), name))
    same = [name for name in names if name.lower() == plain] or [
        name for name in names if name.lower().rpartition("/")[2] == city
    ]
    if same:
        return same[0]
    from difflib import get_close_matches

    whole = {name.lower(): name for name in names}
    if found := get_close_matches(plain, whole, 1, 0.75):
        return whole[found[0]]
    cities = {name.lower().rpartition("/")[2]: name for name in reversed(names) if "/" in name}
    return cities[found[0]] if (found := get_close_matches(city, cities, 1, 0.75)) else ""
