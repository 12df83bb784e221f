"""Near misses of the agreed orders: windows, meals, the end of the day, rest, loans."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from ..facts import changeover, errands, hours
from ..facts.workday import meal_within
from . import day_too_long, rest_short, timing
from .loans import loans
from .near_misses import Margin
from .words import clock, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts

NEAR = 60  # half-minutes; common practice, no source
LOAN = 120
REST = 120

_OWN_RULES = {
    "needs dark": "needs-dark",
    "needs sun": "needs-sun",
    "sun on": "needs-sun",
    "no sun": "direct-sun-on-window",
}


def _used(left: int, near: int) -> float:
    """1.0 where nothing is left, less the more there is."""
    return 1.0 - 0.1 * left / near


def windows(facts: Facts) -> Iterator[Margin]:
    """Takes that end shortly before the sky, a person, a place or a loan ends them: for each such end the last."""
    plan = facts.plan
    counted = changeover.minutes(plan)
    last: dict[tuple[str, str, int], tuple[int, str]] = {}
    for day_id, line in facts.timelines.items():
        names = plan.setups_on(day_id)
        times = hours.hours(plan, day_id, counted)
        for name, found in zip(names, hours.windows(plan, day_id, names, times), strict=True):
            step = line.shooting(name)
            for window in found.windows if step is not None else ():
                if step is None or window.why == "pinned":
                    continue
                end = next((b for a, b in window.spans if a <= step.start and step.end <= b), None)
                if end is not None and end - step.end <= NEAR:
                    mark = (day_id, window.why, end)
                    if mark not in last or end - step.end < last[mark][0]:
                        last[mark] = (end - step.end, name)
    for (_, why, end), (left, name) in last.items():
        setup = plan.setups[name]
        key = "between" if why == "between" else "needs" if why.startswith("needs ") else ""
        words = {"between": "its own hours end"}.get(why, f"{why.removeprefix('needs ')} ends")
        if why.endswith(" is here"):
            words = f"{why.removesuffix(' is here')} leaves"
        elif why.endswith(" is in hands"):
            words = f"{why.removesuffix(' is in hands')} has to leave"
        yield Margin(
            "cast-window" if why.endswith(" is here") else _OWN_RULES.get(" ".join(why.split()[:2]), "window-missed"),
            f"the takes of '{name}' end {span(left)} before {words} at {clock(end)}",
            plan.where(f"{setup.path}.{key}" if key else setup.path),
            _used(left, NEAR),
        )


def meals(facts: Facts) -> Iterator[Margin]:
    """The longest time without a meal, where it comes near the limit."""
    for day_id, line in facts.timelines.items():
        day = facts.plan.days[day_id]
        most, _ = meal_within(day)
        since = line.call
        ends = [(s.start, s.end, f"the meal at {clock(s.start)} begins") for s in line.steps if s.kind == "meal"]
        for start, end, words in [*ends, (line.wrap, line.wrap, "the day ends")]:
            left = most - (start - since)
            if 0 <= left <= NEAR:
                yield Margin(
                    "meal-late",
                    f"on day {day_id} {words} {span(left)} before the limit of {span(most)} without a meal",
                    facts.plan.where(f"{day.path}.order"),
                    _used(left, NEAR),
                )
            since = end


def ends(facts: Facts) -> Iterator[Margin]:
    """Days that end shortly before they must."""
    for day_id, line in facts.timelines.items():
        day = facts.plan.days[day_id]
        limit = day_too_long._limit(day)
        if limit is not None and 0 <= limit[0] - line.wrap <= NEAR:
            left = limit[0] - line.wrap
            yield Margin(
                "day-too-long",
                f"day {day_id} ends {span(left)} before the limit: {limit[1]}",
                facts.plan.where(limit[2]),
                _used(left, NEAR),
            )


def rests(facts: Facts) -> Iterator[Margin]:
    """Nights that are hardly longer than they must be."""
    dated = [(d.date, d.call, d) for d in facts.plan.days.values() if d.date is not None and d.call is not None]
    days = sorted(dated, key=lambda one: one[:2])
    for (date, _, before), (other, call, after) in pairwise(days):
        line, frame = facts.timelines.get(before.id), timing.frame(before)
        if date == other or (line is None and frame is None):
            continue
        end = line.wrap if line is not None else frame[1] if frame is not None else 0
        said = after.hours.rest if after.hours is not None else None
        least = rest_short.LEAST if said is None else round(float(said) / 30)
        left = (other - date).days * timing.NIGHT + int(call) - end - least
        if 0 <= left <= REST:
            yield Margin(
                "rest-short",
                f"between day {before.id} and day {after.id} lie {span(left + least)} of rest, {span(left)} more than "
                f"the {span(least)} there must be",
                facts.plan.where(f"{after.path}.call"),
                _used(left, REST),
            )


Mark = tuple[str, str, str]


def lent(facts: Facts) -> Iterator[Margin]:
    """Things that come shortly before they are needed, or go shortly after."""
    nearest: dict[Mark, tuple[int, str, str]] = {}
    for loan in loans(facts):
        if loan.start is None or loan.end is None:
            continue
        thing, day = loan.thing, loan.day
        leaves = errands.leaves(thing, day)
        if leaves is not None:
            left = leaves - loan.end
            words = f"'{thing.id}' must leave {span(left)} after the takes of '{loan.setup}' end at {clock(loan.end)}"
            _keep(nearest, ("due-back", thing.id, day.id), left, words, loan.path)
        there = errands.comes(thing, day)
        if there is not None:
            words = f"'{thing.id}' is in hands {span(loan.start - there)} before '{loan.setup}' is rigged with it"
            _keep(nearest, ("not-in-hands-yet", thing.id, day.id), loan.start - there, words, loan.path)
    for (rule, _, _), (left, words, path) in nearest.items():
        yield Margin(rule, words, facts.plan.where(path), _used(left, LOAN))


def _keep(nearest: dict[Mark, tuple[int, str, str]], mark: Mark, left: int, words: str, path: str) -> None:
    if 0 <= left <= LOAN and (mark not in nearest or left < nearest[mark][0]):
        nearest[mark] = (left, words, path)


ASKED = (windows, meals, ends, rests, lent)
