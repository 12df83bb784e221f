"""What rules about papers share: when a plan is far enough for them, and what is wrong with a paper.

A plan is far enough once it names people and a dated day: then somebody stands in somebody's room on a day of the
calendar. Before that the rules are silent, so that the first fifteen lines of a plan are not answered by a form.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..source.quantities import show

if TYPE_CHECKING:
    import datetime

    from ..plan import Plan
    from ..plan.location import Paper

_WORDS = {"asked": "is asked for but not granted", "missing": "is missing"}


def is_due(plan: Plan) -> bool:
    """Whether the plan names people and a dated day."""
    return bool(plan.people) and any(day.date is not None for day in plan.days.values())


def last_day_at(plan: Plan, place: str) -> datetime.date | None:
    """The last dated day on which a place is shot at."""
    found = [
        day.date
        for day in plan.days.values()
        if day.date is not None
        and (
            day.location == place
            or any((plan.setups[s].set or "").split("/")[0] == place for s in plan.setups_on(day.id))
        )
    ]
    return max(found, default=None)


def fault(paper: Paper, until_needed: datetime.date | None) -> str:
    """What is wrong with a paper, in words; "" where it is in order."""
    if paper.state in _WORDS:
        return _WORDS[paper.state]
    if paper.until is not None and until_needed is not None and paper.until.date < until_needed:
        return f"runs out at {show('moment', paper.until)}, before the day of {until_needed.isoformat()}"
    return ""
