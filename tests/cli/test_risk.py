"""`hotset risk` and `hotset learn`: what they print, in words and as JSON, and with which status they end."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

from hotset.plan import decode
from hotset.source import read

EXAMPLES = Path(__file__).parents[2] / "examples"
PLAN = """\
hotset: 1
title: Two rooms   # invented
days:
  1: {call: "09:00", wrap: "WRAP", load-in: 30 min, wrap-out: 30 min, buffer: 15 min, order: [a, b]}
setups:
  a: {takes: 40 min, rig: 20 min}
  b: {takes: 40 min, rig: 20 min, between: 09:00-11:40}
"""


def run(folder: Path, *args: str, seed: str = "0") -> subprocess.CompletedProcess[str]:
    command, env = [sys.executable, "-m", "hotset", *args], {**os.environ, "PYTHONHASHSEED": seed}
    return subprocess.run(command, capture_output=True, text=True, cwd=folder, check=False, env=env)


def written(folder: Path, wrap: str = "12:15") -> str:
    (folder / "plan.yaml").write_text(PLAN.replace("WRAP", wrap), "utf-8")
    return "plan.yaml"


def test_chances_drivers_and_buffers_are_told(tmp_path: Path) -> None:
    done = run(tmp_path, "risk", written(tmp_path))
    assert (done.returncode, done.stderr) == (0, "")
    text = " ".join(done.stdout.split())
    assert "day 1 in its agreed order: wrapped by 12:15 on" in text
    assert "by likely minutes it wraps at 12:00" in text
    assert "the buffer of 15 min is not touched on" in text
    assert "are enough on 90 of 100 days (" in text
    assert "between (b): missed on" in text
    assert "2000 days drawn with seed 1; each duration is a PERT distribution (beta)" in text


def test_two_processes_say_the_same(tmp_path: Path) -> None:
    plan = written(tmp_path)
    assert run(tmp_path, "risk", plan, seed="1").stdout == run(tmp_path, "risk", plan, seed="77").stdout


def test_at_least_makes_it_a_gate(tmp_path: Path) -> None:
    assert run(tmp_path, "risk", written(tmp_path, "14:00"), "--at-least", "90").returncode == 0
    assert run(tmp_path, "risk", written(tmp_path, "12:01"), "--at-least", "90").returncode == 1
    assert run(tmp_path, "risk", written(tmp_path, "12:01")).returncode == 0


def test_json_has_chances_from_nought_to_one(tmp_path: Path) -> None:
    done = run(tmp_path, "risk", written(tmp_path), "--draws", "500", "--seed", "3", "--format", "json")
    data = json.loads(done.stdout)
    (day,) = data["risk"]
    assert (data["format"], day["draws"], day["seed"], day["likely_wrap"]) == (1, 500, 3, "12:00")
    assert 0.0 < day["in_time"] < 1.0
    assert [b["of_100"] for b in day["buffers"]] == [50, 80, 90, 95]
    assert day["windows"][0]["setups"] == ["b"]


def test_a_plan_without_days_says_what_to_write(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text("hotset: 1\ntitle: Nothing yet\n", "utf-8")
    done = run(tmp_path, "risk", "plan.yaml")
    assert done.returncode == 2
    assert "there is no day with setups" in done.stderr


def test_every_help_ends_with_three_examples(tmp_path: Path) -> None:
    for verb in ("risk", "learn"):
        assert run(tmp_path, verb, "--help").stdout.count(f"  hotset {verb} ") == 3


LOG = """\
call 09:00
rigging a 09:30
ready a 09:55
rolled a 10:00
done a 10:50 5 takes
meal 12:00
meal over 12:35
packing 13:00
wrap 13:40
"""


def test_what_is_learned_is_yaml_to_paste(tmp_path: Path) -> None:
    for day in "123":
        (tmp_path / f"{day}.log").write_text(LOG, "utf-8")
    done = run(tmp_path, "learn", "1.log", "2.log", "3.log")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == (
        "timings:                       # from 3 days and 0 changeovers\n"
        "  setup: 25 min                # 3 times; counted with so far: 30 min\n"
        "  load-in: 30 min              # 3 times; counted with so far: 40 min\n"
        "  wrap-out: 40 min             # 3 times; counted with so far: 45 min\n"
        "  meal: 35 min                 # 3 times; counted with so far: 30 min\n"
        "# one take, with its reset: 10.0 min (the middle of 3 shots)\n"
    )
    plan, faults = decode(read(["-"], stdin_text=b"hotset: 1\ntitle: t\n" + done.stdout.encode()))
    assert plan is not None
    assert faults == []
    assert plan.film.timings is not None


def test_too_little_is_said_to_be_too_little(tmp_path: Path) -> None:
    (tmp_path / "day.log").write_text(LOG, "utf-8")
    done = run(tmp_path, "learn", "day.log", "--plan", written(tmp_path))
    assert done.returncode == 0
    assert done.stdout.startswith("# too little to learn from 1 day and 1 changeover")
    assert "# too few to tell (fewer than 3): load-in (1), wrap-out (1), meal (1)" in done.stdout
    data = json.loads(run(tmp_path, "learn", "day.log", "--plan", "plan.yaml", "--format", "json").stdout)
    assert (data["timings"], data["days"], data["changeovers"]) == ([], 1, 1)


def test_a_bad_log_teaches_nothing(tmp_path: Path) -> None:
    (tmp_path / "day.log").write_text("rolled zz 10:00\n", "utf-8")
    done = run(tmp_path, "learn", "day.log", "--plan", written(tmp_path))
    assert (done.returncode, done.stdout) == (2, "")
    assert "day.log:1:8: error: the plan has no shot or setup 'zz'" in done.stderr


def test_the_example_teaches_something() -> None:
    plan, log = str(EXAMPLES / "last-boat/plan.yaml"), str(EXAMPLES / "last-boat/day-1.log")
    done = run(EXAMPLES, "learn", log, "--plan", plan)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("timings:")
