"""Why a day cannot be shot: what clashes (arithmetic first, then an irreducible set of wishes), and the ways out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .clash import IN_ALL, Clash, Trials, WayOut, Wish, all_wishes, clash, granted, other_clashes
from .waysout import GIVING_UP, after, each_eased, ways_out

if TYPE_CHECKING:
    from ..facts.numbers import Day

__all__ = ["Clash", "WayOut", "Wish", "after", "explain", "granted"]


def explain(day: Day) -> Clash:
    """Why no order of the musts exists. (Where one does exist the clash is empty.)"""
    trials = Trials()
    wishes, tally, sure = clash(day, all_wishes(day), trials)
    ways = ways_out(day, wishes, trials)
    trials.left = max(trials.left, IN_ALL // 2)
    others = other_clashes(day, wishes, trials)
    if others and all(way.kind in GIVING_UP for way in ways):
        ways = (*ways, *each_eased(day, wishes, others, trials))
    return Clash(wishes, tally, ways, sure, others)
