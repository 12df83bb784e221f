"""What a log comes to at a time of the day: what is shot, what goes on, who and what is lost, who has eaten."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record

if TYPE_CHECKING:
    from ..plan import Plan
    from .events import DayLog, Event

_IDLE = ("lost", "leaves", "comes", "here", "back", "note", "again")
"""Events that do not end what goes on."""


@record
class Now:
    """What goes on: `kind` is "", rolled, rigging, ready, meal, tone, waiting or packing; since when, where the log
    tells a time; the shot, if one was named; `despite` what was lost (family and name) when it began to roll."""

    kind: str = ""
    setup: str = ""
    shot: str = ""
    since: int | None = None
    despite: tuple[tuple[str, str], ...] = ()


@record
class Shooting:
    """A shot (or a setup without shots) that was rolled: from, to (None where no time is written), half-minutes spent
    so far, takes where they were counted, and whether it is done."""

    id: str
    setup: str
    start: int | None
    end: int | None
    spent: int
    takes: int
    done: bool


@record
class Happened:
    """The state of a day. `visits` are the setups in the order in which they were worked on; `began` the first time
    each was; `last` the last time something ended or began (None: nothing is written); `meals` (start, end or None);
    `tones` the setups after which a room tone was recorded; `lost` and `people` as they stand now; `wrapped` when the
    day was over; `cut` the metres that are lost of a stock."""

    day: str
    call: int | None
    last: int | None
    visits: tuple[str, ...]
    shootings: tuple[Shooting, ...]
    dropped: tuple[str, ...]
    meals: tuple[tuple[int, int | None], ...]
    tones: tuple[str, ...]
    lost: tuple[tuple[str, str, int], ...]
    leaves: tuple[tuple[str, int], ...]
    comes: tuple[tuple[str, int], ...]
    now: Now
    wrapped: int | None
    cut: tuple[tuple[str, float], ...] = ()

    @property
    def done(self) -> tuple[str, ...]:
        """The shots that are done, in the order in which they were."""
        return tuple(s.id for s in self.shootings if s.done)


def happened(plan: Plan, log: DayLog) -> Happened:
    """The state of a day after its events. A time that is not written is that of the line before."""
    day = _Day(plan)
    for event in log.events:
        day.take(event)
    return day.state(log.day)


class _Day:
    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.call: int | None = None
        self.last: int | None = None
        self.visits: list[str] = []
        self.shots: dict[str, Shooting] = {}
        self.dropped: dict[str, None] = {}
        self.meals: list[tuple[int, int | None]] = []
        self.tones: list[str] = []
        self.lost: dict[tuple[str, str], int] = {}
        self.cut: dict[str, float] = {}
        self.leaves: dict[str, int] = {}
        self.comes: dict[str, int] = {}
        self.now = Now()
        self.wrapped: int | None = None

    def state(self, name: str) -> Happened:
        lost = tuple((family, thing, n) for (family, thing), n in self.lost.items() if n)
        return Happened(
            name, self.call, self.last, tuple(self.visits), tuple(self.shots.values()), tuple(self.dropped),
            tuple(self.meals), tuple(self.tones), lost, tuple(self.leaves.items()), tuple(self.comes.items()), self.now,
            self.wrapped, tuple((thing, metres) for thing, metres in self.cut.items() if metres > 1e-9),
        )  # fmt: skip

    def take(self, event: Event) -> None:
        """Count one event in."""
        at = event.at if event.at is not None else self.last
        if event.kind not in _IDLE:
            self._pause(event, at)
        handler = getattr(self, "_" + event.kind.replace("-", "_"))
        handler(event, at)
        if at is not None and event.kind not in _IDLE:
            self.last = at

    def _pause(self, event: Event, at: int | None) -> None:
        """What was rolling stops: its minutes are counted, whether it is done or not."""
        shot = self.now.shot or self.now.setup
        if self.now.kind == "rolled" and shot in self.shots:
            old = self.shots[shot]
            spent = max(0, at - self.now.since) if at is not None and self.now.since is not None else 0
            self.shots[shot] = Shooting(old.id, old.setup, old.start, at, old.spent + spent, old.takes, old.done)
        if self.meals and self.meals[-1][1] is None and event.kind != "meal-over":
            self.meals[-1] = (self.meals[-1][0], at)
        self.now = Now()

    def _visit(self, setup: str) -> None:
        if not self.visits or self.visits[-1] != setup:
            self.visits.append(setup)

    def _setup_of(self, event: Event) -> str:
        return (self.plan.shots[event.subject].setup or "") if event.family == "shot" else event.subject

    def _rolled(self, event: Event, at: int | None) -> None:
        setup, shot = self._setup_of(event), event.subject if event.family == "shot" else ""
        self._visit(setup)
        name = shot or setup
        if name not in self.shots:
            self.shots[name] = Shooting(name, setup, at, None, 0, 0, False)
        missing = [key for key, n in self.lost.items() if n]
        missing += [("person", p) for p, when in self.leaves.items() if at is None or when <= at]
        self.now = Now("rolled", setup, shot, at, tuple(missing))

    def _done(self, event: Event, at: int | None) -> None:
        setup = self._setup_of(event)
        self._visit(setup)
        whole = [s.id for s in self.plan.shots_of(setup) if s.id not in self.dropped] or [setup]
        for name in whole if event.family == "setup" else [event.subject]:
            old = self.shots.get(name) or Shooting(name, setup, None, None, 0, 0, False)
            if not old.done:
                takes = old.takes + event.count
                self.shots[name] = Shooting(name, setup, old.start, at, old.spent, takes, True)

    def _again(self, event: Event, _at: int | None) -> None:
        for name in self._names(event):
            self.dropped.pop(name, None)
            self.shots.pop(name, None)

    def _dropped(self, event: Event, _at: int | None) -> None:
        for name in self._names(event):
            if name not in self.shots or not self.shots[name].done:
                self.dropped[name] = None

    def _names(self, event: Event) -> list[str]:
        """The shots of a subject, or the setup that has none."""
        if event.family == "shot":
            return [event.subject]
        return [s.id for s in self.plan.shots_of(event.subject)] or [event.subject]

    def _rigging(self, event: Event, at: int | None) -> None:
        self._visit(event.subject)
        self.now = Now("rigging", event.subject, "", at)

    def _ready(self, event: Event, at: int | None) -> None:
        self._visit(event.subject)
        self.now = Now("ready", event.subject, "", at)

    def _lost(self, event: Event, at: int | None) -> None:
        if event.family == "person":
            self.leaves[event.subject] = at if at is not None else 0
            return
        if event.metres:
            self.cut[event.subject] = self.cut.get(event.subject, 0.0) + event.metres
            return
        key = (event.family, event.subject)
        self.lost[key] = self.lost.get(key, 0) + (event.count or 1)

    def _back(self, event: Event, at: int | None) -> None:
        if event.family == "person":
            self._here(event, at)
            return
        if event.metres:
            self.cut[event.subject] = max(0.0, self.cut.get(event.subject, 0.0) - event.metres)
            return
        key = (event.family, event.subject)
        self.lost[key] = max(0, self.lost.get(key, 0) - (event.count or 1))

    def _leaves(self, event: Event, at: int | None) -> None:
        self.leaves[event.subject] = at if at is not None else 0

    def _comes(self, event: Event, at: int | None) -> None:
        self.leaves.pop(event.subject, None)
        if at is not None:
            self.comes[event.subject] = at

    def _here(self, event: Event, _at: int | None) -> None:
        self.leaves.pop(event.subject, None)
        self.comes.pop(event.subject, None)

    def _meal(self, _event: Event, at: int | None) -> None:
        self.meals.append((at if at is not None else 0, None))
        self.now = Now("meal", since=at)

    def _meal_over(self, _event: Event, at: int | None) -> None:
        if self.meals:
            self.meals[-1] = (self.meals[-1][0], at)

    def _tone(self, _event: Event, at: int | None) -> None:
        if self.visits:
            self.tones.append(self.visits[-1])
        self.now = Now("tone", since=at)

    def _waiting(self, _event: Event, at: int | None) -> None:
        self.now = Now("waiting", since=at)

    def _call(self, _event: Event, at: int | None) -> None:
        self.call = at

    def _packing(self, _event: Event, at: int | None) -> None:
        self.now = Now("packing", since=at)

    def _wrap(self, _event: Event, at: int | None) -> None:
        self.wrapped = at if at is not None else self.last if self.last is not None else 0
