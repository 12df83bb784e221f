"""From what became of a plan to what the sheets draw on."""

from __future__ import annotations

from ..facts import Facts
from ..facts.sky import sky
from ..pipeline import Compiled
from ..plan import Plan
from ..plan.day import Day
from .shoot import DayLine, Shoot, Sun
from .version import version_of
from .words import Words


def shoot_of(compiled: Compiled, words: Words, label: str = "") -> Shoot:
    """The shoot of a readable plan, its version and its days in order; setups of no day stand under a day without id.

    Raises ValueError for a plan that could not be read; the command has said so before.
    """
    plan, facts, _ = compiled.plan, compiled.facts, words
    if plan is None or facts is None:
        raise ValueError("a plan that cannot be read has no sheets")
    read = {file.name: file.text.encode("utf-8") for file in compiled.source.files}
    taken = tuple((finding, plan.film.accepted[index]) for finding, index in compiled.accepted)
    days = tuple(_line(facts, day, _) for day in plan.days.values())
    loose = tuple(name for name in plan.setups if plan.day_of(name) not in plan.days)
    if loose:
        days += (DayLine(Day(), loose, why=_("These setups are on no day yet: name them under a day of the plan.")),)
    suns = {day.id: sun for day in plan.days.values() if (sun := _sun(plan, day))}
    return Shoot(facts, plan, days, version_of(read), compiled.findings, taken, suns, label)


def _line(facts: Facts, day: Day, words: Words) -> DayLine:
    _ = words
    listed = facts.plan.setups_on(day.id)
    ordered = tuple(name for name in day.order if name in listed)
    rest = tuple(name for name in listed if name not in ordered)
    why = _("No order is agreed for this day yet: the setups stand as in the plan, without times.")
    return DayLine(day, ordered + rest, (), "" if ordered else why)


def _sun(plan: Plan, day: Day) -> Sun | None:
    found = sky(plan, day.id, day.location or "")
    return Sun(found.sunrise, found.sunset, found.dark_until, found.dark_from) if found else None
