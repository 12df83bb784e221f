"""What a log lets one measure: how long each changeover really took, with the tasks it was made of, and each shot.

Only what is plain is taken: both times are written, nothing was waited for in between (neither a line `waiting`, nor a
window that opened just then), and nothing was lost.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.changeover import tasks
from ..facts.numbers import meet
from ..facts.shootday import shoot_day
from ..record import record
from . import stand

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts.shootday import ShootDay
    from ..plan import Plan
    from .events import DayLog, Event

_FREES = ("done", "meal-over", "tone")
_BREAKS = ("waiting", "lost", "again")


@record
class Changeover:
    """One changeover as it was: setup, half-minutes, riggers, the tasks as (people, actions), a move into the room or
    "", and half-minutes of it that the plan says whole."""

    setup: str
    took: int
    hands: int
    tasks: tuple[tuple[int, tuple[str, ...]], ...]
    move: str
    fixed: int


@record
class Measured:
    """What was measured on some days: changeovers; single lengths by action (load-in, meal, wrap-out, and setup where
    no plan tells more), in half-minutes; shots as (half-minutes, half-minutes planned or 0, takes or 0)."""

    days: int
    changeovers: tuple[Changeover, ...]
    lengths: tuple[tuple[str, int], ...]
    shots: tuple[tuple[int, int, int], ...]


def observe(plan: Plan | None, logs: tuple[DayLog, ...]) -> Measured:
    """Everything that can be measured in the logs of some days."""
    changeovers: list[Changeover] = []
    lengths: list[tuple[str, int]] = []
    shots: list[tuple[int, int, int]] = []
    for log in logs:
        lengths += _lengths(log)
        shots += _shots(plan, log)
        if plan is None:
            lengths += _setups(log)
        elif plan.setups_on(log.day):
            changeovers += _changeovers(plan, shoot_day(plan, log.day), log)
    return Measured(len(logs), tuple(changeovers), tuple(lengths), tuple(shots))


def _lengths(log: DayLog) -> Iterator[tuple[str, int]]:
    """Meals, the load-in up to the first rigging, and the packing."""
    since: dict[str, int | None] = {}
    for event in log.events:
        if event.kind == "rigging" and since.get("call") is not None and event.at is not None:
            yield "load-in", event.at - (since["call"] or 0)
        if event.kind in ("rigging", "ready", "rolled"):
            since["call"] = None
        if event.kind == "meal-over" and since.get("meal") is not None and event.at is not None:
            yield "meal", event.at - (since["meal"] or 0)
        if event.kind == "wrap" and since.get("packing") is not None and event.at is not None:
            yield "wrap-out", event.at - (since["packing"] or 0)
        if event.kind in ("call", "meal", "packing"):
            since[event.kind] = event.at
        elif event.kind == "done":
            since["packing"] = event.at


def _shots(plan: Plan | None, log: DayLog) -> Iterator[tuple[int, int, int]]:
    """Shots that were rolled and done in one go, with both times."""
    rolled: dict[str, int] = {}
    last = ""
    for event in log.events:
        if event.kind == "rolled":
            last = event.subject
            if event.at is not None and event.subject not in rolled:
                rolled[event.subject] = event.at
        elif event.kind == "done" and event.subject in rolled and event.subject == last and event.at is not None:
            yield event.at - rolled.pop(event.subject), _planned(plan, event), event.count
        elif event.kind in ("waiting", "meal"):
            rolled.clear()


def _planned(plan: Plan | None, event: Event) -> int:
    shot = plan.shots.get(event.subject) if plan is not None else None
    return round(float(shot.takes) / 30.0) if shot is not None and shot.takes is not None else 0


def _setups(log: DayLog) -> Iterator[tuple[str, int]]:
    """Without a plan: from each `rigging` to the `ready` or the first roll after it."""
    begun: int | None = None
    for event in log.events:
        if event.kind == "rigging":
            begun = event.at
        elif event.kind in ("ready", "rolled") and begun is not None and event.at is not None:
            yield "setup", event.at - begun
            begun = None
        elif event.kind not in ("here", "comes", "leaves", "back"):
            begun = None


def _changeovers(plan: Plan, day: ShootDay, log: DayLog) -> Iterator[Changeover]:
    visits: list[str] = []
    begun: int | None = None
    waiting = ""
    there = False
    for event in log.events:
        setup = _setup_of(plan, event)
        if event.kind == "rigging":
            begun, there = event.at, True
            if setup and visits[-1:] != [setup]:
                visits.append(setup)
                waiting = setup
            continue
        if event.kind in ("ready", "rolled") and setup:
            new = visits[-1:] != [setup]
            if new:
                visits.append(setup)
            if (new or waiting == setup) and begun is not None and event.at is not None:
                yield from _changeover(day, visits, (begun, event.at), ready=event.kind == "ready", there=there)
            waiting, begun, there = "", None, False
        if event.kind in _FREES:
            begun = event.at + (day.day.tone if event.kind == "tone" else 0) if event.at is not None else None
        elif event.kind in _BREAKS or event.kind == "meal":
            begun = None


def _setup_of(plan: Plan, event: Event) -> str:
    if event.family == "shot":
        return plan.shots[event.subject].setup or ""
    return event.subject if event.family == "setup" else ""


def _changeover(
    day: ShootDay, visits: list[str], span: tuple[int, int], *, ready: bool, there: bool
) -> Iterator[Changeover]:
    """The changeover to the last of the visits, where it is plain that nothing was waited for. Who is `there` already
    when it begins has no way to go."""
    name, (begun, ended) = visits[-1], span
    if name not in day.setups or len(visits) != len([v for v in visits if v in day.setups]):
        return
    setup = day.day.setups[day.index(name)]
    opens = [lo for lo, _ in meet(setup.windows) if begun < lo <= ended]
    if (opens and not ready) or ended <= begun:
        return
    leg = stand.rigging(day, visits[:-1], name, begun)
    pieces = list(day.rig.pieces.values())
    done = []
    for g, before, after in () if setup.flat else leg.moves:
        actions = tuple(a for a, _ in tasks(pieces[g], day.states[g][before], day.states[g][after]))
        done.append((day.day.groups[g].hands, actions))
    room, company = day.minutes.of("room"), leg.travel >= day.minutes.of("company-move")
    move = "" if not leg.travel or there else "company-move" if company and leg.travel != room else "room"
    fixed = setup.fixed + (leg.travel - day.minutes.of(move) if move else 0)
    yield Changeover(name, ended - begun, day.day.hands(begun), tuple(done), move, fixed)
