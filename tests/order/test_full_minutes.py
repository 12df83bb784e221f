"""Minutes add up on every sheet: the end of a row is the start of the next, and its length lies between them."""

from __future__ import annotations

import csv
import re
from itertools import pairwise
from pathlib import Path

import pytest
from hotset.cli import main

EXAMPLES = Path(__file__).parents[2] / "examples"
HALVES = """
hotset: 1
title: Invented
days: {1: {call: "08:00", wrap: "20:00", load-in: 12.5 min, wrap-out: 20 min, buffer: 30 min,
  order: [a, b, meal, c, d]}}
locations: {house: {sets: {hall: {size: 6 m x 6 m x 3 m}}}}
people: {gus: {skills: [rig]}, ben: {skills: [rig]}}
gear: {lamp: {kind: light, quantity: 3}}
timings: {lamp: 5.5 min, move-lamp: 3.5 min, colour: 0.5 min}
setups:
  a: {set: hall, takes: 90 s, lights: {k: {lamp: lamp, at: [1 m, 1 m]}, f: {lamp: lamp, at: [2 m, 1 m]}}}
  b: {set: hall, takes: 12.5 min, lights: {k: {lamp: lamp, at: [1 m, 1 m], colour: 3200 K}}}
  c: {set: hall, takes: 20 min, lights: {k: {lamp: lamp, at: [3 m, 1 m]}, f: {lamp: lamp, at: [2 m, 4 m]}}}
  d: {set: hall, takes: 7 min, lights: {k: {lamp: lamp, at: [3 m, 3 m], colour: 5600 K}}}
scenes: {1: {shots: {1A: {setup: a}, 1B: {setup: b}, 1C: {setup: c}, 1D: {setup: d}}}}
"""


def minutes(words: str) -> int:
    """1 h 20 min as a number."""
    found = re.fullmatch(r"(?:(\d+) h)? ?(?:(\d+) min)?", words.replace("\u00a0", " ").strip("* "))
    assert found is not None, words
    return int(found[1] or 0) * 60 + int(found[2] or 0)


def clock(words: str) -> int:
    return int(words[:2]) * 60 + int(words[3:5])


@pytest.fixture(params=["last-boat", "two-days-outside", "smallest", "halves"])
def plan(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    if request.param != "halves":
        return EXAMPLES / str(request.param) / "plan.yaml"
    path = tmp_path / "plan.yaml"
    path.write_text(HALVES)
    return path


def test_rows_of_the_order_add_up(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", str(plan)]) == 0
    said = capsys.readouterr().out
    assert not re.search(r"\d\.\d+ min|\d\d:\d\d:\d\d", said)
    rows = re.findall(r"^(\d\d:\d\d)  (.*?)(?:  +(\d[^ ]*(?: [hmin*]+(?: \d+ min\*?)?)?))?$", said, re.MULTILINE)
    assert rows
    for (start, _, long), (after, _, _) in pairwise(rows):
        if long:
            assert (clock(start) + minutes(long)) % 1440 == clock(after), (start, long)


def test_rows_of_the_running_order_add_up(plan: Path, tmp_path: Path) -> None:
    assert main(["build", str(plan), "--out", str(tmp_path / "out")]) in (0, 1)
    for sheet in sorted((tmp_path / "out").rglob("running-order.csv")):
        with sheet.open(newline="", encoding="utf-8-sig") as file:
            rows = [row for row in list(csv.reader(file))[1:] if re.match(r"\d\d:\d\d", row[0])]
        for one, two in pairwise(rows):
            assert one[1] == two[0]
        for row in rows:
            assert (clock(row[0]) + minutes(row[6])) % 1440 == clock(row[1]), row
