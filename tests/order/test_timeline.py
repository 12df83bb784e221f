"""The day minute by minute: what keeps its place costs nothing, the nearer of two alike serves, nothing is lost."""

from __future__ import annotations

import sys
from pathlib import Path

from hotset.facts.timeline import Timeline, replay, timeline

sys.path.insert(0, str(Path(__file__).parent))

from plans import HEAD, plan_of, setups

LIT = "lights: {key: {lamp: lamp, at: [1 m, 1 m]}}"


def run(text: str, *order: str) -> Timeline:
    return replay(plan_of(text), "1", order)


def minutes_of_rigging(line: Timeline, setup: str) -> float:
    step = line.preparing(setup)
    return (step.end - step.start) / 2 if step else 0.0


def test_a_lamp_used_in_the_first_and_third_setup_costs_nothing_at_the_third() -> None:
    text = setups(
        f"one: {{set: hall, takes: 10 min, {LIT}}}",
        "two: {set: hall, takes: 10 min, practicals: {glow: {at: [2 m, 2 m]}}}",
        f"three: {{set: hall, takes: 10 min, {LIT}}}",
    )
    line = run(text, "one", "two", "three")
    assert minutes_of_rigging(line, "one") == 6.0
    assert minutes_of_rigging(line, "two") == 2.0
    assert line.preparing("three") is None


def test_cloth_stays_over_a_setup_in_another_room() -> None:
    dark = "windows: {bay: {black-out: cloth}}"
    text = setups(
        f"one: {{set: hall, takes: 10 min, {dark}}}",
        "two: {set: loft, takes: 10 min, practicals: {glow: {at: [2 m, 2 m]}}}",
        f"three: {{set: hall, takes: 10 min, {dark}}}",
    )
    line = run(text, "one", "two", "three")
    assert minutes_of_rigging(line, "one") == 24.0  # 12 min for two people, and there is one rigger
    assert line.preparing("three") is None
    standing = line.standing_at(line.steps[-1].start)
    assert [s.piece for s in standing] == ["window house/hall/bay", "practical house/loft/glow"]


def test_a_setup_without_the_cloth_has_it_taken_down() -> None:
    text = setups(
        "one: {set: hall, takes: 10 min, windows: {bay: {black-out: cloth}}}",
        f"two: {{set: hall, takes: 10 min, {LIT}}}",
    )
    step = run(text, "one", "two").preparing("two")
    assert step is not None
    done = {t.piece: [a for a, _, _ in t.actions] for t in step.tasks}
    assert done == {"lamp": ["lamp"], "window house/hall/bay": ["open-window"]}


def test_of_two_alike_the_one_that_need_not_travel_serves() -> None:
    text = setups(
        "one: {set: hall, takes: 10 min, lights: {a: {lamp: pair, at: [1 m, 1 m]}}}",
        "two: {set: loft, takes: 10 min, lights: {a: {lamp: pair, at: [1 m, 1 m]}}}",
        "three: {set: hall, takes: 10 min, lights: {a: {lamp: pair, at: [1 m, 1 m], colour: 3200 K}}}",
    )
    line = run(text, "one", "two", "three")
    step = line.preparing("three")
    assert step is not None
    assert [(t.name, t.half_minutes) for t in step.tasks] == [("pair 1", 1)]


def test_what_would_be_in_the_picture_is_taken_away() -> None:
    camera = "camera: {body: eye, lens: glass, at: [0.4 m, 2 m], height: 1.5 m, aim: [4 m, 2 m]}"
    text = setups(
        "one: {set: hall, takes: 10 min, lights: {a: {lamp: lamp, at: [3 m, 2 m]}}}",
        f"two: {{set: hall, takes: 10 min, {camera}}}",
    ).replace(
        "stock:",
        "  eye: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}\n  glass: {kind: lens, focal: 35 mm}\nstock:",
    )
    step = run(text, "one", "two").preparing("two")
    assert step is not None
    assert ("lamp", "strike") in [(t.piece, a) for t in step.tasks for a, _, _ in t.actions]


def test_nothing_known_costs_the_typical_half_hour_and_says_so() -> None:
    line = run(setups("one: {takes: 10 min}"), "one")
    step = line.preparing("one")
    assert step is not None
    assert step.end - step.start == 60
    assert step.typical == ("'one': 30 min of rigging (the plan says nothing of its rig)",)


def test_a_stated_rigging_time_is_the_whole_of_it() -> None:
    line = run(setups(f"one: {{set: hall, takes: 10 min, rig: 7 min, {LIT}}}"), "one")
    assert minutes_of_rigging(line, "one") == 7.0
    assert not line.typical


def test_timings_of_the_plan_override_the_table() -> None:
    line = run(setups(f"one: {{set: hall, takes: 10 min, {LIT}}}") + "timings: {lamp: 9 min}\n", "one")
    assert minutes_of_rigging(line, "one") == 9.0


def test_steps_follow_each_other_from_call_to_wrap() -> None:
    text = setups(
        f"one: {{set: hall, takes: 10 min, {LIT}}}", "two: {set: loft, takes: 5 min, needs: dark, rig: 1 min}"
    )
    line = run(text, "one", "meal", "two", "room-tone")
    assert [s.kind for s in line.steps] == [
        "load-in", "prepare", "setup", "wait", "meal", "move", "prepare", "wait", "setup", "room-tone", "wrap",
    ]  # fmt: skip
    meal = next(s for s in line.steps if s.kind == "meal")
    assert line.wrap - meal.end <= 6 * 120  # moved into waiting that comes anyway, as late as it must
    assert meal.start - line.call == 3 * 120  # and no sooner than half the longest time without
    assert all(a.end == b.start for a, b in zip(line.steps, line.steps[1:], strict=False))
    assert (line.steps[0].start, line.steps[-1].end) == (line.call, line.wrap)
    shooting = line.shooting("two")
    assert shooting is not None
    # Dark begins at the end of civil twilight, 16:44 on 2026-11-14 at 55.01 N, 1.44 W (own reckoning, checked
    # against published tables in the tests of the sun).
    assert shooting.start == 16 * 120 + 45 * 2


def test_a_missed_window_is_marked_not_refused() -> None:
    line = run(setups("one: {takes: 10 min, rig: 1 min, between: 06:00-07:00}"), "one")
    step = line.shooting("one")
    assert step is not None
    assert step.missed


def test_unknown_entries_and_what_is_left_out_are_told() -> None:
    line = run(setups("one: {takes: 10 min}", "two: {takes: 10 min}"), "one", "on")
    assert line.unknown == ("on",)
    assert line.left_out == ("two",)


def test_a_day_without_an_order_has_no_timeline() -> None:
    plan = plan_of(HEAD + "setups: {one: {takes: 10 min}}\n")
    assert timeline(plan, "1") is None


def test_more_lamps_than_there_are_still_give_a_day() -> None:
    both = "lights: {a: {lamp: lamp, at: [1 m, 1 m]}, b: {lamp: lamp, at: [2 m, 1 m]}}"
    line = run(setups(f"one: {{set: hall, takes: 10 min, {both}}}"), "one")
    assert line.shooting("one") is not None
