"""`hotset ask`: one question without a plan, answered with its inputs, formula and source."""

from __future__ import annotations

import json
from importlib import import_module
from types import ModuleType
from typing import Any

import click

from ..asking import SUBJECTS
from ..report.glyphs import shown
from . import STATUS_OK

EXAMPLES = """\b
Examples:
  hotset ask light --gives "800 lx at 1 m" --away "2.5 m" --stop T2.8
  hotset ask lens --focal "85 mm" --sensor "36 mm x 24 mm" --away "2 m"
  hotset ask power --draws "1000 W" --mains "230 V 50 Hz" --breaker "16 A"
"""


class Subjects(click.Group):
    """The questions, each imported when it is asked; the nearest name is offered for a misspelt one."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        return list(SUBJECTS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        return _command(cmd_name) if cmd_name in SUBJECTS else None

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and not args[0].startswith("-") and args[0] not in SUBJECTS:
            from difflib import get_close_matches

            near = get_close_matches(args[0], SUBJECTS, n=1, cutoff=0.5)
            offer = f"did you mean '{near[0]}'?" if near else f"there are: {', '.join(SUBJECTS)}"
            ctx.fail(f"nothing to ask about '{args[0]}'; {offer}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        with formatter.section("Subjects"):
            formatter.write_dl([(name, _module(name).HELP) for name in SUBJECTS])


@click.group("ask", cls=Subjects, epilog=EXAMPLES, subcommand_metavar="SUBJECT [OPTIONS]")
def command() -> None:
    """Answer one question, most without a plan: the figures that a plan is judged by, with formula and source."""


class _Question(click.Command):
    """A question whose values all have names: what is written without one is answered with the form that is right."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        bare = [arg for arg in args if not arg.startswith("-")]
        try:
            return super().parse_args(ctx, args)
        except click.UsageError as wrong:
            if "unexpected extra argument" not in str(wrong):
                raise
            names = [one.opts[0] for one in self.params if one.name != "format"]
            right = " ".join(f"{name} {_quoted(value)}" for name, value in zip(names, bare, strict=False))
            raise click.UsageError(
                f"every value is written with its name: hotset ask {self.name} {right}", ctx
            ) from None


def _quoted(value: str) -> str:
    from shlex import quote

    return quote(shown(value))


def _module(name: str) -> ModuleType:
    return import_module(f"hotset.asking.{name}")


def _command(name: str) -> click.Command:
    from ..asking.answer import Ask

    module = _module(name)
    asks: tuple[Ask, ...] = module.ASKS
    options: list[click.Parameter] = [
        click.Option([f"--{ask.name}"], metavar="VALUE", multiple=ask.many, help=f"{ask.words}: {ask.example}")
        for ask in asks
    ]
    options.append(
        click.Option(["--format"], type=click.Choice(["text", "json"]), default="text", help="How it is printed.")
    )
    return _Question(
        name,
        params=options,
        callback=lambda **values: _run(name, module, values),
        help=module.HELP,
        epilog="\b\nExamples:\n  " + "\n  ".join(module.EXAMPLES),
        context_settings={"help_option_names": ["-h", "--help"]},
    )


def _run(name: str, module: ModuleType, values: dict[str, Any]) -> int:
    from ..asking.answer import Answer, Ask, Given, Refused, read

    form = values.pop("format")
    asks: tuple[Ask, ...] = module.ASKS
    known: dict[str, Any] = {}
    for ask in asks:
        said = values.get(ask.name.replace("-", "_"))
        try:
            if ask.many:
                known[ask.name] = tuple(read(ask, one) for one in said or ())
            elif said is not None:
                known[ask.name] = read(ask, said)
        except Refused as wrong:
            raise click.BadParameter(str(wrong), param_hint=f"'--{ask.name}'") from None
    try:
        answer: Answer = module.answer(Given(asks, known))
    except Refused as wrong:
        raise click.UsageError(str(wrong)) from None
    for line in _json(name, answer) if form == "json" else _text(answer):
        click.echo(line)
    return STATUS_OK


def _text(answer: Any) -> list[str]:
    """Aligned lines: what was given, what came out, then formula, source and what it rests on."""
    import textwrap

    rows = [("given", f"{name} {words}") for name, words in answer.given]
    rows += [(line.name, line.words) for line in answer.found]
    rows += [("formula", answer.formula), ("source", answer.source)]
    rows += [("note", note) for note in answer.notes]
    wide = min(max(len(name) for name, _ in rows), 26)
    found: list[str] = []
    last = ""
    for name, words in rows:
        head = "" if name == last and name in ("given", "note") else name
        last = name
        parts = textwrap.wrap(words, 78 - wide) or [""]
        found += [f"{head if i == 0 else '':<{wide}}  {part}".rstrip() for i, part in enumerate(parts)]
    return found


def _json(name: str, answer: Any) -> list[str]:
    whole = {
        "version": 1,
        "subject": name,
        "given": dict(answer.given),
        "found": [{"name": x.name, "words": x.words, "value": x.number} for x in answer.found],
        "formula": answer.formula,
        "source": answer.source,
        "notes": list(answer.notes),
    }
    return [json.dumps(whole, indent=2, ensure_ascii=False)]
