"""The quick reading of `hotset check`'s command line agrees with the command-line library wherever it speaks."""

from __future__ import annotations

from unittest.mock import patch

import click
import pytest
from hotset.cli import check
from hotset.cli.quick import CheckOptions, options
from hypothesis import given
from hypothesis import strategies as st

WORDS = [
    "plan.yaml", "-", "--", "-q", "--quiet", "--format", "json", "text", "--format=json", "--format=xml", "--fail-on",
    "note", "--fail-on=warning", "error", "--why-not", "cards-full", "--why-not=cards-full", "--stdin-name", "p.yaml",
    "--stdin-name=p.yaml", "--help", "-h", "--quite", "--quiet=1", "-qq", "-x", "--numbers", "",
    "--form", "--why-not=", "a b",
]  # fmt: skip


def by_library(args: list[str]) -> CheckOptions | None:
    """What the library makes of `args`; None where it refuses them or shows help."""
    seen: list[CheckOptions] = []

    def note(asked: CheckOptions) -> int:
        seen.append(asked)
        return 0

    with patch.object(check, "run", note):
        try:
            check.command.main(args=args, standalone_mode=False)
        except click.ClickException:
            return None
    return seen[0] if seen else None


@given(st.lists(st.sampled_from(WORDS), max_size=7))
def test_the_two_readings_agree(args: list[str]) -> None:
    quick = options(args)
    if quick is not None:
        assert quick == by_library(args)


@pytest.mark.parametrize(
    "args",
    [
        ["plan.yaml"],
        ["-"],
        ["a.yaml", "b.yaml", "-q"],
        ["plan.yaml", "--format", "json", "--fail-on=warning"],
        ["--why-not", "cards-full", "plan.yaml"],
        ["-", "--stdin-name", "plan.yaml"],
    ],
)
def test_the_ways_people_write_it_are_quick(args: list[str]) -> None:
    assert options(args) is not None
    assert options(args) == by_library(args)


@pytest.mark.parametrize("args", [[], ["-q"], ["--help"], ["plan.yaml", "--format", "xml"], ["--", "plan.yaml"]])
def test_doubt_is_left_to_the_library(args: list[str]) -> None:
    assert options(args) is None
