"""What the verbs that read a log share: the plan and the log read, their faults said, which day, what time."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

import click

from ..findings import Place, in_order
from ..report.glyphs import shown, wrap
from ..report.look import look_for
from ..report.text import all_lines, excerpt
from ..source.text import MOST_BYTES, lines_of, readable_part
from .checking import MOST_BYTES_READ, line_reader

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..log import Log, LogFault
    from ..plan import Plan

INDENT = "    "


def plan_of(names: Iterable[str]) -> Plan | None:
    """The plan; None where it cannot be read, which has been said then. Findings that do not stop it are for check."""
    from ..plan import decode
    from ..source import read

    wanted = list(names)
    source = read(wanted, stdin_text=sys.stdin.buffer.read(MOST_BYTES_READ) if "-" in wanted else None)
    plan, faults = decode(source)
    look = look_for(sys.stderr, os.environ)
    errors = tuple(f for f in in_order([*source.findings, *faults]) if f.severity == "error")
    for line in all_lines(errors, line_reader(source), look):
        click.echo(line, err=True, color=look.colour)
    return None if any(f.unreadable for f in errors) else plan


def log_of(plan: Plan | None, name: str, day: str = "") -> Log | None:
    """The log; None where a line of it is not understood, and each such line has been said."""
    from ..log import read_log

    data = sys.stdin.buffer.read(MOST_BYTES + 1) if name == "-" else _bytes(name)
    log, faults = read_log(plan, name, data, day)
    say_faults(name, readable_part(data), faults)
    return None if faults else log


def _bytes(name: str) -> bytes:
    with open(name, "rb") as stream:
        return stream.read(MOST_BYTES + 1)


def say_faults(name: str, text: str, faults: Iterable[LogFault]) -> None:
    """Each line that is not understood, with its place, its text and the way out, to standard error."""
    look = look_for(sys.stderr, os.environ)
    rows = lines_of(text)

    def line_of(_file: str, line: int) -> str | None:
        return rows[line - 1] if 1 <= line <= len(rows) else None

    for fault in faults:
        place = Place(name, fault.line, fault.column)
        click.echo(f"{shown(name)}:{fault.line}:{fault.column}: error: {shown(fault.sentence)}", err=True)
        for row in (
            *excerpt(place, line_of, look),
            *wrap(f"do: {shown(fault.way_out)}", look.width, INDENT, INDENT * 2),
        ):
            click.echo(row, err=True, color=look.colour)


def day_of(plan: Plan, log: Log, day: str | None) -> str:
    """The day that is asked about: as said, else the only one of the log or the plan."""
    there = ", ".join(plan.days) or "none"
    if day is not None:
        return known_day(plan, day)
    in_log = [d.day for d in log.days]
    if len(in_log) == 1:
        return in_log[0]
    if len(plan.days) == 1:
        return next(iter(plan.days))
    raise click.UsageError(f"say which day with --day; the plan has: {there}")


def known_day(plan: Plan, day: str) -> str:
    """A day that the plan has."""
    if day not in plan.days:
        from ..plan.speech import nearest

        near = nearest(day, plan.days)
        offer = f"did you mean '{near}'?" if near else f"the plan has: {', '.join(plan.days) or 'none'}"
        raise click.BadParameter(f"no day '{shown(day)}'; {offer}", param_hint="'--day'")
    return day


def clock_of(text: str, call: int | None) -> int:
    """A time of day of the command line in half-minutes; before the call it is of the night after."""
    from ..source.quantities import QuantityError, parse

    try:
        clock = int(parse("clock", text.strip().rjust(5, "0")))
    except QuantityError as error:
        raise click.BadParameter(f"{shown(str(error))}", param_hint="'--at'") from None
    return clock + 2880 if call is not None and clock < call - 360 else clock
