"""Quantities in the language of the sheets: the decimal sign, and the few units that are words."""

from __future__ import annotations

import re

from .words import Words, words_for

# These keep their point: stops as they are engraved, times and dates, places of the map.
KEPT = frozenset({"stop", "clock", "clock-range", "date", "moment", "text", "coordinates", "aspect", "ratio"})
_POINT = re.compile(r"(?<=\d)\.(?=\d)")


def localised(kind: str, text: str, words: Words) -> str:
    """What `show` made of a quantity of a kind, in another language than English."""
    if words.language == "en" or kind in KEPT:
        return text
    for unit, said in zip(unit_words(words_for()), unit_words(words), strict=True):
        if text.endswith(f" {unit}"):
            text = f"{text.removesuffix(unit)}{said}"
            break
    return decimal(text, words)


def decimal(text: str, words: Words) -> str:
    """Numbers with the decimal sign of the language."""
    _ = words
    sign = _("1.5")[1]
    return text if sign == "." else _POINT.sub(sign, text)


def unit_words(words: Words) -> tuple[str, ...]:
    """Units that are words or abbreviations of words."""
    _ = words
    return (_("per s"), _("per min"), _("per h"), _("deg"), _("fps"), _("stops"), _("stop"))
