"""`hotset risk PLAN`: how often a day is wrapped in time, with good and bad luck in every task."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from . import STATUS_FINDINGS, STATUS_OK, STATUS_UNUSABLE
from .logs import known_day, plan_of

if TYPE_CHECKING:
    from ..plan import Plan

EXAMPLES = """\b
Examples:
  hotset risk plan.yaml
  hotset risk plan.yaml --day 2 --at-least 80
  hotset risk plan.yaml --draws 10000 --seed 7 --format json
"""


@click.command("risk", epilog=EXAMPLES)
@click.argument("plans", metavar="PLAN...", nargs=-1, required=True)
@click.option("--day", metavar="DAY", help="Only this day.")
@click.option("--draws", type=click.IntRange(100, 100_000), default=2000, metavar="N", help="How many days to draw.")
@click.option("--seed", type=click.IntRange(0), default=1, metavar="N", help="Where chance begins; the same, the same.")
@click.option(
    "--at-least",
    type=click.IntRange(1, 100),
    metavar="DAYS",
    help="End with status 1 where fewer of 100 days than this are wrapped in time.",
)
@click.option("--format", "format_", type=click.Choice(["text", "json"]), default="text", help="How to answer.")
def command(plans: tuple[str, ...], day: str | None, draws: int, seed: int, at_least: int | None, format_: str) -> int:
    """Live through each day many times, every task as long as luck has it, and count the days wrapped in time.

    Says how likely it is to wrap in time and to keep each light window, cast hour and loan, which setup decides it, and
    how much buffer buys which chance. Low, likely and high minutes of each kind of task are typical ones; `timings:`
    of the plan shift them. The same plan and seed give the same answer everywhere. Exit status: 0, or 1 with
    --at-least, or 2 when the plan cannot be read.
    """
    from ..risk import lines, risk
    from ..risk.speak import data
    from .trying import say

    plan = plan_of(plans)
    if plan is None:
        return STATUS_UNUSABLE
    days = [known_day(plan, day)] if day is not None else [name for name in plan.days if plan.setups_on(name)]
    if not days or not plan.setups_on(days[0]):
        raise click.ClickException("there is no day with setups: write 'days:' and 'setups:', as 'hotset new' shows")
    found = [(name, risk(plan, name, draws, seed)) for name in days]
    text = [line for name, one in found for line in (lines(one) if one is not None else _none(plan, name))]
    say(text, {"risk": [data(one) for _, one in found if one is not None]}, format_)
    shares = [one.in_time if one is not None else 0.0 for _, one in found]
    low = [share for share in shares if at_least is not None and (share is None or 100 * share < at_least)]
    return STATUS_FINDINGS if low else STATUS_OK


def _none(plan: Plan, day: str) -> list[tuple[int, str]]:
    if plan.days[day].call is None:
        return [(0, f"day {day}: no chance can be told, since its 'call:' is not said")]
    return [(0, f"day {day} has no order that can be shot: 'hotset order' says why")]
