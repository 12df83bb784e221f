"""The pinhole camera against geometry done by hand and against rays that know nothing of it."""

from __future__ import annotations

from math import atan, cos, degrees, radians, sin, tan

import pytest
from hotset.science import camera, geometry, lens
from hypothesis import given
from hypothesis import strategies as st

ROOMY = st.floats(-5, 5)
HEIGHT = st.floats(0, 3)


def looking_north(half_width: float = 1.0, half_height: float = 0.5) -> camera.Camera:
    return camera.looking_at((0.0, 0.0, 1.5), (0.0, 3.0, 1.5), half_width, half_height)


@given(
    st.tuples(ROOMY, ROOMY, HEIGHT),
    st.floats(0, 360),
    st.floats(-90, 90),
    st.floats(-1, 1),
    st.floats(-1, 1),
    st.floats(0.1, 20),
)
def test_project_and_unproject_agree(
    position: tuple[float, float, float], bearing: float, tilt: float, u: float, v: float, depth: float
) -> None:
    eye = camera.pointing(position, bearing, tilt, 0.7, 0.4)
    p = camera.unproject(eye, u, v, depth)
    assert camera.project(eye, p) == pytest.approx((u, v), abs=1e-6)
    assert camera.to_camera(eye, p)[2] == pytest.approx(depth, abs=1e-6)
    assert camera.corner_margin(eye, p) >= -1e-6


@given(ROOMY, st.floats(-5, -0.5), HEIGHT, st.floats(0, 90))
def test_a_lamp_behind_the_camera_is_never_in_frame(x: float, y: float, z: float, turned: float) -> None:
    lamp = geometry.box((x, y), 0.4, 0.4, z, z + 0.3, turned)
    found = camera.view(looking_north(), lamp)
    assert not found.seen
    assert found.margin < 0
    assert found.share == 0


@given(ROOMY, st.floats(0.5, 8), HEIGHT)
def test_seen_and_margin_have_the_same_sign(x: float, y: float, z: float) -> None:
    found = camera.view(looking_north(), geometry.cylinder((x, y), 0.15, z, z + 0.3))
    assert (found.margin > 0) == found.seen
    assert all(abs(u) <= 1 + 1e-9 and abs(v) <= 1 + 1e-9 for u, v in found.outline)


def test_the_margin_is_the_pan_that_would_bring_it_in() -> None:
    wide = degrees(atan(1.0))
    lamp = geometry.box((3.0, 1.0), 0.2, 0.2, 1.4, 1.6)
    found = camera.view(looking_north(), lamp)
    assert found.edge == "right"
    assert found.turn == pytest.approx(degrees(atan(3.0)), abs=0.01)
    nearest_corner = degrees(atan(2.9 / 1.1))
    assert found.margin == pytest.approx(wide - nearest_corner)
    panned = camera.pointing((0.0, 0.0, 1.5), -found.margin + 0.2, 0.0, 1.0, 0.5)
    assert camera.view(panned, lamp).seen


@pytest.mark.parametrize(
    ("x", "z", "edge"), [(2.8, 1.5, "right"), (-2.8, 1.5, "left"), (0.0, 2.8, "top"), (0.0, 0.1, "bottom")]
)
def test_the_nearest_edge_is_named(x: float, z: float, edge: str) -> None:
    assert camera.view(looking_north(), geometry.cylinder((x, 3.0), 0.05, z, z + 0.1)).edge == edge


def test_share_of_a_wall_square_to_the_axis() -> None:
    wall = geometry.box((0.0, 2.05), 1.0, 0.1, 1.25, 1.75)
    found = camera.view(looking_north(), wall)
    assert found.share == pytest.approx((1.0 * 0.5) / (4.0 * 2.0))


def test_a_solid_around_the_camera_fills_the_frame() -> None:
    assert camera.view(looking_north(), geometry.box((0, 0), 4, 4, 0, 3)).share == pytest.approx(1.0)


def test_straight_down_the_top_of_the_picture_is_chosen() -> None:
    down = camera.looking_at((2.0, 1.0, 2.4), (2.0, 1.0, 0.8), 0.5, 0.3, top=0.0)
    assert down.tilt == -90
    north = camera.project(down, (2.0, 1.2, 0.8))
    east = camera.project(down, (2.2, 1.0, 0.8))
    assert north == pytest.approx((0.0, 0.2 / (1.6 * 0.3)))
    assert east == pytest.approx((0.2 / (1.6 * 0.5), 0.0))
    up = camera.looking_at((2.0, 1.0, 0.0), (2.0, 1.0, 2.0), 0.5, 0.3)
    assert up.tilt == 90


def test_a_move_takes_the_shorter_turn() -> None:
    first = camera.pointing((0, 0, 1), 350, 0, 0.5, 0.3)
    last = camera.pointing((1, 0, 2), 10, -20, 0.3, 0.2)
    half = camera.between(first, last, 0.5)
    assert half.bearing == pytest.approx(0)
    assert half.tilt == -10
    assert half.position == (0.5, 0, 1.5)
    assert half.half_width == pytest.approx(0.4)


@given(ROOMY, ROOMY, HEIGHT)
def test_a_mirror_shows_the_point_behind_it(x: float, y: float, z: float) -> None:
    eye = looking_north()
    behind = camera.mirrored(eye, (-1.0, 4.0), (1.0, 4.0))
    assert behind.position == pytest.approx((0.0, 8.0, 1.5))
    image = camera.to_camera(eye, (x, 8.0 - y, z))
    assert camera.to_camera(behind, (x, y, z)) == pytest.approx(image, abs=1e-9)


def test_the_light_of_a_small_office_stays_outside_the_frame() -> None:
    """35 mm lens, 36 mm wide, at (0.4, 0.4) aimed at (2.0, 1.5); lamp at (3.9, 0.3): 36 deg off, half field 27.2."""
    half_width, half_height = lens.half_tangents(lens.gate(0.036, 0.024, 16 / 9), 0.035)
    eye = camera.looking_at((0.4, 0.4, 1.5), (2.0, 1.5, 1.2), half_width, half_height)
    lamp = geometry.box((3.9, 0.3), 0.4, 0.4, 1.8, 2.2)
    found = camera.view(eye, lamp)
    assert not found.seen
    assert found.turn == pytest.approx(36, abs=0.5)
    assert camera.half_fields(eye)[0] == pytest.approx(27.2, abs=0.05)


def rays(eye: camera.Camera, across: int, up: int) -> list[tuple[float, float, float]]:
    """Directions through the middles of a grid over the frame, made from bearing and tilt alone."""
    b, t = radians(eye.bearing), radians(eye.tilt)
    result = []
    for i in range(across):
        for j in range(up):
            x = (2 * (i + 0.5) / across - 1) * eye.half_width
            y = (2 * (j + 0.5) / up - 1) * eye.half_height
            ahead, rise = cos(t) - y * sin(t), sin(t) + y * cos(t)
            result.append((ahead * sin(b) + x * cos(b), ahead * cos(b) - x * sin(b), rise))
    return result


def test_rays_of_the_test_run_through_the_frame() -> None:
    eye = camera.pointing((0, 0, 0), 30, -20, 0.6, 0.4)
    for dx, dy, dz in rays(eye, 4, 3):
        found = camera.project(eye, (dx, dy, dz))
        assert found is not None
        assert max(map(abs, found)) < 1
    assert tan(radians(45)) == pytest.approx(1.0)
