"""Following an order of what is left, whatever it misses, and saying what it misses."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.follow import Entry, Leg, follow
from ..facts.timeline import TONE
from ..record import record

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..facts.shootday import ShootDay
    from .rest import Flaws


@record
class Verdict:
    """An order followed: wrap, setups whose window is missed, and half-minutes by which a meal is too late."""

    legs: tuple[Leg, ...]
    wrap: int
    missed: tuple[str, ...]
    hungry: int

    def fits(self, limit: int, flaws: Flaws | None = None) -> bool:
        """Whether everybody is out in time, and nothing is missed but what the agreed day itself misses."""
        if flaws is None:
            return not self.missed and not self.hungry and self.wrap <= limit
        known = set(flaws.missed)
        return known.issuperset(self.missed) and self.hungry <= flaws.hungry and self.wrap <= max(limit, flaws.wrap)


def judge(day: ShootDay, order: Iterable[str]) -> Verdict:
    """Follow an order of what is left, whatever it misses."""
    return verdict(day, follow(day.day, entries(day, order)))


def verdict(day: ShootDay, legs: tuple[Leg, ...]) -> Verdict:
    """What an order that was followed comes to."""
    missed = tuple(day.setups[leg.entry.setup] for leg in legs if leg.missed)
    end = legs[-1].end if legs else day.day.call
    return Verdict(legs, end + day.day.pack, missed, hungry(day, legs, end + day.day.pack))


def entries(day: ShootDay, order: Iterable[str]) -> tuple[Entry, ...]:
    """The words of an order in numbers."""
    found, eaten = [], 0
    for name in order:
        if name in day.setups:
            found.append(Entry(setup=day.index(name)))
        elif name == TONE:
            found.append(Entry())
        elif eaten < len(day.meals):
            found.append(Entry(meal=eaten))
            eaten += 1
    return tuple(found)


def hungry(day: ShootDay, legs: tuple[Leg, ...], wrap: int) -> int:
    """The most by which a meal comes too late, or a meal of the plan is left out (then the time to the wrap)."""
    numbers, worst, eaten = day.day, 0, 0
    fed = numbers.call if numbers.fed is None else numbers.fed
    for leg in legs:
        if leg.entry.meal >= 0:
            meal = numbers.meals[leg.entry.meal]
            worst = max(worst, leg.start - fed - numbers.gap, leg.start - meal.latest)
            fed, eaten = leg.end, eaten + 1
    worst = max(worst, wrap - fed - numbers.gap)
    left_out = any(meal.must for meal in numbers.meals[eaten:])
    return max(worst, wrap - fed) if left_out else max(worst, 0)
