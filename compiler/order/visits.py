"""Setups whose shots may be taken at different times: the search has a visit for every shot, and what it takes one
right after the other is one visit again."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from ..facts.numbers import meet
from ..facts.shootday import ShootDay, shoot_day
from ..facts.slate import in_time
from ..plan.parts import ordered, visit_name
from .steps import Step

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from ..facts.numbers import Setup
    from ..plan import Plan
    from .solve import Answer


@dataclass(frozen=True, slots=True)
class Apart:
    """A day in visits of a shot each, and the answer that was found for it."""

    day: ShootDay
    answer: Answer

    def stretches(self) -> list[list[Step]]:
        """The steps of the answer; visits that follow on one another with nothing between are one stretch."""
        setups = self.day.day.setups
        found: list[list[Step]] = []
        for step in self.answer.steps:
            before = found[-1] if found else None
            if before and step.setup >= 0 and before[-1].setup >= 0 and step.start == before[-1].end:
                group = [*before, step]
                ran = (before[0].start, step.end)
                one = setups[step.setup].part_of
                if one >= 0 and all(setups[s.setup].part_of == one and _open(setups[s.setup], ran) for s in group):
                    before.append(step)
                    continue
            found.append([step])
        return found


def _open(setup: Setup, ran: tuple[int, int]) -> bool:
    """Whether a setup may be shot all that time."""
    return any(lo <= ran[0] and ran[1] <= hi for lo, hi in meet(setup.windows))


def agreed_in(plan: Plan, found: Sequence[Apart]) -> tuple[Plan, dict[str, tuple[str, ...]]]:
    """The plan in which these answers are agreed, each setup whole again that nothing came between; and per day the
    visits that are shot. `plan` is that in which every shot has its visit."""
    orders = {}
    for one in found:
        names = []
        for stretch in one.stretches():
            if stretch[0].setup >= 0:
                names.append(_called(plan, [one.day.setups[s.setup] for s in stretch]))
        orders[one.day.id] = tuple(names)
    return ordered(plan, orders), orders


def _called(plan: Plan, visits: Iterable[str]) -> str:
    """What visits in one stretch are called together: the setup alone where they are all there is of it."""
    names = tuple(visits)
    base = plan.parts.get(names[0])
    if base is None:
        return names[0]
    shots = [s.id for name in names for s in plan.shots_of(name)]
    every = [s.id for name, whole in plan.parts.items() if whole == base for s in plan.shots_of(name)]
    return base if set(shots) == set(every) else visit_name(plan, names[0], shots)


def settled(apart: Plan, plan: Plan, one: Apart, names: tuple[str, ...], *, usual: bool) -> tuple[ShootDay, Answer]:
    """An answer in the numbers of the plan in which it is agreed, where its day has these setups and those left out."""

    def now(number: int) -> str:
        name = one.day.setups[number]
        return plan.shots[apart.shots_of(name)[0].id].setup or name if name in apart.parts else name

    dropped = tuple(dict.fromkeys(now(i) for i in one.answer.dropped))
    there = {*names, *dropped}
    day = in_time(plan, shoot_day(plan, one.day.id, tuple(n for n in plan.setups if n in there)), usual=usual)
    steps = []
    for stretch in one.stretches():
        first, last = stretch[0], stretch[-1]
        setup = day.index(now(first.setup)) if first.setup >= 0 else -1
        moves = tuple(move for step in stretch for move in step.moves)
        steps.append(Step(setup, first.meal, moves, first.span, first.rig, first.start, last.end))
    left = tuple(sorted(day.index(name) for name in dropped))
    return day, replace(one.answer, steps=tuple(steps), dropped=left)
