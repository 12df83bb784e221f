"""A crew's own minutes out of its logs: true minutes are found again, and too few observations say nothing."""

from __future__ import annotations

import pytest
from hotset.facts.changeover import minutes
from hotset.log import DayLog
from hotset.log.learn import Lessons, learn
from hotset.log.observe import observe
from hotset.plan import Plan

from .lived import log_of, perfect, plan_of

HEAD = """
hotset: 1
title: Invented
days: {1: {call: "08:00", wrap: "20:00", load-in: 30 min, wrap-out: 30 min, order: [ORDER]}}
locations: {house: {sets: {hall: {size: 6 m x 6 m x 3 m}, loft: {size: 6 m x 6 m x 3 m}}}}
people: {gus: {skills: [rig]}}
gear: {lamp: {kind: light}, eye: {kind: camera}, wide: {kind: lens, focal: 24 mm}, long: {kind: lens, focal: 85 mm},
  sticks: {kind: support, moves: [pan]}}
TIMINGS
setups:
"""
NAMES = [f"s{k}" for k in range(12)]


def setup(k: int) -> str:
    """Every setup moves the camera; every second one the lamp too; every third one has another lens; rooms change."""
    room, lens = ("hall", "loft")[k // 3 % 2], ("wide", "long")[k // 3 % 2 if k % 3 else (k // 3 + 1) % 2]
    camera = f"{{body: eye, lens: {lens}, on: sticks, at: [{1 + k % 4} m, 1 m], height: 1.5 m}}"
    lights = f"lights: {{key: {{lamp: lamp, at: [{1 + k // 2 % 4} m, 5 m], role: key}}}}"
    return f"  s{k}: {{set: {room}, takes: {10 + k} min, camera: {camera}, {lights}}}\n"


def day(timings: str = "", order: list[str] = NAMES) -> Plan:
    head = HEAD.replace("ORDER", ", ".join(order)).replace("TIMINGS", f"timings: {timings}" if timings else "")
    return plan_of(head + "".join(setup(k) for k in range(12)))


TRUE = {"lens": 5, "camera-move": 4, "move-lamp": 7, "room": 20, "lamp": 8, "sticks": 5}


def logs(*, silent: bool, true: dict[str, int] = TRUE) -> list[DayLog]:
    """Three days that went as the true minutes say, in three orders."""
    said = "{" + ", ".join(f"{action}: {value} min" for action, value in true.items()) + "}"
    found = []
    for order in (NAMES, NAMES[::-1], NAMES[6:] + NAMES[:6]):
        lived = day(said, order)
        text = perfect(lived, 4000)
        if silent:
            text = "".join(f"{line}\n" for line in text.splitlines() if not line.startswith("rigging"))
        found.append(log_of(lived, text))
    return found


def lessons(found: list[DayLog], plan: Plan | None = None) -> Lessons:
    plan = plan or day()
    return learn(observe(plan, tuple(found)), minutes(plan).likely)


def test_true_minutes_are_found_again() -> None:
    found = lessons(logs(silent=True))
    learned = {one.action: one.half_minutes / 2 for one in found.learned}
    for action in ("lens", "camera-move", "move-lamp", "room", "lamp"):
        assert learned[action] == pytest.approx(TRUE[action], abs=0.5), action


def test_who_is_there_already_has_no_way_to_go() -> None:
    measured = observe(day(), tuple(logs(silent=False)))
    assert measured.changeovers
    assert all(one.move == "" for one in measured.changeovers)
    assert any(one.move == "room" for one in observe(day(), tuple(logs(silent=True))).changeovers)


def test_a_crew_that_works_as_planned_learns_nothing_new() -> None:
    plan = day()
    text = "".join(f"{line}\n" for line in perfect(plan, 4000).splitlines() if not line.startswith("rigging"))
    for one in lessons([log_of(plan, text)]).learned:
        assert one.half_minutes == one.before


def test_twice_as_slow_is_twice_as_long() -> None:
    plan = day()
    slow = {action: 2 * length // 2 for action, length in minutes(plan).likely.items() if action in TRUE}
    for one in lessons(logs(silent=True, true=slow)).learned:
        assert one.half_minutes == pytest.approx(2 * one.before, abs=1)


def test_too_few_observations_are_named_not_used() -> None:
    plan = day()
    text = perfect(plan, 8 * 120 + 200)
    found = lessons([log_of(plan, text)])
    assert [one.action for one in found.learned if one.observations < 3] == []
    assert found.few
    assert all(count < 3 for _, count in found.few)


def test_waiting_is_no_rigging() -> None:
    plan = day()
    waited = "done s0 09:00\nwaiting 09:02 for rain\nrolled s1 10:30\ndone s1 10:50\n"
    assert observe(plan, (log_of(plan, waited),)).changeovers == ()
    plain = "done s0 09:00\nrolled s1 09:06\ndone s1 09:20\n"
    assert len(observe(plan, (log_of(plan, plain),)).changeovers) == 1


def test_takes_meals_and_packing_are_measured() -> None:
    plan = day()
    text = (
        "call 08:00\nrigging s0 08:45\nready s0 08:58\nrolled s0 09:00\ndone s0 09:15 3 takes\nmeal 12:00\n"
        "meal over 12:35\nrolled s1 12:45\ndone s1 12:56\npacking 18:00\nwrap 18:40\n"
    )
    measured = observe(plan, (log_of(plan, text),))
    assert measured.lengths == (("load-in", 90), ("meal", 70), ("wrap-out", 80))
    assert measured.shots == ((30, 0, 3), (22, 0, 0))
    found = lessons([log_of(plan, text)])
    assert found.per_take == 5.0
