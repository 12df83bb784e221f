"""Handing tasks out to people: a list schedule, longest first, as a gaffer would do it aloud.

The order counts with the time below which no sharing can go; where handing out whole tasks takes longer, the excess
is said and taken from the buffer.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..facts.timeline import Task


def hand_out(tasks: tuple[Task, ...], riggers: int) -> tuple[int, tuple[tuple[str, ...], ...]]:
    """(half-minutes until the last is done, for each rigger the names of the pieces in turn). A task for two takes
    two riggers at once; a lone rigger does the work of both, one after the other."""
    free = [0] * riggers
    lists: list[list[str]] = [[] for _ in range(riggers)]
    for task in sorted(tasks, key=lambda t: (-t.half_minutes, t.piece, t.number)):
        people = min(task.people, riggers)
        length = task.half_minutes * -(-task.people // people)
        crew = sorted(range(riggers), key=lambda r: (free[r], r))[:people]
        start = max(free[r] for r in crew)
        for r in crew:
            free[r] = start + length
            lists[r].append(task.name)
    return max(free, default=0), tuple(tuple(names) for names in lists)
