"""`hotset now`: what it prints, in words and as JSON, what it says of a log that is wrong, and with which status."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from pathlib import Path

EXAMPLES = Path(__file__).parents[2] / "examples"
PLAN = """\
hotset: 1
title: Two rooms   # invented
days:
  1: {call: "09:00", wrap: "12:00", load-in: 30 min, wrap-out: 30 min, order: [a, b, c]}
people: {ada: {name: Ada, works: [direction]}}
setups:
  a: {takes: 20 min, rig: 10 min}
  b: {takes: 20 min, rig: 10 min, priority: if-time}
  c: {takes: 20 min, rig: 10 min}
"""
LOG = "rolled a 09:40\ndone a 10:20 6 takes\n"


def run(folder: Path, *args: str, stdin: str = "") -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "hotset", "now", *args]
    return subprocess.run(command, capture_output=True, text=True, input=stdin, cwd=folder, check=False)


def files(folder: Path, plan: str = PLAN, log: str = LOG) -> None:
    (folder / "plan.yaml").write_text(plan, "utf-8")
    (folder / "day.log").write_text(log, "utf-8")


def test_what_is_next_and_by_when_and_what_wins_time(tmp_path: Path) -> None:
    files(tmp_path)
    done = run(tmp_path, "plan.yaml", "--log", "day.log", "--at", "10:22")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == (
        "day 1 at 10:22: 20 min behind the agreed day, everybody is out at 11:50, 10 min\n"
        "    before the latest wrap (12:00)\n"
        "done: 1 of 3 shots\n"
        "now: 'b' is being prepared since 10:20 (the log is silent; by the agreed order),\n"
        "    8 min to go\n"
        "next: 'b', rolling by 10:30, 10:40 at the latest\n"
        "    10:30-10:50 b (10:40 at the latest; agreed 10:10)\n"
        "    11:00-11:20 c (11:10 at the latest; agreed 10:40)\n"
        "late: what wins 20 min back, the least dear first (each tried):\n"
        "    1. drop b: saves 28 min, which is enough; the film goes without b; ask Ada\n"
        "        (the director)\n"
        "never to be cut: meal, rest, safety, two verified copies of every card, room\n"
        "    tone, putting the house back\n"
    )


def test_without_a_time_the_last_line_tells_it(tmp_path: Path) -> None:
    files(tmp_path)
    assert run(tmp_path, "plan.yaml", "--log", "day.log").stdout.startswith("day 1 at 10:20: 20 min behind")


def test_the_log_may_come_from_standard_input(tmp_path: Path) -> None:
    files(tmp_path)
    done = run(tmp_path, "plan.yaml", "--log", "-", stdin=LOG)
    assert done.stdout.startswith("day 1 at 10:20")
    both = run(tmp_path, "-", "--log", "-", stdin=LOG)
    assert both.returncode == 2
    assert "only one of plan and log" in both.stderr


def test_json_says_the_same(tmp_path: Path) -> None:
    files(tmp_path)
    done = run(tmp_path, "plan.yaml", "--log", "day.log", "--at", "10:22", "--format", "json")
    data = json.loads(done.stdout)
    assert data["format"] == 1
    now = data["now"]
    assert (now["behind_minutes"], now["wrap"], now["done"], now["order"]) == (20, "11:50", ["a"], ["b", "c"])
    assert now["coming"][0]["latest"] == "10:40"
    assert now["going"] == {
        "kind": "rigging", "setup": "b", "shot": "", "since": "10:20", "left_minutes": 8, "from_the_log": False,
    }  # fmt: skip
    assert [way["kind"] for way in now["late"]["ways"]] == ["if-time"]


def test_too_late_ends_with_one(tmp_path: Path) -> None:
    files(tmp_path, log="rolled a 09:40\ndone a 10:50\n")
    done = run(tmp_path, "plan.yaml", "--log", "day.log", "--at", "10:50")
    assert done.returncode == 1
    text = " ".join(done.stdout.split())
    assert "20 min after the latest wrap (12:00)" in text
    assert "1. drop b: saves 30 min, which is enough" in text


def test_a_log_with_bad_lines_is_not_guessed_at(tmp_path: Path) -> None:
    files(tmp_path, log="rolled a 09:40\nroled b 10:10\nlost fresnel\n")
    done = run(tmp_path, "plan.yaml", "--log", "day.log", "--at", "10:22")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == (
        "day.log:2:1: error: 'roled' is no word of the log; did you mean 'rolled'?\n"
        "    2 | roled b 10:10\n"
        "      | ^\n"
        "    do: write it like: rolled 4A 09:40\n"
        "day.log:3:6: error: the plan has no thing or person 'fresnel'\n"
        "    3 | lost fresnel\n"
        "      |      ^\n"
        "    do: use its name in the plan; a remark goes after #\n"
    )


def test_what_cannot_be_used_says_why(tmp_path: Path) -> None:
    files(tmp_path)
    for args, words in (
        (["plan.yaml", "--log", "none.log"], "cannot use 'none.log'"),
        (["plan.yaml", "--log", "day.log", "--at", "noon"], "is no time of day"),
        (["plan.yaml", "--log", "day.log", "--day", "2"], "no day '2'"),
        (["plan.yaml"], "Missing option '--log'"),
    ):
        done = run(tmp_path, *args)
        assert done.returncode == 2, args
        assert words in done.stderr
        assert "Traceback" not in done.stderr


def test_an_empty_log_is_the_start_of_the_day(tmp_path: Path) -> None:
    files(tmp_path, log="# nothing yet\n")
    done = run(tmp_path, "plan.yaml", "--log", "day.log")
    assert done.stdout.startswith("day 1 at 09:00: as agreed, everybody is out at 11:30")


def test_the_help_shows_the_log_and_three_examples(tmp_path: Path) -> None:
    text = run(tmp_path, "--help").stdout
    assert text.count("  hotset now ") == 3
    assert "rolled 4A 09:40" in text


def test_the_example_log_is_answered_within_a_second() -> None:
    plan, log = EXAMPLES / "last-boat/plan.yaml", EXAMPLES / "last-boat/day-1.log"
    best = 99.0
    for _ in range(3):
        before = time.perf_counter()
        done = run(EXAMPLES, str(plan), "--log", str(log), "--at", "14:10")
        best = min(best, time.perf_counter() - before)
        assert done.stderr == ""
        assert "behind the agreed day" in done.stdout
        assert "never to be cut: meal, rest, safety" in done.stdout
    assert best < 2.0  # a second on a machine that does nothing else
