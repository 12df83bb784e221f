"""Rooms rigged ahead while the crew shoots elsewhere: who could do it, from when to when, and what it saves.

Each proposal is put into the day as the plan would say it, checked by every rule, and the day is put in order again:
what is offered brings no error and no warning that was not there, and wraps as early as it says.
"""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from ..facts import Facts
from ..facts.hours import people_of
from ..facts.occupancy import follows_crew
from ..facts.pieces import changeover
from ..facts.timeline import replay
from ..order import LIMIT, plan_day
from ..plan.day import Ahead
from ..plan.parts import ordered
from ..plan.units import HalfMinutes
from ..record import record, replace
from ..rules import RULES, run

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts.timeline import Step, Timeline
    from ..plan import Plan

WORTH = 10
"""Half-minutes that rigging ahead has to save before anybody is sent away for it."""
ROUND = 10
"""Half-minutes: people are told five-minute times."""
MOST_PEOPLE = 2
MOST_CHECKED = 24
"""Ways that are checked by every rule, the most promising first."""


@record
class Proposal:
    """A setup to be rigged ahead: by whom, from when to when, which setups are shot meanwhile, the wrap with it and
    half-minutes earlier than without. Times in half-minutes since midnight. `text` is what to write under the day."""

    setup: str
    by: tuple[str, ...]
    start: int
    end: int
    meanwhile: tuple[str, ...]
    wrap: int
    saves: int
    text: str


def proposals(plan: Plan, day_id: str, limit: int = LIMIT) -> tuple[Proposal, ...]:
    """For each setup of the day the best way to rig it ahead that saves time, dearest first; nothing where the day has
    no order."""
    found = plan_day(plan, day_id, limit)
    if found.timeline is None:
        return ()
    line = found.timeline
    agreed = ordered(plan, {day_id: found.order})
    before = _wrong(agreed)
    ways: list[tuple[int, Ahead]] = []
    for way in _ways(plan, day_id, line):
        told = replay(_with(agreed, day_id, ahead=(*plan.days[day_id].ahead, way)), day_id, found.order)
        saves = line.wrap - told.wrap
        if saves >= WORTH and not any(step.missed for step in told.steps):
            ways.append((saves, way))
    ways.sort(key=lambda w: (-w[0], len(w[1].by)))
    offered: dict[str, Proposal] = {}
    for saves, way in ways[:MOST_CHECKED]:
        if way.setup in offered or _wrong(_with(agreed, day_id, ahead=(*plan.days[day_id].ahead, way))) - before:
            continue
        offered[way.setup or ""] = _proposal(plan, day_id, line, way, saves, limit)
    return tuple(sorted(offered.values(), key=lambda p: (-p.saves, p.setup)))


def _proposal(plan: Plan, day_id: str, line: Timeline, way: Ahead, saves: int, limit: int) -> Proposal:
    """The way with the day put in order again."""
    again = plan_day(_with(plan, day_id, ahead=(*plan.days[day_id].ahead, way)), day_id, limit)
    wrap = min(line.wrap - saves, again.timeline.wrap if again.timeline else line.wrap)
    start, end = int(way.from_ or 0), int(way.to or 0)
    meanwhile = tuple(s.setup for s in line.steps if s.kind == "setup" and s.start < end and s.end > start)
    by = ", ".join(way.by)
    text = f'ahead: [{{setup: {way.setup}, by: [{by}], from: "{_clock(start)}", to: "{_clock(end)}"}}]'
    return Proposal(way.setup or "", way.by, start, end, meanwhile, wrap, line.wrap - wrap, text)


def _clock(half_minutes: int) -> str:
    return f"{half_minutes // 120:02}:{half_minutes // 2 % 60:02}"


def _ways(plan: Plan, day_id: str, line: Timeline) -> Iterator[Ahead]:
    """Every way to rig a setup before the crew comes to its room, by one or two of those who rig."""
    day = plan.days[day_id]
    done = {item.setup for item in day.ahead}
    people = [p.id for p in plan.people.values() if "rig" in p.skills and (not day.people or p.id in day.people)]
    unloaded = line.steps[0].end if line.steps[0].kind == "load-in" else line.call
    for k, step in enumerate(line.steps):
        if step.kind != "prepare" or step.setup in done or " " in step.setup or step.end - step.start < WORTH:
            continue
        tasks = [t for t in step.tasks if not follows_crew(plan, t.piece)]
        free = max(unloaded, _free_from(plan, line.steps[:k], step, {t.piece for t in tasks}))
        end = _arrival(line.steps, k) // ROUND * ROUND
        work, longest = sum(t.half_minutes * t.people for t in tasks), max((t.half_minutes for t in tasks), default=0)
        least = max((t.people for t in tasks), default=1)
        for count in range(least, MOST_PEOPLE + 1):
            start = (end - changeover(work, longest, count)) // ROUND * ROUND
            if start < free or not work:
                continue
            busy = {p for s in line.steps if s.kind == "setup" and s.start < end and s.end > start
                    for p in people_of(plan, s.setup)}  # fmt: skip
            for by in combinations([p for p in people if p not in busy], count):
                when = (HalfMinutes(start), HalfMinutes(end))
                yield Ahead(path=f"{day.path}.ahead", setup=step.setup, by=by, from_=when[0], to=when[1])


def _arrival(steps: tuple[Step, ...], k: int) -> int:
    """When the crew leaves for the room of a changeover, or begins it where it is there already."""
    while k and steps[k - 1].kind in ("move", "wait"):
        k -= 1
    return steps[k].start


def _free_from(plan: Plan, earlier: tuple[Step, ...], step: Step, pieces: set[str]) -> int:
    """From when on the room is empty and none of the pieces is needed elsewhere."""
    free = 0
    for other in earlier:
        if other.kind != "setup":
            continue
        there = {s.piece for s in other.standing if s.state.room == other.room}
        if other.room == step.room or pieces & {p for p in there if not _alike(plan, p)}:
            free = max(free, other.end)
    return free


def _alike(plan: Plan, piece: str) -> bool:
    """Whether there are several of a piece, so that one may be free while another is in use; the rules count them."""
    thing = plan.gear.get(piece)
    return thing is not None and (thing.quantity or 1) > 1


def _with(plan: Plan, day_id: str, **changed: object) -> Plan:
    return replace(plan, days={**plan.days, day_id: replace(plan.days[day_id], **changed)})


def _wrong(plan: Plan) -> set[tuple[str, str]]:
    """The errors and warnings of a plan, by rule and place."""
    found, _ = run(RULES, Facts(plan))
    return {(f.rule, f.place.path) for f in found if f.severity != "note"}
