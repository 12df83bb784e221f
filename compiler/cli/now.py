"""`hotset now PLAN --log LOG --at TIME`: what is left of the day, what is next and by when, and what to give up."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from . import STATUS_FINDINGS, STATUS_OK, STATUS_UNUSABLE
from .logs import clock_of, day_of, known_day, log_of, plan_of

if TYPE_CHECKING:
    from ..log import DayLog

EXAMPLES = """\b
Examples:
  hotset now plan.yaml --log day.log --at 14:10
  hotset now plan.yaml --log day.log --day 2
  hotset now plan.yaml --log day.log --at 14:10 --format json
\b
The log is plain text, one line an event, with # before a remark:
  rolled 4A 09:40          done 4A 10:05 3 takes     dropped 4F
  rigging office-wide      ready office-wide 09:35   again 4A
  lost fresnel 13:10       lost 3 m of black-cloth   back fresnel 14:00
  mara leaves 15:00        ines comes 12:10          ines here 12:20
  meal 12:40               meal over 13:20           room tone
  waiting 14:10 for rain   packing 18:40             wrap 19:20
"""


@click.command("now", epilog=EXAMPLES)
@click.argument("plans", metavar="PLAN...", nargs=-1, required=True)
@click.option("--log", "log_name", metavar="LOG", required=True, help="The day's log; '-' reads standard input.")
@click.option("--at", metavar="TIME", help="The time now, such as 14:10; left out, the last time in the log.")
@click.option("--day", metavar="DAY", help="The day of the plan, where the log does not say it.")
@click.option("--format", "format_", type=click.Choice(["text", "json"]), default="text", help="How to answer.")
def command(plans: tuple[str, ...], log_name: str, at: str | None, day: str | None, format_: str) -> int:
    """Plan again what is left of a shooting day, from what the log says was shot, lost and eaten.

    Keeps the agreed order where it still fits, else turns as few setups round as it can. Says what is next and by when
    each must be rolling; when it is late, the three best ways to win time, each tried, with what breaks and whom to
    ask. Nothing is written. Exit status: 0, or 1 when something cannot be had any more or the wrap is too late, or 2
    when plan or log cannot be read.
    """
    from ..now import answer, lines
    from .trying import as_data, say

    if "-" in plans and log_name == "-":
        raise click.UsageError("only one of plan and log can come from standard input")
    plan = plan_of(plans)
    if plan is None:
        return STATUS_UNUSABLE
    log = log_of(plan, log_name, known_day(plan, day) if day is not None else "")
    if log is None:
        return STATUS_UNUSABLE
    name = day_of(plan, log, day)
    if not plan.setups_on(name):
        raise click.ClickException(f"day {name} of the plan has no setups: write 'setups:', as 'hotset new' shows")
    events = log.of(name)
    found = answer(plan, events, _at(plan.days[name].call, events, at))
    from ..now.data import data

    say(lines(found), {"now": as_data(data(found))}, format_)
    fallen = [f for f in found.rest.losses.fates if f.falls and not f.plan_b]
    missed = [item for item in found.coming if item.misses]
    return STATUS_FINDINGS if found.way.over or found.way.lost or missed or fallen else STATUS_OK


def _at(call: int | None, events: DayLog, at: str | None) -> int:
    """The time now: as said, else the last time of the log, else the call."""
    if at is not None:
        return clock_of(at, call)
    if events.last is None and call is None:
        raise click.UsageError("say the time with --at: neither the log nor the plan tells one")
    return events.last if events.last is not None else int(call or 0)
