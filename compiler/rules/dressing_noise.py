"""Somebody rigs or dresses a room next door while sound is recorded.

On set: the line is perfect, and behind it a ladder is folded up.

How it is decided: in the agreed order, a setup that is rigged ahead by others ('ahead:') against the takes of every
setup with sync sound at that time: in the same set, or in one that a door or a window joins to it. Source: common
practice, no source.

Fix: rig it while nothing is recorded, or stop work for each take: somebody calls it.

When to accept it: the door between is closed, thick, and listened through; write who stops the work.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from . import timing
from .words import clock, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan import Plan

RULE = "dressing-noise"
SEVERITY: Final = "warning"
TITLE = "a room is rigged next door while sound is recorded"

TRIGGERS = """
hotset: 1
days:
  1:
    call: "08:00"
    load-in: 0 min
    order: [wide, room-tone, shed-wide]
    ahead:
      - setup: shed-wide
        by: bea
        from: "08:10"
        to: "08:50"  # <- here
people: {jon: {works: sound}, bea: {works: art}, olek: {works: camera}}
locations:
  landing:
    sets:
      office: {size: 4 m x 3 m x 2.4 m, doors: {yard: {wall: west, from: 1 m, width: 0.9 m, leads-to: shed}}}
      shed: {size: 4 m x 3 m x 2.4 m}
setups: {wide: {set: office, rig: 0 min}, shed-wide: {set: shed, takes: 10 min}}
scenes: {4: {sound: sync, shots: {4A: {setup: wide, takes: 1 h}}}}
"""
PASSES = TRIGGERS.replace("leads-to: shed", "exit: true").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    early = [day for day in facts.timelines if plan.days[day].ahead]
    if not early:
        return
    sync = {s.id for s, shot in facts.takes if shot is not None and hands.is_sync(plan, shot)}
    for day_id in early:
        line = facts.timelines[day_id]
        for item in plan.days[day_id].ahead:
            room = plan.set_of(item.setup or "") if item.setup in plan.setups else None
            own = line.shooting(item.setup or "")
            if room is None:
                continue
            start = line.call if item.from_ is None else timing.later(int(item.from_), line.call)
            end = timing.later(int(item.to), line.call) if item.to is not None else own.start if own else start
            heard = [
                step
                for step in line.steps
                if step.kind == "setup" and step.setup in sync and step.setup != item.setup
                and step.start < end and start < step.end and joined(plan, room.id, plan.setups[step.setup].set or "")
            ]  # fmt: skip
            if heard:
                there = plan.setups[heard[0].setup].set or ""
                where = "in the same set" if there == room.id else f"next door to '{there.rsplit('/', 1)[-1]}'"
                yield finding(
                    plan,
                    (RULE, SEVERITY),
                    f"{item.path}.to" if item.to is not None else item.path,
                    f"'{item.setup}' is rigged ahead from {clock(start)} to {clock(end)} on day {day_id}, {where}, "
                    f"while sync sound is recorded in {quoted(s.setup for s in heard)} from {clock(heard[0].start)} to "
                    f"{clock(heard[-1].end)}",
                    (
                        "rig it while nothing is recorded",
                        "or stop work for each take, and write who calls it in a note",
                    ),
                    (("day", day_id), ("ahead", item.setup or ""), ("setups", ", ".join(s.setup for s in heard))),
                    also=[(f"setups.{s.setup}", "sound is recorded here") for s in heard[:4]],
                )


def joined(plan: Plan, one: str, other: str) -> bool:
    """Whether two sets are the same, or a door or window leads from one to the other."""
    if one == other:
        return True
    ways = [(d.id, d.leads_to) for d in plan.doors.values()] + [(w.id, w.looks_to) for w in plan.windows.values()]
    return any({name.rsplit("/", 1)[0], to} == {one, other} for name, to in ways)
