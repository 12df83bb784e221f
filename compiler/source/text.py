"""The text of one file: bytes into text, lines out of it, and characters nobody should send to a terminal."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from ..record import record

if TYPE_CHECKING:
    from ..findings import Severity

MOST_BYTES = 8_000_000
# What YAML does not allow in a text: control characters, lone halves of surrogate pairs, and a few that mean nothing.
_FORBIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff]")
_UNSAFE = "[\x00-\x1f\x7f-\x9f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ud800-\udfff\ufeff\ufff9-\uffff]"
_WIDEST = 160


@record
class SourceFile:
    """One file that was read. `name` is what the user wrote (for an include: the path from there); `path` is where it
    lies; `newline` is the line end it uses; `bom` tells that a byte order mark leads it, which `text` leaves out."""

    name: str
    path: str
    text: str
    newline: str = "\n"
    bom: bool = False


@record
class Fault:
    """What is wrong at an offset of a text, in words, with ways out; `also` are further offsets with their words."""

    at: int
    sentence: str
    ways_out: tuple[str, ...] = ()
    also: tuple[tuple[int, str], ...] = ()
    rule: str = "not-yaml"
    severity: Severity = "error"


def decode(data: bytes) -> tuple[str, bool] | Fault:
    """The text of the bytes and whether a byte order mark led it, or what is wrong with them.

    The offset of a Fault counts in the text as far as it could be decoded, see `readable_part`.
    """
    if len(data) > MOST_BYTES:
        return Fault(
            0,
            f"the file is larger than {MOST_BYTES // 1_000_000} MB, the most that is read",
            ("split it and join the parts with 'include:'", "make sure that this is a plan and not a picture or film"),
            rule="too-large",
        )
    if data[:2] in (b"\xff\xfe", b"\xfe\xff") or (len(data) > 3 and data[1:4:2] == b"\0\0" and data[0] != 0):
        return Fault(0, "the file is saved as UTF-16, not as UTF-8", ("save it again with the encoding UTF-8",))
    bom = data.startswith(b"\xef\xbb\xbf")
    try:
        text = data[3 * bom :].decode("utf-8")
    except UnicodeDecodeError as error:
        return _bad_byte(data[3 * bom :], error.start)
    found = _FORBIDDEN.search(text)
    if found is None:
        return text, bom
    return Fault(
        found.start(),
        f"there is a control character here ({_code(found[0])}), which cannot be part of a plan",
        ("delete it; it often comes in with text copied from elsewhere",),
    )


def readable_part(data: bytes) -> str:
    """As much of a broken file as lines can be shown of: bad bytes become the sign for the unknown."""
    return data[:MOST_BYTES].decode("utf-8-sig", "replace")


def _bad_byte(data: bytes, at: int) -> Fault:
    meant = data[at : at + 1].decode("cp1252", "replace")
    hint = f", perhaps '{meant}' in an old encoding of Windows" if meant.isalpha() else ""
    return Fault(
        len(data[:at].decode("utf-8")),
        f"the byte 0x{data[at]:02x} here is not UTF-8{hint} (byte {at + 1} of the file)",
        ("save the file again with the encoding UTF-8",),
    )


def line_end(text: str) -> str:
    """The line end a text uses most at its beginning."""
    at = text.find("\n")
    if at < 0:
        return "\r" if "\r" in text else "\n"
    return "\r\n" if at and text[at - 1] == "\r" else "\n"


def line_and_column(text: str, offset: int) -> tuple[int, int]:
    """Line and column, both from 1, of an offset."""
    before = text[:offset]
    lines = before.count("\n") + before.count("\r") - before.count("\r\n")
    start = max(before.rfind("\n"), before.rfind("\r")) + 1
    return lines + 1, offset - start + 1


@lru_cache(maxsize=4)
def lines_of(text: str) -> tuple[str, ...]:
    """The lines without their ends."""
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    return tuple(text.split("\n"))


def _code(char: str) -> str:
    return f"U+{ord(char):04X}"


def _escape(found: re.Match[str]) -> str:
    char = found[0]
    if char == "\t":
        return "\\t"
    return f"\\x{ord(char):02x}" if ord(char) < 256 else f"\\u{ord(char):04x}"


def shown(text: str) -> str:
    """Text with control and direction-changing characters written as escapes."""
    return re.sub(_UNSAFE, _escape, text)


def excerpt_of(line: str, column: int) -> tuple[str, int]:
    """A line made safe to print, cut to a window around `column`, and the column in what is left (both from 1)."""
    at = max(0, min(column - 1, len(line)))
    lead = ""
    if len(line) > _WIDEST:
        start = max(0, min(at - _WIDEST // 2, len(line) - _WIDEST))
        lead = "..." if start else ""
        tail = "..." if start + _WIDEST < len(line) else ""
        line, at = line[start : start + _WIDEST], at - start
    else:
        tail = ""
    before = lead + shown(line[:at])
    return before + shown(line[at:]) + tail, len(before) + 1
