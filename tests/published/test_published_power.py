"""Mains and batteries against standards and guides."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

import pytest
from hotset.science import cells, data, power

MAINS: dict[str, Any] = json.loads((files("hotset.schemas") / "tables" / "mains.json").read_text("utf-8"))

#: IEC 60228:2004 class 5, plain copper, ohm per km at 20 C, by section in mm2 (read second hand, two tables agree).
CLASS_5 = [(0.5, 39.0), (0.75, 26.0), (1, 19.5), (1.5, 13.3), (2.5, 7.98), (4, 4.95), (6, 3.3), (10, 1.91), (16, 1.21)]

#: BS 7671 Table 4F3B, mV per ampere and metre of 60 C flexible cable, by section (read second hand).
TABLE_4F3B = [(0.5, 93), (0.75, 62), (1, 46), (1.25, 37), (1.5, 32), (2.5, 19), (4, 12)]

#: BS 7671 Table 4D5 type, fixed cable (read second hand).
TABLE_4D5 = [(1, 44), (1.5, 29), (2.5, 18), (4, 11), (6, 7.3), (10, 4.4)]

#: Section mm2, ohm per km, conductor C, ampere, metres, volts lost by resistance; mV/A/m and volts lost by the table.
DROPS = """
1.5 13.3 20 10 25 6.650 32 8.000
1.5 13.3 60 10 25 7.695 32 8.000
1.5 13.3 70 10 50 15.913 32 16.000
2.5 7.98 20 16 25 6.384 19 7.600
2.5 7.98 60 16 25 7.388 19 7.600
2.5 7.98 60 13 50 12.005 19 12.350
2.5 7.98 70 16 50 15.277 19 15.200
1.0 19.5 60 6 10 2.708 46 2.760
0.75 26.0 60 3 5 0.903 62 0.930
4 4.95 60 25 30 8.592 12 9.000
6 3.3 60 32 30 7.332 - -
2.5 7.98 20 15 30 7.182 19 8.550
16 1.21 60 63 50 8.821 - -
"""


def rows(table: str) -> list[list[str]]:
    return [line.split() for line in table.strip().splitlines()]


@pytest.mark.parametrize(("section", "ohm"), CLASS_5)
def test_conductor_resistances_of_the_standard(section: float, ohm: float) -> None:
    table = MAINS["conductors"]["ohm-per-km"]
    key = power.section_key(section, table)
    assert key is not None
    assert table[key] == ohm
    assert power.conductor_resistance(ohm, 20.0) == pytest.approx(ohm / 1000)


@pytest.mark.parametrize(("section", "millivolt"), TABLE_4F3B)
def test_flexible_cable_of_the_wiring_rules(section: float, millivolt: float) -> None:
    table = MAINS["flexible"]["millivolt"]
    key = power.section_key(section, table)
    assert key is not None
    assert table[key] == millivolt
    assert power.lead_drop(10.0, 25.0, section, table, {}) == pytest.approx(millivolt * 0.25)


@pytest.mark.parametrize(("section", "millivolt"), TABLE_4D5)
def test_fixed_cable_of_the_wiring_rules(section: float, millivolt: float) -> None:
    table = MAINS["fixed"]["millivolt"]
    assert table[power.section_key(section, table)] == millivolt


@pytest.mark.parametrize("row", rows(DROPS), ids=" ".join)
def test_voltage_drop(row: list[str]) -> None:
    _, ohm, celsius, ampere, length, lost = map(float, row[:6])
    assert power.drop(ampere, length, ohm, celsius) == pytest.approx(lost, abs=0.01)
    if row[6] != "-":
        assert power.drop_tabled(ampere, length, float(row[6])) == pytest.approx(float(row[7]), abs=0.01)


@pytest.mark.parametrize(
    ("watt", "volt", "factor", "ampere"), [(2000, 230, 1.0, 8.70), (2000, 230, 0.6, 14.49), (1440, 120, 1.0, 12.0)]
)
def test_current(watt: float, volt: float, factor: float, ampere: float) -> None:
    assert power.current(watt, volt, factor) == pytest.approx(ampere, abs=0.01)


@pytest.mark.parametrize(
    ("ampere", "volt", "share", "watt"),
    [
        (16, 230, 1.0, 3680),
        (10, 230, 1.0, 2300),
        (15, 120, 1.0, 1800),
        (15, 120, 0.8, 1440),
        (20, 120, 0.8, 1920),
        (16, 230, 0.8, 2944),
        (10, 230, 0.8, 1840),
    ],
)
def test_circuits(ampere: float, volt: float, share: float, watt: float) -> None:
    """Rated and continuous load: NEC 210.20(A) asks 1.25 times the continuous load, so 80 %; elsewhere a house
    margin.
    """
    assert power.watts(ampere, volt, share) == pytest.approx(watt)


def test_continuous_rule_at_its_edge() -> None:
    """NEC 210.20(A): rating at least 1.25 x continuous + 1.0 x other."""
    assert power.needed_breaker(12.0, 0.0) == pytest.approx(15.0)
    assert power.needed_breaker(8.0, 5.0) == pytest.approx(15.0)
    at = power.load([4.0, 8.0], 15.0)
    assert (at.over_continuous, at.over_rating) == (False, False)
    above = power.load([4.0, 8.01], 15.0)
    assert (above.over_continuous, above.over_rating) == (True, False)
    assert power.load([15.01], 15.0).over_rating


@pytest.mark.parametrize(("profile", "law"), [("230 V 50 Hz", False), ("120 V 60 Hz", True)])
def test_the_eighty_per_cent_is_law_only_where_it_is(profile: str, law: bool) -> None:
    assert MAINS["profiles"][profile]["continuous"]["law"] is law
    assert MAINS["profiles"][profile]["continuous"]["share"] == 0.8


@pytest.mark.parametrize(("share", "volt"), [("lighting", 6.9), ("other", 11.5)])
def test_voltage_drop_limits(share: str, volt: float) -> None:
    """BS 7671 Appendix 4, Table 4Ab: 3 % for lighting, 5 % for other uses of a public supply at 230 V."""
    assert MAINS["profiles"]["230 V 50 Hz"]["drop"][share] * 230 == pytest.approx(volt)


@pytest.mark.parametrize(
    ("watt_hours", "verdict"),
    [(99.9, "free"), (100.0, "free"), (100.1, "approval"), (160.0, "approval"), (160.1, "refused")],
)
def test_batteries_by_air(watt_hours: float, verdict: str) -> None:
    """Carriers' dangerous goods guides of 2024."""
    rule = MAINS["air-travel"]
    assert power.air_travel(watt_hours, rule["free-watt-hours"], rule["approval-watt-hours"]) == verdict


@pytest.mark.parametrize(("volt", "hours", "energy"), [(14.4, 6.8, 97.9), (14.4, 10.2, 146.9), (26.0, 6.0, 156.0)])
def test_battery_energy(volt: float, hours: float, energy: float) -> None:
    assert cells.energy(volt, hours) == pytest.approx(energy, abs=0.1)


@pytest.mark.parametrize(
    ("rate", "volume"), [(24, 10.8), (50, 22.5), (100, 45), (150, 67.5), (200, 90), (400, 180), (800, 360)]
)
def test_gigabytes_an_hour(rate: float, volume: float) -> None:
    """Mbit/s x 0.45 = GB an hour, GB = 10^9 byte: arithmetic."""
    assert data.gigabytes(rate, 60) == pytest.approx(volume, rel=0.01)


@pytest.mark.parametrize(("card", "rate", "minutes"), [(64, 100, 85.33), (128, 100, 170.67), (64, 400, 21.33)])
def test_minutes_on_a_card(card: float, rate: float, minutes: float) -> None:
    assert data.minutes_on(card, rate) == pytest.approx(minutes, rel=0.01)


def test_gigabytes_and_gibibytes() -> None:
    """128 x 10^9 / 2^30."""
    assert data.gibibytes(128) == pytest.approx(119.21, abs=0.01)


def test_copying_a_card() -> None:
    """128 GB at 90 MB/s take about 24 minutes, verifying doubles it: common practice, no source."""
    assert data.copy_minutes(128, 90, verified=False) == pytest.approx(24, abs=0.5)
    assert data.copy_minutes(128, 90) == pytest.approx(47.4, abs=0.1)
