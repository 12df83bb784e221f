"""Shot sizes: the table in order, and what a lens makes of a person."""

from __future__ import annotations

import json
from importlib.resources import files
from itertools import pairwise
from math import hypot, inf
from typing import Any

import pytest
from hotset.science import framing, lens
from hypothesis import given
from hypothesis import strategies as st

TABLE: dict[str, Any] = json.loads((files("hotset.schemas") / "tables" / "framing.json").read_text("utf-8"))
PICTURE = lens.gate(0.036, 0.024, 16 / 9)


def size(name: str, pose: str = "standing") -> framing.Size:
    return next(s for s in framing.sizes_of(TABLE, pose=pose) if s.name == name)


def test_sizes_grow_and_overlap() -> None:
    sizes = framing.sizes_of(TABLE)
    assert [s.name for s in sizes] == ["ECU", "BCU", "CU", "MCU", "MS", "MWS", "FS", "WS", "EWS"]
    for closer, wider in pairwise(sizes):
        assert closer.likely < wider.likely
        assert wider.low <= closer.high
    for each in sizes:
        assert each.low < each.likely < each.high


@given(st.floats(0.07, 30), st.floats(1.2, 2.1), st.sampled_from(["standing", "sitting", "lying"]))
def test_every_frame_has_a_name_it_meets_or_nearly(frame: float, tall: float, pose: str) -> None:
    sizes = framing.sizes_of(TABLE, tall, pose)
    assert any(framing.meets(s, frame) for s in sizes)
    named = framing.nearest(sizes, frame)
    assert named.low * 0.9 <= frame <= named.high * 1.1


def test_all_names() -> None:
    assert framing.canonical(TABLE, "cu") == "CU"
    assert framing.canonical(TABLE, "LS") == "WS"
    assert framing.canonical(TABLE, "insert") is None


def test_a_close_up_that_is_a_medium_close_up() -> None:
    """35 mm on 36 x 24 cropped to 16:9, 0.91 m from a sitting person: the frame is 52 cm high."""
    floor = hypot(2.0 - 1.1, 1.5 - 1.4)
    frame = lens.frame_at(PICTURE.height, 0.035, floor)
    assert frame == pytest.approx(0.52, abs=0.005)
    assert framing.nearest(framing.sizes_of(TABLE, pose="sitting"), frame).name == "MCU"
    wanted = size("CU", "sitting")
    assert not framing.meets(wanted, frame)
    rise = 1.5 - framing.eye_height(TABLE, pose="sitting")
    way = framing.remedy(wanted, PICTURE.height, 0.035, floor, rise)
    assert way.focal == pytest.approx(0.059, abs=0.0005)
    assert way.tape == pytest.approx(0.6, abs=0.05)
    for focal, distance in ((way.focal, floor), (0.035, way.floor)):
        assert lens.frame_at(PICTURE.height, focal, distance) == pytest.approx(wanted.likely)


def test_a_wide_shot_of_somebody_sitting() -> None:
    frame = lens.frame_at(PICTURE.height, 0.035, hypot(1.6, 1.1))
    assert framing.meets(size("WS", "sitting"), frame)
    assert not framing.meets(size("WS"), frame)


def test_heights() -> None:
    assert framing.eye_height(TABLE, pose="sitting") == pytest.approx(1.2, abs=0.05)
    assert framing.eye_height(TABLE, 1.8) == pytest.approx(1.685, abs=0.001)
    assert framing.stature(TABLE, None) == 1.7


def test_gates() -> None:
    assert pytest.approx((0.036, 0.02025)) == PICTURE
    assert lens.gate(0.036, 0.024) == (0.036, 0.024)
    assert lens.gate(0.036, 0.024, 1.0) == (0.024, 0.024)
    squeezed = lens.gate(0.024, 0.018, 2.39, 2.0)
    assert squeezed == pytest.approx((0.018 * 2.39, 0.018))
    assert lens.half_tangents(PICTURE, 0.018) == pytest.approx((1.0, 0.5625))


@given(st.floats(0.012, 0.2), st.floats(1.4, 22), st.floats(0.5, 50))
def test_focus_lies_between_near_and_far(focal: float, stop: float, distance: float) -> None:
    found = lens.focus(focal, stop, 0.00003, distance)
    assert found.near < distance < found.far
    wider = lens.focus(focal, stop * 1.4, 0.00003, distance)
    assert wider.near <= found.near
    assert wider.far >= found.far
    assert lens.depth_over(found) > 0


@given(st.floats(0.01, 0.05), st.floats(0.012, 0.2), st.floats(0.3, 30))
def test_focal_and_distance_are_two_ways_to_one_frame(side: float, focal: float, distance: float) -> None:
    frame = lens.frame_at(side, focal, distance)
    assert lens.focal_for(side, frame, distance) == pytest.approx(focal)
    assert lens.distance_for(side, frame, focal) == pytest.approx(distance)


def test_the_rest_of_the_lens() -> None:
    assert lens.stops_between(2.8, 5.6) == pytest.approx(2.0)
    assert lens.magnification(0.05, 0.1) == pytest.approx(1.0)
    level = lens.frame_across_tilt(PICTURE, 0.035, 2.0, 0.0)
    assert level == pytest.approx(lens.frame_at(PICTURE.height, 0.035, 2.0))
    assert lens.frame_across_tilt(PICTURE, 0.035, 2.0, -30.0) > level
    assert lens.frame_across_tilt(PICTURE, 0.035, 2.0, -80.0) == inf
