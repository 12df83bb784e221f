"""Meals nobody asked for: none is taken that no time without a meal asks for, and none right after another."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hotset.cli import main

PLAN = """\
hotset: 1
days:
  1:
    date: 2027-03-06
    call: "08:30"
    wrap: "WRAP"
    location: house
    meal: {takes: 45 min, between: 12:00-13:15}
locations:
  house:
    at: 52.40 N, 4.90 E
    zone: Europe/Amsterdam
    sets:
      kitchen: {size: 4 m x 3 m x 2.5 m}
      garden: {size: 10 m x 10 m, outdoors: true}
people:
  noa: {plays: DAUGHTER}
setups:
  a: {set: kitchen, takes: 30 min, rig: 10 min}
  b: {set: kitchen, takes: 30 min, rig: 10 min}
  last: {set: garden, between: LAST, takes: 30 min, rig: 10 min}
"""


def meals(tmp_path: Path, capsys: pytest.CaptureFixture[str], wrap: str, last: str) -> list[int]:
    """Minutes of the day at which meals begin."""
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN.replace("WRAP", wrap).replace("LAST", last))
    assert main(["order", str(path)]) == 0
    found = re.findall(r"^(\d\d):(\d\d)  meal", capsys.readouterr().out, re.MULTILINE)
    return [60 * int(h) + int(m) for h, m in found]


def test_one_meal_is_enough_for_a_day_that_ends_six_hours_after_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert len(meals(tmp_path, capsys, "20:30", "18:29-19:02")) == 1


def test_a_second_meal_is_not_had_right_after_the_first(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    times = meals(tmp_path, capsys, "23:00", "20:30-21:30")
    assert len(times) == 2
    assert times[1] - (times[0] + 45) >= 180  # half of the six hours that are the longest without
    assert times[1] - (times[0] + 45) <= 360
