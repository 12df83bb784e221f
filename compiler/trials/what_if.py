"""What a loss does: which shots fall, which are saved and by what, what becomes of the days. No file is touched."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import Facts, spare
from ..facts.timeline import Timeline, replay
from ..findings import in_order
from ..record import record, replace
from ..rules import RULES, run
from . import people, power
from .loss import Loss, without
from .substitutes import served

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts.spare import Gap
    from ..findings import Finding
    from ..pipeline import Compiled
    from ..plan import Plan
    from ..plan.scene import Shot
    from ..plan.setup import Setup

COUNTED = frozenset({"piece-in-two-places", "more-than-owned"})
"""What the matching of uses to pieces says already."""
ABSENT = frozenset({"outside-availability", "cast-window", "cast-missing", "unused-item", "no-spare"})
"""What merely says again that somebody or something is away."""
SEARCHED = 800
"""Moments of a day that the search for a new order may open: a fraction of a second."""


@record
class Fate:
    """What becomes of a shot: `reasons` why it falls (none: it is saved), `served` what serves instead of what."""

    shot: str
    setup: str
    priority: str
    reasons: tuple[str, ...]
    served: tuple[str, ...]
    plan_b: str = ""


@record
class DayAfter:
    """A day whose order is agreed: setups that drop out, wrap before and after in half-minutes of the day, and the wrap
    in the order found anew, where that is earlier (else None). `kept` are setups that miss their window before and keep
    it after, `missed` those that keep it before and miss it after."""

    day: str
    dropped: tuple[str, ...]
    before: int
    after: int
    anew: int | None = None
    order: tuple[str, ...] = ()
    kept: tuple[str, ...] = ()
    missed: tuple[str, ...] = ()


@record
class WhatIf:
    """The answer. `fates` holds only shots that a loss touches; `new` are findings that were not there before and stop
    no shot by themselves; `remarks` what the plan does not tell."""

    words: str
    fates: tuple[Fate, ...]
    untouched: int
    days: tuple[DayAfter, ...]
    new: tuple[Finding, ...]
    remarks: tuple[str, ...]


def what_if(compiled: Compiled, loss: Loss) -> WhatIf:
    """What a loss does to a plan that was compiled."""
    facts = compiled.facts
    assert facts is not None
    plan = facts.plan
    saved = served(facts, loss.gear)
    new = _new(compiled, Facts(_at_no_hour(facts, without(saved, loss, gone=True))))
    stopped: dict[str, list[str]] = {}
    for one in new:
        for shot_id in shots_of(plan, one) if one.severity == "error" else ():
            stopped.setdefault(shot_id, []).append(one.sentence)
    fates = []
    for setup, shot in facts.takes:
        if shot is not None:
            fate = _fate(facts, setup, shot, loss, stopped.get(shot.id, []))
            if fate is not None:
                fates.append(fate)
    fallen = {f.shot for f in fates if f.reasons}
    gone = {name for name, shots in facts.shots_of.items() if all(s.id in fallen for s in shots)}
    left = kept(without(saved, loss), gone)
    others = {(one.rule, one.place.path): one for one in new if one.severity != "error" or not shots_of(plan, one)}
    others.update({(one.rule, one.place.path): one for one in _new(compiled, Facts(left))})
    return WhatIf(
        words=loss.words(plan),
        fates=tuple(fates),
        untouched=len(plan.shots) - len(fates),
        days=tuple(_days(facts, left, gone)),
        new=in_order(list(others.values())),
        remarks=tuple(_remarks(plan, loss)),
    )


def _new(compiled: Compiled, changed: Facts) -> list[Finding]:
    known = {(f.rule, f.place.path) for f in (*compiled.findings, *(f for f, _ in compiled.accepted))}
    found, _ = run([r for r in RULES if r.id not in COUNTED | ABSENT], changed)
    return [f for f in found if (f.rule, f.place.path) not in known and f.severity != "note"]


def _at_no_hour(facts: Facts, plan: Plan) -> Plan:
    """The plan without its agreed orders: what depends on the hour is asked of the day without the setups that fall."""
    return replace(
        plan,
        setups={name: replace(setup, day=facts.day_of[name]) for name, setup in plan.setups.items()},
        days={name: replace(day, order=()) for name, day in plan.days.items()},
    )


def kept(plan: Plan, gone: set[str]) -> Plan:
    """The plan without some setups and their shots, taken out of the agreed orders too."""
    return replace(
        plan,
        setups={name: setup for name, setup in plan.setups.items() if name not in gone},
        shots={name: shot for name, shot in plan.shots.items() if shot.setup not in gone},
        days={
            name: replace(day, order=tuple(entry for entry in day.order if entry not in gone))
            for name, day in plan.days.items()
        },
    )


def shots_of(plan: Plan, finding: Finding) -> tuple[str, ...]:
    """The shots a finding is about: of its setup, and of every setup that has the same words of the text from it."""
    steps = finding.place.path.split(".")
    if steps[0] == "scenes" and len(steps) > 3:
        return (steps[3],) if steps[3] in plan.shots else ()
    if steps[0] != "setups" or len(steps) < 2:
        return ()
    rest = ".".join(steps[2:])
    here = finding.place
    found = []
    for name in plan.setups:
        path = f"setups.{name}.{rest}" if rest else f"setups.{name}"
        there = plan.where(path)
        if name == steps[1] or (there.file, there.line, there.column) == (here.file, here.line, here.column):
            found += [shot.id for shot in plan.shots_of(name)]
    return tuple(found)


def _fate(facts: Facts, setup: Setup, shot: Shot, loss: Loss, stopped: list[str]) -> Fate | None:
    gaps = [
        *spare.gaps(facts, setup, shot, loss.gear),
        *people.gaps(facts, setup, shot, loss.people),
        *power.gaps(facts, setup, loss.circuits),
    ]
    reasons = [*(_why(gap) for gap in gaps if not gap.serves), *_rooms(setup, loss)]
    reasons = reasons or stopped
    served = [f"{gap.who}: {gap.serves}" for gap in gaps if gap.serves]
    if not reasons and not served:
        return None
    priority = shot.priority or setup.priority or "must"
    why, others = tuple(dict.fromkeys(reasons)), tuple(dict.fromkeys(served))
    return Fate(shot.id, setup.id, priority, why, others, shot.plan_b or "")


def _why(gap: Gap) -> str:
    names = ", ".join(f"'{name}'" for name in gap.taken)
    busy = f" ({names} would do, but {'is' if len(gap.taken) == 1 else 'are'} taken)" if names else ""
    joint = " " if gap.who.startswith("plays ") else " for "
    return f"'{gap.lost}'{joint}{gap.who}{busy}"


def _rooms(setup: Setup, loss: Loss) -> Iterator[str]:
    if setup.set in loss.sets:
        yield f"it is shot in '{setup.set}'"
    for light in setup.lights.values():
        if light.in_ in loss.sets:
            yield f"'{light.id}' stands in '{light.in_}'"


def _days(facts: Facts, left: Plan, gone: set[str]) -> Iterator[DayAfter]:
    """Each agreed day without the setups all of whose shots fall."""
    for name, line in facts.timelines.items():
        dropped = tuple(entry for entry in line.order if entry in gone)
        order = left.days[name].order
        if not any(entry in left.setups for entry in order):
            yield DayAfter(name, dropped, line.wrap, line.call)
            continue
        after = replay(left, name, order)
        if dropped or after.wrap != line.wrap:
            old, new = _missed(line), _missed(after)
            kept = tuple(s for s in old if s not in new and s not in gone)
            missed = tuple(s for s in new if s not in old)
            yield _anew(left, DayAfter(name, dropped, line.wrap, after.wrap, kept=kept, missed=missed), after)


def _missed(line: Timeline) -> tuple[str, ...]:
    return tuple(step.setup for step in line.steps if step.kind == "setup" and step.missed)


def _anew(plan: Plan, day: DayAfter, after: Timeline) -> DayAfter:
    """The same with the order found anew, where it wraps earlier."""
    from ..order.dayorder import plan_day

    found = plan_day(plan, day.day, SEARCHED)
    best = found.timeline
    if best is None or found.dropped or best.wrap >= after.wrap or best.missing != after.missing:
        return day
    return replace(day, anew=best.wrap, order=found.order)


def _remarks(plan: Plan, loss: Loss) -> Iterator[str]:
    for name in (*loss.gear, *loss.stock):
        scenes = [s.id for s in plan.scenes.values() if name in (*s.props, *s.dressing, *s.wardrobe.values())]
        if scenes:
            yield f"scene {', '.join(scenes)} asks for '{name}'; the plan does not say in which shots it is seen"
        worn = plan.gear[name].worn_by if name in plan.gear else None
        if worn:
            yield f"'{worn}' wears '{name}'; the plan does not say in which shots it is seen"
