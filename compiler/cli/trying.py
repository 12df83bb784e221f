"""`hotset check` with a question beyond the findings: what if, how late, what hangs on it, how near, how to mend it."""

from __future__ import annotations

import json
import os
import re
import sys
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any

import click

from ..report.glyphs import shown, wrap
from ..report.look import look_for
from ..report.text import all_lines
from . import STATUS_FINDINGS, STATUS_OK
from .checking import MOST_BYTES_READ, line_reader, status

if TYPE_CHECKING:
    from ..pipeline import Compiled

EXAMPLES = """\b
What if (the file stays as it is; exit status 1 when a must falls):
  hotset check plan.yaml --without big-lamp
  hotset check plan.yaml --without mara --without landing/office
  hotset check plan.yaml --without panel --without panel --format json
  hotset check plan.yaml --without 14:00-15:30
\b
Everything slips:
  hotset check plan.yaml --late "40 min"
  hotset check plan.yaml --late "1 h" --day 2
  hotset check plan.yaml --late "15 min" --format json
\b
What the film hangs on, and what only just passes:
  hotset check plan.yaml --weak-points
  hotset check plan.yaml --margins
  hotset check plan.yaml --margins --weak-points
\b
The smallest repair of each conflict:
  hotset check plan.yaml --repair
  hotset check plan.yaml --repair --write
  hotset check plan.yaml --repair --format json
"""

Command = Callable[..., int]
HOURS = re.compile(r"\s*\d{1,2}:\d\d\s*-\s*\d{1,2}:\d\d\s*")
WORDS = ("without", "late", "weak_points", "margins", "repair", "write", "day")


def options(command: Command) -> Command:
    """The options of trials, for the command of `check`."""
    for option in (
        click.option("--write", is_flag=True, help="With --repair: write the repairs into the plan, comments kept."),
        click.option("--repair", is_flag=True, help="Show the smallest change that mends each conflict, as a diff."),
        click.option("--margins", is_flag=True, help="List what only just passes, with its margin."),
        click.option("--weak-points", is_flag=True, help="List the things whose loss alone takes a must away."),
        click.option(
            "--day", metavar="DAY", help="With --late: only this day slips (each day by itself when left out)."
        ),
        click.option("--late", metavar="TIME", help="What a delay brings that was not there, such as '40 min'."),
        click.option(
            "--without",
            metavar="THING",
            multiple=True,
            help="Which shots fall without a piece of gear, a person, a set, a circuit or some hours, what serves.",
        ),
    ):
        command = option(command)
    return command


def asked(trial: dict[str, Any]) -> bool:
    """Whether any of these options was used."""
    return any(trial[word] for word in WORDS)


def run(plans: tuple[str, ...], stdin_name: str, format_: str, trial: dict[str, Any]) -> int:
    """Compile the plans, answer, and give the exit status: 1 where a must falls, a delay brings an error, or a conflict
    stays without repair."""
    from ..pipeline import compile_plan

    if trial["write"] and not trial["repair"]:
        raise click.UsageError("--write belongs to --repair: nothing else is written")
    if trial["day"] and not trial["late"]:
        raise click.UsageError("--day belongs to --late: say how late that day gets")
    kinds = [bool(trial["without"]), bool(trial["late"]), bool(trial["repair"])]
    if sum(kinds) > 1 or (any(kinds) and (trial["weak_points"] or trial["margins"])):
        raise click.UsageError("ask one question at a time: --without, --late or --repair")
    stdin = sys.stdin.buffer.read(MOST_BYTES_READ) if "-" in plans else None
    compiled = compile_plan(list(plans), stdin, stdin_name)
    if compiled.unreadable:
        look = look_for(sys.stderr, os.environ)
        for line in all_lines(compiled.findings, line_reader(compiled.source), look):
            click.echo(line, err=True, color=look.colour)
        return status(compiled.findings, "error")
    if trial["repair"]:
        from .repairing import repair

        return repair(compiled, format_, write=trial["write"])
    if trial["without"]:
        return _without(compiled, trial["without"], format_)
    if trial["late"]:
        return _late(compiled, trial["late"], trial["day"], format_)
    return _looks(compiled, trial, format_)


def _without(compiled: Compiled, names: tuple[str, ...], format_: str) -> int:
    if any(HOURS.fullmatch(name) for name in names):
        return _without_hours(compiled, names, format_)
    from ..trials.loss import NoSuchThing, understand
    from ..trials.speak import what_if_lines
    from ..trials.what_if import what_if

    assert compiled.plan is not None
    try:
        loss = understand(compiled.plan, names)
    except NoSuchThing as refusal:
        raise click.BadParameter(shown(str(refusal)), param_hint="'--without'") from None
    found = what_if(compiled, loss)
    say(what_if_lines(found), {"without": list(names), **as_data(found)}, format_)
    lost = [f for f in found.fates if f.reasons and f.priority == "must" and not f.plan_b]
    return STATUS_FINDINGS if lost else STATUS_OK


def _without_hours(compiled: Compiled, names: tuple[str, ...], format_: str) -> int:
    from ..source.quantities import QuantityError, parse
    from ..trials.lost_hours import lost_hours, lost_lines

    if not all(HOURS.fullmatch(name) for name in names):
        raise click.UsageError("--without: ask for lost hours by themselves, and for things by themselves")
    try:
        spans = [parse("clock-range", name.replace(" ", "")) for name in names]
    except QuantityError as error:
        raise click.BadParameter(shown(str(error)), param_hint="'--without'") from None
    assert compiled.facts is not None
    found = lost_hours(compiled.facts, spans)
    say(lost_lines(names, found), {"without": list(names), "days": as_data(found)}, format_)
    lost = any(kind == "must" for one in found for _, kind in one.dropped)
    return STATUS_FINDINGS if lost or any(one.after is None for one in found) else STATUS_OK


def _late(compiled: Compiled, text: str, day: str | None, format_: str) -> int:
    from ..source.quantities import QuantityError, parse
    from ..trials.late import late
    from ..trials.speak import late_lines

    try:
        minutes = round(float(parse("duration", text)) / 60.0)
    except QuantityError as error:
        raise click.BadParameter(shown(str(error)), param_hint="'--late'") from None
    if not 1 <= minutes <= 720:
        raise click.BadParameter("a delay is from 1 min to 12 h, such as '40 min'", param_hint="'--late'")
    assert compiled.facts is not None
    lines = compiled.facts.timelines
    if day is not None and day not in lines:
        known = (
            f"days with an agreed order and a call are: {', '.join(lines)}" if lines else "no day has an agreed order"
        )
        why = "no order that can be followed" if day in compiled.facts.plan.days else "no such day"
        raise click.BadParameter(f"'{shown(day)}': {why}; {known}", param_hint="'--day'")
    found = late(compiled, minutes, day)
    say(late_lines(found), as_data(found), format_)
    return STATUS_FINDINGS if any(one.finding.severity == "error" for one in found.brought) else STATUS_OK


def _looks(compiled: Compiled, trial: dict[str, Any], format_: str) -> int:
    from ..rules.near_misses import margins
    from ..trials.speak import margin_lines, weak_lines
    from ..trials.weak import musts, weak_points

    assert compiled.facts is not None
    lines: list[tuple[int, str]] = []
    data: dict[str, Any] = {}
    if trial["weak_points"]:
        points = weak_points(compiled.facts)
        data["weak_points"] = as_data(points)
        lines += weak_lines(points, len(list(musts(compiled.facts))))
    if trial["margins"]:
        near = margins(compiled.facts)
        data["margins"] = as_data(near)
        lines += margin_lines(near)
    say(lines, data, format_)
    return STATUS_OK


class AsItIs(str):
    """Words that are to be copied, and therefore not broken into lines."""


def say(lines: Iterable[tuple[int, str]], data: Any, format_: str) -> None:
    """Lines for people, or the same as JSON for programs."""
    if format_ == "json":
        sys.stdout.write(json.dumps({"format": 1, **data}, indent=2, ensure_ascii=True) + "\n")
        return
    look = look_for(sys.stdout, os.environ)
    for steps, words in lines:
        if isinstance(words, AsItIs):
            click.echo("    " * steps + shown(words), color=look.colour)
            continue
        for line in wrap(shown(words), look.width, "    " * steps, "    " * (steps + 1)):
            click.echo(line, color=look.colour)


def as_data(value: Any) -> Any:
    """Records, tuples and maps as JSON has them."""
    if isinstance(value, (tuple, list)):
        return [as_data(item) for item in value]
    if isinstance(value, dict):
        return {name: as_data(item) for name, item in value.items()}
    names = getattr(type(value), "__match_args__", None)
    if names is not None and not isinstance(value, (str, int, float)):
        return {name: as_data(getattr(value, name)) for name in names}
    return value
