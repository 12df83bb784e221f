"""The crew leaves a room and comes back: what was taken along is new there, on every sheet; clothes go by scene."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest
from hotset.cli import main

PLAN = """
hotset: 1
days: {1: {date: 2026-12-05, call: "08:00", wrap: "18:00", location: flat, order: [a-one, b-one, a-two]}}
locations:
  flat:
    mains: 230 V 50 Hz
    circuits: {c: {breaker: 16 A}}
    sets:
      aa: {size: 4 m x 4 m x 2.5 m, marks: {m: [2 m, 3 m]}}
      bb: {size: 4 m x 4 m x 2.5 m, marks: {n: [2 m, 3 m]}}
people: {rika: {works: camera, skills: [rig]}, dara: {plays: PIA}}
gear:
  body: {kind: camera}
  mid: {kind: lens, focal: 35 mm}
  legs: {kind: support}
  lamp: {kind: light, draws: 200 W, quantity: 1}
  stand: {kind: support, quantity: 3}
setups:
  a-one:
    set: aa
    camera: {body: body, lens: mid, on: legs, at: [1 m, 1 m], height: 1.4 m, aim: m, codec: slim}
    lights: {key: {lamp: lamp, on: stand, at: [3.5 m, 1 m], height: 2 m, aim: m, circuit: c}}
  b-one:
    set: bb
    camera: {body: body, lens: mid, on: legs, at: [1 m, 1 m], height: 1.4 m, aim: n, codec: slim}
    lights: {key: {lamp: lamp, on: stand, at: [3.5 m, 1 m], height: 2 m, aim: n, circuit: c}}
  a-two:
    like: a-one
    camera: {at: [1.5 m, 1 m]}
scenes:
  1:
    wardrobe: {PIA: white blouse}
    shots: {1A: {setup: a-one, takes: 10 min, cast: [PIA]}, 1B: {setup: b-one, takes: 10 min, cast: [PIA]}}
  2:
    wardrobe: {PIA: red coat}
    shots: {2A: {setup: a-one, takes: 10 min, cast: [PIA]}, 2B: {setup: a-two, takes: 10 min}}
"""


def sheet(folder: Path, text: str, name: str) -> str:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "plan.yaml").write_text(text)
    assert main(["build", str(folder / "plan.yaml"), "--out", str(folder / "out"), "--no-pdf", "--quiet"]) in (0, 1)
    page = (folder / "out" / "day-1" / f"{name}.html").read_text("utf-8").split("<main", 1)[-1]
    return " ".join(html.unescape(re.sub(r"<[^>]*>", " ", page)).replace("\u00a0", " ").split())


@pytest.mark.parametrize("name", ["lighting", "grip", "setup-a-two"])
def test_what_was_taken_along_is_new_when_the_crew_comes_back(name: str, tmp_path: Path) -> None:
    last = sheet(tmp_path / "one", PLAN, name).split("A two")[-1]
    assert "keep" not in last
    assert "NEW" in last
    two = sheet(tmp_path / "two", PLAN.replace("quantity: 1}", "quantity: 2}"), name).split("A two")[-1]
    assert "keep" in two  # of two lamps one stays where it stood


def test_the_camera_that_comes_from_another_room_is_on_the_grip_sheet(tmp_path: Path) -> None:
    said = sheet(tmp_path, PLAN, "grip")
    assert len(re.findall(r"NEW Camera · Legs", said)) == 3


def test_clothes_go_by_scene_within_one_setup(tmp_path: Path) -> None:
    said = sheet(tmp_path, PLAN, "cast-dara")
    assert re.search(r"Scene 1 .*white blouse.* 1A .*Scene 2 .*red coat.* 2A .*Scene 1 .*white blouse.* 1B", said)


def test_the_codec_goes_by_its_own_name(tmp_path: Path) -> None:
    said = sheet(tmp_path, PLAN, "setup-a-one")
    assert "codec slim" in said
    assert "profile" not in said


def test_what_is_found_of_a_visit_is_in_the_running_order(tmp_path: Path) -> None:
    text = PLAN.replace("order: [a-one, b-one, a-two]", "order: [a-one 1A, b-one, a-one 2A, a-two]").replace(
        "    set: aa\n", "    set: aa\n    splits: yes\n"
    )
    for name in ("running-order", "setup-a-one-1a"):
        assert "no card or other media to record on" in sheet(tmp_path / name, text, name)
