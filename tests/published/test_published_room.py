"""The light a room gives back, against the integrating sphere, published room coefficients' conventions, and a path
tracer written only for this test."""

from __future__ import annotations

import random
from collections.abc import Callable
from math import cos, pi, radians, sin, sqrt

import pytest
from hotset.science import light, room

Vector = tuple[float, float, float]
BOX = ((0.0, 0.0), (5.0, 0.0), (5.0, 4.0), (0.0, 4.0))


def enclosure(walls: float, ceiling: float, floor: float, height: float = 2.6) -> room.Enclosure:
    return room.Enclosure(BOX, height, floor, ceiling, (walls,) * 4)


#: Multiplier rho / (1 - rho) of an integrating sphere, and 1 / (1 - rho) of its wall; arithmetic of the geometric
#: series as guides to integrating spheres print it (98 %: 49; 90 %: 9; 50 %: 1).
SPHERES = [(0.5, 1.0), (0.9, 9.0), (0.98, 49.0), (0.2, 0.25)]


@pytest.mark.parametrize(("reflectance", "multiplier"), SPHERES)
def test_the_multiplier_of_a_sphere(reflectance: float, multiplier: float) -> None:
    assert room.sphere(1000.0, 10.0, reflectance) == pytest.approx(100.0 * multiplier)


def test_the_mean_reflectance_of_a_room() -> None:
    """5 x 4 x 2.6 m at 70/50/20: (20 x 0.9 + 46.8 x 0.5) / 86.8, by hand."""
    area, mean = room.surface(enclosure(0.5, 0.7, 0.2))
    assert area == pytest.approx(86.8)
    assert mean == pytest.approx(41.4 / 86.8)


def test_a_panel_changes_its_own_area_only() -> None:
    dark = room.Panel(0, 1.0, 3.0, 0.0, 2.0, 0.0)
    area, mean = room.surface(enclosure(0.5, 0.7, 0.2)._replace(panels=(dark,)))
    assert mean == pytest.approx((41.4 - 4 * 0.5) / area)


@pytest.mark.parametrize(("beam", "lumens"), [(60.0, 1000.0), (120.0, 3000.0), (20.0, 500.0)])
def test_lumens_of_a_beam_and_back(beam: float, lumens: float) -> None:
    """Peak candela from lumens is a closed form, tested elsewhere; summed over the beam it gives the lumens again."""
    candela = light.beam_candela(lumens, beam)
    assert room.lumens(candela, lambda off: light.fall_off(off, beam)) == pytest.approx(lumens, rel=0.01)


def test_a_room_of_one_reflectance_keeps_the_mean_of_the_sphere() -> None:
    """All light lands and is counted: first bounce and later ones together have the sphere's sum."""
    box = enclosure(0.6, 0.6, 0.6)
    placed = room.landings(box, (2.5, 2.0, 1.3), room.rays((1.0, 0.0, 0.0), lambert)[0], 1000.0, 0.1)
    back = room.given_back(box, placed)
    area, mean = room.surface(box)
    assert back == pytest.approx(600.0)
    assert back / area + room.later_bounces(back, area, mean) == pytest.approx(room.sphere(1000.0, area, 0.6))


def lambert(off: float) -> float:
    return max(0.0, cos(radians(off)))


def narrow(off: float) -> float:
    return light.fall_off(off, 50.0)


# ---- the path tracer: no code of the product but the beam's shape ----------------------------------------------------


def hit(at: Vector, way: Vector, height: float) -> tuple[Vector, Vector, int]:
    """Where a ray meets the box 5 x 4 x height: the place, the inward normal, 0 wall 1 floor 2 ceiling."""
    best = (1e9, (0.0, 0.0, 0.0), 0)
    for axis, size in enumerate((5.0, 4.0, height)):
        if abs(way[axis]) < 1e-12:
            continue
        to = size if way[axis] > 0 else 0.0
        far = (to - at[axis]) / way[axis]
        normal = [0.0, 0.0, 0.0]
        normal[axis] = -1.0 if way[axis] > 0 else 1.0
        kind = 0 if axis < 2 else 2 if way[2] > 0 else 1
        if 1e-9 < far < best[0]:
            best = (far, (normal[0], normal[1], normal[2]), kind)
    far, normal_, kind = best
    return (at[0] + far * way[0], at[1] + far * way[1], at[2] + far * way[2]), normal_, kind


def scatter(normal: Vector, chance: random.Random) -> Vector:
    """A direction by the cosine about a normal."""
    u, v = chance.random(), chance.random()
    r, turn = sqrt(u), 2 * pi * v
    helper = (0.0, 0.0, 1.0) if abs(normal[2]) < 0.9 else (1.0, 0.0, 0.0)
    a = cross(helper, normal)
    size = sqrt(sum(x * x for x in a))
    a = (a[0] / size, a[1] / size, a[2] / size)
    b = cross(normal, a)
    up = sqrt(max(0.0, 1 - u))
    return (
        r * cos(turn) * a[0] + r * sin(turn) * b[0] + up * normal[0],
        r * cos(turn) * a[1] + r * sin(turn) * b[1] + up * normal[1],
        r * cos(turn) * a[2] + r * sin(turn) * b[2] + up * normal[2],
    )


def cross(a: Vector, b: Vector) -> Vector:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def direct(
    at: Vector, normal: Vector, lamp: Vector, axis: Vector, peak: float, profile: Callable[[float], float]
) -> float:
    from math import acos, degrees

    d = (lamp[0] - at[0], lamp[1] - at[1], lamp[2] - at[2])
    far = sqrt(sum(x * x for x in d))
    cosine = sum(d[i] * normal[i] for i in range(3)) / far
    off = degrees(acos(max(-1.0, min(1.0, -sum(d[i] * axis[i] for i in range(3)) / far))))
    return peak * profile(off) * max(0.0, cosine) / (far * far)


def traced(
    at: Vector, facing: Vector, lamp: Vector, axis: Vector, peak: float, profile: Callable[[float], float],
    reflects: tuple[float, float, float], height: float,
) -> float:  # fmt: skip
    """Reflected lux on a meter, backwards: light is looked for along random paths of up to nine bounces."""
    chance, total, paths = random.Random(7), 0.0, 3000
    for _ in range(paths):
        place, way, weight = at, scatter(facing, chance), 1.0
        for _bounce in range(9):
            place, normal, kind = hit(place, way, height)
            weight *= reflects[kind]
            total += weight * direct(place, normal, lamp, axis, peak, profile)
            way = scatter(normal, chance)
    return total / paths


SCENES = [
    # lamp, where it shines, meter, what it faces, walls/floor/ceiling, beam
    ((4.5, 2.0, 2.0), (-0.95, 0.0, -0.3122499), (2.0, 2.0, 1.5), (-1.0, 0.0, 0.0), (0.5, 0.2, 0.7), narrow),
    ((4.5, 2.0, 2.0), (-0.95, 0.0, -0.3122499), (2.0, 2.0, 1.5), (1.0, 0.0, 0.0), (0.5, 0.2, 0.7), narrow),
    ((4.5, 2.0, 2.0), (-0.95, 0.0, -0.3122499), (2.0, 2.0, 1.5), (0.0, 1.0, 0.0), (0.8, 0.3, 0.8), narrow),
    ((0.5, 0.5, 2.2), (0.6, 0.6, -0.5291503), (2.8, 2.4, 1.6), (0.7071068, 0.7071068, 0.0), (0.5, 0.2, 0.7), lambert),
    ((0.5, 0.5, 2.2), (0.6, 0.6, -0.5291503), (2.8, 2.4, 1.6), (-0.7071068, 0.7071068, 0.0), (0.8, 0.3, 0.8), lambert),
    ((2.5, 2.0, 1.2), (0.0, 0.0, 1.0), (1.5, 1.5, 1.6), (1.0, 0.0, 0.0), (0.6, 0.2, 0.8), lambert),
    ((4.5, 2.0, 2.0), (-0.95, 0.0, -0.3122499), (2.0, 2.0, 1.5), (-1.0, 0.0, 0.0), (0.1, 0.1, 0.1), narrow),
]


@pytest.mark.parametrize("scene", SCENES)
def test_against_a_path_tracer(
    scene: tuple[Vector, Vector, Vector, Vector, tuple[float, float, float], Callable[[float], float]],
) -> None:
    """Within a third of a stop, whether the lamp's patch lies before the meter, behind it or overhead."""
    lamp, axis, at, facing, reflects, profile = scene
    box = room.Enclosure(BOX, 2.6, reflects[1], reflects[2], (reflects[0],) * 4)
    flux = room.lumens(1000.0, profile)
    beam, spread = room.rays(axis, profile)
    placed = room.landings(box, lamp, beam, flux, spread)
    area, mean = room.surface(box)
    own = room.first_bounce(box, placed, at, facing)
    own += room.later_bounces(room.given_back(box, placed), area, mean)
    other = traced(at, facing, lamp, axis, 1000.0, profile, reflects, 2.6)
    assert abs(light.ratio_stops(own, other)) < 0.3


def test_light_from_outside_comes_in_by_the_window_only() -> None:
    window = room.Panel(1, 1.0, 2.0, 1.0, 2.0, 0.1, open=True)
    box = enclosure(0.5, 0.7, 0.2)._replace(panels=(window,))
    through = room.landings(box, (7.0, 1.5, 1.5), [((-1.0, 0.0, 0.0), 1.0)], 100.0, 0.01)
    beside = room.landings(box, (7.0, 3.0, 1.5), [((-1.0, 0.0, 0.0), 1.0)], 100.0, 0.01)
    assert [(p.at, p.lumens * p.reflects(box)) for p in through] == [((0.0, 1.5, 1.5), 50.0)]
    assert beside == []
