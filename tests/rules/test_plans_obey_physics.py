"""Laws that hold whatever the plan, asked of whole plans with a fixed seed."""

from __future__ import annotations

import math
import random
from pathlib import Path

import pytest

from .plans import compiled

PLAN = """
hotset: 1
locations: {{house: {{sets: {{hall: {{size: 40 m x 40 m x 6 m, marks: {{desk: {{at: [20 m, 20 m], sits: true}}}}}}}}}}}}
gear:
  body: {{kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}}
  glass: {{kind: lens, focal: {focal} mm}}
  lamp: {{kind: light, gives: {{bare: 1000 lx at 1 m}}, size: 30 cm x 30 cm{soft}}}
setups:
  wide:
    set: hall
    key-at: desk
    camera: {{body: body, lens: glass, at: [{cx} m, {cy} m], height: 1.2 m, aim: desk{exposure}}}
    lights: {{key: {{lamp: lamp, at: [{x:.4f} m, {y:.4f} m], height: {z:.4f} m, aim: desk, on: table}}}}
scenes: {{4: {{shots: {{4A: {{setup: wide}}}}}}}}
"""
EXPOSED = ", stop: f/2.8, iso: 800, shutter: 1/50 s, fps: 25 fps"


def plan(x: float, y: float, z: float = 1.2, soft: str = "", focal: int = 24) -> str:
    said = f", soft: {soft}" if soft else ""
    return PLAN.format(x=x, y=y, z=z, soft=said, focal=focal, cx=20, cy=14, exposure=EXPOSED)


def lux(text: str, tmp_path: Path) -> float:
    done = compiled(text, tmp_path)
    assert done.facts is not None
    return done.facts.readings["wide"].lux


def eyes(tmp_path: Path) -> float:
    done = compiled(plan(20, 19), tmp_path)
    assert done.facts is not None
    return done.facts.readings["wide"].at[2]


@pytest.mark.parametrize("seed", range(12))
def test_twice_as_far_a_quarter_of_the_light_but_not_from_a_large_face_near_by(seed: int, tmp_path: Path) -> None:
    draw = random.Random(seed)
    away, turn, level = draw.uniform(0.5, 6.0), draw.uniform(0, 2 * math.pi), eyes(tmp_path)

    def at(metres: float, soft: str = "") -> float:
        return lux(plan(20 + metres * math.sin(turn), 20 + metres * math.cos(turn), level, soft), tmp_path)

    assert at(2 * away) == pytest.approx(at(away) / 4, rel=1e-3)
    assert at(away) == pytest.approx(1000 / away**2, rel=1e-3)
    # A face of 2 m by 2 m is a disc of radius 1.13 m: r^2 / (r^2 + d^2) falls to more than a quarter.
    large = at(2 * away, "2 m x 2 m") / at(away, "2 m x 2 m")
    square = 4 / math.pi
    assert large == pytest.approx((square + away**2) / (square + 4 * away**2), rel=1e-3)
    assert large > 0.25


@pytest.mark.parametrize("seed", range(25))
def test_a_lamp_behind_the_camera_is_never_in_the_picture(seed: int, tmp_path: Path) -> None:
    draw = random.Random(seed)
    x, y = draw.uniform(1, 39), draw.uniform(1, 13.8)  # the camera stands at y 14 m and looks north
    text = plan(x, y, draw.uniform(0.2, 5.5), focal=draw.choice([8, 14, 24, 85]))
    assert [f for f in compiled(text, tmp_path).findings if f.rule == "light-in-frame"] == []
    ahead = plan(20, draw.uniform(15.5, 39), 1.2, focal=24)
    assert [f.rule for f in compiled(ahead, tmp_path).findings if f.rule == "light-in-frame"] == ["light-in-frame"]
