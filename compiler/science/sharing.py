"""Sharing work out among hands: who can do how much of which task in the time each of them has.

Method: the greatest flow from tasks over people to their time, by shortest augmenting paths (J. Edmonds and R. Karp,
1972). A task may be handed over from one person to another, and one person does no more of it than it is long; so the
answer is a lower bound of what is left undone, exact where nothing is handed over (R. McNaughton, 1959, for equal
hands).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple


class Work(NamedTuple):
    """A task: how long it is, and for each pair of hands that it takes at once the people who can be it."""

    length: int
    pairs: tuple[tuple[str, ...], ...]


class Shared(NamedTuple):
    """For each task who does how much of it, and how much of all is left undone (length times pairs)."""

    done: tuple[dict[str, int], ...]
    left: int


def share(tasks: Sequence[Work], time: Mapping[str, int]) -> Shared:
    """Share tasks out among people who have so much time each. Any unit of time; the order of the arguments decides
    between equals. Where each task finds hands that do the whole of it, nothing is handed over."""
    whole = _whole(tasks, time)
    if whole is not None:
        return Shared(whole, 0)
    flow = _Flow()
    people = {name: flow.node() for name in time}
    for name, node in people.items():
        flow.edge(node, flow.sink, time[name])
    mine: list[dict[str, tuple[int, int]]] = []
    for task in tasks:
        between: dict[str, tuple[int, int]] = {}
        for able in task.pairs:
            pair = flow.node()
            flow.edge(flow.source, pair, task.length)
            for name in able:
                if name in people:
                    if name not in between:
                        node = flow.node()
                        between[name] = (node, flow.edge(node, people[name], task.length))
                    flow.edge(pair, between[name][0], task.length)
        mine.append(between)
    wanted = sum(task.length * len(task.pairs) for task in tasks)
    moved = flow.run()
    done = tuple({n: flow.used(edge) for n, (_, edge) in row.items() if flow.used(edge)} for row in mine)
    return Shared(done, wanted - moved)


def _whole(tasks: Sequence[Work], time: Mapping[str, int]) -> tuple[dict[str, int], ...] | None:
    """Whole tasks to whoever can and has most time left, those first that fewest can do; None where that fails."""
    left = dict(time)
    done: list[dict[str, int]] = [{} for _ in tasks]
    for k in sorted(range(len(tasks)), key=lambda k: (sum(map(len, tasks[k].pairs)), -tasks[k].length)):
        length = tasks[k].length
        for able in tasks[k].pairs:
            best = max((n for n in able if n in left and n not in done[k]), key=left.__getitem__, default=None)
            if best is None or left[best] < length:
                return None
            left[best] -= length
            done[k][best] = length
    return tuple(done)


class _Flow:
    """A network with whole capacities; edges come in twos, the second one back."""

    def __init__(self) -> None:
        self.out: list[list[int]] = [[], []]
        self.to: list[int] = []
        self.room: list[int] = []
        self.source, self.sink = 0, 1

    def node(self) -> int:
        self.out.append([])
        return len(self.out) - 1

    def edge(self, start: int, end: int, capacity: int) -> int:
        """Add an edge and give its number."""
        for a, b, c in ((start, end, capacity), (end, start, 0)):
            self.out[a].append(len(self.to))
            self.to.append(b)
            self.room.append(c)
        return len(self.to) - 2

    def used(self, edge: int) -> int:
        """What flows over an edge."""
        return self.room[edge + 1]

    def run(self) -> int:
        """The greatest flow."""
        total = 0
        while (path := self._path()) is not None:
            least = min(self.room[e] for e in path)
            for e in path:
                self.room[e] -= least
                self.room[e ^ 1] += least
            total += least
        return total

    def _path(self) -> list[int] | None:
        came: dict[int, int] = {self.source: -1}
        queue = [self.source]
        for node in queue:
            for e in self.out[node]:
                end = self.to[e]
                if self.room[e] and end not in came:
                    came[end] = e
                    if end == self.sink:
                        path = [e]
                        while (before := came[self.to[path[-1] ^ 1]]) >= 0:
                            path.append(before)
                        return path
                    queue.append(end)
        return None
