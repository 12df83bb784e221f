"""Where everything stands: the pieces after the setups that were really shot, in the order in which they were."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.follow import Entry, Leg, follow
from ..facts.pieces import CASE
from ..record import record, replace

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from ..facts.rig import State
    from ..facts.shootday import ShootDay

Gear = tuple[tuple[int, ...], ...]


@record
class Standing:
    """The states of every group's pieces, and the room where the crew is (-1: in none yet)."""

    gear: Gear
    room: int


def after(day: ShootDay, visits: Iterable[str]) -> Standing:
    """Where everything stands after these setups; of pieces that are alike the nearest served."""
    return moved(day, Standing(tuple(g.start for g in day.day.groups), day.day.room), _legs(day, visits))


def _legs(day: ShootDay, visits: Iterable[str]) -> tuple[Leg, ...]:
    return follow(day.day, tuple(Entry(setup=day.index(name)) for name in visits if name in day.setups))


def moved(day: ShootDay, standing: Standing, legs: Iterable[Leg]) -> Standing:
    """The standing after some legs."""
    gear, room = [list(states) for states in standing.gear], standing.room
    for leg in legs:
        for g, before, now in leg.moves:
            gear[g].remove(before)
            gear[g].append(now)
        room = day.day.setups[leg.entry.setup].room if leg.entry.setup >= 0 else room
    return Standing(tuple(tuple(states) for states in gear), room)


def rigging(day: ShootDay, visits: Iterable[str], setup: str, since: int) -> Leg:
    """The changeover to a setup that was begun at a time, after these visits: its travel, and its rigging by the hands
    that were there then."""
    leg = _legs(day, (*visits, setup))[-1]
    numbers = day.day
    mine = numbers.setups[leg.entry.setup]
    costs = [(numbers.groups[g].cost[a][b], numbers.groups[g].hands) for g, a, b in leg.moves if not mine.flat]
    work, longest = sum(cost * hands for cost, hands in costs), max((cost for cost, _ in costs), default=0)
    start = since + leg.travel
    return replace(leg, begin=since, rig=numbers.rigged(start, mine.fixed, work, longest) - start)


def carried(old: ShootDay, standing: Standing, new: ShootDay, lost: Mapping[str, int]) -> Standing:
    """The same standing in the numbers of a day with other needs; of what is lost, what was in use is gone first."""
    gear: list[tuple[int, ...]] = []
    olds = {piece: g for g, piece in enumerate(old.rig.pieces)}
    for g, piece in enumerate(new.rig.pieces.values()):
        known: dict[State | None, int] = {state: s for s, state in enumerate(new.states[g])}
        count = len(new.day.groups[g].start)
        states = [CASE] * count
        if piece.id in olds:
            states = [known.get(old.states[olds[piece.id]][s], CASE) for s in standing.gear[olds[piece.id]]]
        left = max(0, len(states) - lost[piece.id]) if piece.id in lost else max(count, len(states))
        states += [CASE] * (left - len(states))
        gear.append(tuple(sorted(sorted(states, key=lambda s: s != CASE)[:left])))
    room = new.rooms.index(old.rooms[standing.room]) if standing.room >= 0 else -1
    return Standing(tuple(gear), room)
