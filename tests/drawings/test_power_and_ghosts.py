"""Sockets, cables, the boom, what stood where before, the sun when it rolls, and the patches of colour."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hotset.documents.drawings.from_light import ghosts
from hotset.documents.drawings.from_plan import plan_of_set
from hotset.documents.drawings.from_power import boom, sockets
from hotset.documents.drawings.from_view import eye_view
from hotset.documents.say import Say
from hotset.documents.swatch import patch
from hotset.documents.words import words_for
from hotset.facts.sun_at import sun_at, utc
from hotset.pipeline import compile_plan
from hotset.plan import Plan

PLAN = """
hotset: 1
days: {1: {date: 2026-06-21, call: 08:00, location: house}}
locations:
  house:
    at: 51.48 N, 0.0 W
    zone: Europe/London
    mains: 230 V 50 Hz
    circuits: {front: {breaker: 16 A}, back: {breaker: 10 A}}
    sets:
      room:
        size: 4 m x 4 m x 2.5 m
        north: 0 deg
        windows: {w: {wall: east, from: 1 m, sill: 1 m, width: 1 m, height: 1 m}}
        marks: {x: {at: [2 m, 3 m]}}
        outlets:
          near: {wall: south, from: 3 m, circuit: front}
          far: {wall: north, from: 0.5 m, circuit: front}
          other: {wall: west, from: 2 m, circuit: back}
gear:
  body: {kind: camera, sensor: 36 mm x 24 mm}
  lens: {kind: lens, focal: 35 mm}
  long: {kind: lens, focal: 85 mm}
  lamp: {kind: light, draws: 100 W}
  pole: {kind: sound}
setups:
  one:
    set: room
    camera: {body: body, lens: lens, at: [2 m, 0 m], height: 1.5 m, aim: x}
    sound: {boom: pole, side: left}
    lights:
      key: {lamp: lamp, at: [3.5 m, 1 m], height: 2 m, aim: x, circuit: front}
      sun: {lamp: lamp, outside: w, away: 1 m, height: 2 m, aim: x, circuit: back}
  two: {like: one, camera: {at: [1 m, 0.5 m]}, lights: {key: {at: [0.5 m, 1 m]}}}
scenes: {1: {heading: INT. ROOM, shots: {1A: {setup: one}, 1B: {setup: one, lens: long}}}}
"""


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    path = tmp_path_factory.mktemp("power") / "plan.yaml"
    path.write_text(PLAN, "utf-8")
    made = compile_plan([str(path)]).plan
    assert made is not None
    return made


def test_a_cable_runs_along_the_wall_from_the_nearest_socket_of_its_circuit(plan: Plan) -> None:
    room = plan.sets["house/room"]
    known, cables = sockets(plan, plan.setups["one"], room, Say(plan, words_for()))
    assert [s.at for s in known] == [(3.0, 0.0), (0.5, 4.0), (0.0, 2.0)]
    assert [bool(s.label) for s in known] == [True, False, True]
    key, sun = (cable.points for cable in cables)
    assert key == ((3.0, 0.0), (3.5, 0.0), (3.5, 1.0))
    assert sun[0] == (0.0, 2.0)
    assert sun[-2:] == ((4.0, 1.5), (5.0, 1.5))  # through the middle of the window


def test_the_boom_comes_from_its_side_of_the_picture(plan: Plan) -> None:
    """The camera looks north, so left in the picture is west."""
    (line,) = boom(plan, plan.setups["one"], Say(plan, words_for()))
    foot, head = line.points
    assert head == pytest.approx((2.0, 2.55))
    assert foot[0] < head[0] - 1.5


def test_ghosts_stand_where_things_stood(plan: Plan) -> None:
    found = ghosts(plan, plan.setups["two"], plan.setups["one"], {"key": "1", "sun": "2"})
    assert [(g.at, g.to, g.number) for g in found[:2]] == [((2.0, 0.0), (1.0, 0.5), ""), ((3.5, 1.0), (0.5, 1.0), "1")]
    drawn = plan_of_set(plan, "two", before="one").svg
    assert "where it stood before" in drawn
    assert "where it stood before" not in plan_of_set(plan, "two").svg


def test_the_sun_at_noon_stands_in_the_south(plan: Plan) -> None:
    # Greenwich at midsummer: noon of the sun is about 13:02 BST, its height 90 - 51.48 + 23.44 = 61.96 degrees.
    position = sun_at(plan, "1", "house", (13 * 60 + 2) * 2)
    assert position is not None
    assert position.azimuth == pytest.approx(180.0, abs=0.5)
    assert position.elevation == pytest.approx(61.96, abs=0.05)
    assert utc(plan, "1", "house", 8 * 120) == 1782025200  # 2026-06-21 07:00 UTC


def test_the_frame_of_a_shot_is_its_own(plan: Plan) -> None:
    wide, close = (eye_view(plan, "one", shot=plan.shots[name], width=100.0) for name in ("1A", "1B"))
    assert wide.svg != close.svg
    assert "<text" not in wide.svg
    assert len(set(re.findall(r'id="(frame-[^"]+-paper)"', wide.svg + close.svg))) == 2


@pytest.mark.parametrize(
    ("kelvin", "white", "strokes", "rises"),
    [(4300.0, 4300.0, 0, False), (3600.0, 4300.0, 1, True), (3200.0, 4300.0, 3, True), (10000.0, 4000.0, 6, False),
     (2700.0, 4000.0, 3, True)],
)  # fmt: skip
def test_a_patch_tells_colour_without_colour(kelvin: float, white: float, strokes: int, rises: bool) -> None:
    # Mired: 1e6/3600 - 1e6/4300 = +45; 3200: +80; 10000 against 4000: -150; 2700 against 4000: +120.
    found = re.findall(r"M([\d.]+) [\d.]+L([\d.]+)", patch(kelvin, white))
    assert len(found) == strokes
    assert all((float(b) > float(a)) == rises for a, b in found)


def test_no_patch_without_both() -> None:
    assert patch(None, 4300.0) == patch(3200.0, None) == ""


GELLED = (
    PLAN.replace("lamp: {kind: light, draws: 100 W}", "lamp: {kind: light, draws: 100 W, colour: 3200 K}")
    .replace("gear:", "stock: {blue: {of: blue gel, shifts: -90 mired}}\ngear:", 1)
    .replace("key: {lamp: lamp, at:", "key: {lamp: lamp, with: blue, at:")
)


def test_a_label_tells_the_colour_behind_the_gel(tmp_path: Path) -> None:
    """1e6 / (1e6 / 3200 - 90) = 4494 K."""
    path = tmp_path / "plan.yaml"
    path.write_text(GELLED, "utf-8")
    made = compile_plan([str(path)]).plan
    assert made is not None
    told = plan_of_set(made, "one").svg.replace("\u00a0", " ")
    assert "3200 K, 4490 K with its gel" in told
    assert re.search(r">[^<]*3200 K · 2 m high<", told), "the lamp without a gel tells its own colour"


def test_a_board_that_moves_leaves_its_ghost(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    board = "    grip: {board: {size: 1 m x 1 m, at: [1 m, 1 m], aim: x}}\n    lights:\n      key"
    moved = PLAN.replace("    lights:\n      key", board, 1).replace(
        "two: {like: one,", "two: {like: one, grip: {board: {at: [3 m, 2 m]}},"
    )
    path.write_text(moved, "utf-8")
    made = compile_plan([str(path)]).plan
    assert made is not None
    found = ghosts(made, made.setups["two"], made.setups["one"], {})
    assert ((1.0, 1.0), (3.0, 2.0), "") in [(g.at, g.to, g.number) for g in found]
