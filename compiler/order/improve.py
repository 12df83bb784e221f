"""Good answers before proven ones: greedy by cheapest changeover, then blocks moved while it helps."""

from __future__ import annotations

from collections.abc import Iterator

from ..facts.numbers import FOREVER
from .advance import Moment, Rules

KEPT = 2
BLOCKS = 3
ROUNDS = 4


def opening_guess(rules: Rules) -> Moment | None:
    """Always the next setup that leaves the least to do; None where that runs into a wall."""
    at = rules.opening()
    while not rules.done(at):
        choices = []
        for k, child in enumerate(rules.after(at)):
            end = rules.least_end(child)
            if end is not None:
                choices.append((end, child.time, k, child))
        if not choices:
            return None
        at = min(choices)[3]
    return at


def run_order(rules: Rules, order: tuple[int, ...], late: int = FOREVER) -> Moment | None:
    """The best end of one given order of setups, meals put where they fit; a few ways are carried along. Given up where
    it cannot end before `late`."""
    layer = [rules.opening()]
    for i in order:
        if any(rules.space.pred[i] & at.rem for at in layer):
            return None
        ahead: list[tuple[int, int, int, int, Moment]] = []
        for at in layer:
            starts = [at]
            fed = rules.eat(at)
            if fed is not None:
                starts.append(fed)
            for start in starts:
                for child in rules.shoot(start, i, late):
                    end = rules.least_end(child)
                    if end is not None and end < late:
                        ahead.append((end, child.touch, child.time, len(ahead), child))
        ahead.sort(key=lambda entry: entry[:4])
        layer = _kept([entry[4] for entry in ahead])
        if not layer:
            return None
    ends: list[Moment] = []
    for last in layer:
        tail: Moment | None = last
        while tail is not None and not rules.done(tail):
            tail = rules.eat(tail)
        if tail is not None:
            ends.append(tail)
    return min(ends, key=lambda m: m.value(), default=None)


def _kept(ways: list[Moment]) -> list[Moment]:
    """The best few ways for each number of meals taken: one that has not eaten yet is always ahead, and may starve."""
    seen: set[tuple[object, ...]] = set()
    count: dict[int, int] = {}
    found = []
    for way in ways:
        mark = (way.meals, way.time, way.due, way.cap, way.gear)
        if mark not in seen and count.get(way.meals, 0) < KEPT:
            seen.add(mark)
            count[way.meals] = count.get(way.meals, 0) + 1
            found.append(way)
    return found


def order_of(at: Moment) -> tuple[int, ...]:
    """The setups in the order they were shot."""
    return tuple(s.setup for s in at.steps() if s.setup >= 0)


def improve(rules: Rules, best: Moment | None) -> Moment | None:
    """Move blocks of one to three setups elsewhere while the last cut gets earlier."""
    if best is None:
        return None
    for _ in range(ROUNDS):
        better = best
        for order in _neighbours(order_of(best)):
            rival = run_order(rules, order, better.time + 1)
            if rival is not None and rival.value() < better.value():
                better = rival
        if better is best:
            break
        best = better
    return best


def _neighbours(order: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    n = len(order)
    for size in range(1, min(BLOCKS, n - 1) + 1):
        for start in range(n - size + 1):
            block, rest = order[start : start + size], order[:start] + order[start + size :]
            for to in range(len(rest) + 1):
                if to != start:
                    yield rest[:to] + block + rest[to:]
