"""The least work left for one group of pieces, seen from where they stand."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from ..facts.pieces import CASE, Group
from .entries import entries
from .firsts import Owed
from .workspace import Workspace


@dataclass(frozen=True, slots=True)
class GroupRest:
    """Least work left for one group: entries owed to the first of some setups, work that may fall anywhere, the least
    number of touches, and the half-minutes for which its pieces keep somebody busy one changeover after another,
    however many hands there are."""

    owed: tuple[Owed, ...]
    pool: int
    touches: int
    alone: int


@dataclass(frozen=True, slots=True)
class Visit:
    """States to be entered from outside (`entries`): the setups that surely want pieces in them and those that may, as
    masks, and the most pieces that one wants; by the bit of the setup where they differ. `alone`: it is one state.
    `level`: how many sets, one in the other, lie inside of it; sets of one level lie apart."""

    states: frozenset[int]
    charged: int
    price: int
    sure: int
    maybe: int
    most: int
    counts: tuple[tuple[int, int], ...]
    alone: bool
    level: int


NOTHING = GroupRest((), 0, 0, 0)
NONE: frozenset[int] = frozenset()


class Rests:
    """What is left for the groups of a workspace: per group and setup the states that it surely wants, with how many
    pieces, and those that it may."""

    def __init__(
        self, space: Workspace, certain: list[dict[int, Counter[int]]], possible: list[dict[int, frozenset[int]]]
    ) -> None:
        self.space, self.certain, self.possible = space, certain, possible
        self._visited: dict[tuple[int, bool, frozenset[int]], tuple[Visit, ...]] = {}

    def find(
        self,
        g: int,
        standing: tuple[int, ...],
        users: int,
        may_clear: bool,
        free: frozenset[int] = frozenset(),
        via: frozenset[int] = frozenset(),
    ) -> GroupRest:
        """`free` states may have a piece in them already; `via` states may be passed on the way."""
        hands = self.space.day.groups[g].hands
        owed: list[Owed] = []
        pool = touches = 0
        astray = self.astray(g, standing) if self.space.afoot else NONE
        for visit in self.visits(g, may_clear or CASE in standing, astray):
            sure = users & visit.sure
            if not sure or (free and visit.states & free):
                continue
            most, least = visit.most, visit.most
            if visit.counts:
                counts = [n for bit, n in visit.counts if sure & bit]
                most, least = max(counts), min(counts)
            short = most
            for s in standing:
                if s in visit.states:
                    short -= 1
            if short <= 0:
                continue
            if visit.alone:
                touches += short
            owners, work = visit.maybe & users, visit.charged * hands
            at_once = short - most + least if owners == sure else 0
            if at_once > 0 and not (via and visit.states & via):
                owed.append((owners, visit.price, work * at_once))
                short -= at_once
            pool += work * short
        return _rest(owed, pool, touches, self.space.day.groups[g])

    def astray(self, g: int, standing: tuple[int, ...]) -> frozenset[int]:
        """Where pieces stand that neither stood there at the call nor are wanted there."""
        if not self.space.afoot:
            return NONE
        known = {CASE, *self.space.day.groups[g].start}.union(*self.possible[g].values())
        return frozenset(standing) - known

    def visits(self, g: int, case: bool, astray: frozenset[int] = NONE) -> tuple[Visit, ...]:
        """The sets of states that a group's pieces are brought into, with who wants a piece there."""
        got = self._visited.get((g, case, astray))
        if got is None:
            group, certain, possible = self.space.day.groups[g], self.certain[g], self.possible[g]
            flat = frozenset(s for i, states in possible.items() if self.space.day.setups[i].flat for s in states)
            targets = {s for states in possible.values() for s in states} - {CASE}
            sources = {s for s in group.start if s != CASE} | ({CASE} if case else set()) | astray
            found: list[Visit] = []
            for e in entries(group.cost, targets, sources, flat):
                counts = tuple((1 << i, n) for i, w in certain.items() if (n := sum(w[s] for s in e.states)))
                most = max((n for _, n in counts), default=0)
                sure = sum(bit for bit, _ in counts)
                maybe = sum(1 << i for i, states in possible.items() if states & e.states)
                uneven = counts if any(n < most for _, n in counts) else ()
                level = max((v.level + 1 for v in found if v.states < e.states), default=0)
                found.append(Visit(e.states, e.charged, e.price, sure, maybe, most, uneven, len(e.states) == 1, level))
            got = self._visited[g, case, astray] = tuple(found)
        return got


def _rest(owed: list[Owed], pool: int, touches: int, group: Group) -> GroupRest:
    """In one changeover no piece has two tasks, so what all of them cost is spread over as many pieces."""
    alone = (pool + sum(work for _, _, work in owed)) // group.hands
    return GroupRest(tuple(owed), pool, touches, -(-alone // len(group.start)))
