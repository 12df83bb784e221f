"""A day minute by minute: `replay` follows an agreed order and says what is done when, by which piece, how long.

Pure and without a search: of interchangeable pieces the nearest serve, as `follow` finds them. Nothing is refused:
a window that is missed is marked, and whether that matters is for the rules to say.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record, replace
from .changeover import tasks
from .follow import Entry, Leg, follow
from .hours import full_minute
from .shootday import ShootDay, shoot_day

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..plan import Plan
    from .rig import Piece, State

TONE = "room-tone"
MOVE = "move"


@record
class Task:
    """What is done to one piece: which one of `of` alike (from 1), from where to where (None: its case, or a window
    untreated), the actions as (action, words, half-minutes), half-minutes in all, how many people it takes."""

    piece: str
    number: int
    of: int
    before: State | None
    after: State | None
    actions: tuple[tuple[str, str, int], ...]
    half_minutes: int
    people: int

    @property
    def name(self) -> str:
        """The piece as the crew calls it: "panel 2" where there are several."""
        return f"{self.piece} {self.number}" if self.of > 1 else self.piece


@record
class Standing:
    """A piece that is not in its case: which one of the quantity, and where and how it stands."""

    piece: str
    number: int
    state: State


@record
class Step:
    """One stretch of the day: `kind` is load-in, move, prepare, wait, setup, room-tone, meal or wrap.

    Half-minutes since midnight, at full minutes (the sum behind them keeps the halves). `standing` is where the pieces
    stand from the start of this step (a preparation counts as done when it starts); `typical` what its length rests
    on; `missed` tells that no window was kept.
    """

    kind: str
    start: int
    end: int
    setup: str = ""
    room: str = ""
    words: str = ""
    tasks: tuple[Task, ...] = ()
    standing: tuple[Standing, ...] = ()
    typical: tuple[str, ...] = ()
    missed: bool = False


@record
class Timeline:
    """A day replayed. `steps` are without gaps from the call to the wrap; `order` what was followed, in the words of
    the plan; `left_out` the day's setups that the order does not name; `unknown` entries that are no setup of the day;
    `typical` and `missing` as the day in numbers has them."""

    day: str
    steps: tuple[Step, ...]
    order: tuple[str, ...]
    call: int
    wrap: int
    riggers: int
    left_out: tuple[str, ...]
    unknown: tuple[str, ...]
    typical: tuple[str, ...]
    missing: tuple[str, ...]

    def shooting(self, setup: str) -> Step | None:
        """When a setup's takes run."""
        return next((s for s in self.steps if s.kind == "setup" and s.setup == setup), None)

    def preparing(self, setup: str) -> Step | None:
        """When a setup is rigged; None where nothing has to be."""
        return next((s for s in self.steps if s.kind == "prepare" and s.setup == setup), None)

    def at(self, time: int) -> Step | None:
        """What happens at a time."""
        return next((s for s in self.steps if s.start <= time < s.end), None)

    def standing_at(self, time: int) -> tuple[Standing, ...]:
        """What stands where at a time."""
        step = self.at(time)
        return step.standing if step is not None else ()

    def changeovers(self) -> int:
        """Half-minutes of rigging and moving in all."""
        return sum(s.end - s.start for s in self.steps if s.kind in ("prepare", "move"))


def timeline(plan: Plan, day_id: str) -> Timeline | None:
    """The agreed order of a day minute by minute; None where nothing is agreed or the day has no call."""
    day = plan.days[day_id]
    return replay(plan, day_id, day.order) if day.order and day.call is not None else None


def replay(plan: Plan, day_id: str, order: Iterable[str]) -> Timeline:
    """An order of a day minute by minute: setups, `meal` (or a meal's name), `room-tone`, `move`."""
    return replay_day(shoot_day(plan, day_id), tuple(order))


def replay_day(day: ShootDay, order: tuple[str, ...]) -> Timeline:
    """The same for a day that is in numbers already."""
    entries, kept, unknown = _entries(day, order)
    teller = _Teller(day)
    for name, leg in zip(kept, follow(day.day, entries), strict=True):
        teller.leg(name, leg)
    steps = teller.steps
    eats = any(s.kind == "meal" for s in steps)
    end = steps[-1].end
    typical = tuple(t for t in day.typical if t.startswith("wrap-out"))
    steps.append(Step("wrap", end, end + day.day.pack, standing=teller.standing(), typical=typical))
    return Timeline(
        day=day.id,
        steps=tuple(s for s in map(_in_minutes, steps) if s.end > s.start or s.kind == "setup" or s.tasks),
        order=kept,
        call=day.call,
        wrap=full_minute(end + day.day.pack),
        riggers=day.day.riggers,
        left_out=tuple(s for s in day.setups if s not in kept),
        unknown=unknown,
        typical=tuple(t for t in day.typical if eats or not t.startswith("meal ")),
        missing=day.missing,
    )


def _in_minutes(step: Step) -> Step:
    """A step with its edges at full minutes: it may be half a minute longer or shorter, and none drifts."""
    if not (step.start | step.end) & 1:
        return step
    return replace(step, start=full_minute(step.start), end=full_minute(step.end))


def _entries(day: ShootDay, order: tuple[str, ...]) -> tuple[tuple[Entry, ...], tuple[str, ...], tuple[str, ...]]:
    """The entries that can be followed, their names, and the names that mean nothing on this day."""
    entries: list[Entry] = []
    kept: list[str] = []
    unknown: list[str] = []
    eaten = 0
    for name in order:
        if name in day.setups:
            if name in kept:
                continue
            entries.append(Entry(setup=day.index(name)))
        elif name == TONE:
            entries.append(Entry())
        elif (name == "meal" or name in day.meals) and eaten < len(day.meals):
            entries.append(Entry(meal=eaten))
            eaten += 1
        elif name == MOVE:
            continue
        else:
            unknown.append(name)
            continue
        kept.append(name)
    return tuple(entries), tuple(kept), tuple(unknown)


class _Teller:
    """Turns legs into steps, and keeps track of which piece of a quantity stands where."""

    def __init__(self, day: ShootDay) -> None:
        self.day = day
        self.pieces = tuple(day.rig.pieces.values())
        self.at: list[list[int]] = [list(group.start) for group in day.day.groups]
        typical = tuple(t for t in day.typical if t.startswith("load-in"))
        self.steps = [Step("load-in", day.call, day.call + day.load_in, typical=typical)]
        self.room = ""

    def leg(self, name: str, leg: Leg) -> None:
        """Add the steps of one leg."""
        if leg.entry.setup < 0:
            kind = "meal" if leg.entry.meal >= 0 else TONE
            if leg.start > leg.begin:
                self._add("wait", leg.begin, leg.start, words="for the meal")
            self._add(kind, leg.start, leg.end, words=name if kind == "meal" else "", room=self.room)
            return
        room = self.day.rooms[self.day.day.setups[leg.entry.setup].room]
        typical = tuple(t for t in self.day.typical if t.startswith(f"'{name}': "))
        moved = leg.begin + leg.travel
        if leg.travel:
            self._add("move", leg.begin, moved, setup=name, room=room, words=f"from '{self.room}' to '{room}'")
        self.room = room
        done = tuple(self._task(*move) for move in leg.moves)
        ready = moved + leg.rig
        self._add("prepare", moved, ready, setup=name, room=room, tasks=done, typical=typical)
        if leg.start > ready:
            self._add("wait", ready, leg.start, setup=name, room=room, words=self._waits_for(leg, ready))
        self._add("setup", leg.start, leg.end, setup=name, room=room, typical=typical, missed=leg.missed)

    def _add(
        self,
        kind: str,
        start: int,
        end: int,
        *,
        setup: str = "",
        room: str = "",
        words: str = "",
        tasks: tuple[Task, ...] = (),
        typical: tuple[str, ...] = (),
        missed: bool = False,
    ) -> None:
        self.steps.append(Step(kind, start, end, setup, room, words, tasks, self.standing(), typical, missed))

    def _waits_for(self, leg: Leg, ready: int) -> str:
        """The windows that are not yet open."""
        setup = self.day.day.setups[leg.entry.setup]
        shut = [w.why for w in setup.windows if not any(lo <= ready <= hi for lo, hi in w.spans)]
        return "; ".join(shut)

    def _task(self, g: int, before: int, after: int) -> Task:
        piece: Piece = self.pieces[g]
        number = self.at[g].index(before)
        self.at[g][number] = after
        start, end = self.day.states[g][before], self.day.states[g][after]
        actions = tuple((a, words, self.day.minutes.of(a)) for a, words in tasks(piece, start, end))
        whole = self.day.day.groups[g].cost[before][after]
        return Task(piece.id, number + 1, piece.count, start, end, actions, whole, piece.people)

    def standing(self) -> tuple[Standing, ...]:
        """Everything that is not in its case."""
        found = []
        for g, piece in enumerate(self.pieces):
            for number, s in enumerate(self.at[g]):
                state = self.day.states[g][s]
                if state is not None:
                    found.append(Standing(piece.id, number + 1, state))
        return tuple(found)
