"""Delays with the minute from which they hurt, near misses with their margin, and what a film hangs on."""

from __future__ import annotations

from pathlib import Path

import networkx
import pytest
from hotset.pipeline import compile_plan
from hotset.rules import RULES
from hotset.rules.near_misses import margins
from hotset.trials.weak import weak_points

from .plans import LAST_BOAT, ROOM, ask, data, write

LATE = ROOM.replace("  door: {", '  door: {between: "10:00-13:00", ')


def test_a_window_is_missed_from_the_minute_on(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    # load-in to 08:30, two hours of takes, on to the hall, and an hour of takes there
    plan = write(tmp_path, LATE)
    compiled = compile_plan([str(plan)])
    assert compiled.facts is not None
    step = compiled.facts.timelines["1"].shooting("door")
    assert step is not None
    spare = (13 * 120 - step.end) // 2
    found = data(capsys, "check", str(plan), "--late", "4 h")
    (missed,) = [one for one in found["brought"] if one["finding"]["rule"] == "window-missed"]
    assert missed["minutes"] == spare + 1
    status, said = ask(capsys, "check", str(plan), "--late", f"{spare} min")
    assert (status, "window-missed" in said) == (0, False)
    status, said = ask(capsys, "check", str(plan), "--late", f"{spare + 1} min")
    assert (status, "window-missed" in said) == (1, True)


def test_without_an_order_nothing_slips(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = write(tmp_path, ROOM.replace(", order: [wide, close, room-tone, door]", ""))
    status, said = ask(capsys, "check", str(plan), "--late", "40 min")
    assert (status, "no day has an agreed order" in said) == (0, True)


@pytest.mark.parametrize("text", ["40", "soon", "0 min", "20 h"])
def test_a_delay_is_a_length_of_time(text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = ask(capsys, "check", str(write(tmp_path, ROOM)), "--late", text)
    assert status == 2
    assert "Invalid value for '--late'" in said


def test_a_breaker_near_its_limit(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    # (1000 W / 0.95 + 800 W) / 230 V = 8.06 A of 10 A
    plan = write(tmp_path, ROOM.replace("already: 300 W", "already: 800 W"))
    _, said = ask(capsys, "check", str(plan), "--margins")
    assert "circuit 'ground-floor' at 81% in 'wide': 8.1 A of 10 A, 1.9 A left [circuit-overloaded]" in said


def test_an_actor_who_leaves_soon(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = write(tmp_path, ROOM.replace("08:00-18:00", "08:00-10:36"))
    _, said = ask(capsys, "check", str(plan), "--margins")
    assert "the takes of 'close' end 6 min before 'mara' leaves at 10:36 [cast-window]" in said


def test_margins_belong_to_rules_and_to_nothing_that_is_found(capsys: pytest.CaptureFixture[str]) -> None:
    compiled = compile_plan([str(LAST_BOAT)])
    assert compiled.facts is not None
    near = margins(compiled.facts)
    assert near
    assert {m.rule for m in near} <= {rule.id for rule in RULES}
    assert [m.used for m in near] == sorted((m.used for m in near), reverse=True)
    assert all(0.0 < m.used <= 1.0 for m in near)
    assert data(capsys, "check", str(LAST_BOAT), "--margins") == data(capsys, "check", str(LAST_BOAT), "--margins")


def test_what_the_film_hangs_on(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = write(tmp_path, ROOM)
    points = data(capsys, "check", str(plan), "--weak-points")["weak_points"]
    hang = {p["name"]: p["musts"] for p in points}
    assert hang["boom"] == ["4A"]
    assert hang["mara"] == ["4A"]
    assert "big-lamp" not in hang  # its plan-b is free
    assert "panel" not in hang  # two of them, and the want that takes both is no must
    assert "landing/ground-floor" not in hang  # the other circuit is free


def test_a_lender_is_a_point_of_its_own() -> None:
    lent = "owner: borrowed, lent-by: the club"
    text = ROOM.replace("plan-b: spot}", f"plan-b: spot, {lent}}}").replace("draws: 400 W}", f"draws: 400 W, {lent}}}")
    compiled = compile_plan(["-"], stdin_text=text.encode())
    assert compiled.facts is not None
    points = {p.name: p for p in weak_points(compiled.facts)}
    assert "big-lamp" not in points
    assert points["the club"].kind == "lender"
    assert points["the club"].musts == ("4A",)
    assert next(iter(points)) == "the club"


def test_dominators_are_what_every_way_goes_through() -> None:
    """The graph library's answer on the flow graph that Lengauer and Tarjan draw as their example in "A fast algorithm
    for finding dominators in a flowgraph" (1979); edges and dominators from memory."""
    after = {"R": "ABC", "A": "D", "B": "ADE", "C": "FG", "D": "L", "E": "H", "F": "I", "G": "IJ", "H": "EK", "I": "K",
             "J": "I", "K": "RI", "L": "H"}  # fmt: skip
    edges = [(start, end) for start, ends in after.items() for end in ends]
    above = networkx.immediate_dominators(networkx.DiGraph(edges), "R")
    by_r = {node for node in "ABCDEFGHIJKL" if above[node] == "R"}
    assert by_r == set("ABCDEHIK")
    assert {node: above[node] for node in "FGJL"} == {"F": "C", "G": "C", "J": "G", "L": "D"}


def test_a_must_that_hangs_on_a_lent_thing_is_a_note(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = ROOM.replace("factor: 0.95, plan-b: spot}", "factor: 0.95, owner: rented, lent-by: a house}")
    status, said = ask(capsys, "check", str(write(tmp_path, text)))
    assert status == 0
    assert "1 must ('4A') hangs on 'big-lamp' alone, lent by a house: nothing would serve instead" in said


def test_each_day_slips_alone(capsys: pytest.CaptureFixture[str]) -> None:
    plan = str(LAST_BOAT.parents[1] / "two-days-outside" / "plan.yaml")
    both = data(capsys, "check", plan, "--late", "40 min")
    assert [row[0] for row in both["days"]] == ["1", "2"]
    apart = {day: data(capsys, "check", plan, "--late", "40 min", "--day", day) for day in ("1", "2")}
    for day, one in apart.items():
        assert [row[0] for row in one["days"]] == [day]
        assert one["brought"] == [b for b in both["brought"] if b["day"] == day]
        assert one["worse"] == [b for b in both["worse"] if b["day"] == day]
        assert one["brought"]
    status, said = ask(capsys, "check", plan, "--late", "40 min")
    assert status == 1
    assert "40 min late, each day alone: " in said
    assert said.index("day 1 40 min late: ") < said.index("day 2 40 min late: ")


def test_the_night_after_a_day_that_slips(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    days = (
        "hotset: 1\ndays:\n"
        "  1: {date: 2026-11-14, call: 08:00, load-in: 30 min, wrap-out: 30 min, order: [a, meal, b], buffer: 0 s}\n"
        "  2: {date: 2026-11-15, call: 04:20, load-in: 30 min, wrap-out: 30 min, order: [c], buffer: 0 s}\n"
        "setups:\n  a: {takes: 4 h, rig: 0 min}\n  b: {takes: 3 h, rig: 0 min}\n  c: {takes: 1 h, rig: 0 min}\n"
    )
    # day 1 ends at 16:30 and day 2 is called at 04:20: 11 h 50 min of rest, of 11 h
    found = data(capsys, "check", str(write(tmp_path, days)), "--late", "2 h")
    (rest,) = [b for b in found["brought"] if b["finding"]["rule"] == "rest-short"]
    assert (rest["day"], rest["minutes"]) == ("1", 51)


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (("--late", "40 min", "--day", "3"), "'3': no such day; days with an agreed order and a call are: 1, 2"),
        (("--day", "1"), "--day belongs to --late"),
    ],
)
def test_a_day_that_slips_is_one_of_the_plan(
    args: tuple[str, ...], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = str(LAST_BOAT.parents[1] / "two-days-outside" / "plan.yaml")
    status, said = ask(capsys, "check", plan, *args)
    assert status == 2
    assert words in said
