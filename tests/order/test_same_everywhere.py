"""The same plan has the same order in every process: other hash seeds, one core or all of them."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))

import impossible
import ten_runs
import weeks
from plans import setups

LAMPS = [
    f"s{k}: {{set: {'hall' if k % 2 else 'loft'}, takes: {5 + k} min, cast: [CLERK], "
    f"lights: {{a: {{lamp: pair, at: [{1 + k % 3} m, 1 m]}}, b: {{lamp: [lamp, pair], at: [{1 + k % 2} m, 2 m]}}}}}}"
    for k in range(7)
]


def test_a_day_is_the_same_in_every_process() -> None:
    text = setups(*LAMPS).encode()
    said = {ten_runs.run("-", n, text) for n in range(4)}
    assert len(said) == 1
    assert b"Proven best" in said.pop()


def test_days_are_shared_out_alike_in_every_process() -> None:
    text = weeks.plan(3, 6, 2, takes=(60, 110)).encode()
    said = {ten_runs.run("-", n, text) for n in range(4)}
    assert len(said) == 1
    assert said.pop().startswith(b"6 setups on ")


def test_what_is_impossible_is_explained_alike_in_every_process() -> None:
    _, text = impossible.plan(6)
    said = {ten_runs.run("-", n, text.encode()) for n in range(4)}
    assert len(said) == 1
    assert b"Ways out, each tried:" in said.pop()
