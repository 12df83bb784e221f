"""One step of a day: from a moment (what is shot, where everything stands, what time it is) to the moments after.

Every search and every replay of an abstract order goes through here, so that they cannot disagree on a rule.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Protocol

from ..facts.numbers import FOREVER, MEAL_TOUCHES, ROOM_TOUCHES
from .bound import Bounds
from .castwait import CastWaits
from .steps import Step
from .workspace import Gear, Move, Workspace

RawStep = tuple[int, int, tuple[tuple[int, int, int], ...], int, int, int, int]
"""The fields of a `Step`, which is made only of the steps of an answer."""


class Moment:
    """A state of the day. `time` is when the last takes (or meal) ended; `due` the latest start of the next meal or
    of the wrap, `cap` how late `due` can get if the last meal is pushed into later waiting. `close`, `touch`, `wait`
    and `turned` (pairs against the order of the plan) are the later steps of the objective so far."""

    __slots__ = (
        "cap", "close", "due", "gear", "meals", "parent", "rem", "room", "step", "time", "touch", "turned", "wait",
    )  # fmt: skip

    def __init__(
        self,
        rem: int,
        meals: int,
        room: int,
        gear: Gear,
        clock: tuple[int, int, int],
        counts: tuple[int, int, int, int],
        parent: Moment | None,
        step: RawStep | None,
    ) -> None:
        self.rem = rem
        self.meals = meals
        self.room = room
        self.gear = gear
        self.time, self.due, self.cap = clock
        self.close, self.touch, self.wait, self.turned = counts
        self.parent = parent
        self.step = step

    def steps(self) -> tuple[Step, ...]:
        """The steps that led here."""
        found: list[Step] = []
        at: Moment | None = self
        while at is not None and at.step is not None:
            found.append(Step(*at.step))
            at = at.parent
        return tuple(reversed(found))

    def value(self) -> tuple[int, int, int, int, int]:
        return (self.time, self.close, self.touch, self.wait, self.turned)


QUICKLY, CLOSELY, BY_ROOM = 0, 1, 2
"""How closely the least that is left is looked at; each takes longer than the one before, and is never less."""


class Apart(Protocol):
    """The least that is left, reckoned room by room, as half-minutes and as touches where only so many half-minutes are
    left; `opened` counts the moments it has opened for that."""

    @property
    def opened(self) -> int: ...

    def least(self, rem: int, gear: Gear, room: int) -> int: ...

    def touched(self, rem: int, gear: Gear, room: int, minutes: int) -> int: ...


class Rules:
    """The moves of a day over its workspace and bounds."""

    apart: Apart | None = None

    def __init__(self, space: Workspace) -> None:
        self.space = space
        self.bounds = Bounds(space)
        self.waits = CastWaits(self.bounds)
        self.day = space.day
        place = {i: k for k, i in enumerate(self.day.agreed)}
        self._earlier = tuple(
            sum(1 << j for j in space.members if j in place and i in place and place[j] < place[i])
            for i in range(len(self.day.setups))
        )
        self._waiting: dict[int, int] = {}
        musts = [m.length if m.must else 0 for m in self.day.meals]
        self._meals = tuple(sum(musts[k:]) for k in range(len(musts) + 1))
        self.takes, self.rooms, self.spans = space.takes, space.rooms, space.spans
        self.users, self.touching = space.users, space.touching
        self.cast_of = tuple(sum(1 << c for c in s.cast) for s in self.day.setups)
        self._visits: dict[int, int] = {}
        for i in space.members:
            part = self.day.setups[i].part_of
            if part >= 0 and self.day.setups[i].fixed:
                self._visits[part] = self._visits.get(part, 0) | 1 << i

    def opening(self) -> Moment:
        day = self.day
        fed = day.call if day.fed is None else day.fed
        due = fed + day.gap if day.gap < FOREVER else FOREVER
        gear = self.space.opening()
        return Moment(self.space.chosen, 0, day.room, gear, (day.call, due, due), (0, 0, 0, 0), None, None)

    def eat(self, at: Moment) -> Moment | None:
        """Take the next meal now, or None where it cannot be had in time."""
        if at.meals >= len(self.day.meals):
            return None
        meal = self.day.meals[at.meals]
        start = max(at.time, meal.earliest)
        due = min(at.due + start - at.time, at.cap)
        if start > due or start > meal.latest:
            return None
        end = start + meal.length
        clock = (end, FOREVER, FOREVER)
        if self.day.gap < FOREVER:
            clock = (end, end + self.day.gap, min(at.cap, meal.latest) + meal.length + self.day.gap)
        wait = at.wait + (end - at.time) * self._active(at.rem).bit_count()
        step = (-1, at.meals, (), 0, at.time, start, end)
        touch = at.touch + (0 if meal.must else MEAL_TOUCHES)
        return Moment(at.rem, at.meals + 1, at.room, at.gear, clock, (at.close, touch, wait, at.turned), at, step)

    def stands(self, at: Moment) -> int:
        """What matters of where the crew stands: the room or, below -1, the setup whose other visits could go on from
        here with nothing to rig."""
        part = self._part(at) if self._visits else -1
        return at.room if part < 0 or not at.rem & self._visits[part] else -2 - part

    def _part(self, at: Moment) -> int:
        """The setup that was visited last, a meal since or not; -1 where that was a whole one."""
        step = at.step
        while step is not None and step[0] < 0 and at.parent is not None:
            at = at.parent
            step = at.step
        part = self.day.setups[step[0]].part_of if step is not None and step[0] >= 0 else -1
        return part if part in self._visits else -1

    def _fixed(self, at: Moment, i: int) -> int:
        """What is to be done before setup i whatever stands where."""
        setup = self.day.setups[i]
        return 0 if setup.part_of >= 0 and self._visits and self._part(at) == setup.part_of else setup.fixed

    def shoot(self, at: Moment, i: int, late: int = FOREVER) -> Iterator[Moment]:
        """Every way to rig and shoot setup i next that may bring the day to an end before `late`."""
        bounds, room, rem = self.bounds, self.rooms[i], at.rem & ~(1 << i)
        late -= self._meals[at.meals]
        moved = at.time + self.space.travel(at.room, room)
        soonest = moved + bounds.least[i]
        latest = late - bounds.briefly(rem, room)
        if max(soonest, bounds.opens[i]) + self.takes[i] >= latest or soonest + self.takes[i] > bounds.closes[i]:
            return
        fixed = self._fixed(at, i) if self._visits else self.day.setups[i].fixed
        less = self.day.setups[i].fixed - fixed
        late -= bounds.rooms(room, rem)[0]
        for move in self.space.moves(i, at.gear, at.rem):
            if self.day.absent:
                ready = self.day.rigged(moved, fixed, move.work, move.longest)
            else:
                ready = moved + move.minutes - less
            if ready + self.takes[i] < latest:
                gear = self._gear(at.gear, i, rem, move)
                last = late - bounds.work(rem, gear)[0]
                if ready + self.takes[i] < last:
                    yield from self._times(at, i, move, gear, ready, last)

    def _times(self, at: Moment, i: int, move: Move, gear: Gear, ready: int, late: int) -> Iterator[Moment]:
        """Every time at which setup i may be shot that is over before `late`, once it is rigged."""
        space, takes, room, rem = self.space, self.takes[i], self.rooms[i], at.rem & ~(1 << i)
        for k, (lo, hi) in enumerate(self.spans[i]):
            start = ready if ready > lo else lo
            end = start + takes
            if end >= late:
                break
            if end > hi:
                continue
            due = cap = FOREVER
            if at.cap < FOREVER:
                due = min(at.due + start - ready, at.cap)
                if end > due:
                    continue
                cap = min(at.cap, due + hi - end)
            tone = space.tone(i, rem) if space.toned else 0
            counts = self._counts(at, i, rem, move, end, tone)
            step = (i, -1, move.moves, k, at.time, start, end)
            yield Moment(rem, at.meals, room, gear, (end + tone, due, cap), counts, at, step)
            if at.due >= FOREVER:
                break

    def _gear(self, before: Gear, i: int, rem: int, move: Move) -> Gear:
        gear = list(before)
        users, canon = self.users, self.space.canon
        for g, sid in zip(self.touching[i], move.after, strict=True):
            gear[g] = sid if rem & users[g] else canon(g, sid, rem)
        return tuple(gear)

    def _counts(self, at: Moment, i: int, rem: int, move: Move, end: int, tone: int) -> tuple[int, int, int, int]:
        """The later parts of the objective after setup i: changes to the agreed order, touches, waiting, pairs turned
        against the plan."""
        wait = at.wait
        active = self._active(at.rem)
        if active:
            wait += (end - at.time) * active.bit_count() - self.takes[i] * (active & self.cast_of[i]).bit_count()
        if tone:
            wait += tone * self._active(rem).bit_count()
        touch = at.touch + move.touched + (ROOM_TOUCHES if 0 <= at.room != self.rooms[i] else 0)
        close = at.close + (self._earlier[i] & rem).bit_count() if self.day.agreed else 0
        return close, touch, wait, at.turned + (rem & ((1 << i) - 1)).bit_count()

    def _active(self, rem: int) -> int:
        """The cast who have begun and still have something to do, as a mask."""
        got = self._waiting.get(rem)
        if got is None:
            done = self.space.chosen & ~rem
            got = sum(1 << c for c, mine in enumerate(self.space.casts) if mine & rem and mine & done)
            self._waiting[rem] = got
        return got

    def pledged(self, rem: int) -> int:
        """How many of the cast can still wait: begun with more to do, or with two setups or more to do."""
        return sum(1 for mine in self.space.casts if mine & rem and (mine & ~rem or (mine & rem).bit_count() > 1))

    def after(
        self, at: Moment, hopeful: Callable[[Moment], bool] | None = None, late: int = FOREVER
    ) -> Iterator[Moment]:
        """Every moment one setup later, with or without the meal before it (where a moment after the meal is still
        hopeful); when all is shot, the meals still due. Some of what cannot end before `late` is left out."""
        if at.rem == 0:
            fed = self.eat(at)
            if fed is not None:
                yield fed
            return
        before = self.bounds.before
        ready = [i for i in self.space.members if at.rem >> i & 1 and not before[i] & at.rem]
        starts = [at, *(instead for instead in self.first(at) if hopeful is None or hopeful(instead))]
        for start in starts:
            for i in ready:
                yield from self.shoot(start, i, late)

    def first(self, at: Moment) -> Iterator[Moment]:
        """What may be done before the next setup: the meal, where none was just had."""
        if at.step is None or at.step[0] >= 0:
            fed = self.eat(at)
            if fed is not None:
                yield fed

    def done(self, at: Moment) -> bool:
        """Everything shot, every meal had that must be, and the wrap in time."""
        if at.rem or any(m.must for m in self.day.meals[at.meals :]):
            return False
        wrap = at.time + self.day.pack
        return wrap <= at.due and wrap <= self.day.latest_wrap

    def least_end(self, at: Moment, closely: int = QUICKLY) -> int | None:
        """No last cut before this from here; None where the day can no longer be finished."""
        bounds, rem = self.bounds, at.rem
        if not rem:
            return self._with_meals(at, at.time, at.time)
        closing, last = bounds.tail(rem, at.meals)
        if at.time > last:
            return None
        work = bounds.closely(rem, at.gear, at.room) if closely else bounds.work(rem, at.gear)
        least = at.time + work[0] + bounds.rooms(at.room, rem)[0]
        if bounds.too_late(at.time, rem, at.room, at.gear, least):
            return None
        if closely == BY_ROOM and self.apart is not None:
            least = max(least, at.time + self.apart.least(rem, at.gear, at.room))
        end = self._with_meals(at, least, closing)
        opens, back = bounds.stay(at.room, rem)
        if at.time >= opens or end is None:
            return end
        if bounds.entered_more(at.room, rem):  # coming back may be one of the entries that are counted already
            back = 0
        away = self._with_meals(at, least + back, closing)
        stay = self._with_meals(at, least, max(closing, opens + bounds.together(rem) + bounds.fed(at.meals, opens)))
        return min(away, stay) if away is not None and stay is not None else stay if away is None else away

    def least_touched(self, at: Moment, closely: int, latest: int) -> int:
        """No fewer touches than this are left for an end no later than `latest`."""
        bounds, rem = self.bounds, at.rem
        look = bounds.closely(rem, at.gear, at.room) if closely else bounds.work(rem, at.gear)
        least = look[1] + bounds.rooms(at.room, rem)[1]
        if closely == BY_ROOM and self.apart is not None:
            minutes = latest - at.time - self._meals[at.meals]
            least = max(least, self.apart.touched(rem, at.gear, at.room, minutes))
        return least

    def _with_meals(self, at: Moment, base: int, closing: int) -> int | None:
        """The end with the meals still due: `base` without them, never before `closing`; None where it is too late."""
        day, reach = self.day, at.cap
        for meal in day.meals[at.meals :]:
            end = base if base > closing else closing
            if meal.must or end + day.pack > reach:
                base += meal.length
                if day.gap < FOREVER:
                    reach = min(reach, meal.latest) + meal.length + day.gap
        end = base if base > closing else closing
        if end + day.pack > reach or end + day.pack > day.latest_wrap:
            return None
        return end
