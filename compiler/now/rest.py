"""What is left of a day as a day of its own: from the real places of pieces and crew, with the hours that remain."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import hours
from ..facts.numbers import FOREVER, MUST, Day, Hold, Setup
from ..facts.shootday import PRIORITIES, ShootDay, shoot_day
from ..facts.timeline import TONE, Timeline, replay_day
from ..log import stand
from ..record import record, replace
from .going import Going, going
from .judge import judge
from .left import Part, what_is_left
from .losses import Losses, losses

SOON = 20  # half-minutes after what is in hand, in which a meal begins whose hours are over

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from ..log import Happened
    from ..plan import Plan


@record
class Flaws:
    """What the agreed day misses by itself, before anything is late: setups whose window it misses, half-minutes by
    which a meal is too late, its wrap."""

    missed: tuple[str, ...]
    hungry: int
    wrap: int


@record
class Rest:
    """The day that is left. `day` is in numbers, from `going.start` on; `held` are setups shot before whose set stays
    hot (they take no time and come first); `agreed` what is left of the agreed order, in its words; `parts` the shots
    by setup; `limit` the latest wrap, FOREVER where none is said; `untoned` rooms left without their room tone;
    `planned` the agreed day as it was planned, and `flaws` what that misses by itself; `unshot` what is left over when
    everybody packs."""

    plan: Plan
    happened: Happened
    at: int
    day: ShootDay
    held: tuple[str, ...]
    agreed: tuple[str, ...]
    parts: Mapping[str, tuple[Part, ...]]
    going: Going
    losses: Losses
    limit: int
    untoned: tuple[str, ...]
    planned: Timeline | None
    flaws: Flaws | None
    unshot: tuple[str, ...] = ()


def rest(plan: Plan, happened: Happened, at: int) -> Rest:
    """What is left of a day at a time."""
    whole = shoot_day(plan, happened.day)
    left = what_is_left(plan, happened, whole.minutes, at)
    order = plan.days[happened.day].order
    left = {name: shots for name, shots in left.items() if not order or name in order or name in happened.visits}
    unshot: tuple[str, ...] = ()
    ended = happened.now.kind == "packing" or happened.wrapped is not None
    if ended:
        unshot, left = tuple(p.id for shots in left.values() for p in shots), {}
    hurt = losses(plan, happened, left, at)
    standing_parts = _without(left, hurt.fallen)
    agreed = () if ended else _agreed(plan, whole, happened, standing_parts)
    state = going(whole, happened, standing_parts, agreed, at)
    rolling = (state.shot or state.setup) if state.kind == "rolled" else ""
    parts = _without(standing_parts, {rolling})
    agreed = _in_hand_first(tuple(name for name in agreed if name not in whole.setups or name in parts), state)
    changed = whole
    if hurt.fates or len(parts) < len(whole.setups):
        changed = shoot_day(_shrunk(hurt.plan, happened.day, parts), happened.day)
    standing = stand.carried(whole, state.standing, changed, hurt.lost)
    latest = hours.hours(plan, happened.day, whole.minutes).wrap
    limit = FOREVER if latest is None else latest  # the buffer is there to be used on the day
    day, held = _reduced(changed, parts, standing, state, happened)
    day = replace(day, day=replace(_hurt(day.day, day.setups, hurt), latest_wrap=limit))
    untoned = _untoned(whole, happened, parts)
    planned, flaws = _planned(plan, whole)
    return Rest(hurt.plan, happened, at, day, held, agreed, parts, state, hurt, limit, untoned, planned, flaws, unshot)


def _planned(plan: Plan, whole: ShootDay) -> tuple[Timeline | None, Flaws | None]:
    """The agreed day as it was planned, and what it misses by itself."""
    order = plan.days[whole.id].order
    if not order or plan.days[whole.id].call is None:
        return None, None
    line = replay_day(whole, order)
    found = judge(whole, line.order)
    return line, Flaws(found.missed, found.hungry, line.wrap)


def _without(left: Mapping[str, tuple[Part, ...]], gone: Iterable[str]) -> dict[str, tuple[Part, ...]]:
    kept = {name: tuple(p for p in shots if p.id not in gone) for name, shots in left.items()}
    return {name: shots for name, shots in kept.items() if shots}


def _shrunk(plan: Plan, day_id: str, parts: Mapping[str, tuple[Part, ...]]) -> Plan:
    """The plan with the shots that are left: who is wanted, and how much, follows from them alone."""
    kept = {p.id for shots in parts.values() for p in shots}
    mine = set(plan.setups_on(day_id))
    shots = {name: s for name, s in plan.shots.items() if name in kept or s.setup not in mine}
    return replace(plan, shots=shots)


def _agreed(plan: Plan, day: ShootDay, happened: Happened, parts: Mapping[str, tuple[Part, ...]]) -> tuple[str, ...]:
    """The agreed order without what is shot, eaten and recorded. A room tone goes with the last setup of its room."""
    order = plan.days[happened.day].order
    eaten = len(happened.meals)
    used = {_room(day, name) for name in parts} | {_room(day, v) for v in happened.visits[-1:] if v in day.setups}
    toned = {_room(day, name) for name in happened.tones if name in day.setups}
    found = [name for name in parts if order and name not in order]
    room = -1
    for name in order:
        if name in day.setups:
            room = _room(day, name)
            if name in parts and name not in found:
                found.append(name)
        elif name == TONE:
            if room in used - toned:
                found.append(name)
                toned.add(room)
        elif name == "meal" or name in day.meals:
            eaten -= 1
            if eaten < 0:
                found.append(name)
    return tuple(found)


def _room(day: ShootDay, name: str) -> int:
    return day.day.setups[day.index(name)].room


def _in_hand_first(agreed: tuple[str, ...], state: Going) -> tuple[str, ...]:
    """What is being rigged or shot comes first."""
    if state.setup not in agreed or not state.kind:
        return agreed
    return (state.setup, *(name for name in agreed if name != state.setup))


def _reduced(
    day: ShootDay, parts: Mapping[str, tuple[Part, ...]], standing: stand.Standing, state: Going, happened: Happened
) -> tuple[ShootDay, tuple[str, ...]]:
    """The day with the setups that are left, and before them, in no time, those whose hot set still stands."""
    holds = [h for h in day.day.holds if day.setups[h.first] not in parts and day.setups[h.until] in parts
             and _stands(day.day.setups[h.first], standing)]  # fmt: skip
    held = tuple(dict.fromkeys(day.setups[h.first] for h in holds if day.setups[h.first] in happened.visits))
    names = (*(name for name in day.setups if name in parts), *held)
    index = {day.index(name): k for k, name in enumerate(names)}
    setups = [_setup(day, name, parts, standing, state) for name in names]
    first = [names.index(name) for name in held]
    before = [(a, b) for a in first for b in range(len(names)) if b not in first]
    forced = state.kind and state.setup in parts and not state.implied
    if forced:
        now = names.index(state.setup)
        before += [(now, k) for k in range(len(names)) if k != now and k not in first]
    before += [(index[a], index[b]) for a, b in day.day.before
               if a in index and b in index and not (forced and names[index[b]] == state.setup)]  # fmt: skip
    eaten = len(happened.meals)
    groups = tuple(replace(g, start=s) for g, s in zip(day.day.groups, standing.gear, strict=True))
    soonest = state.start
    if forced:
        soonest += setups[names.index(state.setup)].fixed + setups[names.index(state.setup)].takes
    meals = tuple(
        replace(m, latest=soonest + SOON) if m.must and m.latest < soonest else m for m in day.day.meals[eaten:]
    )
    numbers = replace(
        day.day, setups=tuple(setups), groups=groups, before=tuple(dict.fromkeys(before)), room=standing.room,
        holds=tuple(Hold(index[h.first], index[h.until], tuple(index[i] for i in h.inside if i in index))
                    for h in day.day.holds if h.first in index and h.until in index),
        meals=meals, call=state.start, fed=state.fed,
    )  # fmt: skip
    gone = tuple(name for name in day.setups if name not in parts)
    typical = tuple(t for t in day.typical if not t.startswith(tuple(f"'{g}': " for g in gone)))
    missing = tuple(t for t in day.missing if not t.startswith(tuple(f"'{g}': " for g in gone)))
    typical = tuple(t for t in typical if not t.startswith("load-in"))
    return replace(day, day=numbers, call=state.start, load_in=0, setups=names, meals=day.meals[eaten:],
                   typical=typical, missing=missing), held  # fmt: skip


def _stands(setup: Setup, standing: stand.Standing) -> bool:
    """Whether some option of every need of a setup stands as it was."""
    return all(any(s in standing.gear[g] for g, s in need) for need in setup.needs)


def _setup(
    day: ShootDay, name: str, parts: Mapping[str, tuple[Part, ...]], standing: stand.Standing, state: Going
) -> Setup:
    setup = day.day.setups[day.index(name)]
    if name not in parts:
        needs = tuple(tuple(o for o in need if o[1] in standing.gear[o[0]])[:1] for need in setup.needs)
        return Setup(name=name, takes=0, room=max(standing.room, 0), needs=needs, flat=True)
    shots = parts[name]
    toned = setup.tone and setup.room not in state.toned
    changed = replace(setup, takes=sum(p.left for p in shots), tone=toned,
                      priority=min((PRIORITIES[p.priority] for p in shots), default=MUST))  # fmt: skip
    in_hand = state.kind and state.setup == name
    return replace(changed, fixed=0 if state.kind == "rolled" else state.left) if in_hand else changed


def _hurt(day: Day, names: tuple[str, ...], hurt: Losses) -> Day:
    """The day with the hours of people who leave or come, and without the hands of riggers who left."""
    setups = tuple(
        replace(s, windows=(*s.windows, *hurt.windows.get(name, ()))) for s, name in zip(day.setups, names, strict=True)
    )
    return replace(day, setups=setups, absent=(*day.absent, *hurt.absent))


def _untoned(day: ShootDay, happened: Happened, parts: Mapping[str, tuple[Part, ...]]) -> tuple[str, ...]:
    """Rooms whose sync sound is all shot, and of which no room tone is in the log."""
    toned = {day.day.setups[day.index(s)].room for s in happened.tones if s in day.setups}
    sync = {s.room: None for name, s in zip(day.setups, day.day.setups, strict=True)
            if s.tone and name in happened.visits and name not in parts}  # fmt: skip
    more = {day.day.setups[day.index(name)].room for name in parts if day.day.setups[day.index(name)].tone}
    return tuple(day.rooms[room] for room in sync if room not in toned and room not in more)
