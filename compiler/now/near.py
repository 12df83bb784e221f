"""Orders near to an agreed one: tried by rising number of pairs turned round, until one fits."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..order.advance import Moment, Rules
    from ..order.steps import Step

KEPT = 4
"""Ways to rig and to place the meal that are carried along for one order."""
FARTHEST = 8
"""Pairs turned round, beyond which an order is no longer near."""
TRIED = 1_500
"""Beginnings of orders that are tried in all; counted, so that the answer is the same everywhere."""


class _Tries:
    def __init__(self, rules: Rules) -> None:
        self.rules = rules
        self.left = TRIED

    def extended(self, layer: list[Moment], i: int) -> list[Moment]:
        """The most hopeful moments after setup i, with or without the meal before it."""
        rules = self.rules
        self.left -= 1
        ahead: list[tuple[int, int, int, int, Moment]] = []
        for at in layer:
            if rules.space.pred[i] & at.rem:
                continue
            fed = rules.eat(at)
            for start in (at, fed) if fed is not None else (at,):
                for child in rules.shoot(start, i):
                    end = rules.least_end(child)
                    if end is not None:
                        ahead.append((end, child.touch, child.time, len(ahead), child))
        ahead.sort(key=lambda entry: entry[:4])
        return [entry[4] for entry in ahead[:KEPT]]

    def ended(self, layer: list[Moment]) -> Moment | None:
        """The best end: all shot, the meals still due eaten."""
        ends: list[Moment] = []
        for last in layer:
            tail: Moment | None = last
            while tail is not None and not self.rules.done(tail):
                tail = self.rules.eat(tail)
            if tail is not None:
                ends.append(tail)
        return min(ends, key=lambda m: m.value(), default=None)

    def orders(self, layer: list[Moment], left: tuple[int, ...], turns: int) -> Moment | None:
        """The best end of all orders of what is left with exactly so many pairs turned round."""
        if not left:
            return self.ended(layer) if turns == 0 else None
        best: Moment | None = None
        for k in range(min(turns, len(left) - 1) + 1):
            rest = left[:k] + left[k + 1 :]
            if turns - k > len(rest) * (len(rest) - 1) // 2 or self.left <= 0:
                continue
            after = self.extended(layer, left[k])
            found = self.orders(after, rest, turns - k) if after else None
            if found is not None and (best is None or found.value() < best.value()):
                best = found
        return best


def nearest(rules: Rules, first: tuple[int, ...], agreed: tuple[int, ...]) -> tuple[tuple[Step, ...], int] | None:
    """(steps, pairs turned round) of the order nearest to the agreed one that keeps every limit of the day; of several
    as near, the one that wraps earliest and touches least. None where none is near. `first` come first as they are."""
    tries = _Tries(rules)
    layer = [rules.opening()]
    for i in first:
        layer = tries.extended(layer, i)
    for turns in range(FARTHEST + 1):
        found = tries.orders(layer, agreed, turns) if layer else None
        if found is not None:
            return found.steps(), turns
        if tries.left <= 0:
            break
    return None
