"""How text output looks: width, colour, and whether a person at a terminal reads it."""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import IO

from ..record import record

PLAIN_WIDTH = 80
WIDEST = 100

_CODES = {"error": "1;31", "warning": "1;33", "note": "1;36", "caret": "1;32", "dim": "2", "bold": "1"}


@record
class Look:
    """`width` in columns; `colour` with ANSI codes; `fold` breaks the headline too, which a program that reads
    `file:line:column:` lines would not understand, so it is for terminals only; `numbers` adds to each finding the
    numbers that decided it, by their names."""

    width: int = PLAIN_WIDTH
    colour: bool = False
    fold: bool = False
    numbers: bool = False

    def paint(self, what: str, text: str) -> str:
        return f"\x1b[{_CODES[what]}m{text}\x1b[0m" if self.colour and text else text


def wants_colour(terminal: bool, environ: Mapping[str, str]) -> bool:
    """Colour on a terminal only; `NO_COLOR` (not empty) forbids it, else `FORCE_COLOR` (not empty, not 0) forces it."""
    if environ.get("NO_COLOR"):
        return False
    forced = environ.get("FORCE_COLOR", "")
    if forced:
        return forced != "0"
    return terminal and environ.get("TERM") != "dumb"


def look_for(stream: IO[str], environ: Mapping[str, str]) -> Look:
    """The look that suits `stream`: 80 columns unless it is a terminal, there its own width up to 100."""
    try:
        terminal = stream.isatty()
    except ValueError:  # a closed stream
        terminal = False
    width = PLAIN_WIDTH
    if terminal:
        try:
            width = os.get_terminal_size(stream.fileno()).columns or PLAIN_WIDTH
        except (OSError, ValueError):
            width = PLAIN_WIDTH
    return Look(max(40, min(width, WIDEST)), wants_colour(terminal, environ), terminal)
