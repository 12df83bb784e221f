"""Waiting alone against published optima: scenes and players of problem 039 of CSPLib (the rehearsal problem and the
talent scheduling problem, proposed by B. M. Smith; CC BY 4.0), best-known values from its results page."""

from __future__ import annotations

import pytest
from hotset.facts.numbers import Day, Setup
from hotset.order.solve import Part, solve

# Who plays in which scene and what waiting costs for each; below it the lengths of the scenes.
REHEARSAL = (
    (("110101101", 1), ("110111010", 1), ("110000110", 1), ("100011001", 1), ("001011110", 1)),
    (2, 4, 1, 3, 3, 2, 5, 7, 6),
)
FILM_TWO = (
    (
        ("0010000011110", 40),
        ("1100111111101", 20),
        ("0100000100000", 20),
        ("1001111111001", 10),
        ("0001000001000", 5),
        ("1000011011110", 10),
        ("0100100011100", 5),
        ("0000010001000", 4),
        ("0000000000101", 5),
        ("0000000011000", 4),
    ),
    (1, 1, 1, 1, 3, 1, 1, 1, 1, 1, 1, 1, 1),
)


def waiting(problem: tuple[tuple[tuple[str, int], ...], tuple[int, ...]]) -> Part:
    """The least waiting: a player whose waiting costs five counts as five people who always play together."""
    players, lengths = problem
    people = [row for row, rate in players for _ in range(rate)]
    setups = tuple(
        Setup(f"scene {i}", length, 0, cast=tuple(p for p, row in enumerate(people) if row[i] == "1"))
        for i, length in enumerate(lengths)
    )
    names = tuple(f"player {p}" for p in range(len(people)))
    answer = solve(Day("published", setups, (), ((0,),), (0,), 1, 0, cast=names))
    return next(p for p in answer.parts if p.name == "cast waiting")


@pytest.mark.parametrize(("problem", "best"), [(REHEARSAL, 17), (FILM_TWO, 87)])
def test_the_published_optimum_is_found_and_proven(
    problem: tuple[tuple[tuple[str, int], ...], tuple[int, ...]], best: int
) -> None:
    part = waiting(problem)
    assert (part.value, part.bound, part.proven) == (best, best, True)
