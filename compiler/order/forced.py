"""What must be entered more than once, because some of it comes before and some after something else.

If a setup in the hall comes before one in the kitchen, and another in the kitchen before another in the hall, one of
the two rooms is entered twice. The same holds for the states of a single piece. Of what can only be had by going round
in a circle the fewest entries are counted; all else is entered once.
"""

from __future__ import annotations

from dataclasses import dataclass

from .alike import alike
from .firsts import Owed
from .perroom import Again
from .rest import Rests
from .workspace import Gear, Workspace

Circle = tuple[tuple[int, ...], int]
"""The sets of setups (masks) that cannot all be shot one set after the other, and how many entries it takes more."""
MOST = 7
"""Of a circle of more sets than these the fewest entries are not looked for: the ways to go round grow too many."""


def order_of_windows(
    space: Workspace, opens: tuple[int, ...], closes: tuple[int, ...], least: tuple[int, ...]
) -> list[int]:
    """By setup, all that is shot before it: what the plan says, what closes too early to come after it, what is as good
    and comes earlier in the plan, and what comes before these."""
    takes, before = space.takes, list(space.pred)
    for first, then in alike(space):
        before[then] |= 1 << first
    for i in space.members:
        for j in space.members:
            if i != j and opens[j] + takes[j] + least[i] + takes[i] > closes[i]:
                before[j] |= 1 << i
    _pass_on(before)
    return before


def _pass_on(before: list[int]) -> None:
    """What comes before something that comes before it comes before it too."""
    for via in range(len(before)):
        for i in range(len(before)):
            if before[i] >> via & 1:
                before[i] |= before[via]


@dataclass(frozen=True, slots=True)
class _Single:
    """A group of one piece: its states, the setups that want each, and the cheapest move into each."""

    group: int
    states: tuple[int, ...]
    masks: tuple[int, ...]
    prices: tuple[int, ...]
    hands: int


class Forced:
    """The circles among the rooms and among the states of every single piece, cached."""

    def __init__(self, space: Workspace, before: list[int], rests: Rests) -> None:
        self.space, self.before = space, before
        self._known: dict[tuple[tuple[int, ...], int], tuple[Circle, ...]] = {}
        self._rooms: dict[tuple[int, int], int] = {}
        self._by_room = space.in_room if self.circles(space.in_room, -1) else ()
        self._single = [s for g in range(len(space.day.groups)) if (s := self._states(g, rests))]

    def _states(self, g: int, rests: Rests) -> _Single | None:
        """The states of a single piece, where some must be entered again."""
        space, group = self.space, self.space.day.groups[g]
        possible, certain = rests.possible[g], rests.certain[g]
        if len(group.start) > 1 or any(certain[i] != dict.fromkeys(some, 1) for i, some in possible.items()):
            return None
        masks: dict[int, int] = {}
        for i, some in possible.items():
            for s in some:
                masks[s] = masks.get(s, 0) | 1 << i
        states = tuple(sorted(masks, key=lambda s: masks[s]))
        if not self.circles(tuple(masks[s] for s in states), -1):
            return None
        free = [s for s in states if any(masks[s] >> i & 1 and space.day.setups[i].flat for i in space.members)]
        prices = tuple(0 if s in free else min(row[s] for a, row in enumerate(group.cost) if a != s) for s in states)
        return _Single(g, states, tuple(masks[s] for s in states), prices, group.hands)

    def rooms(self, room: int, rem: int) -> int:
        """How many times more rooms are entered than there are rooms left, seen from a room."""
        if not self._by_room:
            return 0
        key = (room, rem)
        got = self._rooms.get(key)
        if got is None:
            left = [(r, mask & rem) for r, mask in enumerate(self._by_room) if mask & rem]
            at = next((k for k, (r, _) in enumerate(left) if r == room), -1)
            got = self._rooms[key] = sum(more for _, more in self.circles(tuple(mask for _, mask in left), at))
        return got

    def groups(self, gear: Gear, rem: int, but: set[int]) -> list[Again]:
        """What single pieces must be brought to again while `rem` is left, as everything stands; what is brought to
        the same setups together. Groups in `but` are left out."""
        found: dict[tuple[int, ...], tuple[int, list[int], dict[int, Owed]]] = {}
        for one in self._single:
            if one.group in but:
                continue
            stands = self.space.states[one.group][gear[one.group]][0]
            whole = zip(one.states, one.masks, one.prices, strict=True)
            left = [(s, mask & rem, p) for s, mask, p in whole if mask & rem]
            at = next((k for k, (s, _, _) in enumerate(left) if s == stands), -1)
            price = {mask: p for _, mask, p in left}
            for circle, more in self.circles(tuple(mask for _, mask, _ in left), at):
                count, groups, items = found.setdefault(circle, (more, [], {}))
                for mask in circle:
                    _, peak, work = items.get(mask, (mask, 0, 0))
                    items[mask] = (mask, max(peak, price[mask]), work + price[mask] * one.hands)
                found[circle] = (min(count, more), [*groups, one.group], items)
        return [
            Again(tuple(groups), count, tuple(items.values()), (), 0, True, True)
            for count, groups, items in found.values()
        ]

    def circles(self, sets: tuple[int, ...], at: int) -> tuple[Circle, ...]:
        """The circles of these sets, seen from set number `at` (-1: from none of them)."""
        key = (sets, at)
        got = self._known.get(key)
        if got is None:
            found = []
            for ring in self._rings(sets):
                inside = ring.index(at) if at in ring else -1
                masks = tuple(sets[k] for k in ring)
                more = self._entries(masks, inside) - len(masks) + (inside >= 0)
                if more > 0:
                    found.append((masks, more))
            got = self._known[key] = tuple(found)
        return got

    def _rings(self, sets: tuple[int, ...]) -> list[list[int]]:
        """The sets, by their numbers, that come before each other some way round."""
        ahead = []
        for mask in sets:
            before = 0
            for i in self.space.members:
                if mask >> i & 1:
                    before |= self.before[i]
            ahead.append(sum(1 << k for k, other in enumerate(sets) if before & other))
        _pass_on(ahead)
        found: list[list[int]] = []
        for k in range(len(sets)):
            if ahead[k] >> k & 1 and not any(k in ring for ring in found):
                ring = [j for j in range(len(sets)) if ahead[k] >> j & 1 and ahead[j] >> k & 1]
                if len(ring) > 1:
                    found.append(ring)
        return found

    def _entries(self, masks: tuple[int, ...], inside: int) -> int:
        """The fewest entries that see all of these sets shot: in each, whatever can be shot is. Of many sets it is only
        known that one must be entered again."""
        if len(masks) > MOST:
            return len(masks) + 1 - (inside >= 0)
        whole = sum(masks)
        start = self._run(masks[inside], whole) if inside >= 0 else whole
        layer, seen, count = {(start, inside)}, set[int](), 0
        while layer:
            if any(not left for left, _ in layer):
                return count
            count += 1
            ahead = set()
            for left, last in sorted(layer):
                for k, mask in enumerate(masks):
                    if k != last and mask & left:
                        after = self._run(mask, left)
                        if after != left and after not in seen:
                            ahead.add((after, k))
            seen |= {left for left, _ in ahead}
            layer = ahead
        return 0

    def _run(self, mask: int, left: int) -> int:
        """What is left when all of a set that can be is shot."""
        while True:
            ready = sum(1 << i for i in self.space.members if mask & left & 1 << i and not self.before[i] & left)
            if not ready:
                return left
            left &= ~ready
