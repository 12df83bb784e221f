"""`hotset build` from the command line: what it says and what it leaves behind."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.cli import main

PLAN = """\
hotset: 1
title: Small
days: {1: {date: 2027-03-06, call: "09:00", wrap: "12:00", location: flat, order: [wide]}}
locations: {flat: {hospital: Town Hospital, sets: {kitchen: {size: 4 m x 3 m x 2.5 m}}}}
setups: {wide: {set: kitchen, takes: 10 min}}
scenes: {1: {heading: INT. KITCHEN - DAY, shots: {1A: {setup: wide, takes: 10 min, does: Nothing happens.}}}}
"""


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN, "utf-8")
    return path


def files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def test_it_writes_the_sheets_and_the_same_bytes_again(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = plan.parent / "out"
    assert main(["build", str(plan), "--out", str(out)]) == 0
    said = capsys.readouterr().out
    assert f"files written into {out}\n" in said
    assert f"start at {out / 'index.html'}\n" in said
    first = files(out)
    assert any(name.endswith(".html") for name in first)
    assert main(["build", str(plan), "--out", str(out)]) == 0
    assert "no files written" in capsys.readouterr().out
    assert files(out) == first


def test_quiet_when_well(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", str(plan), "--out", str(plan.parent / "out"), "--no-pdf", "-q"]) == 0
    assert capsys.readouterr() == ("", "")


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (["--day", "7"], "no day called '7'"),
        (["--person", "nobody"], "no person called 'nobody'"),
        (["--only", "cal-sheet"], "no document called 'cal-sheet'"),
    ],
)
def test_what_is_not_there_is_said_and_nothing_written(
    more: list[str], says: str, plan: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["build", str(plan), "--out", str(plan.parent / "out"), *more]) == 2
    assert says in capsys.readouterr().err
    assert not (plan.parent / "out").exists()


def test_a_plan_that_cannot_be_read_makes_nothing(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan.write_text("hotset: 1\ndays: {1: {call: [}}\n", "utf-8")
    assert main(["build", str(plan), "--out", str(plan.parent / "out")]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith(f"{plan}:2:")
    assert not (plan.parent / "out").exists()


def test_findings_do_not_stop_it_but_set_the_status(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan.write_text(PLAN.replace("set: kitchen,", "set: kitchen, colour: red,"), "utf-8")
    assert main(["build", str(plan), "--out", str(plan.parent / "out"), "--no-pdf"]) == 1
    assert "1 error: 'hotset check' lists them" in capsys.readouterr().err
    assert (plan.parent / "out" / "index.html").exists()
