"""How the work of a check grows with the plan, counted in calls, which no other program disturbs."""

from __future__ import annotations

import cProfile
import pstats
import sys
from collections.abc import Callable
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType

import pytest
from hotset.documents import build
from hotset.pipeline import Compiled, compile_plan

STEEPEST = 2.4
"""Times the calls for twice the setups: an exponent of 1.26, so that what is quadratic is seen long before it hurts."""


@pytest.fixture(scope="module")
def bench() -> ModuleType:
    spec = spec_from_file_location("film", Path(__file__).with_name("film.py"))
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    sys.modules["film"] = module
    spec.loader.exec_module(module)
    return module


def compiled(text: str) -> tuple[Compiled, int]:
    """The plan, and how many calls it took."""
    profile = cProfile.Profile()
    done = profile.runcall(compile_plan, ["-"], text.encode())
    return done, int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


def test_the_film_is_one_that_can_be_shot(bench: ModuleType) -> None:
    done, _ = compiled(bench.film(60))
    assert done.plan is not None
    assert (len(done.plan.setups), len(done.plan.days)) == (60, 10)
    assert len(done.plan.gear) >= 300
    assert list(done.findings) == []


def test_twice_the_film_is_hardly_more_than_twice_the_work(bench: ModuleType) -> None:
    _, small = compiled(bench.film(60))
    _, large = compiled(bench.film(120))
    assert large / small < STEEPEST


WRITTEN = ("call-sheet", "running-order", "lighting", "grip", "camera", "sound", "art", "wardrobe", "cast", "place",
           "risk", "gear-list", "after-the-day", "calendar")  # fmt: skip
"""Sheets without a drawing for each setup, which cost the same for each and would only take time here."""


def test_twice_the_days_are_hardly_more_than_twice_the_sheets(bench: ModuleType, tmp_path: Path) -> None:
    def calls(setups: int) -> int:
        done = compile_plan(["-"], bench.film(setups).encode())
        profile = cProfile.Profile()
        make: Callable[..., object] = build
        profile.runcall(make, done, tmp_path / str(setups), only=WRITTEN, pdf=False)
        return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]

    calls(6)  # templates are compiled once
    assert calls(36) / calls(18) < STEEPEST
