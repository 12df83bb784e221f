"""`hotset whereabouts` says what the sheets say: what is taken down in a changeover or after the last setup of a set is
back in its case, the meal is where the plan eats it, and cast that is not needed waits where the plan says."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hotset.cli import main

PLAN = """\
hotset: 1
days:
  1:
    call: 08:00
    load-in: 30 min
    wrap-out: 30 min
    location: house
    meal: {takes: 45 min, at: 12:00, where: the boat shed}
    order: [night, flame, meal, stairs]
locations:
  house:
    waiting: Front room
    sets:
      kitchen: {size: 4 m x 4 m x 2.5 m, windows: {pane: {wall: east, from: 1 m, sill: 1 m, width: 1 m, height: 1 m}}}
      stairwell: {size: 2 m x 4 m x 5 m}
people:
  wil: {plays: FATHER, before: 30 min}
  rik: {works: gaffer, skills: [rig]}
gear:
  moon: {kind: light, case: lamp box}
  glow: {kind: light}
stock: {cloth: {opaque: true, roll: 3 m x 12 m}}
setups:
  night: {set: kitchen, takes: 30 min, cast: [FATHER], lights: {m: {lamp: moon, at: [1 m, 1 m]}},
          windows: {pane: {black-out: cloth}}}
  flame: {set: kitchen, takes: 30 min, cast: [], lights: {g: {lamp: glow, at: [2 m, 1 m]}},
          windows: {pane: {black-out: cloth}}}
  stairs: {set: stairwell, takes: 30 min, cast: [FATHER], lights: {g: {lamp: glow, at: [1 m, 1 m]}}}
"""


def told(capsys: pytest.CaptureFixture[str], folder: Path, name: str) -> list[tuple[str, str, str]]:
    """State, place and words of each stretch of a thing or a person, in order."""
    plan = folder / "plan.yaml"
    plan.write_text(PLAN, "utf-8")
    assert main(["whereabouts", str(plan), name, "--format", "json"]) == 0
    return [(s["state"], s["where"], s["words"]) for s in json.loads(capsys.readouterr().out)["stretches"]]


def test_a_lamp_the_next_setup_does_not_want_is_back_in_its_case(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert told(capsys, tmp_path, "moon")[-2:] == [
        ("in use", "house/kitchen, [1 m, 1 m]", "'m' of 'night'"),
        ("in case", "lamp box", "taken down for 'flame'"),
    ]


def test_cloth_hangs_to_the_last_setup_of_its_set(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    states = [state for state, _, _ in told(capsys, tmp_path, "cloth")]
    assert states == ["in case", "rigged", "in use", "rigged", "in use", "in case"]


def test_a_lamp_that_goes_on_is_taken_out_and_rigged_in_the_next_set(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rows = told(capsys, tmp_path, "glow")
    assert ("in case", "", "taken down after 'flame'") in rows
    assert rows[-2:] == [
        ("in use", "house/stairwell, [1 m, 1 m]", "'g' of 'stairs'"),
        ("free", "house/stairwell, [1 m, 1 m]", "is packed up"),
    ]


def test_an_emptied_set_holds_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert told(capsys, tmp_path, "kitchen")[-1] == ("free", "", "nothing of ours stands in it")


def test_cast_eats_and_waits_where_the_plan_says(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rows = told(capsys, tmp_path, "wil")
    assert ("meal", "the boat shed", "") in rows
    assert ("free", "Front room", "not needed in 'flame'") in rows
    assert not [where for state, where, _ in rows if state == "free" and where != "Front room"]
