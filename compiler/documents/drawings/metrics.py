"""How wide words are on paper, on the safe side, so that labels can be kept apart without a font at hand.

The tables hold, for each printable ASCII character, the widest advance among three free sans faces (DejaVu Sans,
Liberation Sans and the face the sheets are set in), in hundredths of an em, rounded up. Text set in any of them is
never wider than what is said here.
"""

from __future__ import annotations

import re
from functools import lru_cache

ASCENT = 0.95
DESCENT = 0.25
LEADING = 1.2

_REGULAR = (
    32, 41, 47, 84, 65, 99, 78, 30, 40, 40, 51, 84, 32, 46, 32, 37, 65, 65, 65, 65, 65, 65, 65, 65,
    65, 65, 34, 34, 84, 84, 84, 56, 102, 69, 69, 74, 78, 67, 62, 78, 76, 30, 58, 68, 57, 91, 76, 79,
    67, 79, 73, 67, 65, 75, 69, 99, 69, 68, 69, 40, 37, 40, 84, 56, 50, 62, 64, 58, 64, 62, 38, 64,
    64, 28, 28, 58, 28, 98, 64, 62, 64, 64, 42, 53, 40, 64, 60, 82, 60, 60, 56, 64, 34, 64, 84,
)  # fmt: skip
_BOLD = (
    35, 46, 56, 84, 70, 102, 88, 34, 46, 46, 56, 84, 38, 47, 38, 39, 70, 70, 70, 70, 70, 70, 70, 70,
    70, 70, 40, 40, 84, 84, 84, 62, 102, 78, 77, 74, 84, 69, 69, 83, 84, 38, 59, 78, 64, 100, 84, 86,
    74, 86, 78, 73, 69, 82, 78, 111, 78, 74, 73, 46, 39, 46, 84, 56, 50, 68, 72, 60, 72, 68, 44, 72,
    72, 35, 35, 67, 35, 105, 72, 69, 72, 72, 50, 60, 48, 72, 66, 93, 65, 66, 59, 72, 38, 72, 84,
)  # fmt: skip
_OTHER = {
    "\u00a0": 38,
    "\u202f": 38,
    "·": 38,
    "°": 50,
    "×": 84,
    "±": 84,
    "–": 56,
    "—": 100,
    "…": 101,
    "−": 84,
    "’": 38,
    "‘": 38,
    "“": 66,
    "”": 66,
}


@lru_cache(maxsize=8192)
def width_of(text: str, size: float, bold: bool = False) -> float:
    """Width in points of one line of text at `size` points, never less than what is printed."""
    table = _BOLD if bold else _REGULAR
    total = 0
    for sign in text:
        code = ord(sign)
        if 32 <= code < 127:
            total += table[code - 32]
        elif sign in _OTHER:
            total += _OTHER[sign]
        elif 0xC0 <= code < 0x180:
            total += 117 if sign in "ŒÆŉĲ" else 106 if sign in "œæĳ" else 88
        elif code < 0x2000:
            total += 115
        else:
            total += 140
    return total * size / 100.0


def cut(text: str, size: float, width: float, bold: bool = False) -> str:
    """The text, or as much of it as fits `width` points with an ellipsis after it."""
    if width_of(text, size, bold) <= width:
        return text
    while text and width_of(text + "…", size, bold) > width:
        text = text[:-1]
    return text.rstrip() + "…"


def wrap(text: str, size: float, width: float, bold: bool = False) -> tuple[str, ...]:
    """Lines of at most `width` points, broken at blanks that may break; a single word that is too long is cut."""
    lines: list[str] = []
    for word in (w for w in re.split(r"[ \t\n]+", text) if w):
        if lines and width_of(lines[-1] + " " + word, size, bold) <= width:
            lines[-1] += " " + word
        else:
            lines.append(word)
    return tuple(cut(line, size, width, bold) for line in lines)


def block(lines: tuple[str, ...], size: float, bold_first: bool = False) -> tuple[float, float]:
    """Width and height in points of a block of lines."""
    if not lines:
        return 0.0, 0.0
    widest = max(width_of(line, size, bold_first and n == 0) for n, line in enumerate(lines))
    return widest, size * (ASCENT + DESCENT + LEADING * (len(lines) - 1))
