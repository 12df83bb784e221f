"""Folding lines so that names stay whole: whoever reads one must be able to find it again in the plan."""

from __future__ import annotations

import textwrap


def wrap(text: str, width: int, *, initial_indent: str = "", subsequent_indent: str = "") -> list[str]:
    """The text in lines of at most so many columns, broken between words and never at a hyphen."""
    return textwrap.wrap(
        text, width, initial_indent=initial_indent, subsequent_indent=subsequent_indent, break_on_hyphens=False
    )
