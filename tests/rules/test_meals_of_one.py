"""Meals of those whose own day is another than the crew's."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.findings import Finding

from .plans import conflicts

PLAN = """
hotset: 1
days: {1: {date: 2026-11-14, call: 08:00, load-in: 30 min, wrap-out: 30 min, MORE ORDER}}
people:
  olek: {works: gaffer, OLEK}
  mara: {plays: CLERK, before: 30 min, MARA}
  kim: {plays: GHOST}
timings: {meal: 30 min}
setups:
  wide: {takes: 3 h, rig: 0 min, cast: [WIDE]}
  close: {takes: 4 h, rig: 0 min, cast: [CLOSE]}
  last: {takes: 1 h, rig: 0 min, cast: [LAST]}
"""
# crew 08:00-17:30: wide 08:30-11:30, meal 11:30-12:00, close 12:00-16:00, last 16:00-17:00


def hungry(tmp_path: Path, **said: str) -> list[Finding]:
    plain = {"MORE": "", "MEAL": "", "OLEK": "name: Olek", "MARA": "name: Mara", "WIDE": "mara", "CLOSE": "mara",
             "LAST": "mara"}  # fmt: skip
    text = PLAN.replace("ORDER", "order: [wide, meal, close, MEAL last]")
    for key, words in (plain | said).items():
        text = text.replace(key, words)
    return [f for f in conflicts(text, tmp_path) if f.rule == "meal-late"]


def test_who_keeps_the_hours_of_the_crew_is_fed(tmp_path: Path) -> None:
    assert hungry(tmp_path) == []


def test_who_starts_at_the_meal(tmp_path: Path) -> None:
    # two meals, 11:30 and 16:00; in the chair at 11:30, in front of the camera at 12:00
    said = {"WIDE": "kim", "MEAL": "meal,"}
    assert hungry(tmp_path, **said, MORE="hours: {meal-within: 4 h 30 min},") == []
    (found,) = hungry(tmp_path, **said, MORE="hours: {meal-within: 4 h 15 min},")
    assert "'mara' goes 4 h 30 min without a meal, from their call at 11:30 to the meal at 16:00" in found.sentence
    assert "; the meal at 11:30 is before they are made up" in found.sentence


def test_who_is_made_up_before_the_meal_eats_with_the_others(tmp_path: Path) -> None:
    said = {"WIDE": "kim", "MEAL": "meal,", "MORE": "hours: {meal-within: 4 h 15 min},"}
    assert hungry(tmp_path, **said, MARA='call: "11:00"') == []


def test_who_is_released_before_the_meal(tmp_path: Path) -> None:
    said = {"CLOSE": "kim", "LAST": "kim", "MARA": 'call: "05:00"'}
    (found,) = hungry(tmp_path, **said)
    assert "'mara' goes 6 h 30 min without a meal, from their call at 05:00 to their release at 11:30" in found.sentence


def test_who_is_called_before_the_crew(tmp_path: Path) -> None:
    (found,) = hungry(tmp_path, MARA='call: "05:00"')
    assert "from their call at 05:00 to the meal at 11:30" in found.sentence
    assert found.place.path == "people.mara"


@pytest.mark.parametrize(("leaves", "speaks"), [("14:30", True), ("13:30", False)])
def test_who_is_on_an_errand_while_the_others_eat(leaves: str, speaks: bool, tmp_path: Path) -> None:
    errand = "gear: {lamp: {kind: light, fetch: {by: olek, at: 2026-11-14 11:40, takes: 30 min}}}\npeople:"
    text = PLAN.replace("people:", errand).replace("ORDER", "order: [wide, meal, close, last]")
    for key in ("MORE", "MEAL", "MARA", "WIDE", "CLOSE", "LAST"):
        text = text.replace(key, "kim" if key in ("WIDE", "CLOSE", "LAST") else "name: M" if key == "MARA" else "")
    found = [f for f in conflicts(text.replace("OLEK", f'here: "08:00-{leaves}"'), tmp_path) if f.rule == "meal-late"]
    assert [("; at the meal at 11:30 fetches 'lamp'" in f.sentence) for f in found] == [True] * speaks


def test_what_is_said_of_all_is_not_said_of_one(tmp_path: Path) -> None:
    found = hungry(tmp_path, MORE="hours: {meal-within: 3 h},", OLEK='here: "07:00-17:00"')
    assert {f.place.path for f in found} == {"days.1.order"}
