"""Lenses against tables: angle of view, depth of field, sensors, adapters."""

from __future__ import annotations

from math import hypot, inf

import pytest
from hotset.science import lens

#: Rectilinear angle of view at infinity, 2 atan(side / 2f): width x height in mm, focal length in mm, degrees across,
#: up and corner to corner, metres across at 2 m. Calculated from geometry.
ANGLES = """
36x24 14 104.250 81.203 114.182 5.143
36x24 25 71.508 51.282 81.741 2.880
36x24 85 23.913 16.071 28.558 0.847
24.9x14.0 18 69.341 42.501 76.864 2.767
24.9x14.0 35 39.162 22.620 44.399 1.423
24.9x14.0 100 14.194 8.008 16.257 0.498
24.9x18.66 24 54.836 42.487 65.907 2.075
24.9x18.66 50 27.965 21.140 34.568 0.996
17.3x13 14 63.420 49.810 75.398 2.471
17.3x13 25 38.171 29.148 46.806 1.384
17.3x13 85 11.621 8.746 14.509 0.407
13.2x8.8 18 40.273 27.473 47.564 1.467
13.2x8.8 35 21.358 14.331 25.539 0.754
13.2x8.8 100 7.552 5.039 9.071 0.264
23.6x15.7 24 52.364 36.224 61.126 1.967
23.6x15.7 50 26.558 17.845 31.651 0.944
22.3x14.9 14 77.070 56.039 87.533 3.186
22.3x14.9 25 48.074 33.188 56.418 1.784
22.3x14.9 85 14.946 10.018 17.931 0.525
8.8x6.6 18 27.473 20.778 33.982 0.978
8.8x6.6 35 14.331 10.773 17.861 0.503
8.8x6.6 100 5.039 3.780 6.296 0.176
"""

#: Thin lens depth of field, H = f^2 / (N c) + f: focal length mm, stop, blur mm, focus m, then H, near, far in m.
#: The blur circle at both limits was traced to the stated blur.
DEPTHS = """
50 8 0.03 10.4667 10.4667 5.2333 inf
50 2.8 0.03 3 29.8119 2.7295 3.3301
35 2.8 0.025 2 17.5350 1.7981 2.2530
25 1.4 0.025 1.5 17.8821 1.3856 1.6351
85 2 0.03 4 120.5017 3.8740 4.1344
24 5.6 0.03 1.5 3.4526 1.0486 2.6339
50 8 0.03 5 10.4667 3.3894 9.5274
35 5.6 0.018 2 12.1878 1.7216 2.3858
18 4 0.02 1 4.0680 0.8048 1.3201
100 4 0.03 1 83.4333 0.9893 1.0109
12.5 2.8 0.015 1 3.7327 0.7902 1.3614
50 1.4 0.03 1.2 59.5738 1.1773 1.2236
"""

#: Sensors and their diagonals in mm, from a table of sensor sizes.
DIAGONALS = [(36.0, 24.0, 43.27), (22.3, 14.9, 26.82), (17.3, 13.0, 21.64), (8.8, 6.6, 11.0)]

#: Crop factors by the diagonal, computed from the same sizes (four-perforation 24.89 x 18.67 mm).
CROPS = [(24.89, 18.67, 1.39), (22.3, 14.9, 1.61), (17.3, 13.0, 2.00), (13.2, 8.8, 2.73)]

#: Hyperfocal distances without the term + f, as two stored calculators and an army lesson print them (m).
CALCULATORS = [(0.050, 8.0, 0.02e-3, 15.625), (0.035, 11.0, 0.03e-3, 3.71212), (0.0508, 8.0, 0.0000508, 20.8 * 0.3048)]


def rows(table: str) -> list[list[str]]:
    return [line.split() for line in table.strip().splitlines()]


@pytest.mark.parametrize("row", rows(ANGLES), ids=" ".join)
def test_angle_of_view(row: list[str]) -> None:
    width, height = (float(side) / 1000 for side in row[0].split("x"))
    focal = float(row[1]) / 1000
    for side, printed in ((width, row[2]), (height, row[3]), (hypot(width, height), row[4])):
        assert lens.field_of_view(side, focal) == pytest.approx(float(printed), abs=0.01)
    assert lens.frame_at(width, focal, 2.0) == pytest.approx(float(row[5]), abs=0.001)


@pytest.mark.parametrize("row", rows(DEPTHS), ids=" ".join)
def test_depth_of_field(row: list[str]) -> None:
    found = lens.focus(float(row[0]) / 1000, float(row[1]), float(row[2]) / 1000, float(row[3]))
    assert found.hyperfocal == pytest.approx(float(row[4]), abs=0.001)
    assert found.near == pytest.approx(float(row[5]), abs=0.001)
    if row[6] == "inf":
        assert found.far > 1e4
    else:
        assert found.far == pytest.approx(float(row[6]), abs=0.001)


@pytest.mark.parametrize(("width", "height", "diagonal"), DIAGONALS)
def test_circle_of_confusion_comes_from_the_diagonal(width: float, height: float, diagonal: float) -> None:
    blur = lens.circle_of_confusion(width / 1000, height / 1000)
    assert blur * 1500 * 1000 == pytest.approx(diagonal, abs=0.01)
    assert lens.covers(diagonal / 1000, width / 1000, height / 1000) == pytest.approx(0.0, abs=1e-5)


@pytest.mark.parametrize(("width", "height", "crop"), CROPS)
def test_crop_factor(width: float, height: float, crop: float) -> None:
    assert lens.crop_factor(width / 1000, height / 1000) == pytest.approx(crop, abs=0.01)


@pytest.mark.parametrize(("focal", "stop", "blur", "printed"), CALCULATORS)
def test_hyperfocal_of_calculators(focal: float, stop: float, blur: float, printed: float) -> None:
    assert lens.hyperfocal(focal, stop, blur) - focal == pytest.approx(printed, rel=0.003)


def test_focused_at_the_hyperfocal_distance() -> None:
    far = lens.hyperfocal(0.05, 8.0, 0.03e-3)
    found = lens.focus(0.05, 8.0, 0.03e-3, far)
    assert found.near == pytest.approx(far / 2, abs=0.001)
    assert found.far == inf
    assert lens.depth_over(found) == inf


@pytest.mark.parametrize(
    ("of_lens", "of_body", "thick"),
    [(45.46, 18.0, 27.46), (46.5, 44.0, 2.5), (44.0, 46.5, -2.5), (17.526, 18.0, -0.474)],
)
def test_adapter_thickness(of_lens: float, of_body: float, thick: float) -> None:
    """Flange distances of a stored shop table; a negative thickness is an adapter that cannot be made without glass."""
    assert lens.adapter_thickness(of_lens / 1000, of_body / 1000) == pytest.approx(thick / 1000)
