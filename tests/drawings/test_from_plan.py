"""A setup of a plan drawn from above: places as the plan says them, and what is missing in words."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from hotset.documents.drawings.from_day import day_line, load_bars, ribbons
from hotset.documents.drawings.from_light import lamp_numbers
from hotset.documents.drawings.from_plan import horizontal_field, plan_of_set, scene_of
from hotset.documents.drawings.scene import Scene
from hotset.documents.say import Say
from hotset.documents.shoot import DayLine, Slot
from hotset.documents.words import words_for
from hotset.facts import Facts
from hotset.plan import Plan, decode
from hotset.source import read

# Every name here is invented.
PLAN = """
hotset: 1
title: Last Boat
locations:
  landing:
    circuits: {ground-floor: {breaker: 16 A}}
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        north: 20 deg
        windows:
          hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}
          side: {wall: west, from: 1.6 m, sill: 0.9 m, width: 1.0 m, height: 1.2 m}
        doors:
          hall-door:
            {wall: north, from: 0.1 m, width: 0.8 m, hinge: left, opens: in, leads-to: hall,
             there: {wall: south, from: 0.5 m}}
        furniture: {counter: {at: [2.0 m, 2.2 m], size: 1.6 m x 0.7 m x 0.75 m}, stove: {at: [1 m, 1 m]}}
        marks: {desk: {at: [2.0 m, 1.5 m], sits: true, faces: counter}, door: {at: [0.7 m, 3.0 m]}}
      hall: {size: 2.0 m x 3.0 m x 2.4 m}
      cellar: {}
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}
  fresnel: {kind: light, of: LED fresnel 300 W, beam: 15-45 deg}
  panel: {kind: light, of: battery LED panel, quantity: 4}
  soft-60: {kind: modifier, of: softbox 60 cm, soft: 60 cm x 60 cm}
  lens-35: {kind: lens, focal: 35 mm}
  white-board: {kind: grip, of: white board, size: 1 m x 1 m}
stock: {black-cloth: {opaque: true, roll: 1.5 m x 12 m}, frost: {loses: 0.3 stops, roll: 1.2 m x 7 m}}
setups:
  office-wide:
    set: landing/office
    camera: {body: body-a, lens: lens-35, at: [0.4 m, 0.4 m], height: 1.5 m, aim: desk}
    windows: {hatch: {black-out: black-cloth}, side: {layers: [frost]}}
    lights:
      quay: {lamp: fresnel, at: [3.9 m, 0.3 m], height: 2.0 m, aim: desk, role: key, with: soft-60}
      till: {lamp: panel, at: 0.6 m at 9 o'clock of desk, height: 1.2 m, held-by: any, aim: desk}
      fill: {lamp: panel, at: [0.4 m, 1.6 m], height: 1.8 m, bounce: white-board, aim: door}
    grip:
      dark-side: {use: black-cloth, size: 1.5 m x 2 m, at: 1.2 m at 3 o'clock of desk}
  office-close:
    like: office-wide
    camera: {at: [1.1 m, 0.6 m]}
    move: {kind: push-in, to: [1.4 m, 0.9 m]}
    lights:
      quay: {level: 40 %}
      boat: {lamp: fresnel, outside: hatch, away: 6 m, height: 3 m, aim: desk}
      hall: {lamp: panel, in: hall, through: hall-door, at: [1.0 m, 0.5 m], height: 1.5 m, aim: desk}
      lost: {lamp: panel}
    windows: {hatch: open}
    remove: [lights.till]
  below:
    set: landing/cellar
"""


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    return compiled(PLAN, tmp_path_factory.mktemp("plan"))


def compiled(text: str, folder: Path) -> Plan:
    file = folder / "plan.yaml"
    file.write_text(text, "utf-8")
    found, faults = decode(read([str(file)]))
    assert found is not None
    assert [f.sentence for f in faults if f.severity == "error" and "'stove'" not in f.sentence] == []
    return found


def scene(plan: Plan, setup: str, before: str | None = None) -> Scene:
    numbers = lamp_numbers(plan, plan.setups[setup].set)
    found = scene_of(plan, plan.setups[setup], Say(plan, words_for()), before, numbers, None, "t")
    assert found is not None
    return found


def test_lens_field_is_that_of_the_cropped_sensor(plan: Plan) -> None:
    """36 mm wide at 35 mm: 2 atan(36 / 70) = 54.4 degrees, thin lens geometry."""
    assert horizontal_field(plan, plan.setups["office-wide"]) == pytest.approx(54.43, abs=0.01)


def test_things_stand_where_the_plan_says(plan: Plan) -> None:
    drawn = scene(plan, "office-wide")
    assert drawn.outline == ((0.0, 0.0), (4.2, 0.0), (4.2, 3.6), (0.0, 3.6))
    assert [m.at for m in drawn.marks] == [(2.0, 1.5), (0.7, 3.0)]
    assert [m.posture for m in drawn.marks] == ["sits", "stands"]
    assert drawn.marks[0].facing == pytest.approx(0.0)
    assert drawn.cameras[0].at == (0.4, 0.4)
    assert [(lamp.number, lamp.form, lamp.held) for lamp in drawn.lamps] == [
        ("1", "soft", False),
        ("2", "hard", True),
        ("3", "hard", False),
    ]
    assert drawn.lamps[0].width == pytest.approx(0.6)
    assert drawn.lamps[0].beam == pytest.approx(45.0)


def test_openings_lie_on_their_walls_and_carry_their_treatment(plan: Plan) -> None:
    hatch, side, door = scene(plan, "office-wide").openings
    assert (hatch.wall, hatch.treatment) == (1, "black-out")
    assert hatch.start == pytest.approx(1.1)
    assert (side.wall, side.treatment) == (3, "layers")
    assert side.start == pytest.approx(3.6 - 2.6)
    assert (door.kind, door.wall, door.swings) == ("door", 2, "in")
    assert door.start == pytest.approx(4.2 - 0.9)
    assert door.hinge == "end"


def test_hinge_on_the_left_seen_from_inside_is_the_wests_end_of_a_north_wall(plan: Plan) -> None:
    from hotset.documents.drawings import walls

    hole = walls.build(scene(plan, "office-wide")).holes[2]
    assert hole.inner[1] == pytest.approx((0.1, 3.6))


def test_a_bounced_lamp_points_at_its_board_a_metre_beyond_the_aim(plan: Plan) -> None:
    drawn = scene(plan, "office-wide")
    fill = drawn.lamps[2]
    far = ((0.7 - 0.4) ** 2 + (3.0 - 1.6) ** 2) ** 0.5
    assert fill.aim == pytest.approx((0.7 + 0.3 / far, 3.0 + 1.4 / far))
    board = next(item for item in drawn.lines if item.kind == "bounce")
    assert board.label == (("white board",),)


def test_cloth_told_from_a_mark_faces_it(plan: Plan) -> None:
    dark = next(item for item in scene(plan, "office-wide").lines if item.kind == "negative")
    (ax, ay), (bx, by) = dark.points
    middle = ((ax + bx) / 2, (ay + by) / 2)
    assert ((bx - ax) * (2.0 - middle[0]) + (by - ay) * (1.5 - middle[1])) == pytest.approx(0.0, abs=1e-9)
    assert ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 == pytest.approx(1.5)


def test_lamps_keep_their_number_and_say_what_is_new_and_what_goes(plan: Plan) -> None:
    drawn = scene(plan, "office-close", "office-wide")
    states = {lamp.number: lamp.state for lamp in drawn.lamps}
    assert states == {"1": "keep", "3": "keep", "4": "new", "5": "new", "2": "remove"}
    changed = {lamp.number: "changed" in lamp.label[0][0] for lamp in drawn.lamps}
    assert changed == {"1": True, "3": False, "4": False, "5": False, "2": False}
    assert len(drawn.cameras) == 2
    assert drawn.moves[0].points == ((1.1, 0.6), (1.4, 0.9))


def test_a_lamp_far_outside_is_drawn_nearer_and_says_so(plan: Plan) -> None:
    boat = next(lamp for lamp in scene(plan, "office-close").lamps if lamp.number == "4")
    assert boat.at[0] < 4.2 + 1.9
    assert "farther off" in boat.far


def test_a_lamp_in_the_next_room_stands_behind_the_door(plan: Plan) -> None:
    hall = next(lamp for lamp in scene(plan, "office-close").lamps if lamp.number == "5")
    assert hall.at == pytest.approx((0.6, 4.1))  # 0.1 m east of the door's middle, 0.5 m beyond the wall
    assert hall.far == ""


def test_what_has_no_place_is_named_with_the_way_to_give_it_one(plan: Plan) -> None:
    drawing = plan_of_set(plan, "office-close")
    assert any("Lost" in words and "'at:'" in words for words in drawing.missing)
    assert any("Stove" in words for words in drawing.missing)
    assert "not drawn:" in drawing.svg


def test_a_setup_without_any_place_has_no_drawing_but_a_reason(plan: Plan) -> None:
    drawing = plan_of_set(plan, "below")
    assert drawing.svg == ""
    assert "size" in drawing.missing[0]


def test_a_set_without_size_shows_what_is_known(tmp_path: Path) -> None:
    text = PLAN.replace("        size: 4.2 m x 3.6 m x 2.4 m\n", "")
    drawing = plan_of_set(compiled(text, tmp_path), "office-wide")
    ET.fromstring(drawing.svg)
    assert any("walls of the set" in words for words in drawing.missing)


def test_same_plan_same_bytes(plan: Plan) -> None:
    first = plan_of_set(plan, "office-close", before="office-wide", sun=(232.0, "sun at 14:00"))
    assert plan_of_set(plan, "office-close", before="office-wide", sun=(232.0, "sun at 14:00")) == first
    assert 'id="plan-office-close-title"' in first.svg


def test_day_line_of_a_plan_has_sky_setups_and_hours(tmp_path: Path) -> None:
    """Sunset on 14 November 2026 at 55.01 N 1.44 W by the NREL solar position algorithm (pvlib): 16:04 UTC."""
    days = "days: {1: {date: 2026-11-14, call: 07:30, wrap: 19:30, location: landing}}\n"
    people = "people: {mara: {name: Mara, plays: CLERK, here: 09:00-18:00}}\n"
    where = "  landing:\n    at: '55.01 N, 1.44 W'\n    zone: Europe/London\n    mains: 230 V 50 Hz\n"
    text = PLAN.replace("title: Last Boat\n", "title: Last Boat\n" + days + people).replace("  landing:\n", where)
    text = text.replace("of: LED fresnel 300 W,", "of: LED fresnel 300 W, draws: 360 W,")
    text = text.replace("role: key,", "role: key, circuit: ground-floor,")
    plan = compiled(text, tmp_path)
    slots = (
        Slot("rig", 1800, 1900, "office-wide"),
        Slot("shoot", 1900, 1990, "office-wide"),
        Slot("meal", 1990, 2050),
    )
    line = DayLine(plan.days["1"], ("office-wide", "office-close"), slots)
    sky = ribbons(plan, line)
    assert [a.end for a in sky[:-1]] == [b.start for b in sky[1:]]
    assert {band.light for band in sky} == {"dark", "dusk", "golden", "day"}
    dusk = next(band for band in sky if band.light == "dusk" and band.start > 1440)
    assert dusk.start == pytest.approx(2 * (16 * 60 + 4), abs=4)
    drawing = day_line(plan, line)
    assert "Office wide" in drawing.desc
    assert "Mara 09:00-18:00" in drawing.desc
    assert day_line(plan, DayLine(plan.days["1"], (), (), "no order")).missing == ("no order",)
    bars = load_bars(plan, Facts(plan).circuit_moments, "office-wide")
    assert "Ground floor" in bars.desc
    assert load_bars(plan, (), "office-wide").svg == ""
