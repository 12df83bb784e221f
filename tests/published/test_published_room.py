"""The light a room gives back, against the integrating sphere, published room coefficients' conventions, and a path
tracer written only for this test."""

from __future__ import annotations

import random
from collections.abc import Callable
from math import acos, cos, degrees, pi, radians, sin, sqrt
from typing import NamedTuple

import pytest
from hotset.pipeline import compile_plan
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


class Board(NamedTuple):
    """An upright sheet square to x: where it stands, from and to in y and z, what it gives back."""

    x: float
    y: tuple[float, float]
    z: tuple[float, float]
    reflects: float

    def met(self, at: Vector, way: Vector) -> float:
        """How far along a ray it lies; infinite where the ray misses it."""
        far = (self.x - at[0]) / way[0] if abs(way[0]) > 1e-12 else 0.0
        y, z = at[1] + far * way[1], at[2] + far * way[2]
        inside = self.y[0] <= y <= self.y[1] and self.z[0] <= z <= self.z[1]
        return far if far > 1e-6 and inside else 1e9


class Box(NamedTuple):
    """A room from the corner 0, 0, 0, with the reflectance of its walls, floor and ceiling, and perhaps a sheet."""

    size: Vector
    reflects: tuple[float, float, float]
    board: Board | None = None


def hit(at: Vector, way: Vector, box: Box) -> tuple[Vector, Vector, float]:
    """Where a ray meets the box: the place, the inward normal, the reflectance."""
    best, normal_, back = 1e9, (0.0, 0.0, 0.0), 0.0
    for axis, size in enumerate(box.size):
        if abs(way[axis]) < 1e-12:
            continue
        to = size if way[axis] > 0 else 0.0
        far = (to - at[axis]) / way[axis]
        normal = [0.0, 0.0, 0.0]
        normal[axis] = -1.0 if way[axis] > 0 else 1.0
        if 1e-9 < far < best:
            best, normal_ = far, (normal[0], normal[1], normal[2])
            back = box.reflects[0 if axis < 2 else 2 if way[2] > 0 else 1]
    if box.board is not None and box.board.met(at, way) < best:
        best, back = box.board.met(at, way), box.board.reflects
        normal_ = (-1.0 if way[0] > 0 else 1.0, 0.0, 0.0)
    return (at[0] + best * way[0], at[1] + best * way[1], at[2] + best * way[2]), normal_, back


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


class Lamp(NamedTuple):
    """A point source: where it is, where it shines, candela on its axis, its beam."""

    at: Vector
    axis: Vector
    peak: float
    profile: Callable[[float], float]

    def on(self, at: Vector, normal: Vector, board: Board | None) -> float:
        """Lux on a surface, nothing behind the sheet."""
        d = (self.at[0] - at[0], self.at[1] - at[1], self.at[2] - at[2])
        far = sqrt(sum(x * x for x in d))
        way = (d[0] / far, d[1] / far, d[2] / far)
        if board is not None and board.met(at, way) < far - 1e-6:
            return 0.0
        cosine = sum(way[i] * normal[i] for i in range(3))
        off = degrees(acos(max(-1.0, min(1.0, -sum(way[i] * self.axis[i] for i in range(3))))))
        return self.peak * self.profile(off) * max(0.0, cosine) / (far * far)


def traced(at: Vector, facing: Vector, lamp: Lamp, box: Box, paths: int = 3000) -> float:
    """Reflected lux on a meter, backwards: light is looked for along random paths of up to nine bounces."""
    chance, total = random.Random(7), 0.0
    for _ in range(paths):
        place, way, weight = at, scatter(facing, chance), 1.0
        for _bounce in range(9):
            place, normal, back = hit(place, way, box)
            weight *= back
            total += weight * lamp.on(place, normal, box.board)
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
    other = traced(at, facing, Lamp(lamp, axis, 1000.0, profile), Box((5.0, 4.0, 2.6), reflects))
    assert abs(light.ratio_stops(own, other)) < 0.3


def test_light_from_outside_comes_in_by_the_window_only() -> None:
    window = room.Panel(1, 1.0, 2.0, 1.0, 2.0, 0.1, open=True)
    box = enclosure(0.5, 0.7, 0.2)._replace(panels=(window,))
    through = room.landings(box, (7.0, 1.5, 1.5), [((-1.0, 0.0, 0.0), 1.0)], 100.0, 0.01)
    beside = room.landings(box, (7.0, 3.0, 1.5), [((-1.0, 0.0, 0.0), 1.0)], 100.0, 0.01)
    assert [(p.at, p.lumens * p.reflects(box)) for p in through] == [((0.0, 1.5, 1.5), 50.0)]
    assert beside == []


PLAN = """
hotset: 1
locations:
  house:
    sets:
      room:
        size: 4 m x 4 m x 2.5 m
        walls: {reflects: 50 %}
        ceiling: {reflects: 70 %}
        floor: {reflects: 20 %}
        marks: {chair: {at: [2 m, 2 m], height: 1.2 m}}
stock: {cloth: {of: cloth, reflects: REFLECTS, roll: 3 m x 12 m}}
gear: {lamp: {kind: light, gives: {bare: 600 lx at 1 m}, beam: 60 deg}}
setups:
  one:
    set: room
    key-at: chair
    lights: {key: {lamp: lamp, role: key, at: [3.6 m, 2 m], height: 1.6 m, aim: chair}}
    grip: {sheet: {use: cloth, size: 2 m x 2 m, at: [AWAY m, 2 m], height: 1.2 m, aim: chair}}
"""


@pytest.mark.parametrize(("share", "away"), [(0.04, 1.2), (0.04, 0.5), (0.85, 1.2), (0.85, 0.5)])
def test_cloth_beside_a_mark_against_the_path_tracer(share: float, away: float) -> None:
    """Black cloth on the side away from the key, or white, near the mark and far from it: within two thirds of a
    stop, where bare walls give 13 lx, black cloth a third of it, and white four times as much."""
    text = PLAN.replace("REFLECTS", f"{share * 100:.0f} %").replace("AWAY", f"{away}")
    facts = compile_plan(["-"], stdin_text=text.encode()).facts
    assert facts is not None
    found = facts.room_light("one")
    assert found is not None
    far = sqrt(1.6**2 + 0.4**2)
    lamp = Lamp((3.6, 2.0, 1.6), (-1.6 / far, 0.0, -0.4 / far), 600.0, lambda off: light.fall_off(off, 60.0))
    box = Box((4.0, 4.0, 2.5), (0.5, 0.2, 0.7), Board(away, (1.0, 3.0), (0.2, 2.2), share))
    other = traced((2.0, 2.0, 1.2), (-1.0, 0.0, 0.0), lamp, box)
    assert abs(light.ratio_stops(found.fill, other)) < 0.67
