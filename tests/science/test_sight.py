"""What hides what, against an independent ray tracer over generated rooms."""

from __future__ import annotations

import random
from math import cos, inf, radians, sin

import pytest
from hotset.science import camera, geometry, sight
from hotset.science.camera import Camera
from hotset.science.geometry import Point3

Block = tuple[float, float, float, float, float, float, float]  # x, y, width, depth, bottom, top, turned


def meets_block(origin: Point3, ray: Point3, block: Block) -> float:
    """Where a ray enters a turned box: the box's own axes and three slabs."""
    x, y, width, depth, bottom, top, turned = block
    s, c = sin(radians(turned)), cos(radians(turned))
    ox, oy = origin[0] - x, origin[1] - y
    local = ((ox * c - oy * s, ray[0] * c - ray[1] * s), (ox * s + oy * c, ray[0] * s + ray[1] * c))
    near, far = 0.0, inf
    slabs = (
        (*local[0], -width / 2, width / 2),
        (*local[1], -depth / 2, depth / 2),
        (origin[2], ray[2], bottom, top),
    )
    for start, step, low, high in slabs:
        if abs(step) < 1e-12:
            if not low <= start <= high:
                return inf
            continue
        a, b = sorted(((low - start) / step, (high - start) / step))
        near, far = max(near, a), min(far, b)
    return near if near <= far else inf


def meets_wall(origin: Point3, ray: Point3, y: float, opening: sight.Opening, height: float) -> float:
    """Where a ray meets a wall along x at some y, unless it goes through its opening or over it."""
    if ray[1] == 0.0:
        return inf
    t = (y - origin[1]) / ray[1]
    x, z = origin[0] + t * ray[0], origin[2] + t * ray[2]
    if t <= 0 or z > height or z < 0 or not 0 <= x <= 6:
        return inf
    in_opening = opening.start < x < opening.end and opening.bottom < z < opening.top
    return inf if in_opening else t


def directions(eye: Camera, across: int, up: int) -> list[Point3]:
    b, t = radians(eye.bearing), radians(eye.tilt)
    result = []
    for i in range(across):
        for j in range(up):
            x = (2 * (i + 0.5) / across - 1) * eye.half_width
            y = (2 * (j + 0.5) / up - 1) * eye.half_height
            ahead, rise = cos(t) - y * sin(t), sin(t) + y * cos(t)
            result.append((ahead * sin(b) + x * cos(b), ahead * cos(b) - x * sin(b), rise))
    return result


def room(seed: int) -> tuple[Camera, Block, list[Block], sight.Wall]:
    """A room 6 m wide with a lamp, furniture in cells of its own, and a wall with a window across it."""
    roll = random.Random(seed)
    cells = [(1.0 + 2.0 * i, 1.5 + 1.4 * j) for i in range(3) for j in range(4)]
    roll.shuffle(cells)

    def block(bottom: float) -> Block:
        x, y = cells.pop()
        tall = roll.uniform(0.3, 1.2)
        return x, y, roll.uniform(0.2, 0.8), roll.uniform(0.2, 0.8), bottom, bottom + tall, roll.uniform(0, 90)

    lamp = block(roll.uniform(0.0, 1.8))
    furniture = [block(0.0) for _ in range(6)]
    start, sill = roll.uniform(0.5, 4.0), roll.uniform(0.5, 1.2)
    opening = sight.Opening(start, start + roll.uniform(0.5, 1.9), sill, sill + roll.uniform(0.5, 1.0))
    wall = sight.Wall((0.0, 3.6), (6.0, 3.6), 0.0, 2.6, (opening,))
    position = (roll.uniform(0.5, 5.5), roll.uniform(0.1, 0.5), roll.uniform(0.3, 2.2))
    aim = (lamp[0] + roll.uniform(-1.5, 1.5), lamp[1], roll.uniform(0.3, 2.0))
    return camera.looking_at(position, aim, 0.51, 0.29), lamp, furniture, wall


def solid(block: Block) -> geometry.Prism:
    x, y, width, depth, bottom, top, turned = block
    return geometry.box((x, y), width, depth, bottom, top, turned)


@pytest.mark.parametrize("seed", range(200))
def test_in_frame_agrees_with_rays(seed: int) -> None:
    eye, lamp, furniture, wall = room(seed)
    found = sight.seen(eye, solid(lamp), [*map(solid, furniture), *sight.panes(wall)])
    hits = 0
    grid = directions(eye, 28, 16)
    for ray in grid:
        mine = meets_block(eye.position, ray, lamp)
        others = [meets_block(eye.position, ray, block) for block in furniture]
        others.append(meets_wall(eye.position, ray, 3.6, wall.openings[0], 2.6))
        hits += mine < min(others)
    if hits:
        assert found.seen
    if not found.seen:
        assert hits == 0
    assert found.share == pytest.approx(hits / len(grid), abs=0.03)


def test_the_generated_rooms_hold_both_verdicts() -> None:
    verdicts = []
    for seed in range(200):
        eye, lamp, furniture, wall = room(seed)
        bare = camera.view(eye, solid(lamp))
        found = sight.seen(eye, solid(lamp), [*map(solid, furniture), *sight.panes(wall)])
        verdicts.append((bare.seen, found.seen))
    assert verdicts.count((True, True)) > 30
    assert verdicts.count((True, False)) > 30
    assert verdicts.count((False, True)) == 0


def north(x: float = 0.0) -> Camera:
    return camera.looking_at((x, 0.0, 1.5), (x, 3.0, 1.5), 0.5, 0.3)


def test_a_wall_hides_and_its_window_shows() -> None:
    lamp = geometry.box((0.0, 4.0), 0.3, 0.3, 1.4, 1.7)
    wall = sight.Wall((-3.0, 2.0), (3.0, 2.0), 0.0, 2.5)
    assert not sight.seen(north(), lamp, sight.panes(wall)).seen
    window = wall._replace(openings=(sight.Opening(2.5, 3.5, 1.0, 2.0),))
    assert sight.seen(north(), lamp, sight.panes(window)).seen
    beside = wall._replace(openings=(sight.Opening(4.5, 5.5, 1.0, 2.0),))
    assert not sight.seen(north(), lamp, sight.panes(beside)).seen
    door = wall._replace(openings=(sight.Opening(2.5, 3.5, 0.0, 2.5),))
    assert len(sight.panes(door)) == 2


def test_what_stands_behind_does_not_hide() -> None:
    lamp = geometry.box((0.0, 2.0), 0.3, 0.3, 1.4, 1.7)
    cupboard = geometry.box((0.0, 3.0), 2.0, 0.5, 0.0, 2.5)
    free = sight.seen(north(), lamp, [cupboard])
    assert free.share == pytest.approx(camera.view(north(), lamp).share)
    in_front = geometry.box((0.0, 1.0), 2.0, 0.5, 0.0, 2.5)
    assert not sight.seen(north(), lamp, [in_front]).seen


def test_a_mirror_shows_what_stands_beside_the_camera() -> None:
    eye = north()
    mirror = sight.upright((-0.5, 3.0), (0.5, 3.0), 0.0, 1.0, 1.0, 2.0)
    stand = geometry.box((0.6, -0.5), 0.3, 0.3, 1.2, 1.8)
    share, pieces = sight.seen_in_mirror(eye, mirror, stand)
    assert share > 0.001
    # The virtual image stands at y = 6.5, so it appears left and right as a real thing there would.
    image = camera.view(eye, geometry.box((0.6, 6.5), 0.3, 0.3, 1.2, 1.8))
    assert share == pytest.approx(image.share, rel=1e-6)
    assert pieces
    assert sight.seen_in_mirror(eye, mirror, stand, [geometry.box((0.5, 1.0), 0.6, 0.1, 0.0, 2.5)])[0] == 0
    assert sight.seen_in_mirror(eye, mirror, geometry.box((0.0, 5.0), 0.3, 0.3, 1.2, 1.8))[0] == 0
    far_aside = geometry.box((4.0, -0.5), 0.3, 0.3, 1.2, 1.8)
    assert sight.seen_in_mirror(eye, mirror, far_aside) == (0.0, [])


def test_a_pan_past_a_lamp_finds_it_between_its_ends() -> None:
    lamp = geometry.box((0.0, 4.0), 0.1, 0.1, 1.45, 1.55)
    first = camera.pointing((0.0, 0.0, 1.5), -60.0, 0.0, 0.3, 0.2)
    last = camera.pointing((0.0, 0.0, 1.5), 60.0, 0.0, 0.3, 0.2)
    assert not camera.view(first, lamp).seen
    assert not camera.view(last, lamp).seen
    part, found = sight.worst_along(lambda t: camera.view(camera.between(first, last, t), lamp))
    assert found.seen
    assert part == pytest.approx(0.5, abs=0.1)


def test_a_lamp_that_stays_out_reports_how_near_it_came() -> None:
    lamp = geometry.box((3.0, 1.0), 0.1, 0.1, 1.45, 1.55)
    first, last = north(-1.0), north(1.0)
    part, found = sight.worst_along(lambda t: camera.view(camera.between(first, last, t), lamp))
    assert not found.seen
    assert part == pytest.approx(1.0, abs=0.02)
    assert found.margin == pytest.approx(camera.view(last, lamp).margin, abs=0.5)
