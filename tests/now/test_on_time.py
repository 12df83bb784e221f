"""With nothing late, what is left of the agreed day comes back as it was agreed, at every minute of it."""

from __future__ import annotations

import pytest
from hotset.now import answer, lines

from .lived import agreed, ask, clock, example, log_of, perfect, plan_of

DAYS = [("last-boat", "1"), ("two-days-outside", "1"), ("two-days-outside", "2")]


@pytest.mark.parametrize("silent", [False, True])
@pytest.mark.parametrize(("name", "day"), DAYS)
def test_the_rest_of_the_agreed_day_comes_back(name: str, day: str, silent: bool) -> None:
    plan = example(name)
    line = agreed(plan, day)
    times = sorted({s.start for s in line.steps} | {(s.start + s.end) // 2 for s in line.steps})
    for at in times[silent::2]:
        log = perfect(plan, at, day)
        if silent:
            log = "".join(f"{row}\n" for row in log.splitlines() if not row.startswith("rigging"))
        found = answer(plan, log_of(plan, log, day), at)
        rest = {s.setup: (s.start, s.end) for s in line.steps if s.kind == "setup" and s.start > at}
        coming = {c.name: (c.start, c.end) for c in found.coming if c.name in rest}
        # A log has full minutes and the plan half ones: what is agreed comes back to the minute.
        assert coming.keys() == rest.keys(), clock(at)
        assert all(abs(a - b) <= 2 for name in rest for a, b in zip(coming[name], rest[name], strict=True)), clock(at)
        assert (found.behind, found.way.turned, found.way.over, found.choice) == (0, 0, 0, None), clock(at)
        assert abs(found.way.timeline.wrap - line.wrap) <= 2


@pytest.mark.parametrize("late", [20, 60])
def test_what_is_late_is_late_by_as_much_or_caught_up_while_it_would_have_waited(late: int) -> None:
    plan = example("last-boat")
    line = agreed(plan)
    for at in [s.end for s in line.steps if s.kind == "setup"][::2]:
        found = answer(plan, log_of(plan, perfect(plan, at + late, late=late)), at + late)
        waiting = sum(s.end - s.start for s in line.steps if s.kind == "wait" and s.start >= at)
        assert found.behind is not None
        if found.way.lost:
            continue
        assert late - waiting <= found.behind
        assert found.behind <= late or found.way.turned > 0


ROOMS = """
hotset: 1
title: Invented
days: {1: {call: "08:00", wrap: "14:00", load-in: 30 min, wrap-out: 30 min, buffer: 30 min, order: [a, b, meal, c],
  meal: {takes: 30 min, between: 09:00-13:00}}}
setups:
  a: {takes: 40 min, rig: 10 min}
  b: {takes: 40 min, rig: 10 min}
  c: {takes: 40 min, rig: 20 min}
"""


def test_what_goes_on_is_told() -> None:
    plan = plan_of(ROOMS)
    first = ask(plan, "", "08:10")
    assert first.rest.going.pause == "load-in"
    said = [words for _, words in lines(first)]
    assert said[0] == (
        "day 1 at 08:10: as agreed, everybody is out at 12:10, 1 h 50 min before the latest wrap (14:00), "
        "the 30 min of buffer among them"
    )
    assert "next: 'a', rolling by 08:40, 10:30 at the latest" in said
    rolling = ask(plan, "rolled a 08:40\n", "08:55")
    assert "now: 'a' is rolling since 08:40, 25 min to go" in [words for _, words in lines(rolling)]
    implied = ask(plan, "rolled a 08:40\ndone a 09:20\n", "09:25")
    assert "now: 'b' is being prepared since 09:20 (the log is silent; by the agreed order), 5 min to go" in [
        words for _, words in lines(implied)
    ]
    told = ask(plan, "rolled a 08:40\ndone a 09:20\nrigging c 09:20\n", "09:25")
    assert told.way.order == ("c", "b", "meal")


def test_the_latest_start_is_the_one_with_which_everything_still_fits() -> None:
    plan = plan_of(ROOMS)
    found = ask(plan, "rolled a 08:40\ndone a 09:20\n", "09:20")
    latest = {c.name: c.latest for c in found.coming}
    # Out by 14:00: packing from 13:30, c from 12:50, its rigging from 12:30, the meal from 12:00, b from 11:20.
    assert {name: clock(at) for name, at in latest.items() if at is not None} == {
        "b": "11:20", "meal": "12:00", "c": "12:50",
    }  # fmt: skip
    late = ask(plan, "rolled a 08:40\ndone a 09:20\nready b 09:30\nrolled b 11:20\n", "11:20")
    assert (late.way.over, late.way.timeline.wrap) == (0, 14 * 120)
    assert ask(plan, "done a 09:20\nrolled b 11:21\n", "11:21").way.over == 2


def test_a_meal_that_is_eaten_is_not_eaten_again_and_one_that_goes_on_is_waited_for() -> None:
    plan = plan_of(ROOMS)
    log = "done a 09:20\ndone b 10:10\nmeal 10:10\n"
    eating = ask(plan, log, "10:20")
    assert [c.name for c in eating.coming] == ["c"]
    assert clock(eating.coming[0].start) == "11:00"
    assert eating.rest.going.pause == "meal"
    over = ask(plan, log + "meal over 10:30\n", "10:30")
    assert clock(over.coming[0].start) == "10:50"


def test_a_day_that_is_wrapped_has_nothing_left() -> None:
    plan = plan_of(ROOMS)
    found = ask(plan, "done a 09:20\ndone b 10:10\nmeal 10:10\nmeal over 10:40\ndone c 11:40\nwrap 12:25\n", "12:30")
    assert [words for _, words in lines(found)] == [
        "day 1 was wrapped at 12:25, 15 min later than agreed",
        "done: 3 of 3 shots",
    ]


def test_lines_after_the_time_are_left_aside() -> None:
    plan = plan_of(ROOMS)
    log = "rolled a 08:40\ndone a 09:20\nrolled b 09:35\ndone b 10:15\n"
    assert ask(plan, log, "09:20").rest.happened.done == ("a",)
    assert ask(plan, log, "10:15").rest.happened.done == ("a", "b")


def test_again_brings_a_shot_back() -> None:
    plan = plan_of(ROOMS)
    found = ask(plan, "rolled a 08:40\ndone a 09:20\nagain a\nrolled b 09:30\ndone b 10:10\n", "10:10")
    assert [c.name for c in found.coming] == ["a", "meal", "c"]
