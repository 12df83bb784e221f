"""The minute by which each setup must roll is reckoned backwards through all that follows."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest
from hotset.documents.gather import shoot_of
from hotset.documents.words import words_for
from hotset.pipeline import compile_plan

EXAMPLES = Path(__file__).parents[2] / "examples"

PLAN = """
hotset: 1
days: {1: {call: 08:00, wrap: 12:00, load-in: 30 min, wrap-out: 30 min, order: [wide, close]}}
people: {mara: {plays: CLERK, here: 07:00-LEAVES}}
setups: {wide: {takes: 1 h, rig: 0 min}, close: {takes: 1 h, rig: 0 min, cast: [CLERK]}}
"""


def latest(names: list[str], text: str = "") -> dict[str, tuple[int, int | None, str]]:
    """Setup -> start, roll-by, what binds it; half-minutes."""
    shoot = shoot_of(compile_plan(names, stdin_text=text.encode() or None), words_for())
    return {s.setup: (s.start, s.latest, s.words) for day in shoot.days for s in day.slots if s.kind == "shoot"}


# By hand: out at 12:00, 30 min of packing, so the last takes end at 11:30 and begin at 10:30; an hour before is 9:30.
# With somebody gone at 10:45 the second setup begins at 9:45 at the latest, the first at 8:45.
@pytest.mark.parametrize(
    ("leaves", "wide", "close", "why"), [("20:00", 1140, 1260, "out by 12:00"), ("10:45", 1050, 1170, "for 'close'")]
)
def test_by_hand(leaves: str, wide: int, close: int, why: str) -> None:
    found = latest(["-"], PLAN.replace("LEAVES", leaves))
    assert found["wide"][1:] == (wide, why)
    assert found["close"][1] == close


@pytest.mark.parametrize("wrap", ["02:00", "26:00"])
def test_a_wrap_after_midnight(wrap: str) -> None:
    """Out at 2 in the night, 30 min of packing: the last takes begin at half past midnight, the first at half past
    eleven."""
    plan = PLAN.replace("call: 08:00, wrap: 12:00", f"call: 18:00, wrap: '{wrap}'")
    plan = plan.replace("07:00-LEAVES", "17:00-29:00")
    found = latest(["-"], plan.replace("order:", "hours: {meal-within: 9 h}, order:"))
    assert found["close"][1:] == (2940, "out by 02:00")
    assert found["wide"][1:] == (2820, "out by 02:00")


def test_the_longest_time_without_a_meal_binds_the_last_setup_too() -> None:
    """By hand: fed at 9:00, so out by 14:00 with five hours between; 30 min of packing and 30 of takes before: 13:00.
    The meal of 30 min before that begins by 12:30, and the first setup rolls by 12:00."""
    plan = PLAN.replace("07:00-LEAVES", "07:00-22:00").replace("wrap: 12:00", "wrap: 22:00")
    plan = plan.replace("load-in: 30 min", "load-in: 0 min").replace("takes: 1 h", "takes: 30 min")
    more = "hours: {meal-within: 5 h}, meal: {takes: 30 min}, order: [wide, meal, close]"
    found = latest(["-"], plan.replace("order: [wide, close]", more))
    assert found["close"][1:] == (13 * 120, "after meal")
    assert found["wide"][1:] == (12 * 120, "after meal")


@pytest.mark.parametrize("name", ["last-boat", "two-days-outside"])
def test_nobody_may_roll_later_than_what_follows_allows(name: str) -> None:
    shoot = shoot_of(compile_plan([str(EXAMPLES / name / "plan.yaml")]), words_for())
    for day in shoot.days:
        slots = [s for s in day.slots if s.kind != "spare"]
        rolls = [(k, s.latest) for k, s in enumerate(slots) if s.kind == "shoot" and s.latest is not None]
        assert rolls
        for (k, first), (n, second) in pairwise(rolls):
            assert first + sum(s.end - s.start for s in slots[k:n]) <= second
        last, due = rolls[-1]
        assert day.day.wrap is not None
        assert due + sum(s.end - s.start for s in slots[last:]) <= day.day.wrap
