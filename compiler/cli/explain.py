"""`hotset explain`: the catalogue of rules, and of the numbers that rules and sheets print, offline."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

import click

from ..record import replace
from ..report.catalogue import INSIDE, list_lines, nearest_rule, rule_lines
from ..report.look import look_for
from . import STATUS_OK

if TYPE_CHECKING:
    from ..report.look import Look

EXAMPLES = """\b
Examples:
  hotset explain
  hotset explain circuit-overloaded
  hotset explain --number
  hotset explain --number volts-lost
  hotset explain --number "8.2 A"
  hotset explain --number amperes night-at-the-pier/plan.yaml office-wide
"""


@click.command("explain", epilog=EXAMPLES)
@click.argument("names", metavar="[RULE]...", nargs=-1)
@click.option(
    "--number",
    is_flag=True,
    help="Show how a number is found: its NAME or its unit; with PLAN SETUP what that setup puts in; all without.",
)
def command(names: tuple[str, ...], number: bool) -> int:
    """Show what a rule means on set, how it is decided, how to fix it and when to accept it.

    Without RULE, list every rule. With --number, show the formula, inputs and source of a number on a sheet.
    """
    look = look_for(sys.stdout, os.environ)
    lines = _numbers(names, look) if number else _rules(names, look)
    for line in lines:
        click.echo(line, color=look.colour)
    return STATUS_OK


def _rules(names: tuple[str, ...], look: Look) -> list[str]:
    from ..figures import named
    from ..report.exact import output
    from ..rules import RULES

    inner = replace(look, width=max(40, look.width - len(INSIDE)))
    known = {rule.id: rule for rule in RULES}
    for name in names:
        if name not in known:
            near = nearest_rule(name, RULES)
            offer = f"did you mean '{near}'?" if near else "'hotset explain' lists them all"
            offer = f"it is a number: 'hotset explain --number {name}'" if named(name) else offer
            raise click.BadParameter(f"no rule '{name}'; {offer}", param_hint="'RULE'")
    if not names:
        return list(list_lines(RULES, look))
    found: list[str] = []
    for position, name in enumerate(names):
        found += [""] * (position > 0)
        found += rule_lines(known[name], look, output(name, known[name].triggers, inner))
    return found


def _numbers(names: tuple[str, ...], look: Look) -> list[str]:
    from ..figures import named, nearest, of_unit
    from ..figures.page import figure_lines
    from ..figures.page import list_lines as figures

    if not names:
        return list(figures())
    rule, _, name = names[0].rpartition("/")
    found = named(name, rule)
    if not found and len(names) == 1 and of_unit(names[0]):
        return [*figures(of_unit(names[0])), "'hotset explain --number NAME' tells how one of them is found"]
    if not found:
        near = nearest(names[0])
        offer = f"did you mean '{near}'?" if near else "'hotset explain --number' lists them all"
        raise click.BadParameter(f"no number '{names[0]}'; {offer}", param_hint="'NAME'")
    if len(names) not in (1, 3):
        raise click.UsageError(
            "--number takes a name, or a name, a plan and one of its setups: "
            "'hotset explain --number amperes plan.yaml office-wide'"
        )
    lines: list[str] = []
    for position, one in enumerate(found):
        lines += [""] * (position > 0)
        lines += figure_lines(one, look.width)
        if len(names) == 3:
            lines += ["", *_of_setup(one.name, names[1], names[2], look.width)]
    return lines


def _of_setup(figure: str, plan_name: str, setup: str, width: int) -> list[str]:
    from ..figures import named
    from ..figures.page import setup_lines
    from ..pipeline import compile_plan

    done = compile_plan([plan_name])
    if done.plan is None or done.facts is None:
        said = done.findings[0].sentence if done.findings else "it is not readable"
        raise click.UsageError(f"the plan '{plan_name}' cannot be read: {said}")
    if setup not in done.plan.setups:
        from difflib import get_close_matches

        near = get_close_matches(setup, done.plan.setups, n=1, cutoff=0.5)
        there = ", ".join(done.plan.setups) or "none"
        offer = f"did you mean '{near[0]}'?" if near else f"there are: {there}"
        raise click.UsageError(f"no setup '{setup}' in '{plan_name}'; {offer}")
    return list(setup_lines(done.facts, done.plan.setups[setup], named(figure)[0], width))
