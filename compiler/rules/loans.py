"""What the two rules about borrowed and rented things share: every thing of a setup with the hours it is in hands."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..facts import errands, names_used

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..plan.day import Day
    from ..plan.gear import Gear
    from ..plan.stock import Stock


class Loan(NamedTuple):
    """A thing that a setup takes on a dated day. `start` and `end` are when its rigging begins and its takes end, in
    half-minutes of the day; without an agreed order None."""

    thing: Gear | Stock
    setup: str
    path: str
    day: Day
    start: int | None
    end: int | None


def loans(facts: Facts) -> Iterator[Loan]:
    """Every single thing that is not in hands for ever; where any of several will do, none is counted."""
    plan = facts.plan
    dated = {d.id for d in plan.days.values() if d.date is not None}
    for name, uses in facts.uses.items():
        day_id = facts.day_of[name]
        if day_id not in dated or day_id is None:
            continue
        line = facts.timelines.get(day_id)
        step = line.shooting(name) if line else None
        rig = line.preparing(name) if line else None
        begin = rig or step
        start = begin.start if step and begin else None
        wanted: list[tuple[Gear | Stock, str]] = [(plan.gear[u.thing], u.path) for u in uses if len(u.among) == 1]
        wanted += [(plan.stock[stock], at) for stock, at in names_used.cut(plan.setups[name]) if stock in plan.stock]
        for thing, path in wanted:
            day = plan.days[day_id]
            if errands.comes(thing, day) is not None or errands.leaves(thing, day) is not None:
                yield Loan(thing, name, path, day, start, step.end if step else None)
