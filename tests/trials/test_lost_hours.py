"""Hours in which nothing can be shot: what falls, and what becomes of the day."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hotset.cli import main

PLAN = """\
hotset: 1
title: The Lamp Room
days:
  1:
    date: 2027-03-01
    call: "08:00"
    wrap: "WRAP"
    load-in: 30 min
    wrap-out: 30 min
    meal: {takes: 30 min, between: 11:30-13:30}
    order: [one, two, meal, three]
locations: {works: {sets: {office: {size: 5 m x 4 m x 2.6 m}}}}
setups:
  one: {set: office, takes: 60 min, rig: 10 min}
  two: {set: office, takes: 60 min, rig: 10 min}
  three: {set: office, takes: 60 min, rig: 10 min}
scenes:
  1: {heading: INT. OFFICE - DAY, shots: {1A: {setup: one}, 1B: {setup: two}, 1C: {setup: three, priority: want}}}
"""


def days(tmp_path: Path, capsys: pytest.CaptureFixture[str], wrap: str, *lost: str) -> tuple[int, dict[str, object]]:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN.replace("WRAP", wrap))
    hours = [word for one in lost for word in ("--without", one)]
    status = main(["check", str(path), *hours, "--format", "json"])
    (day,) = json.loads(capsys.readouterr().out)["days"]
    return status, day


def test_an_hour_is_lost_and_the_day_is_as_much_longer(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, day = days(tmp_path, capsys, "19:00", "08:30-09:40")
    assert (status, day["planned"], day["dropped"]) == (0, ["one"], [])
    # From 08:30, one of them is rigged and waits until 09:40: three takes, two riggings more, the meal, the packing.
    assert day["after"] == 120 * 9 + 80 + 2 * (180 + 20 + 30 + 30)


def test_what_is_only_wanted_falls_first(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, day = days(tmp_path, capsys, "13:30", "08:30-09:40")
    assert (status, day["dropped"], day["proven"]) == (0, [["three", "want"]], True)


def test_a_must_falls_where_nothing_else_will_do(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, day = days(tmp_path, capsys, "13:30", "08:30-11:00")
    assert status == 1
    assert sorted(kind for _, kind in day["dropped"]) == ["must", "want"]  # type: ignore[attr-defined]


def test_hours_in_which_nothing_was_planned(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN.replace("WRAP", "19:00"))
    assert main(["check", str(path), "--without", "17:00-18:00"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "nothing was to be shot then" in out
    assert "everything can still be shot" in out


@pytest.mark.parametrize(
    ("asked", "said"), [(["9:00-99:00"], "past 47:59"), (["9:00-10:00", "works"], "by themselves")]
)
def test_hours_that_are_none(tmp_path: Path, capsys: pytest.CaptureFixture[str], asked: list[str], said: str) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN.replace("WRAP", "19:00"))
    assert main(["check", str(path), *[word for one in asked for word in ("--without", one)]]) == 2
    assert said in capsys.readouterr().err
