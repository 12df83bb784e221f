"""Who can take which job: the largest matching of jobs to hands, and the proof when it cannot be done.

Method: augmenting paths; J. Hopcroft and R. Karp (1973) find the same number faster on large graphs, a crew is small.
When jobs stay empty, the jobs reached by alternating paths from one of them want fewer hands than they are (Hall,
1935).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple


class Shortage(NamedTuple):
    """Jobs that together have too few hands, and all the hands that could do any of them."""

    jobs: tuple[str, ...]
    hands: tuple[str, ...]


class Matching(NamedTuple):
    """Who does what; the jobs left over; for the left-over jobs the shortages that prove it."""

    given: dict[str, str]
    left: tuple[str, ...]
    shortages: tuple[Shortage, ...]


def match(jobs: Mapping[str, Sequence[str]]) -> Matching:
    """The largest matching of jobs to hands, each hand doing one job at most.

    `jobs` names for each job the hands that can do it, best liked first. Earlier jobs are served first and get the best
    liked hand where that costs no other job. The answer depends on nothing but the order of the argument.
    """
    holder: dict[str, str] = {}
    left = [job for job in jobs if not _place(job, jobs, holder)]
    given = {job: hand for hand, job in holder.items()}
    shortages: list[Shortage] = []
    for job in left:
        found = _shortage(job, jobs, holder)
        if found not in shortages:
            shortages.append(found)
    return Matching({job: given[job] for job in jobs if job in given}, tuple(left), tuple(shortages))


def _place(job: str, jobs: Mapping[str, Sequence[str]], holder: dict[str, str]) -> bool:
    """Give a job a hand along a shortest alternating path, moving others where needed."""
    came_from: dict[str, str] = {}
    queue = [job]
    for current in queue:
        for hand in jobs[current]:
            if hand in came_from:
                continue
            came_from[hand] = current
            if hand in holder:
                queue.append(holder[hand])
                continue
            _shift(hand, job, came_from, holder)
            return True
    return False


def _shift(free: str, job: str, came_from: Mapping[str, str], holder: dict[str, str]) -> None:
    """Walk an alternating path back from a free hand: every job on it takes the hand that was found through it."""
    hand = free
    while True:
        current = came_from[hand]
        before = next((h for h, j in holder.items() if j == current), None)
        holder[hand] = current
        if current == job or before is None:
            return
        hand = before


def _shortage(job: str, jobs: Mapping[str, Sequence[str]], holder: Mapping[str, str]) -> Shortage:
    """Every job and hand an alternating path from an unserved job reaches: the hands are one fewer than the jobs at
    least.
    """
    reached = [job]
    hands: list[str] = []
    for current in reached:
        for hand in jobs[current]:
            if hand not in hands:
                hands.append(hand)
                if holder[hand] not in reached:
                    reached.append(holder[hand])
    order = list(jobs)
    return Shortage(tuple(sorted(reached, key=order.index)), tuple(hands))
