"""Where a day has little to spare, its order says so: how much, at which setup and for the sake of what."""

from __future__ import annotations

import sys
from pathlib import Path

from hotset.order import plan_day, speak

sys.path.insert(0, str(Path(__file__).parent))

from plans import plan_of

PLAN = """
hotset: 1
days: {1: {call: "08:00", wrap: "20:00", load-in: 30 min, wrap-out: 30 min, HOURS}}
setups:
  first: {takes: TAKES, rig: 20 min, BETWEEN}
  then: {takes: 30 min, rig: 10 min, after: first}
"""


def said(hours: str = "buffer: 0 min", takes: str = "40 min", between: str = "scene-light: any") -> str:
    text = PLAN.replace("HOURS", hours).replace("TAKES", takes).replace("BETWEEN", between)
    if between.startswith("scene"):
        text = text.replace(f", {between}", "")
    return " ".join(speak(plan_day(plan_of(text), "1")).split())


def test_own_hours_that_only_just_hold_are_told_with_the_time_to_spare() -> None:
    """Rolled at 08:50, over at 09:30."""
    told = "Little to spare: 'first' must roll by 09:00, 10 min later than here, to keep its hours (between)."
    assert told in said(between="between: 08:00-09:40")
    assert "Little to spare" not in said(between="between: 08:00-09:45")
    assert "Little to spare" not in said()


def test_a_meal_that_is_only_just_in_time_is_told() -> None:
    """No later than 14:00; the second setup is over at 13:50, or at 13:45."""
    meal = 'meal: {takes: 45 min, at: "14:00"}'
    assert "'then' must roll by 13:30, 10 min later than here, or the meal comes too late" in said(meal, "4 h 20 min")
    assert "Little to spare" not in said(meal, "4 h 15 min")
