"""Waiting alone: published problems are solved to their best-known values, and each is proven."""

from __future__ import annotations

import sys
from itertools import permutations
from pathlib import Path
from random import Random

import pytest
from hotset.facts.numbers import Day, Setup
from hotset.order.advance import Rules
from hotset.order.bothends import from_both_ends
from hotset.order.solve import Part, solve
from hotset.order.waiting import least_waiting, only_waiting
from hotset.order.workspace import Workspace
from hotset.record import replace

sys.path.insert(0, str(Path(__file__).parent))

import published
from plans import HEAD, ordered
from published import Problem


def day_of(problem: Problem) -> Day:
    """The problem as a day: a player whose waiting costs five counts as five people who always play together."""
    players, lengths = problem
    people = [row for row, rate in players for _ in range(rate)]
    setups = tuple(
        Setup(f"scene {i}", length, 0, cast=tuple(p for p, row in enumerate(people) if row[i] == "1"))
        for i, length in enumerate(lengths)
    )
    return Day("published", setups, (), ((0,),), (0,), 1, 0, cast=tuple(f"player {p}" for p in range(len(people))))


def waiting(problem: Problem) -> Part:
    return next(p for p in solve(day_of(problem)).parts if p.name == "cast waiting")


def playing(problem: Problem) -> int:
    """What the scenes cost whatever the order is."""
    players, lengths = problem
    return sum(length * rate for row, rate in players for i, length in enumerate(lengths) if row[i] == "1")


@pytest.mark.parametrize(
    ("problem", "best"), [(published.REHEARSAL, 17), (published.FILM_TWO, 87), (published.FILM_ONE, 146)]
)
def test_the_published_waiting_is_found_and_proven(problem: Problem, best: int) -> None:
    part = waiting(problem)
    assert (part.value, part.bound, part.proven) == (best, best, True)


@pytest.mark.parametrize(
    ("problem", "best"),
    [
        (published.CONCERT, 111),
        (published.FILM103, 1031),
        (published.FILM105, 849),
        (published.FILM116, 541),
        (published.FILM118, 853),
        (published.MOBSTORY, 871),
        (published.WARWICK1201, 222),
        (published.SHAW2020, 877),
    ],
)
def test_the_published_cost_is_found_and_proven(problem: Problem, best: int) -> None:
    part = waiting(problem)
    assert part.proven
    assert part.value + playing(problem) == part.bound + playing(problem) == best


def test_a_plan_whose_only_cost_is_waiting_gives_the_published_waiting() -> None:
    (rows, lengths), people = published.REHEARSAL, ""
    for p in range(len(rows)):
        people += f"  player-{p}: {{plays: PART-{p}}}\n"
    setups = ""
    for i, length in enumerate(lengths):
        cast = ", ".join(f"PART-{p}" for p, (row, _) in enumerate(rows) if row[i] == "1")
        setups += f"  scene-{i}: {{takes: {length} min, rig: 0 min, cast: [{cast}]}}\n"
    result = ordered(HEAD.replace("people:\n", f"people:\n{people}") + "setups:\n" + setups)
    part = next(p for p in result.answer.parts if p.name == "cast waiting")
    assert (part.value, part.bound, part.proven) == (2 * 17, 2 * 17, True)


def invented(seed: int, *, rigged: bool) -> Day:
    """Seven scenes of which only the waiting depends on the order."""
    rng = Random(seed)
    setups = tuple(
        Setup(
            f"s{i}",
            rng.randint(1, 9),
            0,
            fixed=rng.randint(0, 4) if rigged else 0,
            cast=tuple(c for c in range(4) if rng.random() < 0.5),
        )
        for i in range(7)
    )
    before = ((1, 4), (5, 2)) if rng.random() < 0.4 else ()
    return Day("invented", setups, (), ((0,),), (0,), 1, 0, before=before, cast=tuple("abcd"))


def waited(day: Day, order: tuple[int, ...]) -> int:
    """Half-minutes waited in an order, by the definition."""
    total, time = 0, 0
    here: dict[int, list[tuple[int, int]]] = {}
    for i in order:
        time += day.setups[i].fixed
        for c in day.setups[i].cast:
            here.setdefault(c, []).append((time, time + day.setups[i].takes))
        time += day.setups[i].takes
    for mine in here.values():
        total += mine[-1][1] - mine[0][0] - sum(b - a for a, b in mine)
    return total


@pytest.mark.parametrize("rigged", [False, True])
def test_every_order_agrees(rigged: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("hotset.order.waiting.FEW", 0)
    for seed in range(6):
        day = invented(seed, rigged=rigged)
        rules = Rules(Workspace(day, (1 << 7) - 1))
        assert only_waiting(rules)
        found = least_waiting(rules, 10_000)
        lawful = [o for o in permutations(range(7)) if all(o.index(a) < o.index(b) for a, b in day.before)]
        assert found.value == found.bound == waited(day, found.order) == min(waited(day, o) for o in lawful), seed
        assert found.order in lawful


def test_a_search_cut_short_says_a_bound_that_is_true() -> None:
    day = day_of(published.FILM105)
    cut = least_waiting(Rules(Workspace(day, (1 << len(day.setups)) - 1)), 20)
    assert cut.bound < 849 - playing(published.FILM105) <= cut.value == waited(day, cut.order)


def test_both_ends_meet_in_the_order_they_tell() -> None:
    ends = from_both_ends((1, 2, 1), (0b01, 0b10, 0b01), (3, 1), (6, (0, 1, 2)), 100)
    assert (ends.value, ends.bound) == (0, 0)
    assert ends.order in ((0, 2, 1), (2, 0, 1), (1, 0, 2), (1, 2, 0))


@pytest.mark.parametrize(
    "change",
    [
        {"latest_wrap": 20},
        {"travel": ((0, 3), (3, 0)), "arrive": (4, 0)},
        {"agreed": (0, 1)},
        {"gap": 10},
    ],
)
def test_where_more_depends_on_the_order_the_whole_search_is_used(change: dict[str, object]) -> None:
    day = replace(day_of(published.REHEARSAL), **change)
    assert not only_waiting(Rules(Workspace(day, (1 << 9) - 1)))
