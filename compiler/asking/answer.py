"""What is asked and what is answered, as values."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..record import record
from ..source.quantities import QuantityError, parse, show


@record
class Ask:
    """One thing a question wants to know: its name (an option of the command), the kind of quantity (or `text`), what
    it is, an example, whether the question needs it, whether it may be given several times, and whether nought is
    no answer."""

    name: str
    kind: str
    words: str
    example: str
    needed: bool = False
    many: bool = False
    above_zero: bool = False


@record
class Line:
    """One result: its name, the words a person reads, and the bare number (None where there is none)."""

    name: str
    words: str
    number: float | str | None = None


@record
class Answer:
    """What came out: `given` echoes the inputs with the defaults used, `notes` say what it rests on."""

    given: tuple[tuple[str, str], ...]
    found: tuple[Line, ...]
    formula: str
    source: str
    notes: tuple[str, ...] = ()


class Refused(ValueError):
    """A question that cannot be answered: what is wrong, and what to do."""


class Given:
    """The inputs of a question, read. Every input that is used, or whose default is, is remembered for the echo."""

    def __init__(self, asks: tuple[Ask, ...], values: Mapping[str, Any]) -> None:
        self._asks = {ask.name: ask for ask in asks}
        self._values = {name: value for name, value in values.items() if value not in (None, (), "")}
        for ask in asks:
            if ask.needed and ask.name not in self._values:
                raise Refused(f"'--{ask.name}' is needed: {ask.words}, such as '{ask.example}'")
            each = self._values.get(ask.name)
            for one in each if ask.many and each else (each,):
                if ask.above_zero and one is not None and one <= 0:
                    raise Refused(f"'--{ask.name}' is not above nought: {ask.words}, such as '{ask.example}'")

    def __contains__(self, name: str) -> bool:
        return name in self._values

    def __getitem__(self, name: str) -> Any:
        return self._values[name]

    def get(self, name: str, otherwise: Any = None) -> Any:
        """A value, or what holds where it is not given."""
        return self._values.get(name, otherwise)

    def echo(self, **defaults: str) -> tuple[tuple[str, str], ...]:
        """The inputs as they were understood, then the defaults that were used in their place."""
        rows = []
        for name, ask in self._asks.items():
            if name in self._values:
                value = self._values[name]
                each = value if ask.many else (value,)
                rows.append((name, ", ".join(_shown(ask.kind, one) for one in each)))
            elif name.replace("-", "_") in defaults:
                rows.append((name, f"{defaults[name.replace('-', '_')]} (default)"))
        return tuple(rows)


def _shown(kind: str, value: Any) -> str:
    return str(value) if kind == "text" else show(kind, value)


def read(ask: Ask, text: str) -> Any:
    """The value of one input.

    Raises Refused with the form that would be right.
    """
    if ask.kind == "text":
        return text
    try:
        return parse(ask.kind, text, ask.example)
    except QuantityError as wrong:
        raise Refused(f"{wrong.reason}; write it like '{wrong.example}'") from None


def rounded(value: float, digits: int = 2) -> float:
    """A number with so many significant digits, as its inputs deserve."""
    return float(f"{value:.{digits}g}")
