"""What is left to shoot: every shot that is neither done nor dropped, with the minutes it still takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import hours
from ..facts.tables import table
from ..record import record

if TYPE_CHECKING:
    from ..facts.changeover import Minutes
    from ..log import Happened
    from ..plan import Plan


@record
class Part:
    """A shot (or a setup without shots) that is left: half-minutes planned and still to take, and its priority."""

    id: str
    setup: str
    planned: int
    left: int
    priority: str


def parts(plan: Plan, setup_id: str, minutes: Minutes) -> dict[str, int]:
    """Shot -> half-minutes of its takes, so that they sum up to the setup's; a setup without shots is its own part."""
    shots = plan.shots_of(setup_id)
    whole, _ = hours.takes(plan, setup_id, minutes)
    if not shots:
        return {setup_id: whole}
    setup = plan.setups[setup_id]
    if setup.takes is not None and any(s.takes is None for s in shots):
        each, over = divmod(whole, len(shots))
        return {s.id: each + (k < over) for k, s in enumerate(shots)}
    found = {}
    for shot in shots:
        alone = minutes.of("takes") if shot.takes is None else _half(float(shot.takes))
        found[shot.id] = alone + (_half(float(shot.improvises)) if shot.improvises is not None else 0)
    return found


def _half(seconds: float) -> int:
    from ..facts.changeover import half_minutes

    return half_minutes(seconds)


def what_is_left(plan: Plan, happened: Happened, minutes: Minutes, at: int) -> dict[str, tuple[Part, ...]]:
    """Setup -> its shots that are left, in story order; setups of the day with nothing left are not in it."""
    spent = {s.id: s.spent for s in happened.shootings}
    gone = {*happened.done, *happened.dropped}
    rolling = rolls(plan, happened)
    if rolling and happened.now.since is not None:
        spent[rolling] = spent.get(rolling, 0) + max(0, at - happened.now.since)
    found: dict[str, tuple[Part, ...]] = {}
    for setup in plan.setups_on(happened.day):
        mine = []
        for name, planned in parts(plan, setup, minutes).items():
            if name not in gone:
                over = planned - spent.get(name, 0) <= 0 < planned
                left = _one_take(plan, name, planned) if over else planned - spent.get(name, 0)
                mine.append(Part(name, setup, planned, left, priority_of(plan, setup, name)))
        if mine:
            found[setup] = tuple(mine)
    return found


def rolls(plan: Plan, happened: Happened) -> str:
    """The shot that is rolling, "" where none is. Where the log names the setup alone it is the first that is left of
    it, or the setup itself where that has no shots."""
    now = happened.now
    if now.kind != "rolled" or now.shot:
        return now.shot if now.kind == "rolled" else ""
    gone = {*happened.done, *happened.dropped}
    return next((s.id for s in plan.shots_of(now.setup) if s.id not in gone), now.setup)


def priority_of(plan: Plan, setup: str, shot: str) -> str:
    """How much the film needs a shot."""
    own = plan.shots[shot].priority if shot in plan.shots else None
    return own or plan.setups[setup].priority or "must"


def _one_take(plan: Plan, shot: str, planned: int) -> int:
    """Half-minutes of one more take: what has taken longer than planned and is not done wants at least that."""
    count = plan.shots[shot].count if shot in plan.shots else None
    return -(-planned // (count or int(table("late")["takes"]["likely"])))
