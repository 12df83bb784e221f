"""Booms over pictures, noise next door, daylight that drifts, ways out that are blocked."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hotset.facts import Facts
from hotset.findings import Finding
from hotset.rules.boom_in_frame_risk import upper_edge

from .plans import compiled, conflicts


def found(rule: str, text: str, tmp_path: Path) -> list[Finding]:
    return [f for f in conflicts(text, tmp_path) if f.rule == rule]


BOOM = """
hotset: 1
people: {jon: {works: sound}, olek: {works: camera}}
locations:
  landing: {sets: {office: {size: 4 m x 6 m x HIGH, marks: {board: {at: [2 m, 4 m], height: 1.5 m}}}}}
gear:
  body: {kind: camera, sensor: 36 mm x 24 mm, aspect: 3:2}
  glass: {kind: lens, focal: 24 mm}
  pole: {kind: sound}
  clip: {kind: sound}
setups:
  one:
    set: office
    camera: {body: body, lens: glass, at: [2 m, 1 m], height: CAMERA, aim: AIM}
    sound: {boom: pole, MORE}
scenes: {4: {sound: SOUND, shots: {4A: {setup: one}}}}
"""


def boom(**said: str) -> str:
    plain = {"HIGH": "3 m", "CAMERA": "1.5 m", "AIM": "board", "MORE": "side: left", "SOUND": "sync"}
    text = BOOM
    for key, words in (plain | said).items():
        text = text.replace(key, words)
    return text


def facts_of(text: str, tmp_path: Path) -> Facts:
    facts = compiled(text, tmp_path).facts
    assert facts is not None
    return facts


def test_a_level_camera_sees_half_the_gate_over_the_focal_length(tmp_path: Path) -> None:
    # 3 m away, 24 mm high, 24 mm lens: the picture is 3 m high, and half of it is over the axis at 1.5 m
    facts = facts_of(boom(), tmp_path)
    edge = upper_edge(facts, facts.plan.setups["one"])
    assert edge == pytest.approx(3.0, abs=1e-6)


def test_a_tilted_camera_sees_by_the_angle_of_its_upper_edge(tmp_path: Path) -> None:
    facts = facts_of(boom(CAMERA="0.5 m"), tmp_path)
    edge = upper_edge(facts, facts.plan.setups["one"])
    assert edge is not None
    tilt = math.atan2(1.0, 3.0)
    assert edge == pytest.approx(0.5 + 3.0 * math.tan(tilt + math.atan(0.5)), abs=1e-6)


@pytest.mark.parametrize(
    ("said", "speaks"),
    [
        ({}, True),
        ({"HIGH": "3.15 m"}, False),
        ({"HIGH": "3.05 m"}, True),
        ({"MORE": "wireless: clip"}, False),
        ({"SOUND": "mos"}, False),
        ({"HIGH": "4 m", "MORE": "height: 2.5 m"}, True),
        ({"HIGH": "4 m", "MORE": "height: 3.2 m"}, False),
    ],
)
def test_a_boom_wants_a_place_over_the_picture(said: dict[str, str], speaks: bool, tmp_path: Path) -> None:
    assert bool(found("boom-in-frame-risk", boom(**said), tmp_path)) == speaks


NOISE = """
hotset: 1
days:
  1:
    call: "08:00"
    load-in: 0 min
    order: [wide, close, room-tone, late]
    ahead: [{setup: late, by: bea, from: FROM, to: TO}]
people: {jon: {works: sound}, bea: {works: art}, olek: {works: camera}}
locations:
  landing:
    sets:
      office: {size: 4 m x 3 m x 2.4 m, WAY}
      shed: {size: 4 m x 3 m x 2.4 m}
setups: {wide: {set: office, rig: 0 min}, close: {set: office, rig: 0 min}, late: {set: LATE, takes: 10 min}}
scenes: {4: {shots: {4A: {setup: wide, takes: 1 h, sound: sync}, 4B: {setup: close, takes: 1 h, sound: mos}}}}
"""
DOOR = "doors: {yard: {wall: west, from: 1 m, width: 0.9 m, leads-to: shed}}"


@pytest.mark.parametrize(
    ("hours", "way", "late", "speaks"),
    [
        ('"08:00" "08:30"', DOOR, "shed", True),
        ('"09:00" "09:30"', DOOR, "shed", False),  # mute by then
        ('"08:00" "08:30"', "north: 0 deg", "shed", False),  # nothing joins them
        ('"08:00" "08:30"', "north: 0 deg", "office", True),
        (
            '"08:00" "08:30"',
            "windows: {w: {wall: east, from: 1 m, sill: 1 m, width: 1 m, height: 1 m, looks-to: shed}}",
            "shed",
            True,
        ),
    ],
)
def test_rigging_is_heard_next_door(hours: str, way: str, late: str, speaks: bool, tmp_path: Path) -> None:
    start, end = hours.split()
    text = NOISE.replace("FROM", start).replace("TO", end).replace("WAY", way).replace("LATE", late)
    assert bool(found("dressing-noise", text, tmp_path)) == speaks


DRIFT = """
hotset: 1
days: {1: {date: 2026-06-19, call: "CALL", load-in: 0 min, weather: we wait, order: [one]}}
locations:
  place:
    at: "53.95 N, 0.30 E"
    zone: Europe/London
    sets: {field: {size: 30 m x 20 m, outdoors: true}, hall: {size: 9 m x 9 m x 3 m}}
setups: {one: {set: SET, NEEDS, rig: 0 min, takes: TAKES}}
"""


@pytest.mark.parametrize(
    ("call", "where", "needs", "takes", "speaks"),
    [
        ("12:00", "field", "needs: sun", "60 min", True),  # at noon in June the sun turns 25 to 30 deg an hour here
        ("12:00", "field", "needs: sun", "30 min", False),
        ("12:00", "field", "key-at: x", "60 min", True),
        ("12:00", "field", "needs: any", "60 min", False),
        ("12:00", "hall", "key-at: x", "60 min", False),
        ("06:00", "field", "needs: daylight", "60 min", False),  # by morning it climbs more than it turns
        ("20:15", "field", "needs: daylight", "75 min", True),  # into the sunset at 21:33
        ("20:15", "field", "needs: golden", "75 min", False),
    ],
)
def test_daylight_drifts(call: str, where: str, needs: str, takes: str, speaks: bool, tmp_path: Path) -> None:
    text = DRIFT.replace("CALL", call).replace("SET", where).replace("NEEDS", needs).replace("TAKES", takes)
    said = found("slow-light-change", text.replace(", key-at: x", ""), tmp_path)
    assert bool(said) == speaks
    if said and call == "12:00":
        # the rate of the bearing is 15 deg an hour x (sin lat - cos lat tan h cos A): at 13:00, near the meridian, with
        # the sun 59.5 deg high, about 27 deg an hour
        turn = dict(said[0].details)["turn_deg"]
        assert isinstance(turn, float)
        assert 24.0 < turn < 30.0


EXIT = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 4 m x 4 m x 2.4 m
        doors: {yard: {wall: west, from: 2 m, width: 0.9 m, exit: true, leads-to: shed, there: {wall: east, from: 1 m}}}
        furniture: {chest: {at: CHEST, size: 0.5 m x 0.5 m x 1 m}}
        marks: {desk: {at: [3 m, 2.4 m]}}
      shed: {size: 4 m x 4 m x 2.4 m}
gear: {lamp: {kind: light}, stand: {kind: support, base: 0.8 m}}
stock: {cloth: {opaque: true, roll: 3 m x 12 m}}
setups: {one: {set: office, MORE}}
"""
LAMP = "lights: {moon: {lamp: lamp, on: stand, in: shed, through: yard, at: AT, height: 1.5 m, aim: desk}}"
FLAG = "grip: {dark: {use: cloth, on: stand, size: 1.2 m x 2 m, at: AT, aim: desk}}"


@pytest.mark.parametrize(
    ("chest", "more", "speaks"),
    [
        ("[3 m, 1 m]", "takes: 5 min", False),
        ("[0.3 m, 2.4 m]", "takes: 5 min", True),  # in the middle of the door
        ("[0.3 m, 2.0 m]", "takes: 5 min", False),  # 65 cm beside it stay clear
        ("[0.9 m, 2.4 m]", "takes: 5 min", False),  # behind the strip
        ("[3 m, 1 m]", LAMP.replace("AT", "[3.7 m, 1.4 m]"), True),  # just behind the door, in the shed
        ("[3 m, 1 m]", LAMP.replace("AT", "[2.0 m, 1.4 m]"), False),
        ("[3 m, 1 m]", FLAG.replace("AT", "[0.5 m, 2.4 m]"), True),
        ("[3 m, 1 m]", FLAG.replace("AT", "[1.5 m, 2.4 m]"), False),
    ],
)
def test_a_way_out_stays_clear(chest: str, more: str, speaks: bool, tmp_path: Path) -> None:
    text = EXIT.replace("CHEST", chest).replace("MORE", more)
    assert bool(found("exit-blocked", text, tmp_path)) == speaks
