"""A day of the plan as whole numbers: what an agreed order is replayed with and a new one is searched with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record
from . import changeover, hours
from .numbers import FOREVER, IF_TIME, MUST, WANT, Day, Hold, Setup
from .occupancy import follows_crew, inside
from .pieces import Group
from .rig import Rig, SetupRig, State, rig

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan import Plan

PRIORITIES = {"must": MUST, "want": WANT, "if-time": IF_TIME}


@record
class ShootDay:
    """A day of the plan: `day` in numbers, and what the numbers stand for. `states[g][s]` is the state s of group g,
    None its case; `out` is when everybody must be out (None: not said), `buffer` what of that is kept free;
    `ends` why it has to end sooner than that ("" where it does not); `ahead` are the setups that are rigged, but for
    what comes with the crew, while others are shot;
    `load_in` the half-minutes from the call (`day.call` is when rigging can start); `typical` the
    assumptions that rest on built-in values; `missing` what the plan does not say and no check can do without."""

    id: str
    day: Day
    call: int
    load_in: int
    setups: tuple[str, ...]
    rooms: tuple[str, ...]
    rig: Rig
    states: tuple[tuple[State | None, ...], ...]
    minutes: changeover.Minutes
    meals: tuple[str, ...]
    typical: tuple[str, ...]
    missing: tuple[str, ...]
    out: int | None = None
    buffer: int = 0
    ends: str = ""
    ahead: tuple[str, ...] = ()

    def index(self, setup: str) -> int:
        """The number of a setup."""
        return self.setups.index(setup)


def shoot_day(plan: Plan, day_id: str, setups: tuple[str, ...] | None = None) -> ShootDay:
    """The day in numbers, with its own setups or with these. A day without a call starts at midnight and says so in
    `missing`."""
    names = plan.setups_on(day_id) if setups is None else setups
    gear = rig(plan, names)
    minutes = changeover.minutes(plan)
    rooms = tuple(dict.fromkeys(r.room for r in gear.setups))
    groups, states = _groups(gear, minutes, rooms)
    times = hours.hours(plan, day_id, minutes)
    typical, missing = list(times.typical), list(times.missing)
    windows = hours.windows(plan, day_id, names, times)
    numbered, number = [], {piece: g for g, piece in enumerate(gear.pieces)}
    cast = hours.cast(plan, names)
    early = tuple(a.setup for a in plan.days[day_id].ahead if a.setup and a.to is not None)
    for k, name in enumerate(names):
        takes, guessed = hours.takes(plan, name, minutes)
        fixed, flat, why = _fixed(plan, gear.setups[k], minutes)
        if name in early:
            fixed, flat, why = _brought_last(plan, gear, k, groups, states), True, ""
        typical += [f"'{name}': {w}" for w in (guessed, why) if w]
        missing += [f"'{name}': {w}" for w in windows[k].missing]
        times_ = (rooms.index(gear.setups[k].room), takes, fixed, flat)
        numbered.append(_setup(gear.setups[k], plan, number, states, times_, windows[k], cast))
    riggers = _riggers(plan, day_id, typical)
    day = Day(
        name=day_id,
        setups=tuple(numbered),
        groups=groups,
        travel=tuple(tuple(hours.travel(plan, a, b, minutes) for b in rooms) for a in rooms),
        arrive=(0,) * len(rooms),
        riggers=riggers,
        call=times.call + times.load_in,
        latest_wrap=times.wrap - times.buffer if times.wrap is not None else FOREVER,
        pack=times.wrap_out,
        before=before(plan, names),
        holds=_holds(plan, names, gear),
        meals=times.meals,
        gap=times.gap,
        fed=times.call,
        cast=cast,
        tone=minutes.of("room-tone"),
        absent=hours.ahead(plan, day_id, times.call),
    )
    return ShootDay(
        id=day_id,
        day=day,
        call=times.call,
        load_in=times.load_in,
        setups=names,
        rooms=rooms,
        rig=gear,
        states=states,
        minutes=minutes,
        meals=times.meal_names,
        typical=tuple(dict.fromkeys(typical)),
        missing=tuple(dict.fromkeys(missing)),
        out=times.wrap,
        buffer=times.buffer,
        ahead=early,
    )


def _riggers(plan: Plan, day_id: str, typical: list[str]) -> int:
    riggers, said = hours.riggers(plan, day_id)
    if not said:
        typical.append(f"{riggers} riggers (nobody has the skill 'rig')")
    return riggers


def _groups(
    gear: Rig, minutes: changeover.Minutes, rooms: tuple[str, ...]
) -> tuple[tuple[Group, ...], tuple[tuple[State | None, ...], ...]]:
    found: list[Group] = []
    all_states: list[tuple[State | None, ...]] = []
    places: dict[tuple[str, str], int] = {}
    for piece in gear.pieces.values():
        met: dict[State, None] = {}
        for setup in gear.setups:
            for need in setup.needs:
                met.update((state, None) for name, state in need.options if name == piece.id)
        states: tuple[State | None, ...] = (None, *met)
        spots = [(-1, -1)]
        for state in met:
            place = places.setdefault((state.room, state.place), len(places))
            spots.append((rooms.index(state.room) if state.room in rooms else len(rooms), place))
        cost = tuple(tuple(changeover.price(minutes, piece, a, b) for b in states) for a in states)
        found.append(Group(piece.id, tuple(spots), cost, (0,) * piece.count, piece.people))
        all_states.append(states)
    return tuple(found), tuple(all_states)


def _setup(
    gear: SetupRig,
    plan: Plan,
    number: dict[str, int],
    states: tuple[tuple[State | None, ...], ...],
    times: tuple[int, int, int, bool],
    windows: hours.Windows,
    cast: tuple[str, ...],
) -> Setup:

    def index(piece: str, state: State) -> tuple[int, int]:
        return number[piece], states[number[piece]].index(state)

    room, takes, fixed, flat = times
    away = [index(p, s) for p, s in gear.clear]
    away += [(number[w], s) for w in gear.bare for s in range(1, len(states[number[w]]))]
    return Setup(
        name=gear.setup,
        takes=takes,
        room=room,
        needs=tuple(tuple(index(p, s) for p, s in need.options) for need in gear.needs),
        away=tuple(away),
        fixed=fixed,
        cast=tuple(cast.index(p) for p in hours.cast_of(plan, gear.setup)),
        windows=windows.windows,
        priority=PRIORITIES[hours.priority(plan, gear.setup)],
        flat=flat,
        tone=hours.needs_tone(plan, gear.setup),
        part_of=_part(plan, gear.setup),
    )


def _part(plan: Plan, name: str) -> int:
    """The number of the setup that a visit is part of; -1 where it is a whole setup."""
    return list(dict.fromkeys(plan.parts.values())).index(plan.parts[name]) if name in plan.parts else -1


def _fixed(plan: Plan, gear: SetupRig, minutes: changeover.Minutes) -> tuple[int, bool, str]:
    said = plan.setups[gear.setup].rig
    if said is not None:
        return changeover.half_minutes(float(said)), True, ""
    if gear.detailed:
        return 0, False, ""
    whole = minutes.of("setup")
    why = f"{whole / 2:g} min of rigging (the plan says nothing of its rig)" if "setup" in minutes.typical else ""
    return whole, False, why


def _brought_last(
    plan: Plan, gear: Rig, k: int, groups: tuple[Group, ...], states: tuple[tuple[State | None, ...], ...]
) -> int:
    """Half-minutes that a setup rigged ahead still costs: the camera comes with the crew, from wherever it stood."""
    dearest = 0
    for need in gear.setups[k].needs:
        for piece, state in need.options:
            if follows_crew(plan, piece):
                g = list(gear.pieces).index(piece)
                to = states[g].index(state)
                dearest = max(dearest, *(row[to] for row in groups[g].cost))
    return dearest


def turns(plan: Plan, names: tuple[str, ...]) -> Iterator[tuple[tuple[str, str], tuple[str, str]]]:
    """What comes before what, by the words of these setups and of all shots: each as (setup, shot), the shot "" where
    the whole setup is meant."""
    for name in names:
        setup = plan.setups[name]
        yield from (((first, ""), (name, "")) for first in setup.after)
        yield from (((name, ""), (then, "")) for then in setup.before)
        if setup.held_until:
            yield (name, ""), (setup.held_until, "")
    for shot in plan.shots.values():
        mine = (shot.setup or "", shot.id)
        yield from (((plan.shots[s].setup or "", s), mine) for s in shot.after if s in plan.shots)
        yield from ((mine, (plan.shots[s].setup or "", s)) for s in shot.before if s in plan.shots)


def before(plan: Plan, names: tuple[str, ...]) -> tuple[tuple[int, int], ...]:
    """Which setup comes before which: their own words, and those of their shots."""
    pairs = dict.fromkeys((first, then) for (first, _), (then, _) in turns(plan, names))
    return tuple((names.index(a), names.index(b)) for a, b in pairs if a != b and a in names and b in names)


def _holds(plan: Plan, names: tuple[str, ...], gear: Rig) -> tuple[Hold, ...]:
    """The hot sets of the day. The camera and the sound follow the crew: they are not part of what stays hot."""
    free = tuple(g for g, piece in enumerate(gear.pieces) if follows_crew(plan, piece))
    found = []
    for name in names:
        until = plan.setups[name].held_until
        if until in names and until is not None and until != name:
            like_it = inside(plan, name)
            work_inside = tuple(i for i, s in enumerate(names) if s in like_it and s != name)
            found.append(Hold(names.index(name), names.index(until), work_inside, free))
    return tuple(found)
