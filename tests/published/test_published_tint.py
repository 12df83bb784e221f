"""Green and magenta: points of colour compensation, and the gel that takes them away."""

from __future__ import annotations

import pytest
from hotset.facts import tint
from hotset.science import colour

#: Colour compensating filters: the number is the density times 100 for the light held back, so that CC30 halves it
#: (10^-0.30 = 0.501); as handbooks of photography define them.
DENSITIES = [(10.0, 0.794), (20.0, 0.631), (30.0, 0.501), (50.0, 0.316)]


@pytest.mark.parametrize(("points", "kept"), DENSITIES)
def test_points_are_densities(points: float, kept: float) -> None:
    assert colour.tinted((1.0, 1.0, 1.0), points) == pytest.approx((kept, 1.0, kept), abs=0.001)
    assert colour.tinted((1.0, 1.0, 1.0), -points) == pytest.approx((1.0, kept, 1.0), abs=0.001)


def test_a_neutral_cast_changes_nothing() -> None:
    assert colour.swatch(3200, 5600) == colour.swatch(3200, 5600, 0.0)
    assert colour.swatch(5600, 5600, 15.0) == "#dbffdb"  # 10^-0.15 = 0.708 linear is 219 of 255 in sRGB


@pytest.mark.parametrize(
    ("words", "points"),
    [
        ("full plus green", 30.0),
        ("half minus green", -15.0),
        ("1/4 plus green", 7.5),
        ("1/8 magenta", -3.75),
        ("slightly green", 7.5),
        ("CC15G", 15.0),
        ("cc10m", -10.0),
        ("none", 0.0),
        ("warm", 0.0),
        ("green", None),
        ("magenta cast", None),
    ],
)
def test_casts_in_words(words: str, points: float | None) -> None:
    assert tint.points(words) == points


@pytest.mark.parametrize(
    ("green", "gel"), [(30, "full minus green"), (14, "half minus green"), (-8, "quarter plus green"), (3, "")]
)
def test_the_gel_against_it(green: float, gel: str) -> None:
    assert tint.gel_against(green) == gel


def test_a_gel_and_its_opposite_are_none() -> None:
    for part in ("full", "half", "quarter", "eighth"):
        assert (tint.points(f"{part} plus green") or 0.0) + (tint.points(f"{part} minus green") or 0.0) == 0.0
