"""`hotset whereabouts PLAN NAME`: the day of one thing, person, set or circuit."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

import click

from ..report.glyphs import shown
from ..report.look import look_for
from ..report.text import all_lines
from . import STATUS_OK
from .checking import MOST_BYTES_READ, line_reader, status
from .quick import FORMATS
from .trying import as_data, say

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from ..facts import Facts
    from ..facts.whereabouts import Whereabouts
    from ..findings import Finding
    from ..plan import Plan

EXAMPLES = """\b
Examples:
  hotset whereabouts plan.yaml big-lamp
  hotset whereabouts plan.yaml mara --day 2
  hotset whereabouts plan.yaml landing/office --format json
"""


@click.command("whereabouts", epilog=EXAMPLES)
@click.argument("plans", metavar="PLAN", nargs=1)
@click.argument("name", metavar="NAME")
@click.option("--day", metavar="DAY", help="Only this day.")
@click.option("--format", "format_", type=click.Choice(FORMATS), default="text", help="How it is written.")
def command(plans: str, name: str, day: str | None, format_: str) -> int:
    """Say from when to when a thing or a person is where, and in which state.

    NAME is a piece of gear, a cloth, a person, a set or a circuit of the plan. What happens when follows the agreed
    order of each day; of a day without one, only what is known is said. What clashes there follows below.
    """
    from ..facts.whereabouts import whereabouts
    from ..pipeline import compile_plan

    stdin = sys.stdin.buffer.read(MOST_BYTES_READ) if plans == "-" else None
    compiled = compile_plan([plans], stdin)
    if compiled.unreadable or compiled.facts is None:
        look = look_for(sys.stderr, os.environ)
        for line in all_lines(compiled.findings, line_reader(compiled.source), look):
            click.echo(line, err=True, color=look.colour)
        return status(compiled.findings, "error")
    facts = compiled.facts
    if day is not None and day not in facts.plan.days:
        known = ", ".join(facts.plan.days) or "none"
        raise click.BadParameter(f"there is no day '{shown(day)}'; there are: {known}", param_hint="'--day'")
    family, full = _meant(facts.plan, name)
    found = whereabouts(facts, family, full, day)
    said = _said(compiled.findings, family, full)
    say((*_lines(facts, found, any(said)), *_findings(said)), {**as_data(found), "findings": as_data(said)}, format_)
    return STATUS_OK


def _meant(plan: Plan, name: str) -> tuple[str, str]:
    """Family and whole name of what was asked for."""
    from ..facts.whereabouts import families
    from ..plan.speech import nearest

    known = families(plan)
    front, _, rest = name.partition(".")
    if front in known and rest:
        known, name = {front: known[front]}, rest
    exact = [(family, name) for family, names in known.items() if name in names]
    short = [(family, full) for family, names in known.items() for full in names if full.endswith(f"/{name}")]
    plays = [("people", p.id) for p in plan.people.values() if name in p.plays]
    meant = exact or short or plays
    if len(meant) == 1:
        return meant[0]
    if meant:
        ways = ", ".join(f"'{family}.{full}'" for family, full in meant)
        raise click.BadParameter(f"'{shown(name)}' may mean {ways}: write one of them", param_hint="'NAME'")
    if other := _other(plan, name):
        raise click.BadParameter(other, param_hint="'NAME'")
    near = nearest(name, {full.rsplit("/", 1)[-1] for names in known.values() for full in names})
    offer = f"did you mean '{near}'?" if near else "name a piece of gear, a cloth, a person, a set or a circuit"
    raise click.BadParameter(f"there is no '{shown(name)}' in this plan; {offer}", param_hint="'NAME'")


def _other(plan: Plan, name: str) -> str:
    """What a name means that cannot be asked for, and what can be instead; "" where it means nothing."""
    if name in plan.setups:
        setup = plan.setups[name]
        room = f"ask for its set '{setup.set}', or for" if setup.set else "ask for"
        return f"'{shown(name)}' is a setup; {room} a thing or a person of it ('hotset ask setup' tells how it is lit)"
    if name in plan.shots:
        setup_id = plan.shots[name].setup
        return f"'{shown(name)}' is a shot; ask for a thing, a person or the set of its setup '{setup_id}'"
    if name in plan.locations:
        rooms = ", ".join(f"'{room}'" for room in plan.sets if room.startswith(f"{name}/"))
        return f"'{shown(name)}' is a location; ask for one of its sets: {rooms or 'it names none'}"
    return f"'{shown(name)}' is a day; ask for a thing and add '--day {name}'" if name in plan.days else ""


def _said(findings: Iterable[Finding], family: str, name: str) -> tuple[Finding, ...]:
    """The findings that are about a thing or a person: at its place, with it as the other place, or decided by it."""
    short, at = name.rsplit("/", 1)[-1], f"{family}.{name}"

    def about(finding: Finding) -> bool:
        paths = [finding.place.path, *(other.place.path for other in finding.related)]
        values = [value for _, words in finding.details for value in str(words).split(", ")]
        return any(p == at or p.startswith(f"{at}.") for p in paths) or name in values or short in values

    return tuple(finding for finding in findings if about(finding))


def _findings(said: tuple[Finding, ...]) -> Iterator[tuple[int, str]]:
    for f in said:
        yield 0, f"{f.place.file}:{f.place.line}: {f.severity}: {f.sentence} [{f.rule}]"


def _lines(facts: Facts, found: Whereabouts, said: bool) -> Iterator[tuple[int, str]]:
    from ..facts.whereabouts import clock

    head = ""
    for one in found.stretches:
        date = facts.plan.days[one.day].date
        title = f"'{one.piece}' on day {one.day}" + (f", {date}" if date is not None else "")
        if title != head:
            yield 0, title
            head = title
        where = (f", '{one.where}'" if one.state == "in case" else f" in {one.where}") if one.where else ""
        words = f": {one.words}" if one.words else ""
        yield 1, f"{clock(one.start)}-{clock(one.end)}  {_STATES.get(one.state, one.state)}{where}{words}"
    for known in found.known:
        yield 0, known
    if not found.stretches and not found.known and not said:
        yield 0, f"nothing is known of '{found.name}'"


_STATES = {"in case": "in its case", "in use": "in use", "rigged": "made ready"}
