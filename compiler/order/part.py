"""A day with some of its setups: what does not matter to them is left out, so that the search carries less."""

from __future__ import annotations

from ..facts.numbers import MUST, Day, Hold
from ..facts.pieces import CASE
from ..record import replace


def part(day: Day, keep: tuple[int, ...]) -> Day:
    """The day with these setups only, in this order, each of which must be shot."""
    place = {i: k for k, i in enumerate(keep)}
    chosen = [day.setups[i] for i in keep]
    wanted = {g for s in chosen for need in s.needs for g, _ in need}
    wanted |= {g for g, group in enumerate(day.groups) if any(s != CASE for s in group.start)}
    groups = {g: k for k, g in enumerate(sorted(wanted))}
    setups = tuple(
        replace(
            s,
            needs=tuple(tuple((groups[g], at) for g, at in need) for need in s.needs),
            away=tuple((groups[g], at) for g, at in s.away if g in groups),
            priority=MUST,
        )
        for s in chosen
    )
    holds = [
        Hold(
            place[h.first],
            place[h.until],
            tuple(place[i] for i in h.inside if i in place),
            tuple(groups[g] for g in h.free if g in groups),
        )
        for h in day.holds
        if h.first in place and h.until in place
    ]
    return replace(
        day,
        setups=setups,
        groups=tuple(day.groups[g] for g in groups),
        before=tuple((place[a], place[b]) for a, b in day.before if a in place and b in place),
        holds=tuple(holds),
        agreed=tuple(place[i] for i in day.agreed if i in place),
    )
