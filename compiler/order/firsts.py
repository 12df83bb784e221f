"""Rigging shared among the riggers, when what several setups want is brought for the first of them.

A piece that stands nowhere yet is brought for the first of the setups that want it there. Whatever is wanted by the
same setups is then brought in one changeover, which that changeover has to have the time for; and what is wanted by
some of them only is brought with it, or later for a first of its own.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from ..facts.pieces import changeover
from .workspace import Workspace

if TYPE_CHECKING:
    from .perroom import Again

Owed = tuple[int, int, int]
"""Setups as a mask, half-minutes that the first of them pays at least, and half-minutes of work in all."""
_Items = tuple[Owed, ...]
FEW = 6
"""Where more than these may fall into one changeover beside an item, it is taken to add nothing: all mixes would have
to be looked at, and they double with each."""


class Firsts:
    """The least rigging of a set of things owed, cached."""

    def __init__(self, space: Workspace, before: list[int]) -> None:
        """`before`: by setup, all that is shot before it."""
        self.hands = space.day.riggers
        self.earlier = {1 << i: before[i] for i in space.members}
        self._bits_of: dict[int, list[int]] = {}
        self._parts: dict[tuple[_Items, _Items], int] = {}
        self._family: dict[_Items, tuple[list[_Items], _Items]] = {}
        self._crossed: dict[tuple[Owed, _Items, _Items, _Items, bool], int] = {}

    def least(self, owed: Sequence[_Items], pool: int, entered: Sequence[Again] | None, spare: int) -> int:
        """No fewer half-minutes of rigging: what is `owed` for each group, and work that may fall anywhere. Looked at
        closely: masks that cross others, and what is entered again; entering a room once more takes `spare`."""
        hands, total = self.hands, pool + sum([work for group in owed for _, _, work in group])
        if hands == 1:  # nobody works beside another: all of it is done one thing after the other
            return total + _worked_again(entered, spare) if entered else total
        alone, shared = _merged(owed)
        least = sum([changeover(work, price, hands) for _, price, work in alone.values()])
        if shared:
            parts, crossing = self._families(shared)
            for part in parts:
                mine = tuple([alone[bit] for bit in self._bits(part[0][0]) if bit in alone])
                least += self._part(part, mine)
            if entered is not None:
                for k, item in enumerate(crossing):
                    least += self._extra(item, crossing[:k], parts, alone)
        if entered:
            least += self._again(owed, entered, spare)
            total += _worked_again(entered, spare * hands)
        spread = -(-total // hands)
        return least if least > spread else spread

    def _bits(self, mask: int) -> list[int]:
        got = self._bits_of.get(mask)
        if got is None:
            got = self._bits_of[mask] = [1 << k for k in range(mask.bit_length()) if mask >> k & 1]
        return got

    def _families(self, items: list[Owed]) -> tuple[list[_Items], _Items]:
        """As `_families`, remembered."""
        key = tuple(items)
        got = self._family.get(key)
        if got is None:
            got = self._family[key] = _families(items)
        return got

    def _part(self, items: _Items, alone: _Items) -> int:
        """What a mask and those inside it add to what its setups pay each for itself. The widest comes first."""
        key = (items, alone)
        got = self._parts.get(key)
        if got is None:
            got = self._parts[key] = self._find_part(items, alone)
        return got

    def _again(self, owed: Sequence[_Items], entered: Sequence[Again], spare: int) -> int:
        """Half-minutes that what is entered again adds at least, taken to be what adds least. Whoever enters a room
        once more to save some of it pays `spare` half-minutes for that, so no more than they are charged for what it
        saves. No piece is brought into a state twice in one changeover: beside what is entered again stand the other
        groups alone, and what lies inside of it."""
        minutes = 0
        earlier: list[Again] = []
        for again in entered:
            beside = [o for g, o in enumerate(owed) if g not in again.groups] if again.lone else owed
            alone, shared = _merged(beside)
            parts, crossing = self._families(shared)
            apart = [e for e in earlier if not again.lone or not set(e.groups) & set(again.groups)]
            before = (*crossing, *again.inside, *(item for e in apart for item in e.items))
            earlier.append(again)
            costs = [self._extra(item, before, parts, alone, False) for item in again.items]
            more, spare = _charged(again, costs, spare)
            minutes += more
        return minutes

    def _extra(
        self, item: Owed, before: _Items, parts: list[_Items], alone: dict[int, Owed], first: bool = True
    ) -> int:
        """What an item adds at least to the changeover of one of its setups (the first of them, or any), with whatever
        else may fall there."""
        mask = item[0]
        kept = tuple(o for part in parts if part[0][0] & mask for o in part if o[0] & mask)
        own = tuple([alone[bit] for bit in self._bits(mask) if bit in alone])
        others = tuple(o for o in before if o[0] & mask)
        key = (item, kept, own, others, first)
        got = self._crossed.get(key)
        if got is None:
            got = self._crossed[key] = self._find_extra(item, kept, own, others, first)
        return got

    def _find_extra(self, item: Owed, kept: _Items, own: _Items, before: _Items, first: bool) -> int:
        mask, price, work = item
        best = -1
        for bit in self._bits(mask):
            if first and self.earlier[bit] & mask:
                continue
            peak = load = 0
            for o in own:
                if o[0] == bit:
                    peak, load = o[1], o[2]
            inside = [o for o in reversed(kept) if o[0] & bit]
            others = [o for o in before if o[0] & bit and not self.earlier[bit] & o[0]]
            if len(others) > FEW:
                return 0
            contents = [(peak, load)]
            for o in inside:
                if self.earlier[bit] & o[0]:
                    break
                peak, load = max(peak, o[1]), load + o[2]
                contents.append((peak, load))
            for o in others:
                contents += [(max(p, o[1]), w + o[2]) for p, w in contents]
            for p, w in contents:
                more = changeover(w + work, max(p, price), self.hands) - changeover(w, p, self.hands)
                if best < 0 or more < best:
                    best = more
            if best == 0:
                break
        return max(best, 0)

    def _find_part(self, items: _Items, alone: _Items) -> int:
        whole = items[0][0]
        best = -1
        for bit in self._bits(whole):
            if self.earlier[bit] & whole:
                continue
            _, peak, work = next((a for a in alone if a[0] == bit), (bit, 0, 0))
            more = -changeover(work, peak, self.hands)
            for mask, price, load in items:
                if mask & bit:
                    peak, work = max(peak, price), work + load
            more += changeover(work, peak, self.hands)
            left = [item for item in items if not item[0] & bit]
            if left and (best < 0 or more < best):
                for part in self._families(left)[0]:
                    more += self._part(part, tuple(a for a in alone if a[0] & part[0][0]))
            if best < 0 or more < best:
                best = more
        return max(best, 0)


def _worked_again(entered: Sequence[Again], spare: int) -> int:
    """The least work of what is entered again; entering a room once more takes `spare`."""
    found = 0
    for again in entered:
        more, spare = _charged(again, [work for _, _, work in again.items], spare)
        found += more
    return found


def _charged(again: Again, costs: list[int], spare: int) -> tuple[int, int]:
    """(what is entered again costs at least, what is left to spare for entering a room once more): the cheapest of the
    items, and none for more than entering a room takes for each piece that it then finds standing."""
    if not again.pieces:
        return again.count * min(costs), spare
    least = [min(spare // again.pieces, cost) for cost in sorted(costs)[: again.count]]
    return sum(least), spare - least[-1] * again.pieces


def _merged(owed: Iterable[_Items]) -> tuple[dict[int, Owed], list[Owed]]:
    """What is owed to single setups, by the bit of each, and what to the first of several: one item for each mask."""
    alone: dict[int, Owed] = {}
    shared: dict[int, Owed] = {}
    for group in owed:
        for item in group:
            mask, price, work = item
            whole = shared if mask & (mask - 1) else alone
            known = whole.get(mask)
            if known is not None:
                item = (mask, price if price > known[1] else known[1], work + known[2])
            whole[mask] = item
    return alone, list(shared.values())


def _families(items: list[Owed]) -> tuple[list[_Items], _Items]:
    """Masks that lie apart, each with those inside it, widest first; and those that cross them: of two that cross,
    the one with more work is kept."""
    kept: list[Owed] = []
    crossing: list[Owed] = []
    for item in sorted(items, key=lambda o: (-o[2], o[0])):
        mask = item[0]
        if all(not mask & k[0] or mask & k[0] in (mask, k[0]) for k in kept):
            kept.append(item)
        else:
            crossing.append(item)
    kept.sort(key=lambda o: (-o[0].bit_count(), o[0]))
    found: list[list[Owed]] = []
    for item in kept:
        home = next((f for f in found if f[0][0] & item[0]), None)
        if home is None:
            found.append([item])
        else:
            home.append(item)
    return [tuple(f) for f in found], tuple(crossing)

