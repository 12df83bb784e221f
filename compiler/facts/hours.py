"""The hours of a day: call, wrap, meals, when each setup may be shot, how long its takes are, who rigs.

Times are half-minutes since the day's midnight; a clock time before the call is of the night after.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record
from . import errands, names_used, occupancy, sky
from .changeover import Minutes, half_minutes
from .numbers import FOREVER, Meal, Spans, Window
from .tables import table
from .walls import facing

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..plan import Plan
    from ..plan.day import Day
    from ..plan.gear import Gear
    from ..plan.stock import Stock
    from ..source.quantities import ClockRange

NIGHT = 2880
LAST = 2 * NIGHT
GAP = 720  # half-minutes; six hours, overridden by `hours:`


@record
class Hours:
    """Call, latest wrap (None: not said), lengths of load-in, wrap-out and buffer, meals with their names in the
    order, and the longest time without a meal."""

    call: int
    wrap: int | None
    load_in: int
    wrap_out: int
    buffer: int
    meals: tuple[Meal, ...]
    meal_names: tuple[str, ...]
    gap: int
    typical: tuple[str, ...]
    missing: tuple[str, ...]


@record
class Windows:
    """When a setup may be shot, each with its reason, and what could not be worked out for want of which detail."""

    windows: tuple[Window, ...]
    missing: tuple[str, ...]


def hours(plan: Plan, day_id: str, minutes: Minutes) -> Hours:
    """The frame of a day."""
    day = plan.days[day_id]
    typical: list[str] = []
    missing: list[str] = [] if day.call is not None else [f"'call:' of day {day_id}"]
    if day.wrap is None:
        missing.append(f"'wrap:' (latest wrap) of day {day_id}")
    call = int(day.call) if day.call is not None else 0
    lengths = []
    for words, own, action in (("load-in", day.load_in, "load-in"), ("wrap-out", day.wrap_out, "wrap-out")):
        lengths.append(half_minutes(float(own)) if own is not None else minutes.of(action))
        if own is None and action in minutes.typical:
            typical.append(f"{words} {lengths[-1] / 2:g} min")
    meals, names, guessed = _meals(day, call, minutes)
    typical += guessed
    gap = GAP
    if day.hours is not None and day.hours.meal_within is not None:
        gap = half_minutes(float(day.hours.meal_within))
    return Hours(
        call=call,
        wrap=None if day.wrap is None else later(int(day.wrap), call),
        load_in=lengths[0],
        wrap_out=lengths[1],
        buffer=half_minutes(float(day.buffer)) if day.buffer is not None else 0,
        meals=meals,
        meal_names=names,
        gap=gap if day.call is not None else FOREVER,
        typical=tuple(typical),
        missing=tuple(missing),
    )


def later(clock: int, call: int) -> int:
    """A clock time of the day: before the call it is of the night after."""
    return clock + NIGHT if clock < call else clock


def shifted(span: ClockRange, call: int) -> tuple[int, int]:
    """Hours from and to, moved to the night after where they end before the call."""
    return (span.start + NIGHT, span.end + NIGHT) if span.end <= call else (span.start, span.end)


def _meals(day: Day, call: int, minutes: Minutes) -> tuple[tuple[Meal, ...], tuple[str, ...], list[str]]:
    """The plan's meals in the order of their hours, then typical ones, taken only where a day without gets too long."""
    said = [("meal", day.meal)] if day.meal is not None else []
    said += list(day.meals.items())
    found: list[tuple[int, str, Meal]] = []
    for name, meal in said:
        length = half_minutes(float(meal.takes)) if meal.takes is not None else minutes.of("meal")
        earliest, latest = -FOREVER, FOREVER
        if meal.at is not None:
            earliest = latest = later(int(meal.at), call)
        elif meal.between is not None:
            earliest, latest = shifted(meal.between, call)
        found.append((earliest, name, Meal(name, length, earliest, latest, True)))
    found.sort(key=lambda entry: entry[0])
    typical = [] if said else [f"meal {minutes.of('meal') / 2:g} min, at most six hours after the call"]
    spare = Meal("meal", minutes.of("meal"), must=False)
    meals = [meal for _, _, meal in found]
    return (*meals, spare, spare), (*(name for _, name, _ in found), "meal", "meal"), typical


def windows(plan: Plan, day_id: str, names: Iterable[str], times: Hours) -> list[Windows]:
    """For each setup when it may be shot."""
    skies: dict[tuple[str, str], Spans | None] = {}
    return [_windows(plan, day_id, name, times, skies) for name in names]


def _windows(plan: Plan, day_id: str, name: str, times: Hours, skies: dict[tuple[str, str], Spans | None]) -> Windows:
    setup, day = plan.setups[name], plan.days[day_id]
    found: list[Window] = []
    missing: list[str] = []
    if setup.needs and setup.needs != "any":
        place = setup.set.split("/")[0] if setup.set else day.location or ""
        key = (place, setup.needs)
        if key not in skies:
            skies[key] = sky.when(plan, day_id, place, setup.needs)
        spans = skies[key]
        if spans is None:
            missing.append(f"when it is '{setup.needs}': {sky.missing(plan, day_id, place)}")
        else:
            found.append(Window(f"needs {setup.needs}", spans))
    found += _sun_on_windows(plan, day_id, name, missing)
    if setup.between is not None:
        found.append(Window("between", (shifted(setup.between, times.call),)))
    if name in day.pinned:
        start = later(int(day.pinned[name]), times.call)
        length = takes(plan, name, None)[0]
        found.append(Window("pinned", ((start, start + length),)))
    found += [
        Window(f"'{person}' is here", spans, shared=True)
        for person in people_of(plan, name)
        if (spans := here(plan, person, day_id, times.call)) is not None
    ]
    place_ = plan.location_of(name)
    if place_ is not None and place_.access is not None:
        found.append(Window(f"access to '{place_.id}'", (shifted(place_.access, times.call),), shared=True))
    found += [
        Window(f"rigged ahead by {times_words(later(int(a.to), times.call))}", ((later(int(a.to), times.call), LAST),))
        for a in day.ahead
        if a.setup == name and a.to is not None
    ]
    found += _loans(plan, day, name)
    return Windows(tuple(found), tuple(missing))


def full_minute(clock: int) -> int:
    """The full minute at a time or after it. People keep whole minutes: every sheet rounds here and nowhere else, so
    that no two of them differ by one."""
    return clock + clock % 2


def times_words(clock: int) -> str:
    """A time of day as the clock shows it, in full minutes; the night after counts on from 00:00."""
    clock = full_minute(clock) % NIGHT
    return f"{clock // 120:02d}:{clock % 120 // 2:02d}"


def duration(half_minutes: int) -> str:
    """Full minutes as people say them, begun ones counted: 9 min, 10 h 32 min."""
    minutes = full_minute(half_minutes) // 2
    if minutes < 120:
        return f"{minutes} min"
    hours, rest = divmod(minutes, 60)
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def _sun_on_windows(plan: Plan, day_id: str, name: str, missing: list[str]) -> list[Window]:
    """When direct sun stands on the windows a setup names, or off them; what cannot be worked out joins `missing`."""
    setup = plan.setups[name]
    found = []
    for window, wanted in [(w, True) for w in setup.sun_on] + [(w, False) for w in setup.sun_off]:
        short, bearing = window.rsplit("/", 1)[-1], facing(plan, window)
        place = window.split("/")[0]
        spans = sky.struck(plan, day_id, place, bearing) if bearing is not None else None
        if spans is None:
            lacks = sky.missing(plan, day_id, place) if bearing is not None else f"'wall:' of '{short}'"
            missing.append(f"when the sun stands on '{short}': {lacks}")
        elif wanted:
            found.append(Window(f"sun on '{short}'", spans))
        else:
            edges = [0, *(edge for span in spans for edge in span), LAST]
            free = tuple((a, b) for a, b in zip(edges[::2], edges[1::2], strict=True) if b > a)
            found.append(Window(f"no sun on '{short}'", free))
    return found


def _loans(plan: Plan, day: Day, name: str) -> list[Window]:
    """Things that come or go on this day and that the setup names without an alternative."""
    if day.date is None:
        return []
    setup = plan.setups[name]
    gears = [u.thing for u in occupancy.uses(plan, setup) if len(u.among) == 1]
    lent: list[Gear | Stock] = [plan.gear[thing] for thing in dict.fromkeys(gears)]
    lent += [plan.stock[cut] for cut in dict.fromkeys(name for name, _ in names_used.cut(setup)) if cut in plan.stock]
    found = []
    for thing in lent:
        comes, leaves = errands.comes(thing, day), errands.leaves(thing, day)
        start, end = 0 if comes is None else comes, LAST if leaves is None else leaves
        if start > 0 or end < LAST:
            found.append(Window(f"'{thing.id}' is in hands", ((start, end),), shared=True))
    return found


def here(plan: Plan, person: str, day_id: str, call: int) -> Spans | None:
    """When somebody is there on a day: None where nothing is said, no span where they are away."""
    who = plan.people.get(person)
    if who is None:
        return None
    own = who.days.get(day_id)
    if who.days and own is None:
        return ()
    span = own.here if own is not None and own.here is not None else who.here
    start = own.call if own is not None and own.call is not None else who.call
    if span is None and start is None:
        return None
    lo, hi = shifted(span, call) if span is not None else (0, LAST)
    if start is not None:
        lo = max(lo, later(int(start), min(call, int(start))))
    if who.before is not None:
        lo += half_minutes(float(who.before))
    return ((lo, hi),) if lo < hi else ()


def cast_of(plan: Plan, setup_id: str) -> tuple[str, ...]:
    """The people in front of the camera in a setup: of its own word, else of its shots, else of their scenes."""
    setup = plan.setups[setup_id]
    if setup.cast is not None:
        return tuple(dict.fromkeys(person for _, person in setup.cast if person in plan.people))
    plays = {character: person.id for person in plan.people.values() for character in person.plays}
    found: dict[str, None] = {}
    for shot in plan.shots_of(setup_id):
        if shot.cast is not None:
            found.update((person, None) for _, person in shot.cast if person in plan.people)
        else:
            scene = plan.scenes[plan.scene_of[shot.id]]
            found.update((plays[c], None) for c in scene.characters if c in plays)
    return tuple(found)


def cast(plan: Plan, names: Iterable[str]) -> tuple[str, ...]:
    """Everybody in front of the camera in these setups."""
    return tuple(dict.fromkeys(person for name in names for person in cast_of(plan, name)))


def people_of(plan: Plan, setup_id: str) -> tuple[str, ...]:
    """Everybody a setup names: cast, hands, who holds what."""
    setup = plan.setups[setup_id]
    named = [*cast_of(plan, setup_id), *setup.hands.values()]
    named += [light.held_by or "" for light in setup.lights.values()]
    for shot in plan.shots_of(setup_id):
        named += shot.hands.values()
    return tuple(dict.fromkeys(n for n in named if n in plan.people))


def takes(plan: Plan, setup_id: str, minutes: Minutes | None) -> tuple[int, str]:
    """(half-minutes of all takes of a setup, what of it is typical): its shots' times, else its own, else typical."""
    setup = plan.setups[setup_id]
    shots = plan.shots_of(setup_id)
    silent = [s for s in shots if s.takes is None]
    improvised = sum(half_minutes(float(s.improvises)) for s in shots if s.improvises is not None)
    if setup.takes is not None and (silent or not shots):
        return half_minutes(float(setup.takes)), ""
    each = minutes.of("takes") if minutes else int(table("minutes")["actions"]["takes"]["likely"] * 2)
    total = sum(half_minutes(float(s.takes)) for s in shots if s.takes is not None) + improvised
    guesses = len(silent) if shots else 1
    words = f"{each * guesses / 2:g} min of takes ('takes:' is not said)" if guesses else ""
    return total + each * guesses, words


def priority(plan: Plan, setup_id: str) -> str:
    """How much the film needs a setup: as much as the dearest of its shots."""
    setup = plan.setups[setup_id]
    said = [s.priority or setup.priority or "must" for s in plan.shots_of(setup_id)] or [setup.priority or "must"]
    return min(said, key=("must", "want", "if-time").index)


def needs_tone(plan: Plan, setup_id: str) -> bool:
    """Whether some shot of the setup is taken with sync sound, so that its set needs a room tone."""
    setup = plan.setups[setup_id]
    if setup.sound is None or not (setup.sound.boom or setup.sound.recorder or setup.sound.wireless):
        return False
    said = [s.sound or plan.scenes[plan.scene_of[s.id]].sound or "sync" for s in plan.shots_of(setup_id)]
    return "sync" in said if said else True


def riggers(plan: Plan, day_id: str) -> tuple[int, bool]:
    """(people with the skill rig on this day, whether the plan says so); two where nobody has it."""
    found = _riggers(plan, day_id)
    return (len(found), True) if found else (int(table("minutes")["riggers"]["likely"]), False)


def ahead(plan: Plan, day_id: str, call: int) -> tuple[tuple[int, int, int], ...]:
    """(from, to, how many riggers) for each setup that is rigged ahead by named people while the others shoot."""
    rigs = _riggers(plan, day_id)
    found = []
    for item in plan.days[day_id].ahead:
        away = len([p for p in item.by if p in rigs or not rigs])
        if item.from_ is not None and item.to is not None and away:
            found.append((later(int(item.from_), call), later(int(item.to), call), away))
    return tuple(found)


def _riggers(plan: Plan, day_id: str) -> list[str]:
    day = plan.days[day_id]
    return [
        p.id
        for p in plan.people.values()
        if "rig" in p.skills and (not day.people or p.id in day.people) and here(plan, p.id, day_id, 0) != ()
    ]


def travel(plan: Plan, start: str, end: str, minutes: Minutes) -> int:
    """Half-minutes to bring the crew from one set to another, rigging apart; nothing where a set is not said."""
    if start == end or not start or not end:
        return 0
    here_, there = start.split("/")[0], end.split("/")[0]
    if here_ == there:
        return minutes.of("room")
    way = plan.locations[here_].travel.get(there) if here_ in plan.locations else None
    if way is None and there in plan.locations:
        way = plan.locations[there].travel.get(here_)
    return minutes.of("company-move") + (half_minutes(float(way)) if way is not None else 0)
