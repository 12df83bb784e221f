"""What one line says before its names are looked up, and how it says that it is not understood."""

from __future__ import annotations

from ..record import record
from .tokens import Token


class Bad(Exception):
    """A line that is not understood, at one of its words."""

    def __init__(self, token: Token, sentence: str, way_out: str) -> None:
        super().__init__(sentence)
        self.column = token.column
        self.sentence = sentence
        self.way_out = way_out


@record
class Said:
    """The kind of event, its word, the other words without times and numbers, takes or pieces, line and day."""

    kind: str
    verb: Token
    rest: list[Token]
    count: int
    line: int
    day: str


@record
class Subject:
    """What an event is about; "" where it is about nothing."""

    family: str = ""
    id: str = ""
    count: int = 0
