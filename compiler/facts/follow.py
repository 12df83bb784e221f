"""Following a given order: which piece serves which need, so that the day ends earliest and least is touched.

Only the order is fixed; of interchangeable pieces every sensible choice is carried along. Windows that cannot be kept
are missed, not refused: the order was agreed by people, and what it misses is for others to say.
"""

from __future__ import annotations

from itertools import product

from ..record import record, replace
from .numbers import FOREVER, ROOM_TOUCHES, Day, Setup, Spans, meet
from .pieces import CASE, Group, Shift, shifts

WIDTH = 48
LONGEST = 2880
"""Half-minutes after the call within which anything is waited for where no latest wrap is said: a day."""

Gear = tuple[tuple[int, ...], ...]
Moves = tuple[tuple[int, int, int], ...]


@record
class Entry:
    """One entry of an order: a setup by its number, or -1 with the meal's number, or both -1 for a room tone."""

    setup: int = -1
    meal: int = -1


@record
class Leg:
    """An entry as followed. From `begin` the crew moves rooms for `travel` half-minutes, rigs for `rig`, waits until
    `start`; takes, meal or tone end at `end`. `moves` are (group, from, to); `missed` tells that no window was kept."""

    entry: Entry
    begin: int
    travel: int
    rig: int
    start: int
    end: int
    moves: Moves
    missed: bool


class _Way:
    """One way so far: time, touches, present room, where everything stands, and how it came about."""

    __slots__ = ("gear", "leg", "parent", "room", "time", "touched")

    def __init__(
        self, time: int, touched: int, room: int, gear: Gear, parent: _Way | None = None, leg: Leg | None = None
    ) -> None:
        self.time, self.touched, self.room, self.gear = time, touched, room, gear
        self.parent, self.leg = parent, leg


def follow(day: Day, entries: tuple[Entry, ...]) -> tuple[Leg, ...]:
    """The legs of an order, one an entry."""
    gear = tuple(tuple(sorted(g.start)) for g in day.groups)
    ways = [_Way(day.call, 0, day.room, gear)]
    done: list[int] = []
    for entry in entries:
        if entry.setup >= 0:
            done.append(entry.setup)
            ahead = [new for way in ways for new in _setup(day, way, entry, done)]
            ways = _best(ahead) or [_unrigged(day, ways[0], entry)]
        else:
            ways = [_pause(day, way, entry) for way in ways]
    last: _Way | None = min(ways, key=lambda w: (w.time, w.touched))
    legs: list[Leg] = []
    while last is not None and last.leg is not None:
        legs.append(last.leg)
        last = last.parent
    return fed(day, tuple(reversed(legs)))


def fed(day: Day, legs: tuple[Leg, ...]) -> tuple[Leg, ...]:
    """Meals moved later, into waiting that comes anyway, where somebody would else go too long without; the wrap
    stays where it is. Where that does not help, everything stays."""
    for _ in legs if day.gap < FOREVER else ():
        since, eaten, late = day.call if day.fed is None else day.fed, -1, 0
        for k, leg in enumerate(legs):
            if leg.entry.meal >= 0:
                late = leg.start - since - day.gap
                if late > 0:
                    break
                since, eaten = leg.end, k
        else:
            late = legs[-1].end + day.pack - since - day.gap
        moved = _pushed(day, legs, eaten, late) if late > 0 and eaten >= 0 else None
        if moved is None:
            break
        legs = moved
    return _spread(day, legs) if day.gap < FOREVER else legs


def _spread(day: Day, legs: tuple[Leg, ...]) -> tuple[Leg, ...]:
    """Meals that are no must come no sooner than half the longest time without one after the meal before, where
    waiting that comes anyway lets them."""
    for k, leg in enumerate(legs):
        if leg.entry.meal < 0 or day.meals[leg.entry.meal].must:
            continue
        before = [other.end for other in legs[:k] if other.entry.meal >= 0]
        early = (before[-1] if before else day.call if day.fed is None else day.fed) + day.gap // 2 - leg.start
        for by in (early, early // 2, early // 4):
            moved = _pushed(day, legs, k, by) if by > 0 else None
            if moved is not None:
                legs = moved
                break
    return legs


def _pushed(day: Day, legs: tuple[Leg, ...], meal: int, by: int) -> tuple[Leg, ...] | None:
    """The legs with one meal so much later, or None where a window or the wrap would suffer."""
    found = list(legs[:meal])
    for k, leg in enumerate(legs[meal:], meal):
        begin = leg.begin if k == meal else found[-1].end
        start = leg.start + by if k == meal else max(leg.start, begin + leg.travel + leg.rig)
        end = start + leg.end - leg.start
        if leg.entry.setup >= 0 and start > leg.start and not leg.missed:
            spans = meet(day.setups[leg.entry.setup].windows)
            if not any(lo <= start and end <= hi for lo, hi in spans):
                return None
        found.append(replace(leg, begin=begin, start=start, end=end))
    return tuple(found) if found[-1].end == legs[-1].end else None


def _best(ways: list[_Way]) -> list[_Way]:
    """Of ways that leave everything alike, the ones no other beats; the most hopeful of all."""
    ways.sort(key=lambda w: (w.time, w.touched))
    least: dict[Gear, int] = {}
    kept = []
    for way in ways:
        if way.touched < least.get(way.gear, 1 << 30):
            least[way.gear] = way.touched
            kept.append(way)
    return kept[:WIDTH]


def _pause(day: Day, way: _Way, entry: Entry) -> _Way:
    start, length = way.time, day.tone
    if entry.meal >= 0:
        meal = day.meals[entry.meal]
        start, length = max(start, meal.earliest), meal.length
    leg = Leg(entry, way.time, 0, 0, start, start + length, (), False)
    return _Way(start + length, way.touched, way.room, way.gear, way, leg)


def _setup(day: Day, way: _Way, entry: Entry, done: list[int]) -> list[_Way]:
    setup = day.setups[entry.setup]
    held = _held(day, entry.setup, done)
    found = []
    for choice in product(*setup.needs):
        wanted: dict[int, tuple[int, ...]] = {}
        for g, s in choice:
            wanted[g] = (*wanted.get(g, ()), s)
        for combo in product(*(_ways(day.groups[g], way.gear[g], *w) for g, w in _touching(day, entry, wanted, held))):
            found.append(_shoot(day, way, entry, dict(zip(_groups(day, entry, wanted), combo, strict=True))))
    return found


def _ways(
    group: Group, before: tuple[int, ...], wanted: tuple[int, ...], away: frozenset[int], held: frozenset[int]
) -> tuple[Shift, ...]:
    """The ways of one group; where a held set leaves none, it is broken into, as the crew would have to."""
    return shifts(group, before, wanted, away, held) or shifts(group, before, wanted, away)


def _groups(day: Day, entry: Entry, wanted: dict[int, tuple[int, ...]]) -> tuple[int, ...]:
    return tuple(sorted({*wanted, *(g for g, _ in day.setups[entry.setup].away)}))


def _touching(
    day: Day, entry: Entry, wanted: dict[int, tuple[int, ...]], held: dict[int, frozenset[int]]
) -> list[tuple[int, tuple[tuple[int, ...], frozenset[int], frozenset[int]]]]:
    """Each touched group with what is wanted of it, what has to go, and what is held."""
    found = []
    for g in _groups(day, entry, wanted):
        places = day.groups[g].places
        mine = wanted.get(g, ())
        spots = {places[s] for s in mine if s != CASE}
        away = {s for k, s in day.setups[entry.setup].away if k == g}
        away |= {s for s, spot in enumerate(places) if spot in spots}
        found.append((g, (tuple(sorted(mine)), frozenset(away - set(mine)), held.get(g, frozenset()))))
    return found


def _held(day: Day, setup: int, done: list[int]) -> dict[int, frozenset[int]]:
    held: dict[int, set[int]] = {}
    for hold in day.holds:
        if hold.first in done[:-1] and hold.until not in done and setup not in hold.inside:
            for need in day.setups[hold.first].needs:
                for g, s in need:
                    if g not in hold.free:
                        held.setdefault(g, set()).add(s)
    return {g: frozenset(states) for g, states in held.items()}


def _shoot(day: Day, way: _Way, entry: Entry, combo: dict[int, Shift]) -> _Way:
    setup = day.setups[entry.setup]
    total = sum(s.total for s in combo.values())
    longest = max((s.longest for s in combo.values()), default=0)
    if setup.flat:
        total = longest = 0
    travel = day.arrive[setup.room] if way.room < 0 else day.travel[way.room][setup.room]
    moved = way.time + travel
    rig = day.rigged(moved, _goes_on(day, way, setup), total, longest) - moved
    limit = min(day.latest_wrap, day.call + LONGEST)
    start, missed = _start(meet(setup.windows), moved + rig, setup.takes, limit)
    gear = tuple(combo[g].after if g in combo else states for g, states in enumerate(way.gear))
    moves = tuple((g, a, b) for g, s in combo.items() for a, b in s.moves)
    touched = way.touched + len(moves) + (ROOM_TOUCHES if 0 <= way.room != setup.room else 0)
    leg = Leg(entry, way.time, travel, rig, start, start + setup.takes, moves, missed)
    return _Way(leg.end, touched, setup.room, gear, way, leg)


def _goes_on(day: Day, way: _Way, setup: Setup) -> int:
    """What is to be done before a setup whatever stands where: nothing where it only goes on with the last one."""
    last: _Way | None = way
    while last is not None and last.leg is not None and last.leg.entry.setup < 0:
        last = last.parent
    if setup.part_of < 0 or last is None or last.leg is None:
        return setup.fixed
    return 0 if day.setups[last.leg.entry.setup].part_of == setup.part_of else setup.fixed


def _start(spans: Spans, ready: int, length: int, limit: int) -> tuple[int, bool]:
    """The first start inside a span; nobody waits past the latest wrap for one."""
    for lo, hi in spans:
        start = max(ready, lo)
        if start + length <= hi and lo <= max(limit, ready):
            return start, False
    return ready, True


def _unrigged(day: Day, way: _Way, entry: Entry) -> _Way:
    """A setup that wants more pieces than there are: shot as it stands, so that the rest of the day can be told."""
    return _shoot(day, way, entry, {})
