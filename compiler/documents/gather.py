"""From what became of a plan to what the sheets draw on."""

from __future__ import annotations

from ..facts import Facts
from ..facts.rollby import RollBy, roll_by
from ..facts.shootday import ShootDay, shoot_day
from ..facts.sky import sky
from ..facts.timeline import Step, replay_day
from ..pipeline import Compiled
from ..plan import Plan
from ..plan.day import Day
from .shoot import DayLine, Shoot, Slot, SlotKind, Sun
from .version import version_of
from .words import Words

KINDS: dict[str, SlotKind] = {
    "load-in": "load-in", "move": "move", "prepare": "rig", "wait": "spare", "setup": "shoot",
    "room-tone": "room-tone", "meal": "meal", "wrap": "wrap-out",
}  # fmt: skip


def shoot_of(compiled: Compiled, words: Words, label: str = "") -> Shoot:
    """The shoot of a readable plan, its version and its days in order; setups of no day stand under a day without id.

    Raises ValueError for a plan that could not be read; the command has said so before.
    """
    plan, facts, _ = compiled.plan, compiled.facts, words
    if plan is None or facts is None:
        raise ValueError("a plan that cannot be read has no sheets")
    read = {file.name: file.text.encode("utf-8") for file in compiled.source.files}
    taken = tuple((finding, plan.film.accepted[index]) for finding, index in compiled.accepted)
    days = tuple(_line(facts, day, _) for day in plan.days.values())
    loose = tuple(name for name in plan.setups if plan.day_of(name) not in plan.days)
    if loose:
        days += (DayLine(Day(), loose, why=_("These setups are on no day yet: name them under a day of the plan.")),)
    suns = {day.id: sun for day in plan.days.values() if (sun := _sun(plan, day))}
    return Shoot(facts, plan, days, version_of(read), compiled.findings, taken, suns, label)


def _line(facts: Facts, day: Day, words: Words) -> DayLine:
    """The day with its times where an order is agreed and a call said, else with the reason why there are none."""
    _ = words
    plan = facts.plan
    listed = plan.setups_on(day.id)
    ordered = tuple(dict.fromkeys(name for name in day.order if name in listed))
    rest = tuple(name for name in listed if name not in ordered)
    if not ordered:
        why = _("No order is agreed for this day yet: the setups stand as in the plan, without times.")
        return DayLine(day, rest, (), why)
    if day.call is None:
        return DayLine(day, ordered + rest, (), _("The day has no call yet: the setups stand in order, without times."))
    numbers = shoot_day(plan, day.id)
    replayed = replay_day(numbers, day.order)
    limits = roll_by(numbers, replayed.steps)
    slots = tuple(_slot(plan, numbers, step, limits) for step in replayed.steps)
    lacks = _("The times are counted without: {what}.", what="; ".join(replayed.missing)) if replayed.missing else ""
    return DayLine(day, ordered + rest, slots, lacks, replayed)


def _slot(plan: Plan, numbers: ShootDay, step: Step, limits: dict[str, RollBy]) -> Slot:
    kind = KINDS[step.kind]
    if kind != "shoot":
        words = step.words if kind == "spare" else ""
        return Slot(kind, step.start, step.end, step.setup, typical=_typical(plan, numbers, step), words=words)
    shots = tuple(shot.id for shot in plan.shots_of(step.setup))
    limit = limits.get(step.setup)
    latest, why, own = (limit.latest, limit.why, limit.own) if limit else (None, "", False)
    return Slot(kind, step.start, step.end, step.setup, shots, bool(step.typical), latest, why, step.missed, own)


def _typical(plan: Plan, numbers: ShootDay, step: Step) -> bool:
    """Whether a stretch is as long as it usually takes, because the plan does not say how long it takes this crew."""
    usual = numbers.minutes.typical
    if step.kind == "prepare" and plan.setups[step.setup].rig is not None:
        return False
    actions = {action for task in step.tasks for action, _words, _minutes in task.actions}
    if step.kind == "room-tone":
        actions.add("room-tone")
    if step.kind == "meal":
        day = plan.days[numbers.id]
        said = [*day.meals.values(), *([day.meal] if day.meal else [])]
        return not any(meal.takes is not None for meal in said) and "meal" in usual
    return bool(step.typical) or bool(actions & usual)


def _sun(plan: Plan, day: Day) -> Sun | None:
    found = sky(plan, day.id, day.location or "")
    return Sun(found.sunrise, found.sunset, found.dark_until, found.dark_from) if found else None
