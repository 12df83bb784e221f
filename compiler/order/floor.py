"""No sharing among days can be shorter in all than this: what has to be shot, rigged and travelled at least."""

from __future__ import annotations

from ..facts.numbers import FOREVER
from ..facts.slate import Slate
from .advance import Rules
from .part import part
from .workspace import Workspace


def floor(slate: Slate, left: tuple[int, ...] = ()) -> int:
    """Half-minutes from call to wrap in all, however the setups (without those left out) are shared out.

    Setups that no day can have together are counted apart. Takes and fixed minutes count in full; every state a piece
    must be brought into is entered at least once, from wherever that is cheapest, a place from outside it, a room from
    another; the work is shared by the most riggers any day has. As many days are shot on as make it least.
    """
    kept = [i for i in range(len(slate.home)) if i not in left and slate.home[i]]
    return sum(_block(slate, tuple(block)) for block in blocks(slate, kept))


def blocks(slate: Slate, kept: list[int]) -> list[list[int]]:
    """The setups in blocks whose days have nothing in common."""
    found: list[tuple[set[int], list[int]]] = []
    for i in kept:
        home, mine = set(slate.home[i]), [i]
        for block in [b for b in found if b[0] & home]:
            found.remove(block)
            home |= block[0]
            mine = [*block[1], *mine]
        found.append((home, mine))
    return [sorted(mine) for _, mine in found]


def fewest(slate: Slate, block: tuple[int, ...]) -> int:
    """No fewer days than these do for a block, for all that is known of the work in it and of the hours."""
    return _counts(slate, block)[0]


def _block(slate: Slate, block: tuple[int, ...]) -> int:
    return _counts(slate, block)[1]


def _counts(slate: Slate, block: tuple[int, ...]) -> tuple[int, int]:
    """(the fewest days, the least half-minutes from call to wrap in all) for a block."""
    if slate.whole is None:
        return 0, 0
    day = part(slate.whole, block)
    rules = Rules(Workspace(day, (1 << len(block)) - 1))
    at = rules.opening()
    busy = rules.bounds.closely(at.rem, at.gear, at.room)[0]
    home = sorted({d for i in block for d in slate.home[i]})
    ways = _ways_in(day.travel, sorted({s.room for s in day.setups}))
    forced = {slate.home[i][0] for i in block if len(slate.home[i]) == 1}
    least: dict[int, int] = {}
    for count in range(max(1, len(forced)), len(home) + 1):
        around, room = _frame(slate, home, count, forced)
        inside = busy + sum(ways[: max(0, len(ways) - count)])
        if inside <= room:
            least[count] = around + inside
    return min(least, default=0), min(least.values(), default=busy)


def _ways_in(travel: tuple[tuple[int, ...], ...], rooms: list[int]) -> list[int]:
    """The least half-minutes from another of these rooms into each, least first."""
    return sorted(min((travel[a][b] for a in rooms if a != b), default=0) for b in rooms)


def _frame(slate: Slate, home: list[int], count: int, forced: set[int]) -> tuple[int, int]:
    """(least half-minutes of load-in, meals that must be and packing on `count` of these days, most hours to work)."""
    around, room = {}, []
    for d in home:
        day = slate.days[d]
        meals = sum(m.length for m in day.meals if m.must)
        around[d] = slate.lead[d] + meals + day.pack
        end = day.latest_wrap if day.latest_wrap < FOREVER else day.call + 2880
        room.append(end - day.call - meals - day.pack)
    free = sorted(a for d, a in around.items() if d not in forced)
    least = sum(around[d] for d in forced) + sum(free[: count - len(forced)])
    return least, sum(sorted(room, reverse=True)[:count])
