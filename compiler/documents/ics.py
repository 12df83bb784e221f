"""The form of an iCalendar file (RFC 5545): entries in, text out. Everything here is of the format, not of a sheet."""

from __future__ import annotations

from collections.abc import Iterable

from ..record import record

LONGEST = 75  # octets of a line, RFC 5545 section 3.1


@record
class Event:
    """One entry. `start` and `end` are finished values, such as `20261114T073000Z`."""

    uid: str
    stamp: str
    start: str
    end: str
    title: str
    where: str
    about: str


def calendar(events: Iterable[Event]) -> str:
    """The file: CRLF line ends, long lines folded, special signs escaped."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//hotset//shoot plan//EN", "CALSCALE:GREGORIAN"]
    for event in events:
        lines += [
            "BEGIN:VEVENT", f"UID:{event.uid}", f"DTSTAMP:{event.stamp}", f"DTSTART:{event.start}",
            f"DTEND:{event.end}", f"SUMMARY:{escaped(event.title)}",
        ]  # fmt: skip
        if event.where:
            lines.append(f"LOCATION:{escaped(event.where)}")
        lines += [f"DESCRIPTION:{escaped(event.about)}", "END:VEVENT"]
    lines.append("END:VCALENDAR")
    return "".join(f"{folded(line)}\r\n" for line in lines)


def escaped(words: str) -> str:
    """Text as RFC 5545, section 3.3.11, has it."""
    plain = "".join(c for c in words.replace("\r", "") if (c >= " " and c != "\x7f") or c == "\n")
    for sign, said in (("\\", "\\\\"), (";", "\\;"), (",", "\\,"), ("\n", "\\n")):
        plain = plain.replace(sign, said)
    return plain


def folded(line: str) -> str:
    """The line in pieces of at most 75 octets, each after the first led in by a blank; no letter is torn."""
    pieces = [""]
    size = 0
    for sign in line:
        width = len(sign.encode())
        if size + width > LONGEST - (len(pieces) > 1):
            pieces.append("")
            size = 0
        pieces[-1] += sign
        size += width
    return "\r\n ".join(pieces)
