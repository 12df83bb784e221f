"""Text made safe for a terminal: what may be emitted, and how many columns it takes there."""

from __future__ import annotations

import unicodedata

_KEPT_UNSEEN = "\u200c\u200d"  # joiners that some scripts need inside words
_NAMED = {"\n": "\\n", "\r": "\\r"}


def shown(text: str) -> str:
    """`text` on one line, with control, bidirectional and broken characters written out as escapes.

    A terminal obeys such characters instead of printing them, and some make a line read other than it is.
    """
    if text.isprintable():
        return text
    out: list[str] = []
    for char in text:
        if char.isprintable() or char in _KEPT_UNSEEN or unicodedata.category(char) == "Zs":
            out.append(char)
        elif char == "\t":
            out.append(" ")
        elif char in _NAMED:
            out.append(_NAMED[char])
        else:
            code = ord(char)
            out.append(f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}")
    return "".join(out)


def _columns(char: str) -> int:
    if unicodedata.combining(char) or unicodedata.category(char) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1


def columns(text: str) -> int:
    """Columns that `text` takes on a terminal, ambiguous characters counted as one."""
    return len(text) if text.isascii() else sum(map(_columns, text))


def steady_from(text: str) -> int:
    """Index after which every character of `text` takes exactly one column on every terminal.

    Wide, combining and ambiguous characters differ from terminal to terminal, so a caret under text that follows
    one of them would point at the wrong letter.
    """
    if text.isascii():
        return 0
    for index in range(len(text) - 1, -1, -1):
        char = text[index]
        if not char.isascii() and (unicodedata.east_asian_width(char) in "WFA" or _columns(char) == 0):
            return index + 1
    return 0


def cut(text: str, room: int) -> str:
    """`text` if it surely fits into `room` columns, else its beginning and `...`."""
    if len(text) <= room and text.isascii():
        return text
    used = 0
    for index, char in enumerate(text):
        used += 1 if char.isascii() else 2
        if used > room:
            return _last_three(text[:index], room)
    return text


def _last_three(head: str, room: int) -> str:
    used = sum(1 if char.isascii() else 2 for char in head)
    while head and used + 3 > room:
        used -= 1 if head[-1].isascii() else 2
        head = head[:-1]
    return head + "..."


def wrap(text: str, room: int, first: str = "", then: str = "") -> list[str]:
    """`text` in lines of at most `room` columns, broken at blanks only (a longer word stands alone, whole)."""
    lines: list[str] = []
    line, used, empty = first, columns(first), True
    for word in text.split(" "):
        size = columns(word)
        if not empty and used + 1 + size > room:
            lines.append(line)
            line, used, empty = then, columns(then), True
        if not empty:
            line += " "
            used += 1
        line += word
        used += size
        empty = False
    lines.append(line)
    return lines
