"""`hotset order PLAN`: the setup order of each day that costs the least time, with its reasons and its proof."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

import click

from ..report.glyphs import shown
from ..report.look import look_for
from ..report.text import all_lines
from . import STATUS_FINDINGS, STATUS_OK, STATUS_UNUSABLE
from .checking import MOST_BYTES_READ, line_reader
from .unswept import unswept

if TYPE_CHECKING:
    from ..findings import Finding
    from ..plan import Plan
    from ..source import Source

EXAMPLES = """\b
Examples:
  hotset order plan.yaml
  hotset order plan.yaml --day 2
  hotset order plan.yaml --day 2 --write
  hotset order film.yaml --anew --write
  hotset order plan.yaml --against agreed
  hotset order plan.yaml --against rooms --against yours.txt
  hotset order plan.yaml --ahead
"""


@click.command("order", epilog=EXAMPLES)
@click.argument("plans", metavar="PLAN...", nargs=-1, required=True)
@click.option("--day", metavar="DAY", help="Only this day.")
@click.option("--write", is_flag=True, help="Write the order into the plan, as agreed; comments stay.")
@click.option("--anew", is_flag=True, help="Decide the days anew: forget agreed orders, keep what names its day.")
@click.option(
    "--limit",
    type=click.IntRange(1, 10_000_000),
    metavar="N",
    help="How many moments of a day to look at (60000 when left out); more proves more and takes longer.",
)
@click.option(
    "--cast-day",
    type=click.IntRange(0, 600),
    default=0,
    metavar="MIN",
    help="Minutes of the whole crew that a day less for one of the cast is worth, when days are shared out.",
)
@click.option(
    "--against",
    metavar="ORDER",
    multiple=True,
    help="Compare the best order with another: agreed, story, rooms (room by room), or a file. Twice: those two.",
)
@click.option("--ahead", is_flag=True, help="Say which room to rig ahead while others shoot, by whom, for what gain.")
@unswept()
def command(
    plans: tuple[str, ...],
    day: str | None,
    write: bool,
    anew: bool,
    limit: int | None,
    cast_day: int,
    against: tuple[str, ...],
    ahead: bool,
) -> int:
    """Find the order of setups with the earliest wrap, then the least carrying, then the least waiting.

    Setups that name no day, and that no day names, are shared out among the days first. Prints each day minute by
    minute: what is rigged by which piece, when is shot, what a swap would cost, and whether the order is proven best.
    Nothing is changed without --write. Exit status: 0, or 1 when a day cannot be shot as it is written or a setup
    that must be shot has none, or 2 when the plan cannot be read.
    """
    from ..facts.slate import free
    from ..order import LIMIT, plan_day, speak
    from ..plan import decode
    from ..source import read

    source = read(list(plans), stdin_text=sys.stdin.buffer.read(MOST_BYTES_READ) if "-" in plans else None)
    plan, faults = decode(source)
    if _say_faults(source, [*source.findings, *faults]) or plan is None:
        return STATUS_UNUSABLE
    if against and day is None and free(plan) and not any(map(plan.setups_on, plan.days)):
        raise click.ClickException(
            "no setup has its day yet, so there is nothing to compare: share them out first with 'hotset order --write'"
        )
    if against:
        return _against(plan, _days(plan, day), against, limit or LIMIT)
    if ahead:
        return _ahead(plan, _days(plan, day), limit or LIMIT)
    if day is None and free(plan, anew=anew):
        return _several(plans, plan, write, limit or LIMIT, (anew, 2 * cast_day))
    status = STATUS_OK
    width = look_for(sys.stdout, os.environ).width
    for number, name in enumerate(_days(plan, day)):
        result = plan_day(plan, name, limit or LIMIT)
        if number:
            click.echo("")
        click.echo(shown_lines(speak(result, width)), nl=False)
        if not result.order:
            status = STATUS_FINDINGS
        elif write:
            plan = _write(plans, plan, name, result.order)
    return status


def _against(plan: Plan, days: list[str], against: tuple[str, ...], limit: int) -> int:
    """Orders held against each other, day by day."""
    from .comparing import compare

    width = look_for(sys.stdout, os.environ).width
    for number, name in enumerate(days):
        text = compare(plan, name, against, limit, width)
        click.echo(("\n" if number else "") + shown_lines(text), nl=False)
    return STATUS_OK


def _ahead(plan: Plan, days: list[str], limit: int) -> int:
    """What rigging a room ahead would save, day by day."""
    from ..trials.rig_ahead import proposals
    from ..trials.speak_ahead import ahead_lines

    width = look_for(sys.stdout, os.environ).width
    for number, name in enumerate(days):
        text = "\n".join(ahead_lines(name, proposals(plan, name, limit), width))
        click.echo(("\n" if number else "") + shown_lines(text), nl=False)
    return STATUS_OK


def _several(plans: tuple[str, ...], plan: Plan, write: bool, limit: int, how: tuple[bool, int]) -> int:
    """Share setups out among the days, then each day in order. `how`: anew, and half-minutes a cast day is worth."""
    from ..order import plan_days, speak, speak_days

    width = look_for(sys.stdout, os.environ).width
    result = plan_days(plan, limit, anew=how[0], cast_day=how[1])
    click.echo(shown_lines(speak_days(result, width)), nl=False)
    for order in result.orders:
        click.echo("")
        click.echo(shown_lines(speak(order, width)), nl=False)
    if write and result.whole:
        for order in result.orders:
            plan = _write(plans, plan, order.day.id, order.order)
        for day in result.idle:
            plan = _write(plans, plan, day, ()) if plan.days[day].order else plan
    elif write:
        click.echo("\nNothing was written, since not every setup that must be shot has its day.")
    return STATUS_OK if result.whole else STATUS_FINDINGS


def shown_lines(text: str) -> str:
    """Text that is safe on a terminal, line by line."""
    return "".join(f"{shown(line)}\n" for line in text.splitlines())


def _days(plan: Plan, day: str | None) -> list[str]:
    """The days to order: the one asked for, else all that have setups."""
    if day is not None and day not in plan.days:
        from difflib import get_close_matches

        near = get_close_matches(day, plan.days, n=1, cutoff=0.4)
        there = ", ".join(plan.days) or "none"
        offer = f"did you mean '{near[0]}'?" if near else f"the plan has: {there}"
        raise click.BadParameter(f"no day '{shown(day)}'; {offer}", param_hint="'--day'")
    days = [day] if day is not None else [name for name in plan.days if plan.setups_on(name)]
    if not days or not plan.setups_on(days[0]):
        raise click.ClickException(
            "there is no day with setups to order: write 'days:' and 'setups:', as 'hotset new' shows"
        )
    return days


def _say_faults(source: Source, faults: list[Finding]) -> bool:
    """Print faults of reading to standard error; True where the plan cannot be used."""
    from ..findings import in_order

    errors = [f for f in in_order(faults) if f.severity == "error"]
    for line in all_lines(tuple(errors), line_reader(source), look_for(sys.stderr, os.environ)):
        click.echo(line, err=True)
    return any(f.unreadable for f in errors)


def _write(plans: tuple[str, ...], plan: Plan, day: str, order: tuple[str, ...]) -> Plan:
    """Put the order into the file, say so, and give the plan as it stands now."""
    from ..order import written
    from ..plan import decode
    from ..source import read
    from ..source.splice import CannotSplice
    from ..source.writing import encoded, write_safely

    if "-" in plans:
        raise click.ClickException("'--write' needs a file: a plan from standard input cannot be written back")
    if tuple(plan.days[day].order) == order:
        click.echo(f"\nDay {day} already has this order; nothing was written.")
        return plan
    try:
        index, text = written(plan, day, order)
    except CannotSplice as refusal:
        raise click.ClickException(shown(str(refusal))) from None
    file = plan.source.files[index]
    write_safely(file.path, encoded(file, text))
    replaced = "replaced the agreed order" if plan.days[day].order else "written"
    click.echo(f"\n{file.name}: order of day {day} {replaced}.")
    again, _ = decode(read(list(plans)))
    return again or plan
