"""An order that keeps everybody waiting for an hour or more: the later call that would lose nothing, tried on the plan
itself, and none where it would lose something."""

from __future__ import annotations

import sys
from pathlib import Path

from hotset.order import plan_day, speak

sys.path.insert(0, str(Path(__file__).parent))

from plans import plan_of

PLAN = """
hotset: 1
days: {1: {call: "08:00", wrap: "20:00", load-in: 30 min, wrap-out: 30 min, meal: {takes: 45 min, at: "13:00"}}}
setups:
  first: {takes: 40 min, rig: 20 min}
  then: {takes: 30 min, rig: 10 min, between: FROM-19:00}
"""


def said(text: str) -> str:
    return " ".join(speak(plan_day(plan_of(text), "1")).split())


def test_a_later_call_is_told_and_loses_nothing() -> None:
    text = PLAN.replace("FROM", "16:00")
    before = plan_day(plan_of(text), "1")
    assert before.timeline is not None
    wait = max(s.end - s.start for s in before.timeline.steps if s.kind == "wait")
    assert wait >= 120
    assert before.later == 2 * 8 * 60 + wait // 30 * 30
    clock = f"{before.later // 120:02d}:{before.later % 120 // 2:02d}"
    assert f"a call at {clock} loses nothing, all of this is shot and the wrap is no later." in said(text)
    after = plan_day(plan_of(text.replace('"08:00"', f'"{clock}"')), "1")
    assert after.timeline is not None
    assert set(after.order) == set(before.order)
    assert after.timeline.wrap <= before.timeline.wrap


def test_where_a_later_call_would_lose_something_none_is_told() -> None:
    """What has the morning's hours cannot be shot by those who come later."""
    text = PLAN.replace("FROM", "16:00").replace("rig: 20 min}", "rig: 20 min, between: 08:30-09:40}")
    found = plan_day(plan_of(text), "1")
    assert found.timeline is not None
    assert any(s.kind == "wait" and s.end - s.start >= 120 for s in found.timeline.steps)
    assert found.later is None
    assert "loses nothing" not in said(text)


def test_nothing_is_said_of_short_waits() -> None:
    text = PLAN.replace("FROM", "10:00").replace(', meal: {takes: 45 min, at: "13:00"}', "")
    found = plan_day(plan_of(text), "1")
    assert found.timeline is not None
    assert [s.kind for s in found.timeline.steps].count("wait") <= 1
    assert found.later is None
    assert "loses nothing" not in said(text)
