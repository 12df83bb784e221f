"""`hotset check PLAN`: the command line; what it does is in `checking`."""

from __future__ import annotations

from typing import Any

import click

from . import trying
from .checking import run
from .quick import FORMATS, SEVERITIES, CheckOptions

EXAMPLES = """\b
Examples:
  hotset check plan.yaml
  hotset check plan.yaml --fail-on warning --format json
  hotset check plan.yaml --why-not cards-full
  hotset check plan.yaml --why-not all
  git show HEAD:plan.yaml | hotset check - --stdin-name plan.yaml

""" + trying.EXAMPLES


@click.command("check", epilog=EXAMPLES)
@click.argument("plans", metavar="PLAN...", nargs=-1, required=True)
@click.option("--format", "format_", type=click.Choice(FORMATS), default="text", help="How findings are written.")
@click.option(
    "--fail-on",
    type=click.Choice(SEVERITIES),
    default="error",
    help="Exit with status 1 from this severity up (error when left out).",
)
@click.option("--why-not", metavar="RULE", help="List where RULE (or 'all') could not be checked, and why.")
@click.option("-q", "--quiet", is_flag=True, help="Say nothing but findings.")
@click.option("--numbers", is_flag=True, help="Add the numbers that decided each finding, by their names.")
@click.option("--stdin-name", metavar="NAME", default="-", help="What to call the plan that '-' reads.")
@trying.options
def command(
    plans: tuple[str, ...],
    format_: str,
    fail_on: str,
    why_not: str | None,
    quiet: bool,
    numbers: bool,
    stdin_name: str,
    **trial: Any,
) -> int:
    """Say what in a plan clashes: each finding with its place, reason and ways out.

    PLAN is a file, several files of one plan, a folder, or '-' for standard input. Findings go to standard output.
    Exit status: 0 when nothing reaches --fail-on, 1 when something does, 2 when a plan cannot be read.
    """
    if trying.asked(trial):
        return trying.run(plans, stdin_name, format_, trial)
    return run(CheckOptions(plans, format_, fail_on, why_not, quiet, stdin_name, numbers))
