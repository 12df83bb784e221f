"""Setups that could change places in any order without anything being longer, dearer or different: of these only the
order of the plan is looked at.

Such setups want the same of everything, but for states that only one of them wants and that are as far from all others
(a place of the camera for each insert of a scene, say). Where nothing on the day asks for a time, their takes may
differ; else these must be equal too.
"""

from __future__ import annotations

from ..facts.numbers import FOREVER, Day, Setup
from .workspace import Workspace

Need = tuple[int, int]


def alike(space: Workspace) -> tuple[tuple[int, int], ...]:
    """Pairs of setups (first, next) of which the next is as good as the first, each next once."""
    day = space.day
    if day.agreed or day.absent or space.afoot:  # a piece may stand where only one of them wants it
        return ()
    timeless = not day.meals and day.gap >= FOREVER and not any(day.setups[i].windows for i in space.members)
    found: list[tuple[int, int]] = []
    last: dict[tuple[object, ...], list[list[int]]] = {}
    for i in space.members:
        if any(i in (h.first, h.until) for h in day.holds) or day.setups[i].part_of >= 0:
            continue
        families = last.setdefault(_common(space, i, timeless), [])
        for family in families:
            if _could_swap(space, family[0], i):
                found.append((family[-1], i))
                family.append(i)
                break
        else:
            families.append([i])
    return tuple(found)


def _common(space: Workspace, i: int, timeless: bool) -> tuple[object, ...]:
    """What must be equal."""
    setup, day = space.day.setups[i], space.day
    return (
        setup.room, 0 if timeless else setup.takes, setup.fixed, setup.flat, setup.tone, setup.cast,
        frozenset(setup.away), space.spans[i], len(setup.needs), tuple(i in h.inside for h in day.holds),
        space.pred[i], sum(1 << j for j in space.members if space.pred[j] >> i & 1),
    )  # fmt: skip


def _could_swap(space: Workspace, i: int, j: int) -> bool:
    one, two = space.day.setups[i], space.day.setups[j]
    if set(one.needs) == set(two.needs):
        return True
    mine, other = sorted(set(one.needs) - set(two.needs)), sorted(set(two.needs) - set(one.needs))
    if any(len(need) > 1 for need in (*mine, *other)) or [n[0][0] for n in mine] != [n[0][0] for n in other]:
        return False
    groups = [n[0][0] for n in mine]
    return len(set(groups)) == len(groups) and all(
        _own(space, a[0]) and _own(space, b[0]) and _as_far(space.day, a[0], b[0])
        for a, b in zip(mine, other, strict=True)
    )


def _own(space: Workspace, need: Need) -> bool:
    """Whether one setup alone asks anything of this state, and nothing stands in it at the call."""
    group, state = need
    setups = [space.day.setups[k] for k in space.members]
    return (
        state not in space.day.groups[group].start
        and not any(need in s.away for s in setups)
        and sum(_wants(s, need) for s in setups) == 1
    )


def _wants(setup: Setup, need: Need) -> int:
    return sum(1 for options in setup.needs if need in options)


def _as_far(day: Day, one: Need, two: Need) -> bool:
    """Whether two states of a group are as far from each other as back, and as far from all others; and in one place,
    or each in a place of its own."""
    group, (_, a), (_, b) = day.groups[one[0]], one, two
    cost, places = group.cost, group.places
    others = [s for s in range(len(cost)) if s not in (a, b)]
    alone = all(sum(1 for p in places if p == places[s]) == 1 for s in (a, b))
    return (
        cost[a][b] == cost[b][a]
        and all(cost[a][s] == cost[b][s] and cost[s][a] == cost[s][b] for s in others)
        and (places[a] == places[b] or alone)
    )
