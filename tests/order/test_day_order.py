"""A plan's day put in order: found, proven, explained, said, written back; the same in every process."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from hotset.facts.hours import full_minute
from hotset.facts.timeline import replay
from hotset.order import plan_day, speak, written
from hotset.order.explain import WayOut, Wish, explain, granted
from hotset.order.handout import hand_out
from hotset.order.solve import feasible
from hotset.plan import decode
from hotset.source import read

sys.path.insert(0, str(Path(__file__).parent))

from plans import HEAD, ordered, plan_of, setups

EXAMPLES = Path(__file__).parents[2] / "examples"
ROOMS = (
    "hall-a: {set: hall, takes: 20 min}",
    "loft-a: {set: loft, takes: 20 min}",
    "hall-b: {set: hall, takes: 20 min}",
    "loft-b: {set: loft, takes: 20 min}",
)


@pytest.mark.parametrize("example", ["last-boat", "two-days-outside", "smallest"])
def test_the_examples_are_proven_and_replay_to_the_same_wrap(example: str) -> None:
    plan, _ = decode(read([str(EXAMPLES / example / "plan.yaml")]))
    assert plan is not None
    for day in plan.days:
        result = plan_day(plan, day)
        assert result.timeline is not None
        assert all(p.proven for p in result.answer.parts)
        assert result.timeline.wrap == full_minute(result.answer.parts[0].value)
        assert replay(plan, day, result.order).steps == result.timeline.steps


def test_rooms_are_shot_one_after_the_other() -> None:
    result = ordered(setups(*ROOMS))
    assert result.order == ("hall-a", "hall-b", "loft-a", "loft-b")


def test_what_comes_before_comes_before() -> None:
    result = ordered(setups(*ROOMS[:3], "loft-b: {set: loft, takes: 20 min, before: hall-a}"))
    assert result.order == ("loft-a", "loft-b", "hall-a", "hall-b")


def test_a_shot_that_follows_another_moves_its_setup() -> None:
    text = setups("one: {takes: 5 min}", "two: {takes: 5 min}").replace(
        "scenes: {}",
        "scenes: {1: {shots: {1A: {setup: one, takes: 5 min, after: 1B}, 1B: {setup: two, takes: 5 min}}}}",
    )
    assert ordered(text).order == ("two", "one")


def test_an_actor_who_comes_late_is_shot_late() -> None:
    text = setups("one: {takes: 20 min, cast: [CLERK]}", "two: {takes: 20 min}").replace(
        "mara: {plays: CLERK}", "mara: {plays: CLERK, here: 10:00-18:00}"
    )
    result = ordered(text)
    assert result.order == ("two", "one")
    assert result.timeline is not None
    first = result.timeline.shooting("one")
    assert first is not None
    assert first.start == 10 * 120


def test_the_meal_comes_within_six_hours_though_nobody_wrote_it() -> None:
    result = ordered(setups(*(f"s{k}: {{takes: 60 min, rig: 30 min}}" for k in range(5))))
    assert result.order.count("meal") == 1
    assert result.timeline is not None
    meal = next(s for s in result.timeline.steps if s.kind == "meal")
    assert meal.start - result.timeline.call <= 6 * 120
    assert result.timeline.wrap - meal.end <= 6 * 120
    assert "meal 30 min, at most six hours after the call" in result.timeline.typical


def test_wants_go_before_musts_do() -> None:
    text = setups(
        "want: {takes: 60 min, rig: 10 min, priority: want}",
        "must: {takes: 60 min, rig: 10 min}",
        "extra: {takes: 20 min, rig: 10 min, priority: if-time}",
    ).replace('wrap: "20:00"', 'wrap: "10:20"')
    result = ordered(text)
    assert result.order == ("must",)
    assert result.dropped == ("want", "extra")
    assert "Left out for want of time: 'want', 'extra'" in speak(result)
    assert ordered(text.replace('"10:20"', '"11:00"')).dropped == ("want",)
    assert ordered(text.replace('"10:20"', '"11:20"')).dropped == ("extra",)


def test_too_many_takes_are_told_by_arithmetic() -> None:
    text = setups("one: {takes: 60 min, rig: 10 min}", "two: {takes: 60 min, rig: 10 min}")
    result = ordered(text.replace('wrap: "20:00"', 'wrap: "10:50"'))
    assert result.order == ()
    clash = result.clash
    assert clash is not None
    assert clash.sum == (280, 220, (0, 1), 17 * 60, 1240)
    assert clash.wishes == (Wish("must", 0), Wish("must", 1), Wish("wrap"))
    assert WayOut("wrap", half_minutes=60) in clash.ways_out
    said = " ".join(speak(result).split())
    assert "Too much by 30 min: 'one', 'two' take 140 min with their rigging, and there are 110 min" in said
    assert "wrap 30 min later, at 11:20" in said


def test_windows_that_clash_give_exactly_their_set() -> None:
    text = setups(
        "one: {takes: 40 min, rig: 5 min, between: 09:00-10:00}",
        "two: {takes: 40 min, rig: 5 min, between: 09:00-10:00}",
        "three: {takes: 40 min, rig: 5 min}",
    )
    result = ordered(text)
    clash = result.clash
    assert clash is not None
    assert clash.sure
    assert clash.wishes == (Wish("must", 0), Wish("must", 1), Wish("window", 0, 0), Wish("window", 1, 0))
    for wish in clash.wishes:
        rest = [w for w in clash.wishes if w != wish]
        assert feasible(granted(result.day.day, rest))[0] is True
    assert feasible(granted(result.day.day, list(clash.wishes)))[0] is False
    assert "'two' only between its hours, 09:00-10:00" in speak(result)


def test_an_order_that_bites_its_tail_is_named() -> None:
    text = setups("one: {takes: 5 min, after: two}", "two: {takes: 5 min, after: one}", "three: {takes: 5 min}")
    clash = ordered(text).clash
    assert clash is not None
    assert {w.kind for w in clash.wishes} == {"must", "before"}
    assert len([w for w in clash.wishes if w.kind == "before"]) == 2


def test_two_clashes_at_once_are_given_up_together() -> None:
    text = setups(*ROOMS[:2], "dawn: {takes: 30 min, between: 08:00-09:00}").replace('wrap: "20:00"', 'wrap: "10:30"')
    result = ordered(text)
    assert result.clash is not None
    elsewhere, given_up = result.clash.ways_out
    assert elsewhere == WayOut("together", (Wish("must", 0), Wish("must", 2)))
    assert given_up == WayOut("together", (Wish("window", 2, 0), Wish("wrap")), 140)
    assert "take 'hall-a', 'dawn' to another day" in speak(result)
    day, asked = result.day.day, [Wish("must", 0), Wish("must", 1), Wish("must", 2), Wish("meals")]
    assert feasible(granted(day, asked))[0] is True
    assert feasible(granted(day, [*asked, Wish("wrap")]))[0] is False
    assert "all of these: shoot 'dawn' at other hours (between); wrap" in " ".join(speak(result).split())


def test_single_ways_out_are_tried_first() -> None:
    text = setups(*ROOMS[:2]).replace('wrap: "20:00"', 'wrap: "10:30"')
    clash = ordered(text).clash
    assert clash is not None
    assert clash.ways_out[:2] == (WayOut("wrap", half_minutes=50), WayOut("call", half_minutes=50))
    assert clash == explain(ordered(text).day.day)


def test_a_limit_that_is_too_small_is_said_and_bounded() -> None:
    lamps = [
        f"s{k}: {{set: {'hall' if k % 2 else 'loft'}, takes: {5 + k} min, after: {f's{k - 3}' if k > 3 else '[]'}, "
        f"lights: {{a: {{lamp: pair, at: [{k % 4} m, 1 m]}}, b: {{lamp: lamp, at: [{k % 3} m, 2 m]}}}}}}"
        for k in range(12)
    ]
    result = ordered(setups(*lamps), limit=15)
    part = result.answer.parts[0]
    assert not part.proven
    assert part.bound <= part.value
    best = ordered(setups(*lamps)).answer.parts[0]
    assert best.proven
    assert part.bound <= best.value <= part.value
    assert "Best found: at most" in speak(result)
    assert "Proven best" not in speak(result)


def test_swaps_tell_what_another_order_costs() -> None:
    result = ordered(setups(*ROOMS))
    turned = {s.setup: s for s in result.swaps}
    assert turned["hall-b"].later == 0
    assert turned["loft-a"].later == 60  # two more room changes of 15 min
    assert "before 'hall-b': wraps 30 min later" in speak(result)


def test_the_agreed_order_is_compared() -> None:
    text = setups(*ROOMS).replace("load-in: 30 min", "load-in: 30 min, order: [hall-a, loft-a, hall-b, loft-b]")
    result = ordered(text)
    assert result.agreed is not None
    assert result.agreed.later == 60
    assert "The agreed order wraps at 13:05, 30 min later." in speak(result)


def test_words_fit_their_width() -> None:
    plan, _ = decode(read([str(EXAMPLES / "last-boat" / "plan.yaml")]))
    assert plan is not None
    for width in (80, 60):
        assert max(len(line) for line in speak(plan_day(plan, "1"), width).splitlines()) <= width


def test_writing_back_changes_nothing_but_the_order() -> None:
    text = setups(*ROOMS)
    plan = plan_of(text)
    _, new = written(plan, "1", ("hall-a", "meal", "loft-a"))
    assert new == text.replace("wrap-out: 30 min}", "wrap-out: 30 min, order: [hall-a, meal, loft-a]}", 1)


def test_a_list_with_comments_keeps_them_with_their_entries() -> None:
    listed = "\n".join(
        [
            "days:",
            "  1:",
            '    call: "08:00"',
            "    order:   # agreed",
            "      - loft-a  # upstairs first",
            "      - hall-a",
        ]
    )
    text = HEAD.replace(HEAD.splitlines()[3], listed) + "setups: {hall-a: {takes: 5 min}, loft-a: {takes: 5 min}}\n"
    _, new = written(plan_of(text), "1", ("hall-a", "meal", "loft-a"))
    assert "    order:   # agreed\n      - hall-a\n      - meal\n      - loft-a  # upstairs first\n" in new


def test_tasks_are_handed_out_longest_first() -> None:
    line = replay(plan_of(setups("one: {set: hall, takes: 5 min, windows: {bay: {black-out: cloth}}}")), "1", ["one"])
    step = line.preparing("one")
    assert step is not None
    assert hand_out(step.tasks, 2)[0] == 24
    assert hand_out(step.tasks, 1)[0] == 48


def test_two_processes_and_two_hash_seeds_say_the_same() -> None:
    said = set()
    for seed in ("1", "2"):
        command = [sys.executable, "-m", "hotset", "order", str(EXAMPLES / "last-boat" / "plan.yaml")]
        done = subprocess.run(command, capture_output=True, env=os.environ | {"PYTHONHASHSEED": seed}, check=True)
        said.add(done.stdout)
    assert len(said) == 1
