"""Colour of light against filter tables and a colour science package."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

import pytest
from hotset.science import colour

FILTERS: dict[str, Any] = json.loads((files("hotset.schemas") / "tables" / "filters.json").read_text("utf-8"))

#: Conversion filters: from and to kelvin by a filmmakers' reference guide, mired by a colour meter's manual.
PUBLISHED = """
80A 3200 5500 -131
80B 3400 5500 -112
80C 3800 5500 -81
80D 4200 5500 -56
85C 5500 3800 81
85 5500 3400 112
85B 5500 3200 131
81 3300 3200 9
81A 3400 3200 18
81B 3500 3200 27
81C 3600 3200 35
81D 3700 3200 42
81EF 3850 3200 52
82 3100 3200 -10
82A 3000 3200 -21
82B 2900 3200 -32
82C 2800 3200 -45
"""

#: Temperature, x and y of a black body (CIE 1931, 1 nm) and of the closed form of Kang 2002, by colour-science 0.4.7.
LOCUS = """
1800 0.549248 0.408224 0.549554 0.408116
2200 0.505629 0.415208 0.505448 0.415209
2400 0.486147 0.414666 0.485678 0.414695
2856 0.447539 0.407429 0.447071 0.407509
3000 0.436934 0.404075 0.436579 0.404174
3400 0.411037 0.393505 0.411012 0.393642
3600 0.399846 0.387910 0.399927 0.388034
4000 0.380442 0.376749 0.380528 0.376734
4300 0.368113 0.368691 0.368063 0.368629
5000 0.345103 0.351610 0.344992 0.351587
5500 0.332436 0.341037 0.332336 0.341039
6000 0.322085 0.331755 0.322016 0.331776
6500 0.313528 0.323630 0.313494 0.323663
8000 0.295188 0.304767 0.295232 0.304806
9000 0.286927 0.295585 0.286989 0.295615
12000 0.271785 0.277564 0.271824 0.277554
"""


def rows(table: str) -> list[list[str]]:
    return [line.split() for line in table.strip().splitlines()]


@pytest.mark.parametrize("row", rows(PUBLISHED), ids=" ".join)
def test_filters(row: list[str]) -> None:
    name, source, target, shift = row[0], float(row[1]), float(row[2]), float(row[3])
    assert colour.mired(target) - colour.mired(source) == pytest.approx(shift, abs=1.0)
    assert FILTERS["camera"]["filters"][name]["mired"] == shift
    assert colour.mired(colour.shifted(source, shift)) == pytest.approx(colour.mired(target), abs=1.0)


@pytest.mark.parametrize("row", rows(LOCUS), ids=" ".join)
def test_locus(row: list[str]) -> None:
    temperature, black_x, black_y, kang_x, kang_y = map(float, row)
    assert colour.locus(temperature) == pytest.approx((kang_x, kang_y), abs=2e-6)
    assert colour.locus(temperature) == pytest.approx((black_x, black_y), abs=0.0006)


#: Source and balance (K), linear sRGB and hex with the Bradford transform from the spectra of black bodies,
#: by colour-science 0.4.7.
SWATCHES = """
10000 4000 0.478 1.058 2.538 #78adff
2700 4000 1.493 0.881 0.414 #ffca90
3200 4000 1.252 0.944 0.644 #ffe1be
5600 4000 0.731 1.045 1.596 #b4d3ff
5600 3200 0.480 1.095 2.400 #7cb4ff
3200 5600 1.536 0.894 0.379 #ffc988
2700 3200 1.237 0.938 0.662 #ffe2c1
1900 3200 1.885 0.741 0.177 #ffa856
4300 4300 1 1 1 #ffffff
"""


@pytest.mark.parametrize("row", rows(SWATCHES), ids=" ".join)
def test_swatches(row: list[str]) -> None:
    source, balance = float(row[0]), float(row[1])
    wanted, found = row[5], colour.swatch(source, balance)
    assert all(abs(int(found[i : i + 2], 16) - int(wanted[i : i + 2], 16)) <= 2 for i in (1, 3, 5))
    assert colour.as_seen(source, balance) == pytest.approx(tuple(map(float, row[2:5])), abs=0.02)


@pytest.mark.parametrize(("source", "shift"), [(10000, -150.0), (2700, 120.4)])
def test_mired_differences_at_a_balance_of_4000(source: float, shift: float) -> None:
    assert colour.difference(source, 4000) == pytest.approx(shift, abs=0.1)


@pytest.mark.parametrize(("source", "shift", "result"), [(5600, 131, 3230.3), (3200, -131, 5509.6)])
def test_a_filter_moves_the_temperature(source: float, shift: float, result: float) -> None:
    assert colour.shifted(source, shift) == pytest.approx(result, abs=0.1)
