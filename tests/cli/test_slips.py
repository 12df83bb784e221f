"""Slips of the pen: each is told once, where it is written, with what to write instead."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.cli import main

DUSK = """\
hotset: 1
days: {1: {date: 2027-03-06, call: 08:00, location: house, order: [dusk]}}
locations: {house: {at: "52.40 N, 4.90 E", zone: Europe/Amsterdam, sets: {garden: {size: 9 m x 9 m, outdoors: true}}}}
setups: {dusk: {set: garden, needs: dusk, takes: 20 min}}
"""


def said(capsys: pytest.CaptureFixture[str], tmp_path: Path, text: str, *args: str) -> tuple[int, str]:
    """The status of a command on a plan and what it says, with the lines made one."""
    plan = tmp_path / "plan.yaml"
    plan.write_text(text, "utf-8")
    status = main([args[0], str(plan), *args[1:]])
    out = capsys.readouterr()
    return status, " ".join((out.out + out.err).split())


@pytest.mark.parametrize(
    ("written", "reason", "better"),
    [
        ("Europe/Amsterdm", "did you mean 'Europe/Amsterdam'?", "write it like Europe/Amsterdam"),
        ("GMT+1", "says nothing of summer time", "write it like Europe/Amsterdam"),
    ],
)
def test_a_time_zone_that_is_none_is_an_error_where_it_stands(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], written: str, reason: str, better: str
) -> None:
    text = DUSK.replace("Europe/Amsterdam", written)
    status, words = said(capsys, tmp_path, text, "check")
    assert status == 1
    assert "plan.yaml:3:50: error: 'zone':" in words
    assert reason in words
    assert better in words
    _, order = said(capsys, tmp_path, text, "order")
    assert "Not counted with, for want of: 'dusk': when it is 'dusk': 'zone:' of 'house'" in order


def test_a_known_zone_is_no_fault_and_its_dusk_is_kept(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, words = said(capsys, tmp_path, DUSK, "order")
    assert "Not counted with" not in words
    assert "bad-quantity" not in said(capsys, tmp_path, DUSK, "check")[1]
