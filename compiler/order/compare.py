"""Two orders of a day side by side: what each costs, what breaks in it, where they part, and why that takes longer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.hours import duration, times_words
from ..facts.timeline import replay_day
from ..record import record
from .byhand import without_meal
from .speak_clash import window_hours

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts.shootday import ShootDay
    from ..facts.timeline import Timeline

LIGHT = ("lamp", "window", "practical", "grip")
"""Kinds of pieces whose changing over is a change of light."""


@record
class Costs:
    """What an order of a day comes to, in half-minutes and counts. `rigging` is time in which everybody waits for
    rigging; `moves` changes of room; `lights` setups before which the light is changed, `pieces` things handled;
    `waiting` of the cast between their setups, by person."""

    wrap: int
    rigging: int
    moving: int
    moves: int
    lights: int
    pieces: int
    idle: int
    waiting: tuple[tuple[str, int], ...]


@record
class Compared:
    """An order of a day under the name it is told by, replayed, with its costs and what breaks in it."""

    name: str
    line: Timeline
    costs: Costs
    breaks: tuple[str, ...]

    @property
    def setups(self) -> tuple[str, ...]:
        """The setups in their order."""
        return tuple(s.setup for s in self.line.steps if s.kind == "setup")


def compared(day: ShootDay, name: str, order: tuple[str, ...]) -> Compared:
    """An order (setups, meals, room tones) replayed and judged."""
    line = replay_day(day, order)
    return Compared(name, line, costs(day, line), tuple(breaks(day, line)))


def costs(day: ShootDay, line: Timeline) -> Costs:
    """What a replayed day comes to."""
    kinds = {piece.id: piece.kind for piece in day.rig.pieces.values()}
    took = {kind: sum(s.end - s.start for s in line.steps if s.kind == kind) for kind in ("prepare", "move", "wait")}
    return Costs(
        wrap=line.wrap,
        rigging=took["prepare"],
        moving=took["move"],
        moves=sum(s.kind == "move" for s in line.steps),
        lights=sum(any(kinds[t.piece] in LIGHT for t in s.tasks) for s in line.steps),
        pieces=sum(len(s.tasks) for s in line.steps),
        idle=took["wait"],
        waiting=tuple(_waiting(day, line)),
    )


def _waiting(day: ShootDay, line: Timeline) -> Iterator[tuple[str, int]]:
    """For everybody in front of the camera the time between their first takes and their last that is not theirs."""
    for c, person in enumerate(day.day.cast):
        mine = [s for s in line.steps if s.kind == "setup" and c in day.day.setups[day.index(s.setup)].cast]
        if mine:
            yield person, mine[-1].end - mine[0].start - sum(s.end - s.start for s in mine)


def breaks(day: ShootDay, line: Timeline) -> Iterator[str]:
    """What cannot stay as it is in a replayed day, each in a sentence."""
    shot = [s for s in line.steps if s.kind == "setup"]
    for step in shot:
        if step.missed:
            shut = [f"{w.why} ({window_hours(day, w)})" for w in day.day.setups[day.index(step.setup)].windows
                    if not any(lo <= step.start and step.end <= hi for lo, hi in w.spans)]  # fmt: skip
            yield f"'{step.setup}' at {times_words(step.start)} misses its hours: {'; '.join(shut) or 'none are left'}"
    place = {s.setup: k for k, s in enumerate(shot)}
    for a, b in day.day.before:
        first, then = day.setups[a], day.setups[b]
        if first in place and then in place and place[first] > place[then]:
            yield f"'{then}' comes before '{first}', and has to come after it"
    yield from _broken_into(day, line)
    if line.left_out:
        named = ", ".join(f"'{name}'" for name in line.left_out)
        yield f"it leaves out {named}"
    yield from _meals(day, line)
    out = day.out if day.out is not None and not day.ends else day.day.latest_wrap
    if line.wrap > out:
        yield f"everybody is out at {times_words(line.wrap)}, {duration(line.wrap - out)} too late"
    elif line.wrap > day.day.latest_wrap:
        yield f"it spends {duration(line.wrap - day.day.latest_wrap)} of the {duration(day.buffer)} of buffer"


def _broken_into(day: ShootDay, line: Timeline) -> Iterator[str]:
    """Hot sets out of which something is taken too soon."""
    names = list(day.rig.pieces)
    for hold in day.day.holds:
        first, until = day.setups[hold.first], day.setups[hold.until]
        inside = {day.setups[i] for i in hold.inside}
        kept = {(names[g], day.states[g][s]) for need in day.day.setups[hold.first].needs for g, s in need
                if g not in hold.free}  # fmt: skip
        hot = False
        for step in line.steps:
            hot = (hot or (step.kind == "setup" and step.setup == first)) and step.setup != until
            taken = [t.name for t in step.tasks if (t.piece, t.before) in kept]
            if hot and taken and step.setup not in inside:
                yield f"'{step.setup}' takes {', '.join(taken)} out of '{first}', which is hot until '{until}'"


def _meals(day: ShootDay, line: Timeline) -> Iterator[str]:
    eaten = [s for s in line.steps if s.kind == "meal"]
    late = without_meal(day, line)
    if late > 0:
        yield f"somebody goes {duration(day.day.gap + late)} without a meal; the most is {duration(day.day.gap)}"
    for k, meal in enumerate(day.day.meals):
        if k < len(eaten) and not meal.earliest <= eaten[k].start <= meal.latest:
            yield f"'{day.meals[k]}' starts at {times_words(eaten[k].start)}, outside its hours"
        if k >= len(eaten) and meal.must:
            yield f"it has no '{day.meals[k]}'"


@record
class Oftener:
    """A thing that is handled more often in one order than in the other: how often in each, the half-minutes that
    costs, and before which setups it is handled there and not here."""

    thing: str
    times: int
    other: int
    half_minutes: int
    setups: tuple[str, ...]


def oftener(one: Compared, two: Compared) -> list[Oftener]:
    """What the first handles more often than the second, the dearest first, before setups that both have."""
    both = {*one.setups} & {*two.setups}
    mine, theirs = (_handled(c.line, both) for c in (one, two))
    found = []
    for thing, uses in mine.items():
        other = theirs.get(thing, {})
        if len(uses) > len(other):
            more = sum(uses.values()) - sum(other.values())
            found.append(Oftener(thing, len(uses), len(other), more, tuple(s for s in uses if s not in other)))
    found.sort(key=lambda o: -o.half_minutes)
    return found


def _handled(line: Timeline, setups: set[str]) -> dict[str, dict[str, int]]:
    """Thing -> setup, of these, before which it is handled -> half-minutes of it."""
    found: dict[str, dict[str, int]] = {}
    for step in line.steps:
        for task in step.tasks if step.setup in setups else ():
            found.setdefault(task.name, {})[step.setup] = task.half_minutes
    return found
