"""Rigging shared among the riggers, when what several setups want is brought for the first of them.

A piece that stands nowhere yet is brought for the first of the setups that want it there. Whatever is wanted by the
same setups is then brought in one changeover, which that changeover has to have the time for; and what is wanted by
some of them only is brought with it, or later for a first of its own.
"""

from __future__ import annotations

from .workspace import Workspace

Owed = tuple[int, int, int]
"""Setups as a mask, half-minutes that the first of them pays at least, and half-minutes of work in all."""
_Items = tuple[Owed, ...]


class Firsts:
    """The least rigging of a set of things owed, cached."""

    def __init__(self, space: Workspace) -> None:
        self.hands = space.day.riggers
        self.earlier = _closure(space)
        self._parts: dict[tuple[_Items, _Items], int] = {}
        self._family: dict[_Items, list[_Items]] = {}

    def least(self, owed: dict[int, tuple[int, int]], pool: int) -> int:
        """No fewer half-minutes of rigging: `owed` by mask (half-minutes of the longest, work in all), and work that
        may fall anywhere."""
        alone: dict[int, Owed] = {}
        shared: list[Owed] = []
        total, least, hands = pool, 0, self.hands
        for mask, (price, work) in owed.items():
            total += work
            if mask & (mask - 1):
                shared.append((mask, price, work))
            else:
                alone[mask] = (mask, price, work)
                spread = -(-work // hands)
                least += price if price > spread else spread
        if shared:
            for part in self._families(shared):
                mine = tuple(alone[bit] for bit in _bits(part[0][0]) if bit in alone)
                least += self._part(part, mine)
        spread = -(-total // hands)
        return least if least > spread else spread

    def _families(self, items: list[Owed]) -> list[_Items]:
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

    def _find_part(self, items: _Items, alone: _Items) -> int:
        whole = items[0][0]
        best = -1
        for bit in _bits(whole):
            if self.earlier[bit] & whole:
                continue
            _, peak, work = next((a for a in alone if a[0] == bit), (bit, 0, 0))
            more = -max(peak, -(-work // self.hands))
            for mask, price, load in items:
                if mask & bit:
                    peak, work = max(peak, price), work + load
            more += max(peak, -(-work // self.hands))
            left = [item for item in items if not item[0] & bit]
            if left and (best < 0 or more < best):
                for part in self._families(left):
                    more += self._part(part, tuple(a for a in alone if a[0] & part[0][0]))
            if best < 0 or more < best:
                best = more
        return max(best, 0)


def _families(items: list[Owed]) -> list[_Items]:
    """Masks that lie apart, each with those inside it, widest first. Of two that cross, the one with less work is
    left out: its work then counts in the sum alone."""
    kept: list[Owed] = []
    for item in sorted(items, key=lambda o: (-o[2], o[0])):
        mask = item[0]
        if all(not mask & k[0] or mask & k[0] in (mask, k[0]) for k in kept):
            kept.append(item)
    kept.sort(key=lambda o: (-o[0].bit_count(), o[0]))
    found: list[list[Owed]] = []
    for item in kept:
        home = next((f for f in found if f[0][0] & item[0]), None)
        if home is None:
            found.append([item])
        else:
            home.append(item)
    return [tuple(f) for f in found]


def _bits(mask: int) -> list[int]:
    found = []
    while mask:
        bit = mask & -mask
        found.append(bit)
        mask ^= bit
    return found


def _closure(space: Workspace) -> dict[int, int]:
    """By the bit of a setup, all that must be shot before it."""
    before = list(space.pred)
    for _ in space.members:
        for i in space.members:
            for j in space.members:
                if before[i] >> j & 1:
                    before[i] |= before[j]
    return {1 << i: before[i] for i in space.members}
