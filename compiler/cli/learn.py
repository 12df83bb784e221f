"""`hotset learn LOG...`: this crew's own minutes, from the logs of past days."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from ..report.glyphs import shown
from . import STATUS_OK, STATUS_UNUSABLE
from .logs import log_of, plan_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..log.events import DayLog
    from ..log.learn import Lessons
    from ..plan import Plan

EXAMPLES = """\b
Examples:
  hotset learn day-1.log --plan plan.yaml
  hotset learn day-1.log day-2.log day-3.log --plan plan.yaml
  hotset learn day-1.log --format json
"""


WIDTH = 80
NOTICED = 0.05
"""Share of the planned takes by which they have to differ before anything is advised."""


@click.command("learn", epilog=EXAMPLES)
@click.argument("logs", metavar="LOG...", nargs=-1, required=True)
@click.option("--plan", "plans", metavar="PLAN", multiple=True, help="The plan of those days: what was done in each.")
@click.option("--format", "format_", type=click.Choice(["text", "json"]), default="text", help="How to answer.")
def command(logs: tuple[str, ...], plans: tuple[str, ...], format_: str) -> int:
    """Measure in the logs of past days how long this crew takes, and print it as `timings:` to paste into a plan.

    With the plan of those days, every changeover between two setups is taken apart into what was done in it; without,
    only rigging that is logged, meals, load-in and packing are measured. Beside each value stands on how many
    observations it rests; what rests on fewer than three is not told. Exit status: 0, or 2 when a log or the plan
    cannot be read.
    """
    from ..facts.tables import table
    from ..log.learn import learn
    from ..log.observe import observe

    plan = plan_of(plans) if plans else None
    if plans and plan is None:
        return STATUS_UNUSABLE
    read = [log_of(plan, name) for name in logs]
    days: list[DayLog] = [day for log in read if log is not None for day in log.days]
    if any(log is None for log in read):
        return STATUS_UNUSABLE
    measured = observe(plan, tuple(days))
    actions = table("minutes")["actions"]
    minutes = _minutes(plan) or {action: int(row["likely"] * 2) for action, row in actions.items()}
    lessons = learn(measured, minutes)
    if format_ == "json":
        from .trying import say

        say((), _data(lessons, measured.days, len(measured.changeovers)), format_)
    else:
        for line in _lines(lessons, measured.days, len(measured.changeovers)):
            click.echo(shown(line))
    return STATUS_OK


def _minutes(plan: Plan | None) -> dict[str, int]:
    if plan is None:
        return {}
    from ..facts.changeover import minutes

    return minutes(plan).likely


def _lines(lessons: Lessons, days: int, changeovers: int) -> Iterator[str]:
    """YAML that can be pasted; all else is a comment."""
    of = f"{days} day{'' if days == 1 else 's'} and {changeovers} changeover{'' if changeovers == 1 else 's'}"
    told = [one for one in lessons.learned if one.action != "takes"]
    if told:
        yield f"timings:                       # from {of}"
        for one in told:
            entry = f"  {one.action}: {one.half_minutes / 2:g} min"
            yield f"{entry:<30} # {one.observations} times; counted with so far: {one.before / 2:g} min"
    else:
        yield f"# too little to learn from {of}: an action is told from three observations on"
    if lessons.few:
        said = ", ".join(f"{action} ({count})" for action, count in lessons.few)
        yield from _remark(f"too few to tell (fewer than 3): {said}")
    if lessons.takes is not None:
        few = "; too few to build on" if lessons.shots < 3 else ""
        yield from _remark(
            f"takes: {lessons.shots} shots took {lessons.takes:.2f} times their planned minutes, at the middle{few}"
        )
        if not few and abs(lessons.takes - 1.0) >= NOTICED:
            how = "more" if lessons.takes > 1.0 else "less"
            yield from _remark(f"plan {abs(lessons.takes - 1.0) * 100:.0f} % {how} in 'takes:' of the days to come")
    if lessons.per_take is not None:
        yield from _remark(
            f"one take, with its reset: {lessons.per_take:.1f} min (the middle of {lessons.counted} shots)"
        )


def _remark(text: str) -> list[str]:
    """A comment of the pasted text, folded."""
    from textwrap import wrap

    return wrap(text, WIDTH, initial_indent="# ", subsequent_indent="#   ", break_on_hyphens=False)


def _data(lessons: Lessons, days: int, changeovers: int) -> dict[str, Any]:
    return {
        "days": days,
        "changeovers": changeovers,
        "timings": [
            {"action": one.action, "minutes": one.half_minutes / 2, "before": one.before / 2, "times": one.observations}
            for one in lessons.learned
        ],
        "too_few": [{"action": action, "times": times} for action, times in lessons.few],
        "takes": {"times_planned": lessons.takes, "shots": lessons.shots, "minutes_a_take": lessons.per_take},
    }
