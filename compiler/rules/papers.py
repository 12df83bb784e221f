"""What rules about papers share: when a plan is far enough for them, and what is wrong with a paper.

A plan is far enough once it names people and a dated day: then somebody stands in somebody's room on a day of the
calendar. Before that the rules are silent, so that the first fifteen lines of a plan are not answered by a form.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..source.quantities import show

if TYPE_CHECKING:
    import datetime

    from ..facts import Facts
    from ..plan import Plan
    from ..plan.location import Paper

_WORDS = {"asked": "is asked for but not granted", "missing": "is missing"}


def is_due(plan: Plan) -> bool:
    """Whether the plan names people and a dated day."""
    return bool(plan.people) and any(day.date is not None for day in plan.days.values())


def last_day_at(facts: Facts, place: str) -> datetime.date | None:
    """The last dated day on which a place is shot at."""
    plan = facts.plan
    days = {day for name, day in facts.day_of.items() if (plan.setups[name].set or "").split("/")[0] == place}
    dated = (d for d in plan.days.values() if d.location == place or d.id in days)
    return max((d.date for d in dated if d.date is not None), default=None)


def fault(paper: Paper, until_needed: datetime.date | None) -> str:
    """What is wrong with a paper, in words; "" where it is in order."""
    if paper.state in _WORDS:
        return _WORDS[paper.state]
    if paper.until is not None and until_needed is not None and paper.until.date < until_needed:
        return f"runs out at {show('moment', paper.until)}, before the day of {until_needed.isoformat()}"
    return ""
