"""The order in which what is left still fits: the agreed one where it does, else the one with the fewest pairs turned
round, else the earliest there is; and where nothing fits, what is missed and by how much."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.follow import LONGEST
from ..facts.hours import NIGHT, times_words
from ..facts.numbers import FOREVER, MUST, Window
from ..facts.timeline import TONE, Timeline, replay_day
from ..order.advance import Rules
from ..order.dayorder import words
from ..order.search import CLOSE, TOUCH, Search
from ..order.solve import Answer
from ..order.solve import earliest as wrap_first
from ..order.steps import Step
from ..order.workspace import Workspace
from ..record import record, replace
from .judge import judge
from .near import nearest

if TYPE_CHECKING:
    from ..facts.shootday import ShootDay
    from .rest import Rest

LOOKED = 800
"""Moments of the day that the search may open; counted, so that the answer is the same everywhere."""


@record
class Way:
    """The way on. `order` in the words of the plan; `turned` pairs against the agreed order (-1: none is agreed);
    `over` half-minutes after the latest wrap; `lost` setups that no order can have any more, with the reason."""

    order: tuple[str, ...]
    timeline: Timeline
    turned: int
    over: int
    lost: tuple[tuple[str, str], ...]
    hungry: int


def onward(rest: Rest) -> Way:
    """The way on for what is left of a day."""
    day, lost = rest.day, _hopeless(rest)
    agreed = _kept(day, rest.agreed, {name for name, _ in lost})
    for _ in range(len(day.setups) + 1):
        found = _best(rest, agreed)
        if found is not None:
            order, turned = found
            break
        missed = judge(day, agreed).missed
        if not missed:
            order, turned = agreed, 0
            break
        lost += [(name, reason(day, name)) for name in missed[-1:]]
        agreed = _kept(day, agreed, {name for name, _ in lost})
    followed = judge(day, (*rest.held, *order))
    timeline = replay_day(day, (*rest.held, *order))
    steps = tuple(s for s in timeline.steps if not (s.kind == "setup" and s.setup in rest.held))
    timeline = replace(timeline, steps=steps, order=order)
    over = max(0, timeline.wrap - rest.limit) if rest.limit < FOREVER else 0
    return Way(order, timeline, turned if rest.plan.days[rest.day.id].order else -1, over, tuple(lost), followed.hungry)


def _best(rest: Rest, agreed: tuple[str, ...]) -> tuple[tuple[str, ...], int] | None:
    """(order, pairs turned round): first within the latest wrap, then past it; None where a window is against it."""
    day = rest.day
    for limit in (rest.limit, FOREVER):
        if rest.agreed and judge(day, (*rest.held, *agreed)).fits(limit, rest.flaws):
            return agreed, 0
        found = searched(rest, agreed, limit)
        if found is not None:
            return found
        if limit >= FOREVER:
            break
    return None


def searched(
    rest: Rest, agreed: tuple[str, ...], limit: int, *, earliest: bool = False
) -> tuple[tuple[str, ...], int] | None:
    """The order that fits with the fewest pairs turned round; where none is near (or with `earliest`), the one that
    wraps earliest."""
    base = [rest.day.index(name) for name in agreed if name in rest.day.setups] if rest.agreed else []
    base = base or [k for k, name in enumerate(rest.day.setups) if name not in rest.held]
    first = [rest.day.index(name) for name in rest.held]
    day = _all_must(rest.day, limit, tuple(base) if rest.agreed else ())
    rules = Rules(Workspace(day.day, sum(1 << k for k in {*base, *first})))
    if rest.agreed and not earliest:
        near = nearest(rules, tuple(first), tuple(base))
        if near is not None:
            return _words(rest, day, near[0]), near[1]
    best = wrap_first(rules, None, LOOKED).best
    if best is None:
        return None
    for stage in (CLOSE, TOUCH):
        if best.value()[stage]:
            best = Search(rules, stage, best.value(), best).run(LOOKED // 4).best or best
    order = _words(rest, day, best.steps())
    return order, _turned(agreed, order)


def _words(rest: Rest, day: ShootDay, steps: tuple[Step, ...]) -> tuple[str, ...]:
    """Steps in the words of the plan, without what only holds a set."""
    said = words(day, Answer(steps, (), (), True, True, 0))
    return tuple(name for name in said if name not in rest.held)


def _turned(agreed: tuple[str, ...], order: tuple[str, ...]) -> int:
    """Pairs of setups that change their order."""
    place = {name: k for k, name in enumerate(agreed)}
    now = [place[name] for name in order if name in place and name not in (TONE,) and agreed.count(name) == 1]
    return sum(1 for k, a in enumerate(now) for b in now[k + 1 :] if a > b)


def _all_must(day: ShootDay, limit: int, agreed: tuple[int, ...]) -> ShootDay:
    """Nothing is dropped unasked: every setup that is left counts as a must."""
    setups = tuple(replace(s, priority=MUST) for s in day.day.setups)
    return replace(day, day=replace(day.day, setups=setups, latest_wrap=limit, agreed=agreed))


def _kept(day: ShootDay, order: tuple[str, ...], gone: set[str]) -> tuple[str, ...]:
    """An order without some setups; a room tone goes where no setup of its room is left before it."""
    found: list[str] = []
    rooms: set[int] = set()
    room, skipped = day.day.room, False
    rooms.add(room)
    for name in order:
        if name in day.setups:
            room = day.day.setups[day.index(name)].room
            skipped = name in gone and room not in rooms
            if name in gone:
                continue
            rooms.add(room)
        if name == TONE and skipped:
            continue
        found.append(name)
    return tuple(found)


def _hopeless(rest: Rest) -> list[tuple[str, str]]:
    """Setups that cannot be had any more, whatever else is done."""
    found = []
    for name in rest.day.setups:
        if name not in rest.held and judge(rest.day, (*rest.held, name)).missed:
            found.append((name, reason(rest.day, name)))
    return found


def reason(day: ShootDay, name: str, takes: tuple[int, int] | None = None) -> str:
    """The windows that stand against a setup, with their hours: against these takes (from, to), else those that are
    over or not yet open, else all."""
    setup = day.day.setups[day.index(name)]
    soonest, latest = day.day.call + setup.takes, min(day.day.latest_wrap, day.day.call + LONGEST)
    if takes is not None:
        shut = [w for w in setup.windows if not any(lo <= takes[0] and takes[1] <= hi for lo, hi in w.spans)]
    else:
        shut = [w for w in setup.windows if not any(hi >= soonest and lo <= latest for lo, hi in w.spans)]
    said = [f"{w.why} ({_hours(w, soonest)})" for w in shut or setup.windows]
    return "; ".join(said) or "it needs more pieces than are left"


def _hours(window: Window, soonest: int) -> str:
    """Until when a window was open, or from when it will be."""
    over = [hi for _, hi in window.spans if hi < soonest]
    if over:
        return f"until {times_words(over[-1])}"
    lo, hi = window.spans[0] if window.spans else (FOREVER, FOREVER)
    if -FOREVER < lo < FOREVER:
        return f"{times_words(lo)}-{times_words(hi)}" if hi < 2 * NIGHT else f"from {times_words(lo)}"
    return "never on this day"
