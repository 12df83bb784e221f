"""`hotset build PLAN`: every sheet into a folder, all of them or none."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ..report.glyphs import shown
from ..report.look import look_for
from ..report.text import all_lines, counted, tally
from .checking import MOST_BYTES_READ, line_reader, status
from .quick import SEVERITIES

if TYPE_CHECKING:
    from ..documents import BuildResult
    from ..pipeline import Compiled

EXAMPLES = """\b
Examples:
  hotset build plan.yaml --out out
  hotset build plan.yaml --out out --only call-sheet --only lighting
  hotset build plan.yaml --out out --day 2 --label "second draft"
  hotset build plan.yaml --out out --for mara --no-pdf
"""


@click.command("build", epilog=EXAMPLES)
@click.argument("plans", metavar="PLAN...", nargs=-1, required=True)
@click.option("--out", metavar="DIR", type=click.Path(path_type=Path), required=True, help="Folder for the sheets.")
@click.option("--only", metavar="DOCUMENT", multiple=True, help="Only this document; may be said again for others.")
@click.option("--day", metavar="DAY", help="Only the sheets of this day.")
@click.option("--for", "--person", "person", metavar="NAME", help="Only what this person needs.")
@click.option("--label", metavar="TEXT", default="", help="Words printed beside the version of every sheet.")
@click.option("--no-pdf", is_flag=True, help="HTML and CSV only.")
@click.option(
    "--fail-on",
    type=click.Choice(SEVERITIES),
    default="error",
    help="Exit with status 1 from this severity up (error when left out).",
)
@click.option("-q", "--quiet", is_flag=True, help="Say nothing when all is well.")
def command(
    plans: tuple[str, ...],
    out: Path,
    only: tuple[str, ...],
    day: str | None,
    person: str | None,
    label: str,
    no_pdf: bool,
    fail_on: str,
    quiet: bool,
) -> int:
    """Make a sheet for each department and write all of them, or none, into a folder.

    Findings do not stop it: they are printed at the lines they are about, and set the exit status as for 'check'.
    """
    from ..documents import BrokenSheet, CannotWrite, NothingToBuild, build
    from ..pipeline import compile_plan

    stdin = sys.stdin.buffer.read(MOST_BYTES_READ) if "-" in plans else None
    compiled = compile_plan(list(plans), stdin)
    _say_findings(compiled, quiet)
    if compiled.unreadable:
        return status(compiled.findings, fail_on)
    try:
        result = build(compiled, out, only=only, day=day, person=person, label=label, pdf=not no_pdf)
    except (NothingToBuild, CannotWrite) as refusal:
        raise click.ClickException(shown(str(refusal))) from None
    except BrokenSheet as broken:
        return _say_broken(broken)
    _say_result(result, quiet)
    return status(compiled.findings, fail_on)


def _say_findings(compiled: Compiled, quiet: bool) -> None:
    """To standard error: all of them where nothing can be built, else how many and where to read them."""
    look = look_for(sys.stderr, os.environ)
    if compiled.unreadable:
        for line in all_lines(compiled.findings, line_reader(compiled.source), look):
            click.echo(line, err=True, color=look.colour)
    elif compiled.findings and not quiet:
        click.echo(f"{tally(compiled.findings)}: 'hotset check' lists them, the sheets print them", err=True)


def _say_broken(broken: Exception) -> int:
    """One sheet that cannot be made keeps all back; the text says how to have the others."""
    from . import STATUS_FAULT, _debug

    _debug(broken)
    click.echo(f"hotset: {shown(str(broken))}", err=True)
    return STATUS_FAULT


def _say_result(result: BuildResult, quiet: bool) -> None:
    for remark in result.remarks:
        click.echo(shown(remark), err=True)
    if quiet:
        return
    also = ((result.unchanged, "unchanged"), (result.removed, "removed"))
    more = [f"{len(names)} {word}" for names, word in also if names]
    click.echo(
        f"{counted(len(result.written), 'file')} written into {shown(str(result.folder))}"
        + (f" ({', '.join(more)})" if more else "")
    )
    if "index.html" in (*result.written, *result.unchanged):
        click.echo(f"start at {shown(str(result.folder / 'index.html'))}")
