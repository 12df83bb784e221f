"""Planted faults are found: a floor for every group, measured once and held."""

from __future__ import annotations

import pytest

from .measure import Tally, measured

FLOORS = {
    "a thing is gone": 0.98, "changeovers": 0.95, "data": 0.95, "details": 0.95, "grip": 0.95, "hands": 0.95,
    "hours": 0.95, "light": 0.85, "links": 0.95, "loans": 0.98, "optics": 0.98, "orders": 0.95, "papers": 0.95,
    "people": 0.95, "power": 0.9, "reading": 0.95, "slips": 0.99, "sound": 0.95, "space": 0.95, "stock": 0.95,
    "too few of a thing": 0.95, "windows": 0.9,
}  # fmt: skip
"""Group -> the least share of its faults that must be found by the right rule at the right line."""
MOST_OF_ALL = 0.99


@pytest.fixture(scope="module")
def tallies() -> dict[str, Tally]:
    return measured()


def test_there_are_enough_of_them(tallies: dict[str, Tally]) -> None:
    assert sum(tally.planted for tally in tallies.values()) >= 1000
    assert sum(tally.planted for group, tally in tallies.items() if group not in ("slips", "reading")) >= 500


def test_nearly_all_are_found(tallies: dict[str, Tally]) -> None:
    missed = [words for tally in tallies.values() for words in tally.missed]
    share = sum(tally.found for tally in tallies.values()) / sum(tally.planted for tally in tallies.values())
    assert share >= MOST_OF_ALL, "\n".join(missed)


@pytest.mark.parametrize("group", sorted(FLOORS))
def test_no_group_falls_below_its_floor(group: str, tallies: dict[str, Tally]) -> None:
    tally = tallies[group]
    assert tally.found / tally.planted >= FLOORS[group], "\n".join(tally.missed)


def test_every_group_has_a_floor(tallies: dict[str, Tally]) -> None:
    assert set(tallies) == set(FLOORS)
