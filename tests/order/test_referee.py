"""Two engines that share nothing but the day's data agree on the earliest wrap wherever the second proves it."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from hotset.facts.numbers import FOREVER, Day
from hotset.order.solve import solve
from hotset.record import replace

sys.path.insert(0, str(Path(__file__).parent))

import invented
import referee


def plain(seed: int, setups: int) -> Day:
    """An invented day with single pieces, and without the rules that the second engine does not know."""
    mix = invented.Mix(setups, late=300, meals=False, twins=False, holds=False, optional=False, options=False)
    day = invented.day(seed, mix)
    clear = tuple(replace(s, away=()) for s in day.setups)
    return replace(day, setups=clear, meals=(), gap=FOREVER, tone=0, absent=(), agreed=())


@pytest.mark.parametrize(
    ("seeds", "setups"), [(range(20), 5), (range(30, 42), 6), (range(60, 68), 7), (range(80, 86), 8)]
)
def test_the_two_engines_agree(seeds: range, setups: int) -> None:
    compared = 0
    for seed in seeds:
        day = plain(seed, setups)
        wrap, proved = referee.proved_wrap(day, 2.0)
        if proved:
            answer = solve(day)
            assert answer.proved
            assert (answer.parts[0].value if answer.found else None) == wrap, seed
            compared += 1
    assert compared >= len(seeds) // 2
