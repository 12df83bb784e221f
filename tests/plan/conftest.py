"""A plan from a text, by the language's two public doors: reading and decoding."""

from __future__ import annotations

from collections.abc import Callable
from textwrap import dedent

import pytest
from hotset.findings import Finding, in_order
from hotset.plan import Plan, decode
from hotset.source import read

Decoded = Callable[[str], tuple[Plan, tuple[Finding, ...]]]


@pytest.fixture(scope="session")
def decoded() -> Decoded:
    """The plan of a text and every fault, in the order of the text. The head line is added where it is missing."""

    def made(text: str) -> tuple[Plan, tuple[Finding, ...]]:
        text = dedent(text).lstrip("\n")
        if "hotset:" not in text:
            text = "hotset: 1\n" + text
        source = read(["-"], stdin_text=text.encode(), stdin_name="plan.yaml")
        plan, faults = decode(source)
        assert plan is not None, source.findings
        return plan, in_order([*source.findings, *faults])

    return made
