"""Lengths in a line of the log: `lost 3 m of black-cloth`, `2.5m`, `10 ft`."""

from __future__ import annotations

import re

from ..record import record
from .said import Bad
from .tokens import Token

_NUMBER = re.compile(r"\d{1,4}(?:[.,]\d{1,2})?", re.ASCII)
_BOTH = re.compile(r"(\d{1,4}(?:[.,]\d{1,2})?)([a-z]+)", re.ASCII)
UNITS = {
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1.0),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), 0.01),
    **dict.fromkeys(("ft", "foot", "feet"), 0.3048),
    **dict.fromkeys(("yd", "yard", "yards"), 0.9144),
}
"""Unit as it is typed -> metres (the foot and the yard by definition)."""


@record
class Length:
    """A length that was said, in metres, and the word where it stands."""

    metres: float
    token: Token


def without_length(tokens: list[Token], names: set[str]) -> tuple[list[Token], Length | None]:
    """(the words without the first length among them, that length). Words that are names of the plan say no length.
    Raises `Bad` for a length of nothing."""
    for k, token in enumerate(tokens):
        if token.low in names:
            continue
        unit = tokens[k + 1].low if k + 1 < len(tokens) else ""
        both = _BOTH.fullmatch(token.low)
        if both is not None and both[2] in UNITS:
            said, number, rest = UNITS[both[2]], both[1], tokens[:k] + tokens[k + 1 :]
        elif _NUMBER.fullmatch(token.text) and unit in UNITS and unit not in names:
            said, number, rest = UNITS[unit], token.text, tokens[:k] + tokens[k + 2 :]
        else:
            continue
        metres = float(number.replace(",", ".")) * said
        if metres <= 0.0:
            raise Bad(token, "no length is lost here", "write how much, such as: lost 3 m of black-cloth")
        return rest, Length(metres, token)
    return tokens, None
