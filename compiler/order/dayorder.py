"""A day of the plan, put in order: from the plan to numbers, through the search, and back to words and a timeline."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from ..facts.hours import full_minute
from ..facts.shootday import ShootDay, shoot_day
from ..facts.slate import in_time
from ..facts.timeline import TONE, Timeline, replay_day
from ..plan.parts import by_shots
from .advance import Rules
from .explain import Clash, explain
from .improve import run_order
from .latercall import later_call
from .solve import LIMIT, Answer, solve
from .visits import Apart, agreed_in, settled
from .workspace import Workspace

if TYPE_CHECKING:
    from ..plan import Plan


@dataclass(frozen=True, slots=True)
class Swap:
    """What it costs to shoot a setup before the one it follows: half-minutes later at the wrap and pieces touched
    more; both None where that order is not possible."""

    setup: str
    before: str
    later: int | None
    touches: int | None


@dataclass(frozen=True, slots=True)
class Agreed:
    """The agreed order replayed with the same minutes: half-minutes by which it wraps later than the one found, and
    setups whose window it misses."""

    order: tuple[str, ...]
    timeline: Timeline
    later: int
    missed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DayOrder:
    """What came of ordering a day. `order` is in the plan's words, with meals and room tones; empty where there is
    none, and then `clash` says why (None where the search only ran out). `later` is a later call that would lose
    nothing, where the crew waits for an hour or more (None: none was found)."""

    day: ShootDay
    answer: Answer
    order: tuple[str, ...]
    timeline: Timeline | None
    dropped: tuple[str, ...]
    swaps: tuple[Swap, ...]
    agreed: Agreed | None
    clash: Clash | None
    later: int | None = None


def plan_day(plan: Plan, day_id: str, limit: int = LIMIT) -> DayOrder:
    """The best order of a day. `limit` counts moments of the day that the search may open, so that the same plan has
    the same answer on every machine."""
    day = in_time(plan, shoot_day(plan, day_id), usual=False)
    agreed = tuple(plan.days[day_id].order)
    apart = by_shots(plan, plan.setups_on(day_id))
    if apart is plan:
        return order_day(day, agreed, limit)
    visits = in_time(apart, shoot_day(apart, day_id), usual=False)
    one = Apart(visits, solve(visits.day, limit))
    if not one.answer.found:
        return replace(order_day(visits, (), limit, one.answer), agreed=_agreed(day, agreed, None))
    now, orders = agreed_in(apart, (one,))
    told, answer = settled(apart, now, one, orders[day_id], usual=False)
    return order_day(told, agreed, limit, answer, day)


def order_day(
    day: ShootDay,
    agreed: tuple[str, ...] = (),
    limit: int = LIMIT,
    answer: Answer | None = None,
    before: ShootDay | None = None,
) -> DayOrder:
    """The same for a day that is in numbers already; with an `answer` that is found already. `before` is the day as the
    agreed order has it, where its visits are others."""
    answer = answer or solve(day.day, limit)
    if not answer.found:
        clash = explain(day.day) if answer.proved else None
        return DayOrder(day, answer, (), None, (), (), _agreed(before or day, agreed, None), clash)
    order = words(day, answer)
    timeline = replay_day(day, order)
    dropped = tuple(day.setups[i] for i in answer.dropped)
    held = _agreed(before or day, agreed, timeline)
    later = later_call(day, timeline)
    return DayOrder(day, answer, order, timeline, dropped, swaps(day, answer), held, None, later)


def words(day: ShootDay, answer: Answer) -> tuple[str, ...]:
    """The answer as the plan writes an order."""
    found: list[str] = []
    shot = [s.setup for s in answer.steps if s.setup >= 0]
    last = {day.day.setups[i].room: i for i in shot if day.day.setups[i].tone} if day.day.tone else {}
    for step in answer.steps:
        if step.setup < 0:
            found.append(day.meals[step.meal])
            continue
        found.append(day.setups[step.setup])
        if last.get(day.day.setups[step.setup].room) == step.setup:
            found.append(TONE)
    return tuple(found)


def toned(day: ShootDay, order: tuple[str, ...]) -> tuple[str, ...]:
    """An order with its room tones where the search puts them, so that two orders compare."""
    known = [name for name in order if name != TONE]
    last = {}
    for name in known:
        if name in day.setups and day.day.setups[day.index(name)].tone and day.day.tone:
            last[day.day.setups[day.index(name)].room] = name
    found: list[str] = []
    for name in known:
        found.append(name)
        if name in last.values():
            found.append(TONE)
    return tuple(found)


def swaps(day: ShootDay, answer: Answer) -> tuple[Swap, ...]:
    """For each setup, what it would cost to shoot it one place earlier."""
    chosen = sum(1 << s.setup for s in answer.steps if s.setup >= 0)
    rules = Rules(Workspace(day.day, chosen))
    order = tuple(s.setup for s in answer.steps if s.setup >= 0)
    now = run_order(rules, order)
    found = []
    for k in range(1, len(order)):
        turned = (*order[: k - 1], order[k], order[k - 1], *order[k + 1 :])
        other = run_order(rules, turned)
        pair = (day.setups[order[k]], day.setups[order[k - 1]])
        if other is None or now is None:
            found.append(Swap(*pair, None, None))
        else:
            later = full_minute(other.time + day.day.pack) - full_minute(now.time + day.day.pack)
            found.append(Swap(*pair, later, other.touch - now.touch))
    return tuple(found)


def _agreed(day: ShootDay, order: tuple[str, ...], best: Timeline | None) -> Agreed | None:
    if not order:
        return None
    timeline = replay_day(day, toned(day, order))
    missed = tuple(s.setup for s in timeline.steps if s.kind == "setup" and s.missed)
    return Agreed(order, timeline, timeline.wrap - best.wrap if best else 0, missed)
