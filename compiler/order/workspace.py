"""The day in the form the search works on: bit masks, interned states of the gear, and the changeovers between them.

A set of setups is an int with one bit each. The state of all gear is a tuple with one number per group; the numbers
stand for the group's sorted tuple of piece states and are handed out as states are met.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from itertools import product
from operator import itemgetter

from ..facts.numbers import Day, meet
from ..facts.pieces import CASE, Shift, changeover, shifts
from ..record import replace

Gear = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Move:
    """One way to change over to a setup: the numbers of the touched groups afterwards, half-minutes of rigging with
    all hands (without the room change), the work and the longest task to be shared, pieces touched, and the moves as
    (group, from, to)."""

    after: tuple[int, ...]
    minutes: int
    work: int
    longest: int
    touched: int
    moves: tuple[tuple[int, int, int], ...]


@dataclass(frozen=True, slots=True)
class Variant:
    """One choice among the options of a setup's needs: per group wanted states and states to be left."""

    groups: tuple[int, ...]
    wanted: tuple[tuple[int, ...], ...]
    away: tuple[frozenset[int], ...]


class Workspace:
    """Caches for one day and one choice of setups (`chosen`, a mask). Nothing here outlives a solve. `afoot`: the gear
    may stand anywhere to begin with, not only where it stands at the call; by group, the first of the states of pieces
    that stand nobody knows where, and may stand in any state that costs them nothing."""

    def __init__(self, day: Day, chosen: int, afoot: tuple[int, ...] = ()) -> None:
        self.day = day
        self.afoot = afoot
        self.chosen = chosen
        self.members = tuple(i for i in range(len(day.setups)) if chosen >> i & 1)
        self.takes = tuple(s.takes for s in day.setups)
        self.rooms = tuple(s.room for s in day.setups)
        self.spans = tuple(meet(s.windows) for s in day.setups)
        self.variants = tuple(_variants(day, i) for i in range(len(day.setups)))
        self.touching = tuple(tuple(sorted({g for v in vs for g in v.groups})) for vs in self.variants)
        self._touched = tuple(_picker(t) for t in self.touching)
        self.pred = self._predecessors()
        self.users, self.clearers = self._uses()
        self.casts = self._cast_masks()
        self.toned = sum(1 << i for i in self.members if day.setups[i].tone) if day.tone else 0
        self.in_room = tuple(
            sum(1 << j for j in self.members if self.rooms[j] == room) for room in range(len(day.arrive))
        )
        self._numbers: list[dict[tuple[int, ...], int]] = [{} for _ in day.groups]
        self.states: list[list[tuple[int, ...]]] = [[] for _ in day.groups]
        self._shifts: dict[tuple[object, ...], tuple[Shift, ...]] = {}
        self._moves: dict[tuple[object, ...], tuple[Move, ...]] = {}
        self._canon: dict[tuple[int, int, int], int] = {}
        self._binding: dict[int, tuple[int, ...]] = {}

    def _predecessors(self) -> tuple[int, ...]:
        pred = [0] * len(self.day.setups)
        for first, then in self.day.before:
            if self.chosen >> first & 1 and self.chosen >> then & 1:
                pred[then] |= 1 << first
        return tuple(pred)

    def _uses(self) -> tuple[tuple[int, ...], tuple[int, ...]]:
        users = [0] * len(self.day.groups)
        clearers = [0] * len(self.day.groups)
        for i in self.members:
            for variant in self.variants[i]:
                for g, wanted, away in zip(variant.groups, variant.wanted, variant.away, strict=True):
                    users[g] |= (1 << i) if wanted else 0
                    clearers[g] |= (1 << i) if away else 0
        return tuple(users), tuple(clearers)

    def _cast_masks(self) -> tuple[int, ...]:
        masks = [0] * len(self.day.cast)
        for i in self.members:
            for c in self.day.setups[i].cast:
                masks[c] |= 1 << i
        return tuple(masks)

    def number(self, g: int, states: tuple[int, ...]) -> int:
        """The number that stands for these piece states of group g."""
        known = self._numbers[g]
        got = known.get(states)
        if got is None:
            got = known[states] = len(self.states[g])
            self.states[g].append(states)
        return got

    def opening(self) -> Gear:
        """The gear at the call."""
        gear = tuple(self.number(g, tuple(sorted(group.start))) for g, group in enumerate(self.day.groups))
        return tuple(self.canon(g, s, self.chosen) for g, s in enumerate(gear))

    def canon(self, g: int, sid: int, rem: int) -> int:
        """Pieces that no remaining setup wants or asks to leave may stand anywhere: count them as in their case."""
        if rem & self.users[g]:
            return sid
        clear = rem & self.clearers[g]
        key = (g, sid, clear)
        got = self._canon.get(key)
        if got is None:
            matters = self.asked_away(g, clear) | self._held_states(g, rem)
            kept = tuple(sorted(s if s in matters else CASE for s in self.states[g][sid]))
            got = self._canon[key] = self.number(g, kept)
        return got

    def _held_states(self, g: int, rem: int) -> frozenset[int]:
        if not rem & self.clearers[g]:
            return frozenset()
        return frozenset(s for h in self.day.holds if g not in h.free for _, s in self._needs_of(h.first, g))

    def asked_away(self, g: int, rem: int) -> frozenset[int]:
        """The states of group g that some setup in rem wants left."""
        found: set[int] = set()
        for i in self.members:
            if rem >> i & 1:
                for variant in self.variants[i]:
                    for group, away in zip(variant.groups, variant.away, strict=True):
                        if group == g:
                            found |= away
        return frozenset(found)

    def _needs_of(self, i: int, g: int) -> list[tuple[int, int]]:
        return [o for need in self.day.setups[i].needs for o in need if o[0] == g]

    def binding(self, rem: int) -> tuple[int, ...]:
        """The holds in force while rem remains: begun, and not yet at their end."""
        got = self._binding.get(rem)
        if got is None:
            got = self._binding[rem] = tuple(
                k
                for k, h in enumerate(self.day.holds)
                if self.chosen >> h.first & 1 and not rem >> h.first & 1 and rem >> h.until & 1
            )
        return got

    def moves(self, i: int, gear: Gear, rem: int) -> tuple[Move, ...]:
        """Every undominated way to rig setup i from this state of the gear."""
        holds: tuple[int, ...] = ()
        if self.day.holds:
            holds = tuple(
                k for k in self.binding(rem) if self.day.holds[k].until != i and i not in self.day.holds[k].inside
            )
        key = (i, holds, self._touched[i](gear))
        got = self._moves.get(key)
        if got is None:
            got = self._moves[key] = self._find_moves(i, gear, holds)
        return got

    def _find_moves(self, i: int, gear: Gear, holds: tuple[int, ...]) -> tuple[Move, ...]:
        setup, touching = self.day.setups[i], self.touching[i]
        found: list[Move] = []
        for variant in self.variants[i]:
            choices = [
                self._group_shifts(g, gear[g], wanted, away, holds)
                for g, wanted, away in zip(variant.groups, variant.wanted, variant.away, strict=True)
            ]
            for combo in product(*choices):
                after = {g: self.number(g, s.after) for g, s in zip(variant.groups, combo, strict=True)}
                work = 0 if setup.flat else sum(s.total for s in combo)
                longest = 0 if setup.flat else max((s.longest for s in combo), default=0)
                found.append(
                    Move(
                        tuple(after.get(g, gear[g]) for g in touching),
                        setup.fixed + changeover(work, longest, self.day.riggers),
                        work,
                        longest,
                        sum(s.touched for s in combo),
                        tuple((g, a, b) for g, s in zip(variant.groups, combo, strict=True) for a, b in s.moves),
                    )
                )
        found.sort(key=lambda m: (m.minutes, m.touched))
        kept: list[Move] = []
        for move in found:
            if not any(k.after == move.after and k.touched <= move.touched and self._no_worse(k, move) for k in kept):
                kept.append(move)
        return tuple(kept)

    def _no_worse(self, one: Move, two: Move) -> bool:
        """Whether one, which takes no longer with all hands, takes no longer with fewer."""
        return not self.day.absent or (one.work <= two.work and one.longest <= two.longest)

    def _group_shifts(
        self, g: int, sid: int, wanted: tuple[int, ...], away: frozenset[int], holds: tuple[int, ...]
    ) -> tuple[Shift, ...]:
        key = (g, sid, wanted, away, holds)
        got = self._shifts.get(key)
        if got is None:
            hot = (self.day.holds[k] for k in holds)
            held = frozenset(s for h in hot if g not in h.free for _, s in self._needs_of(h.first, g))
            got = shifts(self.day.groups[g], self.states[g][sid], wanted, away, held)
            if self.afoot:
                there = self._there(g, self.states[g][sid], wanted)
                got = tuple(replace(s, touched=max(0, s.touched - there)) for s in got)
            self._shifts[key] = got
        return got

    def _there(self, g: int, pieces: tuple[int, ...], wanted: tuple[int, ...]) -> int:
        """How many pieces that stand nobody knows where may stand where they are wanted, and so are not touched."""
        left = [s for s in pieces if s >= self.afoot[g]]
        cost = self.day.groups[g].cost
        short = Counter(wanted) - Counter(pieces)
        return min(len(left), sum(n for t, n in short.items() if any(not cost[s][t] for s in left)))

    def tone(self, i: int, rem: int) -> int:
        """Half-minutes of room tone after setup i, when rem is left after it: once a room, after its last sync."""
        here = self.toned & self.in_room[self.rooms[i]]
        return self.day.tone if here >> i & 1 and not here & rem else 0

    def travel(self, room: int, target: int) -> int:
        """Half-minutes to bring the crew into a room."""
        return self.day.arrive[target] if room < 0 else self.day.travel[room][target]


def _picker(places: tuple[int, ...]) -> Callable[[Gear], object]:
    """What stands in these places of a state of the gear."""
    return itemgetter(*places) if places else lambda _: ()


def _variants(day: Day, i: int) -> tuple[Variant, ...]:
    """The choices among a setup's options, first-named first; equal choices once."""
    setup = day.setups[i]
    found: dict[Variant, None] = {}
    for choice in product(*setup.needs):
        wanted: dict[int, list[int]] = {}
        for g, s in choice:
            wanted.setdefault(g, []).append(s)
        away: dict[int, set[int]] = {}
        for g, s in setup.away:
            away.setdefault(g, set()).add(s)
        for g, states in wanted.items():
            places = day.groups[g].places
            taken = {places[s] for s in states if s != CASE}
            away.setdefault(g, set()).update(s for s in range(len(places)) if places[s] in taken)
        groups = tuple(sorted({*wanted, *away}))
        found[
            Variant(
                groups,
                tuple(tuple(sorted(wanted.get(g, ()))) for g in groups),
                tuple(frozenset(away.get(g, set())) - frozenset(wanted.get(g, ())) for g in groups),
            )
        ] = None
    return tuple(found)
