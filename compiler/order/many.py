"""Several days of a plan put in order: which setups on which day, then each day exactly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..facts.shootday import ShootDay, shoot_day
from ..facts.slate import Slate, in_time, in_turn, slate
from ..plan.parts import by_shots
from .dayorder import DayOrder, order_day
from .explain import Clash, explain
from .part import part
from .share import Shares, share
from .solve import LIMIT, solve
from .visits import Apart, agreed_in, settled

if TYPE_CHECKING:
    from ..plan import Plan

WORK = 110_000
"""Moments and bounds looked at when setups are shared out among days."""
EACH = 3_000
"""Moments of one day looked at for one way of sharing."""
TOLD = 3
"""For so many of the setups without a day it is told why."""


@dataclass(frozen=True, slots=True)
class Homeless:
    """A setup that no day has: the days it might be shot on, and for the one that comes nearest why it has no room
    (None where no day is open to it, or others were told before)."""

    setup: str
    priority: int
    days: tuple[str, ...]
    nearest: ShootDay | None = None
    clash: Clash | None = None


@dataclass(frozen=True, slots=True)
class ManyDays:
    """Days in order. `orders` are those that are shot, by date; `idle` days that nothing is left for; `value` and
    `bound` half-minutes from call to wrap in all, and the least these setups could take however they are shared;
    `cast` days of all the cast together, of which `spared` are fewer for `longer` half-minutes more."""

    orders: tuple[DayOrder, ...]
    idle: tuple[str, ...]
    homeless: tuple[Homeless, ...]
    value: int
    bound: int
    opened: int
    cast: int = 0
    longer: int = 0
    spared: int = 0

    @property
    def whole(self) -> bool:
        """Every must has its day, and every day its order."""
        return all(o.order for o in self.orders) and all(h.priority for h in self.homeless)


def plan_days(plan: Plan, limit: int = LIMIT, work: int = WORK, *, anew: bool = False, cast_day: int = 0) -> ManyDays:
    """Setups shared out among the days of the plan, each day in its best order. `limit` counts moments of one day in
    the end, `work` all that is looked at before; `anew` forgets the agreed orders; `cast_day` are the half-minutes of
    the crew that a day less for one of the cast is worth."""
    apart = by_shots(plan, plan.setups)
    table = slate(apart, anew=anew)
    shares = share(table, work, EACH, cast_day)
    turns = in_turn(plan)
    shot = {day: tuple(table.names[i] for i in shares.days[d]) for d, day in enumerate(turns)}
    idle = [day for day, names in shot.items() if not names]
    days = [_day(apart, day, names) for day, names in shot.items() if names]
    if apart is plan:
        orders = [order_day(day, () if anew else tuple(plan.days[day.id].order), limit) for day in days]
    else:
        orders = _in_visits(apart, days, limit)
    opened = shares.opened + sum(one.answer.opened for one in orders)
    value = sum(o.timeline.wrap - o.timeline.call for o in orders if o.timeline is not None)
    homeless, bound = _homeless(apart, table, shares), min(value, shares.bound)
    cast = (shares.cast, shares.longer, shares.spared)
    return ManyDays(tuple(orders), tuple(idle), homeless, value, bound, opened, *cast)


def _in_visits(apart: Plan, days: list[ShootDay], limit: int) -> list[DayOrder]:
    """Each day in order, with visits to the setups whose shots are taken at different times. An agreed order has other
    visits, so none is held against it."""
    found = [Apart(day, solve(day.day, limit)) for day in days]
    now, shot = agreed_in(apart, [one for one in found if one.answer.found])
    orders = []
    for one in found:
        if one.answer.found:
            told, answer = settled(apart, now, one, shot[one.day.id], usual=True)
            orders.append(order_day(told, (), limit, answer))
        else:
            orders.append(order_day(one.day, (), limit, one.answer))
    return orders


def _day(plan: Plan, day_id: str, names: tuple[str, ...]) -> ShootDay:
    return in_time(plan, shoot_day(plan, day_id, names))


def _homeless(plan: Plan, table: Slate, shares: Shares) -> tuple[Homeless, ...]:
    """The setups without a day; for the first musts among them, why the day with most room has none for them."""
    days = in_turn(plan)
    found = []
    told = 0
    for i in shares.left:
        open_to = table.home[i]
        priority = min((table.days[d].setups[table.on[d].index(i)].priority for d in range(len(days))
                        if i in table.on[d]), default=0)  # fmt: skip
        home = tuple(days[d] for d in open_to)
        clash = nearest = None
        if priority == 0 and told < TOLD:
            told += 1
            d = min(open_to or [k for k in range(len(days)) if i in table.on[k]], key=lambda d: len(shares.days[d]))
            names = tuple(table.names[j] for j in sorted((*shares.days[d], i)))
            nearest = _day(plan, days[d], names)
            clash = explain(part(nearest.day, tuple(range(len(names)))))
        found.append(Homeless(table.names[i], priority, home, nearest, clash))
    return tuple(found)
