"""Figures for the terminal: the list of all, one with its formula and source, and what a setup puts in and gets out."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from . import FIGURES
from .inputs import inputs
from .worked import worked

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..plan.setup import Setup
    from .figure import Figure

_INSIDE = "    "


def list_lines(figures: tuple[Figure, ...] = FIGURES) -> Iterator[str]:
    """Figures, each with its name, its unit and what it is."""
    wide = max(len(f.name) for f in figures)
    units = max(len(f.unit) for f in figures)
    for one in figures:
        yield f"{one.name:<{wide}}  {one.unit:<{units}}  {one.means}"


def figure_lines(figure: Figure, width: int = 80) -> Iterator[str]:
    """One figure: what it is, its formula, inputs, source and function, and where it is printed."""
    printed = ", ".join(figure.sheets)
    said = ", ".join(f"'{d.rpartition('/')[2].replace('_', ' ')}'" for d in figure.details)
    rows = (
        ("figure", f"{figure.name}: {figure.means}"),
        ("unit", figure.unit or "none, it is counted"),
        ("formula", figure.formula),
        ("goes in", ", ".join(f"'{w.partition('.')[2] or w}:' of the {w.partition('.')[0]}" for w in figure.wants)),
        ("source", figure.source),
        ("which is", figure.standing),
        ("function", f"hotset.{figure.function}" if figure.function else "none, it is as the plan says"),
        ("printed on", f"sheets: {printed}" if printed else ""),
        ("in findings", f"numbers: {said}" if said else ""),
    )
    for name, words in rows:
        if words:
            first, *rest = textwrap.wrap(words, width - 13, break_long_words=False, break_on_hyphens=False)
            yield f"{name:<11}  {first}"
            yield from (f"{'':<11}  {line}" for line in rest)


def setup_lines(facts: Facts, setup: Setup, figure: Figure, width: int = 80) -> Iterator[str]:
    """What a setup of a plan puts into a figure, as it is written there, and what comes out."""
    yield f"in setup '{setup.id}' goes in:"
    given = inputs(facts, setup, figure)
    for one in given:
        at = facts.plan.where(one.path)
        words = f"{one.key}: {one.text} ({one.of}, {at.file}:{at.line})"
        yield from textwrap.wrap(
            words, width, initial_indent=_INSIDE, subsequent_indent=_INSIDE * 2, break_on_hyphens=False
        )
    if not given:
        yield f"{_INSIDE}nothing that the plan says"
    yield "and comes out:"
    found = worked(facts, setup, figure.name)
    for result in found:
        words = f"{result.of}: {result.words}" + (f" = {result.how}" if result.how else "")
        yield from textwrap.wrap(
            words, width, initial_indent=_INSIDE, subsequent_indent=_INSIDE * 2, break_on_hyphens=False
        )
    if not found:
        yield f"{_INSIDE}nothing of its own for this setup; 'hotset check' and the sheets print it where it applies"
