"""Plane geometry."""

from __future__ import annotations

from math import hypot, pi

import pytest
from hotset.science import geometry as g
from hypothesis import given
from hypothesis import strategies as st

NUMBER = st.floats(-10, 10)
POINT = st.tuples(NUMBER, NUMBER)
SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))
ELL = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0))


@given(POINT, st.floats(0, 359.9), st.floats(0.1, 10))
def test_bearing_and_towards_are_opposites(origin: g.Point, angle: float, length: float) -> None:
    target = g.towards(origin, angle, length)
    assert g.distance(origin, target) == pytest.approx(length)
    assert g.turn_between(g.bearing(origin, target), angle) == pytest.approx(0.0, abs=1e-6)


def test_the_clock_face_has_the_camera_at_six() -> None:
    desk, camera = (2.0, 1.5), (2.0, 0.0)
    assert g.clock(desk, camera, 6, 1.0) == pytest.approx((2.0, 0.5))
    assert g.clock(desk, camera, 12, 1.0) == pytest.approx((2.0, 2.5))
    assert g.clock(desk, camera, 3, 1.0) == pytest.approx((3.0, 1.5))
    assert g.clock(desk, camera, 9, 0.6) == pytest.approx((1.4, 1.5))


@given(st.floats(0, 360), st.floats(0, 360))
def test_a_turn_never_passes_half_a_circle(a: float, b: float) -> None:
    assert -180 < g.turn_between(a, b) <= 180


@given(POINT, st.floats(0.1, 5), st.floats(0.1, 5), st.floats(-360, 360))
def test_a_turned_rectangle_keeps_its_area(centre: g.Point, width: float, depth: float, turned: float) -> None:
    shape = g.rectangle(centre, width, depth, turned)
    assert g.area(shape) == pytest.approx(width * depth)
    assert g.signed_area(shape) > 0
    assert g.inside(shape, centre)


def test_turning_is_clockwise() -> None:
    corner = g.rectangle((0.0, 0.0), 2.0, 1.0, 90.0)[0]
    assert corner == pytest.approx((-0.5, 1.0))


def test_a_cylinder_holds_its_circle() -> None:
    assert g.area(g.circle((1.0, 1.0), 0.5)) > pi * 0.25
    assert g.area(g.circle((1.0, 1.0), 0.5, 200)) == pytest.approx(pi * 0.25, rel=1e-3)
    assert len(g.cylinder((0.0, 0.0), 1.0, 0.0, 2.0).base) == 12


@pytest.mark.parametrize(
    ("point", "expected"),
    [((1.0, 1.0), True), ((3.0, 3.0), False), ((2.0, 3.0), True), ((4.0, 2.0), True), ((-0.1, 1.0), False)],
)
def test_inside_a_room_with_a_corner_cut_out(point: g.Point, expected: bool) -> None:
    assert g.inside(ELL, point) is expected


@given(POINT, POINT, POINT, POINT)
def test_crossing_lies_on_both_segments(a: g.Point, b: g.Point, c: g.Point, d: g.Point) -> None:
    at = g.crossing(a, b, c, d)
    if at is not None:
        assert g.distance_to_segment(at, a, b) < 1e-6
        assert g.distance_to_segment(at, c, d) < 1e-6
    assert g.segments_cross(a, b, a, b)


def test_touching_segments_cross() -> None:
    assert g.segments_cross((0, 0), (2, 0), (1, 0), (1, 5))
    assert not g.segments_cross((0, 0), (2, 0), (3, 0), (5, 0))
    assert g.crossing((0, 0), (1, 0), (0, 1), (1, 1)) is None


def test_gap_between_furniture() -> None:
    table, chair = g.rectangle((1, 1), 1, 1), g.rectangle((3, 1), 1, 1)
    assert g.gap(table, chair) == pytest.approx(1.0)
    assert g.gap(table, g.rectangle((1.2, 1.2), 0.2, 0.2)) == 0
    assert g.gap(table, g.rectangle((1.6, 1), 1, 0.2)) == 0
    turned = g.rectangle((3, 1), 1, 1, 45)
    assert g.gap(table, turned) == pytest.approx(1.5 - hypot(0.5, 0.5))


@given(POINT, st.floats(0.1, 5), st.floats(0.1, 5), st.floats(0, 180))
def test_overlap_is_never_more_than_either(centre: g.Point, width: float, depth: float, turned: float) -> None:
    shape = g.rectangle(centre, width, depth, turned)
    shared = g.overlap(shape, SQUARE)
    assert shared == pytest.approx(g.overlap(SQUARE, shape), abs=1e-6)
    assert shared <= min(width * depth, 12.0) + 1e-6


def test_clipping_takes_either_way_round() -> None:
    half = g.rectangle((4.0, 1.5), 4.0, 10.0)
    assert g.area(g.clip_convex(SQUARE, half)) == pytest.approx(6.0)
    assert g.area(g.clip_convex(SQUARE, tuple(reversed(half)))) == pytest.approx(6.0)
    assert g.clip_convex(SQUARE, g.rectangle((20, 20), 1, 1)) == []
    assert g.overlap(SQUARE, g.rectangle((20, 20), 1, 1)) == 0


def test_what_sticks_out_of_a_room() -> None:
    assert g.sticks_out(g.rectangle((1.0, 1.0), 1.0, 1.0), SQUARE) == 0
    assert g.sticks_out(g.rectangle((3.8, 1.0), 1.0, 1.0), SQUARE) == pytest.approx(0.3)
    assert g.sticks_out(g.rectangle((2.0, 2.0), 1.0, 1.0), ELL) == pytest.approx(0.5)
    assert g.wall_distance(SQUARE, (1.0, 1.4)) == pytest.approx(1.0)


@given(st.lists(POINT, min_size=3, max_size=20))
def test_the_hull_holds_every_point(points: list[g.Point]) -> None:
    outline = g.hull(points)
    if len(outline) >= 3:
        for p in points:
            assert all(g.side_of(a, b, p) >= -1e-6 for a, b in g.edges(outline))


def test_hull_of_two_points_is_a_line() -> None:
    assert g.hull([(1.0, 1.0), (0.0, 0.0), (1.0, 1.0)]) == ((0.0, 0.0), (1.0, 1.0))


def test_lines() -> None:
    assert g.path_length([(0, 0), (3, 4), (3, 5)]) == pytest.approx(6)
    assert g.mirrored((1.0, 1.0), (0.0, 0.0), (5.0, 0.0)) == pytest.approx((1.0, -1.0))
    assert [x for x, _ in g.points_along((0, 0), (1, 0), 0.4)] == pytest.approx([0, 1 / 3, 2 / 3, 1])
    assert g.points_along((0, 0), (0, 0), 0.4) == [(0, 0), (0, 0)]
