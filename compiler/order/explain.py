"""Why a day cannot be shot: what clashes (arithmetic first, then an irreducible set of wishes), and the ways out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .clash import Clash, Trials, WayOut, Wish, all_wishes, clash, granted
from .waysout import after, ways_out

if TYPE_CHECKING:
    from ..facts.numbers import Day

__all__ = ["Clash", "WayOut", "Wish", "after", "explain", "granted"]


def explain(day: Day) -> Clash:
    """Why no order of the musts exists. (Where one does exist the clash is empty.)"""
    trials = Trials()
    wishes, tally, sure = clash(day, all_wishes(day), trials)
    return Clash(wishes, tally, ways_out(day, wishes, trials), sure)
