"""`hotset new DIR`: a plan to start from. Writes two files and never touches one that exists."""

from __future__ import annotations

import os
from importlib.resources import files
from pathlib import Path

import click

from ..report.glyphs import shown
from . import STATUS_OK

STARTER = {"plan.yaml": "plan.yaml", "README.md": "readme.txt"}
"""File in the new folder -> file in the templates' folder `new`."""

EXAMPLES = """\b
Examples:
  hotset new my-film
  hotset new .
  hotset new films/night-at-the-pier
"""


@click.command("new", epilog=EXAMPLES)
@click.argument("folder", metavar="DIR", type=click.Path(file_okay=False, path_type=Path))
def command(folder: Path) -> int:
    """Write a commented plan and a short README into the folder DIR, which is made if need be.

    The plan checks clean and builds as it is. Nothing that exists is overwritten.
    """
    there = [name for name in STARTER if os.path.lexists(folder / name)]
    if there:
        names = " and ".join(f"'{shown(str(folder / name))}'" for name in there)
        raise click.ClickException(
            f"{names} {'exists' if len(there) == 1 else 'exist'} already, so nothing was written; "
            "name a folder that holds no plan yet"
        )
    folder.mkdir(parents=True, exist_ok=True)
    home = files("hotset.templates").joinpath("new")
    _write_all({folder / name: home.joinpath(of).read_bytes() for name, of in STARTER.items()})
    plan = shown(str(folder / "plan.yaml"))
    click.echo(f"wrote {plan} and {shown(str(folder / 'README.md'))}")
    click.echo(f"next: hotset check {plan}")
    return STATUS_OK


def _write_all(contents: dict[Path, bytes]) -> None:
    """Write every file or, when that fails half-way, none."""
    made: list[Path] = []
    try:
        for path, content in contents.items():
            with path.open("xb") as file:
                made.append(path)
                file.write(content)
    except BaseException:
        for path in made:
            path.unlink(missing_ok=True)
        raise
