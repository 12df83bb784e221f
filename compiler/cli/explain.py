"""`hotset explain`: the catalogue of rules, offline."""

from __future__ import annotations

import os
import sys

import click

from ..record import replace
from ..report.catalogue import INSIDE, list_lines, nearest_rule, rule_lines
from ..report.look import look_for
from . import STATUS_OK

EXAMPLES = """\b
Examples:
  hotset explain
  hotset explain circuit-overloaded
  hotset explain piece-in-two-places cards-full
"""


@click.command("explain", epilog=EXAMPLES)
@click.argument("names", metavar="[RULE]...", nargs=-1)
def command(names: tuple[str, ...]) -> int:
    """Show what a rule means on set, how it is decided, how to fix it and when to accept it.

    Without RULE, list every rule.
    """
    from ..report.exact import output
    from ..rules import RULES

    look = look_for(sys.stdout, os.environ)
    inner = replace(look, width=max(40, look.width - len(INSIDE)))
    known = {rule.id: rule for rule in RULES}
    for name in names:
        if name not in known:
            near = nearest_rule(name, RULES)
            offer = f"did you mean '{near}'?" if near else "'hotset explain' lists them all"
            raise click.BadParameter(f"no rule '{name}'; {offer}", param_hint="'RULE'")
    if not names:
        for line in list_lines(RULES, look):
            click.echo(line, color=look.colour)
    for number, name in enumerate(names):
        if number:
            click.echo("")
        one = known[name]
        for line in rule_lines(one, look, output(name, one.triggers, inner)):
            click.echo(line, color=look.colour)
    return STATUS_OK
