"""`hotset order`: what it prints, what it writes, and with which status it ends."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

PLAN = """\
hotset: 1
title: Two rooms   # invented
days:
  1: {call: "09:00", wrap: "18:00", load-in: 30 min, wrap-out: 30 min}   # the only day
setups:
  a: {takes: 20 min, rig: 10 min}
  b: {takes: 20 min, rig: 10 min, before: a}
"""


def run(folder: Path, *args: str, stdin: str = "") -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "hotset", "order", *args]
    return subprocess.run(command, capture_output=True, text=True, input=stdin, cwd=folder, check=False)


def test_the_order_is_printed_with_its_proof(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(PLAN, "utf-8")
    done = run(tmp_path, "plan.yaml")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("Day 1: 2 setups, call 09:00, wrap 11:00, 2 h\nProven best: no order")
    assert (tmp_path / "plan.yaml").read_text("utf-8") == PLAN


def test_write_puts_it_into_the_plan_once(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(PLAN, "utf-8")
    assert "plan.yaml: order of day 1 written." in run(tmp_path, "plan.yaml", "--write").stdout
    new = PLAN.replace("wrap-out: 30 min}", "wrap-out: 30 min, order: [b, a]}")
    assert (tmp_path / "plan.yaml").read_text("utf-8") == new
    assert "nothing was written" in run(tmp_path, "plan.yaml", "--write").stdout
    assert "This is the agreed order." in run(tmp_path, "plan.yaml").stdout


def test_standard_input_is_read_but_not_written(tmp_path: Path) -> None:
    assert run(tmp_path, "-", stdin=PLAN).returncode == 0
    done = run(tmp_path, "-", "--write", stdin=PLAN)
    assert done.returncode == 2
    assert "needs a file" in done.stderr


def test_a_day_that_cannot_be_shot_ends_with_one(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(PLAN.replace("18:00", "10:45"), "utf-8")
    done = run(tmp_path, "plan.yaml", "--write")
    assert done.returncode == 1
    assert "Day 1 cannot be shot as it is written." in done.stdout
    assert "wrap 15 min later, at 11:00" in done.stdout


def test_an_unknown_day_offers_what_there_is(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(PLAN, "utf-8")
    done = run(tmp_path, "plan.yaml", "--day", "one")
    assert done.returncode == 2
    assert "no day 'one'; the plan has: 1" in done.stderr


def test_a_plan_without_setups_says_what_to_write(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text("hotset: 1\ntitle: Nothing yet\n", "utf-8")
    done = run(tmp_path, "plan.yaml")
    assert done.returncode == 2
    assert "there is no day with setups to order" in done.stderr


def test_a_text_that_is_no_plan_ends_with_two(tmp_path: Path) -> None:
    done = run(tmp_path, "-", stdin="days: [")
    assert done.returncode == 2
    assert "[not-yaml]" in done.stderr
