"""What it costs at least to bring the pieces of a group into the states, and the sets of states, still to be visited.

Every set of states in which too few pieces stand must be entered from outside. The sets, and the half-minutes that
each may charge for one entry so that no single move is charged more than it costs, are those of a minimum-cost
arborescence: every state by itself, then the rings of states that are cheapest to reach from each other, and so on
(J. Edmonds, "Optimum branchings", Journal of Research of the National Bureau of Standards 71B (1967)).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

Cost = tuple[tuple[int, ...], ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """States that must be entered from outside: half-minutes `charged` for one entry (on top of what the sets inside
    charge), and the `price` of the cheapest single move into them."""

    states: frozenset[int]
    charged: int
    price: int


def entries(cost: Cost, targets: Iterable[int], sources: Iterable[int], gratis: frozenset[int]) -> tuple[Entry, ...]:
    """The sets of target states worth charging for, each after those inside it. `sources` are states that a piece may
    come from beside the targets; entering a `gratis` state costs nothing."""
    wanted = sorted(set(targets))
    outside = [s for s in sorted(set(sources)) if s not in wanted]
    left = {(a, t): 0 if t in gratis else cost[a][t] for t in wanted for a in (*wanted, *outside) if a != t}
    whole = dict(left)
    sets: list[frozenset[int]] = [frozenset((t,)) for t in wanted]
    charged: dict[frozenset[int], int] = {}
    found: list[Entry] = []
    while sets:
        for one in sets:
            if one in charged:
                continue
            ways = [(a, t) for a, t in left if t in one and a not in one]
            least = charged[one] = min((left[w] for w in ways), default=0)
            if least:
                found.append(Entry(one, least, min(whole[w] for w in ways)))
                for w in ways:
                    left[w] -= least
        joined = _rings(sets, left)
        if len(joined) == len(sets):
            break
        sets = joined
    return tuple(found)


def _rings(sets: list[frozenset[int]], left: dict[tuple[int, int], int]) -> list[frozenset[int]]:
    """The sets, joined where each can be reached from the other by moves that are paid for already."""
    home = {s: k for k, one in enumerate(sets) for s in one}
    onward: list[set[int]] = [{k} for k in range(len(sets))]
    for (a, t), more in left.items():
        if not more and a in home:
            onward[home[a]].add(home[t])
    for via in range(len(sets)):
        for here in range(len(sets)):
            if via in onward[here]:
                onward[here] |= onward[via]
    joined: dict[int, frozenset[int]] = {}
    for k in range(len(sets)):
        first = min(j for j in range(len(sets)) if j in onward[k] and k in onward[j])
        joined[first] = joined.get(first, frozenset()) | sets[k]
    return list(joined.values())
