"""The verbs and how they are found: each is imported only when it is the one that was asked for."""

from __future__ import annotations

import os
import sys
from importlib import import_module

import click

from . import COMPLETION, STATUS_INTERRUPTED, STATUS_UNUSABLE

VERBS: dict[str, str] = {
    "new": "Start a plan: a folder with a commented plan that checks and builds.",
    "check": "Say what in a plan clashes, with the reasons and the ways out.",
    "order": "Find the setup order that costs the least time, and say why.",
    "whereabouts": "Say when a thing or a person is where, and in which state.",
    "build": "Make every document: a sheet for each department, as HTML, PDF and CSV.",
    "ask": "Answer one question without a plan: sun, light, lens, colour, power, ...",
    "now": "Plan again, on the day, what is left, from a log of what happened.",
    "risk": "Draw many days with good and bad luck: how often the plan is wrapped in time.",
    "learn": "Find this crew's own minutes in the logs of past days.",
    "explain": "Show a rule's page, or the list of all rules.",
    "schema": "Print the JSON Schema of the plan language, for editors.",
}
"""Verb -> short help, in the order people meet them. The module `hotset.cli.VERB` offers the verb as `command`."""

EXAMPLES = """\b
Examples:
  hotset new night-at-the-pier
  hotset check night-at-the-pier/plan.yaml
  hotset build night-at-the-pier/plan.yaml --out out
"""


class Verbs(click.Group):
    """A group whose verbs are imported one at a time, and which offers the nearest name for a misspelt one."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        if cmd_name not in VERBS:
            return None
        command: click.Command = import_module(f".{cmd_name}", __package__).command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and not args[0].startswith("-") and args[0] not in VERBS:
            from difflib import get_close_matches

            near = get_close_matches(args[0], VERBS, n=1, cutoff=0.5)
            offer = f"did you mean '{near[0]}'?" if near else f"there are: {', '.join(VERBS)}"
            ctx.fail(f"no verb '{args[0]}'; {offer}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        with formatter.section("Verbs"):
            formatter.write_dl(list(VERBS.items()))


def _print_version(ctx: click.Context, _param: click.Parameter, wanted: bool) -> None:
    if wanted and not ctx.resilient_parsing:
        from .version import own_version

        click.echo(f"hotset {own_version()}")
        ctx.exit()


@click.group(
    cls=Verbs,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog=EXAMPLES,
    invoke_without_command=True,
    subcommand_metavar="VERB [ARGS]...",
)
@click.option(
    "--version", is_flag=True, is_eager=True, expose_value=False, callback=_print_version, help="Print the version."
)
def group() -> None:
    """Compile one shoot plan, a YAML file, into findings, a setup order and a sheet for every department."""


def run_group(args: list[str]) -> int:
    """Run the verb that `args` name; an int that a verb returns is the exit status.

    The library's own `main` would turn a closed pipe and Ctrl-C into other statuses, so only completion goes there.
    """
    if COMPLETION in os.environ:
        group.main(args=args, prog_name="hotset")
    try:
        with group.make_context("hotset", list(args)) as context:
            result = group.invoke(context) if args else _no_verb(context)
    except click.exceptions.Exit as left:
        return left.exit_code
    except click.Abort:
        return STATUS_INTERRUPTED
    except click.ClickException as error:
        error.show(sys.stderr)
        return STATUS_UNUSABLE
    return result if isinstance(result, int) else 0


def _no_verb(context: click.Context) -> int:
    click.echo(context.get_help(), err=True)
    return STATUS_UNUSABLE
