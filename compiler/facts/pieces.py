"""Interchangeable pieces of gear and what it costs to bring them from where they stand to where they are needed.

A group is a number of equal pieces (a single thing is a group of one). Each piece is in one state: state 0 is its
case, every other state is a room, a place in that room and a setting at that place. Costs are whole half-minutes.
"""

from __future__ import annotations

from ..record import record

CASE = 0
NOWHERE = (-1, -1)


@record
class Group:
    """Equal pieces. `places[s]` is (room, place) of state s, (-1, -1) for the case; `cost[a][b]` half-minutes of
    work from state a to state b by as many people as it takes (`hands`), 0 on the diagonal; `start` the state of each
    piece at the call."""

    name: str
    places: tuple[tuple[int, int], ...]
    cost: tuple[tuple[int, ...], ...]
    start: tuple[int, ...]
    hands: int = 1


@record
class Shift:
    """One way to serve a setup: the states afterwards (sorted), the work in all (half-minutes times people), the
    longest single task (half-minutes), how many pieces are touched, and each move as (from, to)."""

    after: tuple[int, ...]
    total: int
    longest: int
    touched: int
    moves: tuple[tuple[int, int], ...]


def shifts(
    group: Group,
    before: tuple[int, ...],
    wanted: tuple[int, ...],
    away: frozenset[int] = frozenset(),
    held: frozenset[int] = frozenset(),
) -> tuple[Shift, ...]:
    """Every sensible way to have pieces in the `wanted` states and none left in an `away` state.

    A wanted state in which a piece already stands takes that piece. Pieces in a `held` state may not be moved.
    Of ways that leave the same pieces behind, only those that no other beats in both total and longest are kept.
    No way at all gives an empty tuple.
    """
    free = list(before)
    missing: list[int] = []
    for state in wanted:
        if state in free:
            free.remove(state)
        else:
            missing.append(state)
    loose = tuple(s for s in free if s not in held)
    stuck = tuple(s for s in free if s in held)
    if len(missing) > len(loose) or any(s in away for s in stuck):
        return ()
    found: list[Shift] = []
    for left, ways in _serve(group, loose, missing).items():
        cleared = tuple(s for s in left if s in away)
        after = tuple(sorted((*wanted, *stuck, *(CASE if s in away else s for s in left))))
        strikes = tuple((s, CASE) for s in cleared if s != CASE)
        extra = sum(group.cost[s][CASE] for s, _ in strikes) * group.hands
        peak = max((group.cost[s][CASE] for s, _ in strikes), default=0)
        for total, longest, moves in ways:
            found.append(Shift(after, total + extra, max(longest, peak), len(moves) + len(strikes), moves + strikes))
    return _undominated(found)


_Way = tuple[int, int, tuple[tuple[int, int], ...]]


def _serve(group: Group, loose: tuple[int, ...], missing: list[int]) -> dict[tuple[int, ...], list[_Way]]:
    """Pieces left over -> the ways (total, longest, moves) to serve the missing states with the others."""
    reached: dict[tuple[int, ...], list[_Way]] = {loose: [(0, 0, ())]}
    for target in missing:
        following: dict[tuple[int, ...], list[_Way]] = {}
        for left, ways in reached.items():
            for k, source in enumerate(left):
                if k and left[k - 1] == source:
                    continue
                price = group.cost[source][target]
                rest = left[:k] + left[k + 1 :]
                kept = following.setdefault(rest, [])
                for total, longest, moves in ways:
                    _keep(kept, (total + price * group.hands, max(longest, price), (*moves, (source, target))))
        reached = following
    return reached


def _keep(ways: list[_Way], new: _Way) -> None:
    """Add a way unless one at hand is as good in total and longest; drop those it beats."""
    if any(w[0] <= new[0] and w[1] <= new[1] for w in ways):
        return
    ways[:] = [w for w in ways if not (new[0] <= w[0] and new[1] <= w[1])]
    ways.append(new)


def _undominated(found: list[Shift]) -> tuple[Shift, ...]:
    """Different leftovers may clear to the same states: keep the best of those."""
    found.sort(key=lambda s: (s.after, s.total, s.longest, s.touched, s.moves))
    kept: list[Shift] = []
    for shift in found:
        rivals = (k for k in kept if k.after == shift.after)
        if not any(
            k.total <= shift.total and k.longest <= shift.longest and k.touched <= shift.touched for k in rivals
        ):
            kept.append(shift)
    return tuple(kept)


def changeover(total: int, longest: int, hands: int) -> int:
    """Half-minutes of rigging when the tasks are shared: no shorter than the longest task, no shorter than the
    work divided by the hands (a lower bound of sharing indivisible tasks; exact for one rigger)."""
    return max(longest, -(-total // hands))
