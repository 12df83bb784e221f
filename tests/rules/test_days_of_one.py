"""Long days and short nights of those whose own hours differ from the crew's, and two parts in one picture."""

from __future__ import annotations

from pathlib import Path

import pytest

from .plans import conflicts

PLAN = """
hotset: 1
days:
  1: {date: 2026-11-14, call: 08:00, load-in: 30 min, wrap-out: 30 min, MORE order: [wide, meal, close]}
  2: {date: 2026-11-15, call: 07:00, load-in: 30 min, wrap-out: 30 min, order: [late]}
people:
  olek: {works: gaffer, OLEK}
  mara: {plays: CLERK, before: CHAIR}
gear: {lamp: {kind: light, ERRAND}}
timings: {meal: 30 min}
setups:
  wide: {day: 1, takes: 5 h, rig: 0 min, cast: [mara]}
  close: {day: 1, takes: 5 h, rig: 0 min, cast: [mara]}
  late: {day: 2, takes: 1 h, rig: 0 min, cast: [mara]}
"""
# day 1: 08:00-19:30, 11 h 30 min; mara from before 08:30 to 19:00; the night: 11 h 30 min, mara's takes at 07:30


def rules(tmp_path: Path, **said: str) -> dict[str, str]:
    plain = {"MORE": "", "OLEK": "name: Olek", "CHAIR": "30 min", "ERRAND": "weight: 2 kg"}
    text = PLAN
    for key, words in (plain | said).items():
        text = text.replace(key, words)
    return {f.rule: f.sentence for f in conflicts(text, tmp_path) if f.rule in ("long-day", "rest-short")}


def test_the_hours_of_the_crew_are_in_order(tmp_path: Path) -> None:
    assert rules(tmp_path) == {}


def test_a_chair_makes_a_day_long_and_a_night_short(tmp_path: Path) -> None:
    # 75 min in the chair: 07:15 to 19:00, and 06:15 the day after: 11 h 15 min
    assert rules(tmp_path, CHAIR="75 min") == {}
    # 95 min: 06:55 to 19:00 is 12 h 5 min; 05:55 the day after is 10 h 55 min
    found = rules(tmp_path, CHAIR="95 min")
    assert "day 1 of 'mara' lasts 12 h 5 min, from 06:55 to 19:00" in found["long-day"]
    assert "day 1 of 'mara' ends at 19:00 and day 2 begins at 05:55" in found["rest-short"]
    assert "10 h 55 min of rest, less than 11 h" in found["rest-short"]


@pytest.mark.parametrize(
    ("errand", "long", "short"),
    [
        ("due: 2026-11-14 23:00, return: {by: olek, takes: 20 min}", False, False),  # at once: 19:30 to 19:50
        ("due: 2026-11-14 23:00, return: {by: olek, takes: 40 min}", True, True),
        ("fetch: {by: olek, at: 2026-11-15 05:00, takes: 40 min}", False, True),
        ("fetch: {by: olek, at: 2026-11-14 07:00, takes: 40 min}", True, False),
        ("fetch: {by: mara, at: 2026-11-13 07:00, takes: 4 h}", False, False),
    ],
)
def test_errands_are_work(errand: str, long: bool, short: bool, tmp_path: Path) -> None:
    found = rules(tmp_path, ERRAND=errand)
    assert ("long-day" in found, "rest-short" in found) == (long, short)


def test_the_limit_that_was_agreed_holds_for_one_as_well(tmp_path: Path) -> None:
    hours = {"MORE": "hours: {longest: 13 h},", "CHAIR": "95 min"}
    assert "long-day" not in rules(tmp_path, **hours)
    hours = {"MORE": "hours: {longest: 11 h 30 min},", "CHAIR": "75 min"}
    assert "more than 11 h 30 min" in rules(tmp_path, **hours)["long-day"]


TWINS = """
hotset: 1
people: {mara: {plays: [ANNA, BERTA]}, kim: {plays: GHOST}}
setups: {wide: {takes: 5 min}}
scenes: {4: {characters: [ANNA, BERTA], shots: {4A: {setup: wide, SHOT}}}}
"""


@pytest.mark.parametrize(
    ("shot", "speaks"),
    [
        ("size: WS", True),
        ("cast: [ANNA, BERTA]", True),
        ("cast: [ANNA]", False),
        ("cast: {ANNA: mara, BERTA: kim}", False),
        ("vfx: split screen", False),
    ],
)
def test_one_person_is_once_in_a_picture(shot: str, speaks: bool, tmp_path: Path) -> None:
    found = [f for f in conflicts(TWINS.replace("SHOT", shot), tmp_path) if f.rule == "person-in-two-places"]
    assert bool(found) == speaks
    assert all("'mara' plays ANNA and BERTA, and both are in '4A'" in f.sentence for f in found)
