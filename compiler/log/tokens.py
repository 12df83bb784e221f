"""A line of the log as words with their columns: what is a time of day, what a number of takes, what else.

Phones write `Rolled 4a at 9.40`, put points after words and curly quotes around them: all of that reads as it is meant.
"""

from __future__ import annotations

import re

from ..record import record
from .words import FILLERS, NUMBERS

_WORD = re.compile(r"[^\s,&+]+|[,&+]")
_CLOCK = re.compile(r"(\d{1,2})[:.h](\d{1,2})(?::(\d{2}))?(am|pm)?", re.ASCII | re.IGNORECASE)
_HOUR = re.compile(r"(\d{1,2})(am|pm)", re.ASCII | re.IGNORECASE)
_FOUR = re.compile(r"[0-4]\d[0-5]\d", re.ASCII)
_EDGES = " .;:!?\"'()[]\u2018\u2019\u201c\u201d\u201e\u00ab\u00bb\u2026\u2013\u2014"
LAST_HOUR = 47


@record
class Token:
    """A word of a line and its column from 1."""

    text: str
    column: int

    @property
    def low(self) -> str:
        """In lower case, as names and words are compared."""
        return self.text.lower()


class NoTime(Exception):
    """A word that looks like a time of day and is none: the token, and why."""

    def __init__(self, token: Token, why: str) -> None:
        super().__init__(why)
        self.token = token
        self.why = why


def words_of(line: str) -> list[Token]:
    """The words of a line without its comment; a # starts one at the beginning of a word."""
    found: list[Token] = []
    for match in _WORD.finditer(line):
        if match[0].startswith("#"):
            break
        text = match[0].strip(_EDGES)
        if text:
            found.append(Token(text, match.start() + match[0].index(text) + 1))
    return found


def without_times(tokens: list[Token], is_name: set[str]) -> tuple[list[Token], list[tuple[Token, int]]]:
    """(the words that are no time of day, each time with its half-minutes since midnight). Raises `NoTime`."""
    rest: list[Token] = []
    times: list[tuple[Token, int]] = []
    k = 0
    while k < len(tokens):
        token = tokens[k]
        half = tokens[k + 1].low if k + 1 < len(tokens) and tokens[k + 1].low in ("am", "pm") else ""
        clock = None if token.low in is_name and not _CLOCK.fullmatch(token.text) else _clock(token, half, is_name)
        if clock is None:
            rest.append(token)
        else:
            times.append((token, clock))
            k += bool(half)
        k += 1
    return rest, times


def _clock(token: Token, half: str, is_name: set[str]) -> int | None:
    """Half-minutes since midnight of a word that is a time of day."""
    text = token.text
    if _FOUR.fullmatch(text) and text not in is_name:
        text = f"{text[:2]}:{text[2:]}"
    hour = _HOUR.fullmatch(text + half)
    if hour is not None:
        text, half = f"{hour[1]}:00", hour[2]
    found = _CLOCK.fullmatch(text)
    if found is None:
        return None
    hours, minutes, seconds = int(found[1]), int(found[2]), int(found[3] or 0)
    half = (half or found[4] or "").lower()
    if len(found[2]) == 1:
        raise NoTime(token, f"'{token.text}' has one digit for the minutes; a time has two, such as 09:05")
    if minutes > 59 or seconds > 59 or hours > LAST_HOUR:
        raise NoTime(token, f"'{token.text}' is no time of day")
    if half:
        if not 1 <= hours <= 12:
            raise NoTime(token, f"'{token.text} {half}' counts hours past twelve and says {half} too")
        hours = hours % 12 + (12 if half == "pm" else 0)
    return hours * 120 + minutes * 2 + (seconds >= 30)


def without_fillers(tokens: list[Token], is_name: set[str]) -> list[Token]:
    """The words that say something."""
    return [t for t in tokens if t.low not in FILLERS or t.low in is_name]


def number(token: Token) -> int | None:
    """A whole number in digits or words, up to 99."""
    if token.text.isascii() and token.text.isdigit() and len(token.text) < 3:
        return int(token.text)
    return NUMBERS.get(token.low)
