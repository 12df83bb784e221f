"""The search against every permutation of small invented days, with all rules on."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from hotset.order.solve import Answer, solve

sys.path.insert(0, str(Path(__file__).parent))

import brute
import invented


TURNED = "pairs against the plan"


def parts(answer: Answer) -> tuple[tuple[int, ...], tuple[int, int, int, int, int]] | None:
    """The answer in the brute force's words."""
    if not answer.found:
        return None
    value = {p.name: p.value for p in answer.parts}
    close = value.get("changes to the agreed order", 0)
    return answer.dropped, (value["wrap"], close, value["pieces touched"], value["cast waiting"], value[TURNED])


def compare(seeds: range, setups: int) -> int:
    """Engine and brute force on each seed; the number of days that can be shot."""
    possible = 0
    for seed in seeds:
        day = invented.day(seed, invented.Mix(setups=setups))
        answer = solve(day)
        assert parts(answer) == brute.best(day), seed
        assert answer.proved
        assert all(p.proven for p in answer.parts)
        possible += answer.found
    return possible


@pytest.mark.parametrize(
    ("seeds", "setups", "at_least"), [(range(300), 3, 200), (range(300, 470), 4, 100), (range(470, 498), 5, 15)]
)
def test_every_permutation_agrees(seeds: range, setups: int, at_least: int) -> None:
    assert compare(seeds, setups) >= at_least


def test_every_permutation_of_six_agrees() -> None:
    assert compare(range(2003, 2005), 6) >= 1
