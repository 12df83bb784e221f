"""Rooms rigged ahead: what is offered is true, and nothing is offered that breaks something."""

from __future__ import annotations

import re
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
    wrap: "19:00"
    meal: {takes: 30 min, between: 12:00-14:00}
    location: works
locations:
  works:
    at: 54.9 N, 1.5 W
    zone: Europe/London
    sets:
      office: {size: 5 m x 4 m x 2.6 m}
      attic: {size: 6 m x 5 m x 2.6 m}
people:
  ada: {skills: [camera, focus]}
  bea: {skills: [rig]}
  kim: {skills: [rig, art]}
  mo: {plays: MO, here: 08:00-19:00}
gear:
  one: {kind: light, battery: own}
  two: {kind: light, battery: own}
  three: {kind: light, battery: own}
  four: {kind: light, battery: own}
setups:
  desk:
    set: office
    takes: 200 min
    hands: {operate: ada, direct: bea}
    lights: {key: {lamp: one, at: [1 m, 1 m]}}
  trunk:
    set: attic
    takes: 60 min
    hands: {operate: ada, direct: bea}
    after: desk
    lights:
      key: {lamp: two, at: [1 m, 1 m]}
      fill: {lamp: THIRD, at: [4 m, 4 m]}
      rim: {lamp: four, at: [1 m, 4 m]}
scenes:
  1: {heading: INT. OFFICE - DAY, shots: {1A: {setup: desk, cast: [MO]}}}
  2: {heading: INT. ATTIC - DAY, shots: {2A: {setup: trunk, cast: [MO]}}}
"""


def said(tmp_path: Path, text: str, capsys: pytest.CaptureFixture[str], *more: str) -> str:
    path = tmp_path / "plan.yaml"
    path.write_text(text)
    assert main(["order", str(path), *more]) == 0
    return capsys.readouterr().out


def wraps(out: str) -> str:
    found = re.search(r"wrap (\d\d:\d\d)", out)
    assert found, out
    return found[1]


def test_what_is_offered_comes_true(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = PLAN.replace("THIRD", "three")
    offered = said(tmp_path, plan, capsys, "--ahead")
    assert "'trunk' by kim" in offered, offered
    assert "while 'desk' is shot" in offered, offered
    promised = re.search(r"wraps (\d\d:\d\d), .* earlier", " ".join(offered.split()))
    assert promised
    line = next(row.strip() for row in offered.splitlines() if row.strip().startswith("ahead:"))
    before = wraps(said(tmp_path, plan, capsys))
    changed = plan.replace("    location: works\n", f"    location: works\n    {line}\n", 1)
    after = wraps(said(tmp_path, changed, capsys))
    assert after == promised[1]
    assert after < before
    assert "no room can be rigged ahead" in " ".join(said(tmp_path, changed, capsys, "--ahead").split())


def test_a_lamp_in_use_is_not_rigged_ahead(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "no room can be rigged ahead" in " ".join(
        said(tmp_path, PLAN.replace("THIRD", "one"), capsys, "--ahead").split()
    )


def test_nobody_leaves_a_job(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = PLAN.replace("THIRD", "three").replace("{operate: ada, direct: bea}", "{operate: kim, direct: bea}")
    assert "no room can be rigged ahead" in " ".join(said(tmp_path, plan, capsys, "--ahead").split())
