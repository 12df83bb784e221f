"""Battery stations and tanks: when they are empty, by hand."""

from __future__ import annotations

import pytest
from hotset.science import tanks
from hypothesis import given
from hypothesis import strategies as st


def test_a_station_by_hand() -> None:
    rate = tanks.station_rate(400.0, 1000.0)  # 800 Wh come out: 120 min at 400 W
    assert tanks.dry([(0.0, 300.0, rate)]) == pytest.approx(120.0)
    assert tanks.dry([(0.0, 60.0, rate), (90.0, 180.0, rate)]) == pytest.approx(150.0)
    assert tanks.dry([(0.0, 120.0, rate)]) is None


def test_an_engine_idles() -> None:
    full = tanks.engine_rate(2000.0, 2000.0, 180.0)
    assert tanks.dry([(0.0, 400.0, full)]) == pytest.approx(180.0)
    assert tanks.dry([(0.0, 400.0, full)], fills=2) == pytest.approx(360.0)
    idle = tanks.engine_rate(0.0, 2000.0, 180.0)  # three tenths of the consumption: common practice, no source
    assert tanks.dry([(0.0, 700.0, idle)]) == pytest.approx(600.0)
    assert tanks.engine_rate(9000.0, 2000.0, 180.0) == full


@given(st.lists(st.tuples(st.floats(1, 200), st.floats(0, 0.05)), max_size=8), st.integers(1, 4))
def test_dry_is_when_so_much_is_taken(parts: list[tuple[float, float]], fills: int) -> None:
    spans, now = [], 0.0
    for length, rate in parts:
        spans.append((now, now + length, rate))
        now += length + 3.0
    at = tanks.dry(spans, fills)
    whole = tanks.taken(spans, now)
    assert (at is not None) == (whole > fills + 1e-9) or whole == pytest.approx(fills)
    if at is not None:
        assert tanks.taken(spans, at) == pytest.approx(fills)
