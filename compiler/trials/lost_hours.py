"""Hours that are lost: nothing can be shot in them. What falls, and what it does to the day, in the best order left."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from ..facts.hours import full_minute, shifted
from ..facts.numbers import FOREVER, IF_TIME, MUST, WANT, Day, Window
from ..facts.shootday import shoot_day
from ..facts.slate import in_time
from ..order.advance import Rules
from ..order.improve import run_order
from ..order.part import part
from ..order.solve import feasible, solve
from ..order.workspace import Workspace
from ..record import record, replace
from ..rules.words import clock, counted, quoted, span

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..facts import Facts
    from ..facts.shootday import ShootDay
    from ..order.advance import Moment
    from ..source.quantities import ClockRange

SEARCHED, LOOKED, TRIED = 6_000, 500, 8_000
"""Moments of a day opened for the best order, to see whether there is one, and in all to see which musts fall."""
WORDS = {MUST: "must", WANT: "want", IF_TIME: "if-time"}
MOST = 4
"""No more musts than this are given up: a day that loses more is another day."""


@record
class Lost:
    """A day without some hours: setups whose takes were planned in them, setups that fall (name, priority) in the best
    order left, the wrap before (None: no order is agreed) and after (None: no order was found) in half-minutes of the
    day, that order, and whether it is proven that no fewer fall."""

    day: str
    planned: tuple[str, ...]
    dropped: tuple[tuple[str, str], ...]
    before: int | None
    after: int | None
    order: tuple[str, ...]
    proven: bool


def lost_hours(facts: Facts, hours: Sequence[ClockRange]) -> tuple[Lost, ...]:
    """Each day of the plan with setups, without these hours of the clock."""
    plan = facts.plan
    found = []
    for name in plan.days:
        if not plan.setups_on(name):
            continue
        numbers = in_time(plan, shoot_day(plan, name), usual=False)
        spans = tuple(shifted(one, numbers.call) for one in hours)
        line = facts.timelines.get(name)
        steps = [s for s in line.steps if s.kind == "setup"] if line else []
        planned = tuple(s.setup for s in steps if any(s.start < b and a < s.end for a, b in spans))
        found.append(
            _best(_without(numbers, spans), planned, line.wrap if line else None, tuple(plan.days[name].order))
        )
    return tuple(found)


def _without(day: ShootDay, spans: tuple[tuple[int, int], ...]) -> ShootDay:
    """The day with no takes in these spans."""
    shut = tuple(Window("not in the lost hours", ((-FOREVER, a), (b, FOREVER)), shared=True) for a, b in spans)
    setups = tuple(replace(s, windows=(*s.windows, *shut)) for s in day.day.setups)
    return replace(day, day=replace(day.day, setups=setups))


def _best(day: ShootDay, planned: tuple[str, ...], before: int | None, agreed: tuple[str, ...]) -> Lost:
    """The order that loses least: first what is there if there is time, then wants, then as few musts as may be, those
    first that were to be shot in the lost hours."""
    for fallen, known, proven in _fewest(day, planned, agreed):
        left = _part(day, fallen)
        answer = solve(left, SEARCHED)
        steps, dropped, wrap = answer.steps, answer.dropped, answer.parts[0].value if answer.found else FOREVER
        if known is not None and known.time + left.pack < wrap and not dropped:
            steps, wrap = known.steps(), known.time + left.pack
        if steps:
            names = tuple(s.name for s in left.setups)
            gone = {*fallen, *(names[i] for i in dropped)}
            kinds = {s.name: WORDS[s.priority] for s in day.day.setups}
            said = tuple((name, kinds[name]) for name in day.setups if name in gone)
            order = tuple(names[s.setup] if s.setup >= 0 else day.meals[s.meal] for s in steps)
            return Lost(day.id, planned, said, before, full_minute(wrap), order, proven and answer.fewest_dropped)
    return Lost(day.id, planned, (), before, None, (), False)


def _fewest(
    day: ShootDay, planned: tuple[str, ...], agreed: tuple[str, ...]
) -> Iterator[tuple[tuple[str, ...], Moment | None, bool]]:
    """Musts to leave out, fewest first, where there is an order without them (the agreed one where that does), and
    whether no fewer will do."""
    musts = [s.name for s in day.day.setups if s.priority == MUST]
    musts.sort(key=lambda name: name not in planned)
    tried, proven = 0, True
    for count in range(MOST + 1):
        for fallen in combinations(musts, count):
            left = _part(day, fallen)
            known = _as_agreed(left, agreed)
            can: bool | None = True
            if known is None:
                can, opened = feasible(left, LOOKED)
                tried += opened
            if can:
                yield fallen, known, proven
            proven = proven and can is not None
            if tried > TRIED:
                return


def _as_agreed(left: Day, agreed: tuple[str, ...]) -> Moment | None:
    """The agreed order of what is left, where it can be kept."""
    names = [s.name for s in left.setups]
    order = tuple(names.index(name) for name in agreed if name in names)
    if len(order) < len(names):
        return None
    return run_order(Rules(Workspace(left, (1 << len(names)) - 1)), order)


def _part(day: ShootDay, fallen: tuple[str, ...]) -> Day:
    """The day in numbers without some setups; the others are wanted as much as before."""
    keep = tuple(i for i, name in enumerate(day.setups) if name not in fallen)
    left = part(day.day, keep)
    setups = tuple(replace(s, priority=day.day.setups[i].priority) for i, s in zip(keep, left.setups, strict=True))
    return replace(left, setups=setups)


def lost_lines(hours: Sequence[str], found: Sequence[Lost]) -> Iterator[tuple[int, str]]:
    """The answer in the crew's words."""
    yield 0, f"without {' and '.join(hours)}: nothing is shot in that time; rigging and meals go on"
    for one in found:
        if one.planned:
            verb = "was" if len(one.planned) == 1 else "were"
            yield 0, f"day {one.day}: {quoted(one.planned)} {verb} to be shot then"
        elif one.before is not None:
            yield 0, f"day {one.day}: nothing was to be shot then"
        yield from ((1, text) for text in _after(one))
    yield 0, "the plan itself is not changed"


def _after(one: Lost) -> Iterator[str]:
    if one.after is None:
        yield "no order of what is left was found"
        return
    if one.dropped:
        names = ", ".join(f"'{name}' ({kind})" for name, kind in one.dropped)
        sure = "" if one.proven else "; whether fewer would do is not proven"
        yield f"{counted(len(one.dropped), 'setup falls', 'setups fall')}: {names}{sure}"
    else:
        yield "everything can still be shot"
    by = "" if one.before in (None, one.after) else _by(one.after - (one.before or 0), one.before or 0)
    yield f"in the best order left it ends at {clock(one.after)}{by}: {', '.join(one.order)}"


def _by(more: int, before: int) -> str:
    return f" instead of {clock(before)}, {span(abs(more))} {'later' if more > 0 else 'earlier'}"
