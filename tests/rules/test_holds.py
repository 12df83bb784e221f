"""What is advised where somebody waits for hours: each way out is followed, and the finding is gone."""

from __future__ import annotations

from pathlib import Path

from .plans import compiled

PLAN = """\
hotset: 1
days:
  1:
    date: 2027-03-06
    call: 08:00
    load-in: 0 min
    meal: {takes: 45 min, at: 11:30}
    order: [wide, insert, meal, close]
people: {mara: {plays: CLERK}}
setups:
  wide: {rig: 0 min, takes: 30 min, cast: [mara]}
  insert: {rig: 0 min, takes: 180 min, cast: []}
  close: {rig: 0 min, takes: 30 min, cast: [mara], between: 12:30-18:00}
"""


def holds(text: str, folder: Path) -> list[str]:
    return [f.sentence for f in compiled(text, folder).findings if f.rule == "long-hold"]


def test_the_meal_is_not_counted_and_that_is_said(tmp_path: Path) -> None:
    """From 08:30 to 12:30 are 4 h, 45 min of them the meal."""
    assert holds(PLAN, tmp_path) == [
        "'mara' waits 3 h 15 min, the meal not counted, between 'wide', which ends at 08:30, "
        "and 'close' at 12:30 on day 1"
    ]


def test_bringing_the_two_together_ends_the_wait(tmp_path: Path) -> None:
    assert holds(PLAN.replace("[wide, insert, meal, close]", "[insert, meal, wide, close]"), tmp_path) == []


def test_accepting_it_as_it_is_written_ends_it(tmp_path: Path) -> None:
    (found,) = (f for f in compiled(PLAN, tmp_path).findings if f.rule == "long-hold")
    assert any("'rule: long-hold' and 'at: days.1.order'" in way for way in found.ways_out)
    risk = "{rule: long-hold, at: days.1.order, because: she goes home in between, agreed-by: mara}"
    text = PLAN + f"accepted: [{risk}]\n"
    assert holds(text, tmp_path) == []
    assert not [f for f in compiled(text, tmp_path).findings if f.rule == "accepted-nothing"]


def test_a_call_is_not_offered_since_the_first_of_the_two_would_wait_for_it(tmp_path: Path) -> None:
    (found,) = (f for f in compiled(PLAN, tmp_path).findings if f.rule == "long-hold")
    assert not any("'call:'" in way for way in found.ways_out)
    later = compiled(PLAN.replace("{plays: CLERK}", '{plays: CLERK, call: "12:00"}'), tmp_path)
    assert later.facts is not None
    wide = later.facts.timelines["1"].shooting("wide")
    assert wide is not None
    assert wide.start == 12 * 120
