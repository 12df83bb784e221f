"""Where the rooms are looked at one by one, each as a day of its own, the answers stay those of every permutation and
of a search that knows nothing of it; and looking too sharply is seen."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hotset.facts.numbers import Day
from hotset.order import alone, leaving, rest, search, workspace
from hotset.order.solve import solve
from hotset.record import replace

sys.path.insert(0, str(Path(__file__).parent))

import brute
from test_sharp import late_scenes, parts, scenes


def near(seed: int, setups: int) -> Day:
    """A day in rooms next to each other, with every piece wanted in all of them, so that it can pay to go there and
    back; some with room tone, things to do before every setup, pieces that must be gone, and an order told."""
    rng, day = Random(seed), scenes(3 * seed, setups)
    span, far = range(len(day.travel)), rng.choice((1, 2, 4))
    travel = tuple(tuple(0 if a == b else far for b in span) for a in span)
    states = [len(group.cost) - 1 for group in day.groups]
    found = []
    for setup in day.setups:
        needs = tuple(((g, rng.randrange(states[g]) + 1),) for ((g, _),) in setup.needs)
        gone = ((rng.choice((1, 2)), 1),) if rng.random() < 0.2 else ()
        found.append(replace(setup, needs=needs, windows=setup.windows if seed % 2 else (), tone=rng.random() < 0.5,
                             fixed=rng.choice((0, 0, 4)),
                             away=tuple(a for a in gone if (a,) not in needs)))  # fmt: skip
    before = tuple((a, b) for b in range(setups) for a in range(b) if rng.random() < 0.1 * (seed % 3))
    return replace(day, travel=travel, setups=tuple(found), riggers=rng.choice((1, 2)), before=before,
                   tone=rng.choice((0, 3)))  # fmt: skip


def from_the_first(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(search, "MANY", 0)


@pytest.mark.parametrize(
    ("invent", "seeds", "setups", "possible"),
    [(near, range(150), 4, 120), (near, range(200, 240), 5, 30), (scenes, range(300, 380), 4, 40),
     (late_scenes, range(300, 340), 5, 30)],
)  # fmt: skip
def test_every_permutation_agrees(
    invent: Callable[[int, int], Day], seeds: range, setups: int, possible: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    from_the_first(monkeypatch)
    days = {seed: invent(seed, setups) for seed in seeds}
    told = {seed: parts(solve(day)) for seed, day in days.items()}
    assert [seed for seed, day in days.items() if told[seed] != brute.best(day)] == []
    assert sum(answer is not None for answer in told.values()) >= possible


def days_to_compare() -> list[Day]:
    return [near(seed, 7) for seed in range(300, 360)] + [scenes(seed, 7 + seed % 2) for seed in range(320, 360)]


def test_a_search_that_knows_nothing_of_it_finds_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    days = days_to_compare()
    told = [parts(solve(day)) for day in days]
    assert sum(answer is not None for answer in told) > 80
    from_the_first(monkeypatch)
    assert [parts(solve(day)) for day in days] == told


def only_at_the_call(self: workspace.Workspace, day: Day, chosen: int, _: tuple[int, ...] = ()) -> None:
    MAKE(self, day, chosen)


def always_here(self: alone.Alone, rem: int, gear: workspace.Gear, _: bool) -> workspace.Gear:
    return STANDS(self, rem, gear, True)


def a_minute_more(self: leaving.Leaving, rem: int, gear: workspace.Gear) -> tuple[int, int]:
    least, touches = LOOSE(self, rem, gear)
    return least + 2, touches + 1


def never(*_: Any) -> bool:
    return False


def none_saved(*_: Any) -> int:
    return 0


def nowhere_else(*_: Any) -> frozenset[int]:
    return frozenset()


MAKE = workspace.Workspace.__init__
STANDS = alone.Alone.stands
LOOSE = leaving.Leaving.loose
TOO_SHARP: dict[str, tuple[Any, str, Callable[..., Any]]] = {
    "gear that stands only where it stood at the call": (workspace.Workspace, "__init__", only_at_the_call),
    "gear that stands where it was while the crew is away": (alone.Alone, "stands", always_here),
    "nobody leaves a room to come back": (leaving.Leaving, "may_gain", never),
    "leaving taken to save nothing": (leaving.Leaving, "saves", none_saved),
    "a minute too many wherever the crew comes back": (leaving.Leaving, "loose", a_minute_more),
    "a piece touched where it stands already": (workspace.Workspace, "_there", none_saved),
    "pieces come from nowhere but this room": (rest.Rests, "astray", nowhere_else),
}


@pytest.mark.parametrize("name", TOO_SHARP)
def test_looking_too_sharply_is_seen(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    from_the_first(monkeypatch)
    days = days_to_compare()
    truth = [parts(solve(day)) for day in days]
    where, attribute, wrong = TOO_SHARP[name]
    monkeypatch.setattr(where, attribute, wrong)
    assert any(parts(solve(day)) != right for day, right in zip(days, truth, strict=True))
