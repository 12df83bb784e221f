"""The stream of YAML events of a text, from the C parser where there is one, else from the pure Python one.

Both give the same events for everything a plan may hold; what they differ in is settled here and in `compose`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from importlib import import_module
from typing import Any

# The C parser takes a colon inside a plain word of a flow map for the end of a key, so `{call: 07:30}` would fail.
# Such colons go through it as a character the text does not hold; `Events.colon` says which.
_INNER_COLON = re.compile(r""":(?=[^\s,\[\]{}])(?<=[^\s"',\[\]{}]:)""")
_OTHER_BREAKS = str.maketrans({"\x85": " ", "\u2028": " ", "\u2029": " "})


class Events:
    """`next()` gives one event or None at the end, and raises `error` on broken text. In the text of a scalar `colon`
    stands for a colon."""

    __slots__ = ("colon", "error", "next")

    def __init__(self, take: Callable[[], Any], error: type[Exception], colon: str) -> None:
        self.next = take
        self.error = error
        self.colon = colon


def events_of(text: str, *, pure: bool | None = None) -> Events:
    """The events of a text. `pure` picks the parser: True for Python, False for C, None for C where it is there."""
    if not text.isascii():
        text = text.translate(_OTHER_BREAKS)
    parser = None
    if pure is not True:
        try:
            parser = import_module("_ruamel_yaml")
        except ImportError:
            if pure is False:
                raise
    if parser is None:
        return _pure_events(text)
    mark = _unused(text)
    text = _INNER_COLON.sub(mark, text)
    return Events(parser.CParser(text).get_event, parser.YAMLError, mark)


def _pure_events(text: str) -> Events:
    # A tab between a colon and its value is a blank for the C parser and an error for this one; it is a blank here too.
    text = re.sub(r"(?<=:)\t+", lambda tabs: " " * len(tabs[0]), text)
    yaml = import_module("ruamel.yaml")
    stream = yaml.YAML(typ="safe", pure=True).parse(text)
    return Events(lambda: next(stream, None), yaml.error.YAMLError, ":")


def _unused(text: str) -> str:
    """A character of the private area that the text does not hold."""
    for code in range(0xE000, 0xF900):
        if chr(code) not in text:
            return chr(code)
    return ":"
