"""`hotset schema`: the JSON Schema of the plan language, one document, for editors."""

from __future__ import annotations

import json

import click

from ..report.language import ROOT_NOUN, bundle, noun_names
from . import STATUS_OK

EXAMPLES = """\b
Examples:
  hotset schema > hotset.schema.json
  hotset schema --noun setup
  hotset schema --noun gear > gear.schema.json
"""


@click.command("schema", epilog=EXAMPLES)
@click.option("--noun", metavar="NAME", default=ROOT_NOUN, help="Only this noun and what it speaks of.")
def command(noun: str) -> int:
    """Print the JSON Schema of the plan language as one document.

    An editor that knows JSON Schema offers keys and explains them while you write. Units are checked by 'hotset check'.
    """
    try:
        whole = bundle(noun)
    except KeyError:
        from difflib import get_close_matches

        near = get_close_matches(noun, noun_names(), n=1)
        offer = f"did you mean '{near[0]}'?" if near else f"there are: {', '.join(noun_names())}"
        raise click.BadParameter(f"no noun '{noun}'; {offer}", param_hint="'--noun'") from None
    click.echo(json.dumps(whole, indent=2, ensure_ascii=False))
    return STATUS_OK
