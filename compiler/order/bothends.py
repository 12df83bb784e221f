"""Least waiting where nothing binds the order of scenes: from both ends of the day at once.

Read backwards, an order has the same waiting. So what a set of scenes costs at the beginning it costs at the end, and
one search serves both: sets are settled by what they cost, and no set of more than half the answer is ever needed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

MOST_BITS = 26


@dataclass(frozen=True, slots=True)
class Ends:
    """The best order of scenes met, its cost, a cost that no order goes below, and how many sets were settled."""

    order: tuple[int, ...]
    value: int
    bound: int
    settled: int


def from_both_ends(
    takes: Sequence[int], cast: Sequence[int], weight: Sequence[int], first: tuple[int, tuple[int, ...]], limit: int
) -> Ends:
    """The order of scenes with the least waiting: `takes[k]` is how long scene k is, `cast[k]` the bits of those in
    it, `weight[c]` what a unit of time of c's waiting costs; `first` the value and the order of some order known.
    At most `MOST_BITS` scenes and as many people. `limit` counts the sets settled."""
    n, (best, order) = len(takes), first
    everything = (1 << n) - 1
    here, near, far = _table(cast, lambda a, b: a | b)
    people, cheap, dear = _table(weight, lambda a, b: a + b)
    near_bits, cheap_bits = (1 << here) - 1, (1 << people) - 1
    scenes = [(1 << k, takes[k], ~cast[k]) for k in range(n)]
    known, last, heap, settled = {0: 0}, {0: 0}, [0], 0
    meeting = (0, 0)
    while heap:
        entry = heappop(heap)
        done, cost = entry & everything, entry >> n
        if 2 * cost >= best:
            break
        if known[done] < cost:
            continue
        if settled >= limit:
            return Ends(_met(meeting, last, everything, order), best, min(best, 2 * cost), settled)
        settled += 1
        left = everything ^ done
        begun = near[done & near_bits] | far[done >> here]
        active = begun & (near[left & near_bits] | far[left >> here])
        for bit, length, others in scenes:
            if done & bit:
                continue
            waiting = active & others
            value = cost + length * (cheap[waiting & cheap_bits] + dear[waiting >> people])
            if value >= best:
                continue
            more = done | bit
            rest = known.get(everything ^ more)
            if rest is not None and value + rest < best:
                best, meeting = value + rest, (done, bit)
            if value < known.get(more, best):
                known[more], last[more] = value, bit
                if 2 * value < best:
                    heappush(heap, value << n | more)
    return Ends(_met(meeting, last, everything, order), best, best, settled)


def _met(meeting: tuple[int, int], last: dict[int, int], everything: int, order: tuple[int, ...]) -> tuple[int, ...]:
    """The order that was met: the beginning, the scene between, and the other end backwards."""
    done, bit = meeting
    if not bit:
        return order
    front = _back(done, last)
    back = _back(everything ^ done ^ bit, last)
    return (*reversed(front), bit.bit_length() - 1, *back)


def _back(done: int, last: dict[int, int]) -> list[int]:
    found = []
    while done:
        bit = last[done]
        found.append(bit.bit_length() - 1)
        done ^= bit
    return found


def _table(values: Sequence[int], join: Callable[[int, int], int]) -> tuple[int, list[int], list[int]]:
    """What a set of values comes to, in two tables: for the lower half of its bits, and for the upper."""
    half = (len(values) + 1) // 2
    tables = []
    for part in (values[:half], values[half:]):
        table = [0]
        for value in part:
            table += [join(value, known) for known in table]
        tables.append(table)
    return half, tables[0], tables[1]
