"""Orders as they are made by hand, to be held against the one that is found: as the story runs, and room by room.

They are what a careful crew would write down without counting minutes. Their meals stand where nobody goes too long
without, and room tones where the last sound of a room is taken.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.hours import priority
from ..facts.numbers import meet
from ..facts.timeline import Timeline, replay_day
from .dayorder import toned

if TYPE_CHECKING:
    from ..facts.shootday import ShootDay
    from ..plan import Plan

WIDE_FIRST = ("EWS", "WS", "FS", "MWS", "two-shot", "MS", "OTS", "POV", "MCU", "CU", "BCU", "ECU", "insert")
SOON = 180
"""Half-minutes: what can be had for no longer than this is shot first, whatever room it is in."""
PATIENCE = 60
"""Half-minutes that a crew waits in a room rather than leave it."""


def story(plan: Plan, day: ShootDay) -> tuple[str, ...]:
    """The day's setups as the story has their first shots; those without shots where the plan has them."""
    shots = {name: k for k, name in enumerate(plan.shots)}
    first = {s: min((shots[shot.id] for shot in plan.shots_of(s)), default=len(shots)) for s in day.setups}
    return finished(day, _in_turn(day, sorted(day.setups, key=lambda s: first[s])))


def rooms(plan: Plan, day: ShootDay) -> tuple[str, ...]:
    """Room by room, in each first what has the windows as they are, scene by scene, wide to close; what the clock
    closes soon comes before all."""
    names = sorted(day.setups, key=lambda s: (_scene(plan, s), _width(plan, s)))
    dressed = {s: tuple(sorted((w.id, str(w.black_out or w.tent), w.layers) for w in plan.setups[s].windows.values()))
               for s in names}  # fmt: skip
    found: list[str] = []
    while len(found) < len(names):
        ready = [s for s in names if s not in found and _free(day, s, found)] or [s for s in names if s not in found]
        line = replay_day(day, tuple(found)) if found else None
        time = line.steps[-1].start if line is not None else day.day.call
        room = day.day.setups[day.index(found[-1])].room if found else -1
        look = dressed[found[-1]] if found else ()
        found.append(min(ready, key=lambda s: (*_urgency(day, s, time, room), dressed[s] != look, names.index(s))))
    return finished(day, tuple(found))


def finished(day: ShootDay, names: tuple[str, ...]) -> tuple[str, ...]:
    """Setups with their meals and room tones."""
    order = tuple(names)
    for k, meal in enumerate(day.day.meals):
        if not meal.must and not _hungry(day, order):
            break
        tries = [(*order[:at], day.meals[k], *order[at:]) for at in range(len(order) + 1)]
        earlier = [at for at, name in enumerate(order) if name in day.meals]
        order = min(tries[earlier[-1] + 1 if earlier else 0 :], key=lambda names: _cost(day, names))
    return toned(day, order)


def _scene(plan: Plan, setup: str) -> int:
    scenes = list(plan.scenes)
    return min((scenes.index(plan.scene_of[shot.id]) for shot in plan.shots_of(setup)), default=len(scenes))


def _width(plan: Plan, setup: str) -> tuple[int, int]:
    sizes = [WIDE_FIRST.index(shot.size) for shot in plan.shots_of(setup) if shot.size in WIDE_FIRST]
    return min(sizes, default=len(WIDE_FIRST)), ("must", "want", "if-time").index(priority(plan, setup))


def _in_turn(day: ShootDay, names: list[str]) -> tuple[str, ...]:
    """The names in this order, none before what has to come first."""
    found: list[str] = []
    while len(found) < len(names):
        left = [n for n in names if n not in found]
        found.append(next((n for n in left if _free(day, n, found)), left[0]))
    return tuple(found)


def _free(day: ShootDay, name: str, done: list[str]) -> bool:
    return all(day.setups[a] in done for a, b in day.day.before if day.setups[b] == name)


def _urgency(day: ShootDay, name: str, time: int, room: int) -> tuple[int, int, int]:
    """What a crew asks of the next setup: does it close soon, is it here, is it open."""
    setup = day.day.setups[day.index(name)]
    open_to = [(max(lo, time), hi - setup.takes) for lo, hi in meet(setup.windows) if max(lo, time) <= hi - setup.takes]
    if not open_to:
        return 3, 0, 0
    opens, closes = open_to[0][0], open_to[-1][1]
    if opens - time > PATIENCE:
        return 2, opens, 0
    if closes - time < SOON:
        return 0, closes, 0
    return 1, int(setup.room != room), 0


def _hungry(day: ShootDay, order: tuple[str, ...]) -> int:
    """By how much somebody goes too long without a meal."""
    return without_meal(day, replay_day(day, order))


def without_meal(day: ShootDay, line: Timeline) -> int:
    """The most half-minutes by which anybody goes too long without a meal, in a day that was replayed."""
    worst, fed = 0, day.call
    for step in (*(s for s in line.steps if s.kind == "meal"), None):
        worst = max(worst, (step.start if step is not None else line.wrap) - fed - day.day.gap)
        fed = step.end if step is not None else fed
    return worst


def _cost(day: ShootDay, order: tuple[str, ...]) -> tuple[int, int, int, int]:
    """What a place of the meal costs: misses, hunger, hours of the meal itself, the wrap."""
    line = replay_day(day, order)
    off = 0
    for meal, step in zip(day.day.meals, (s for s in line.steps if s.kind == "meal"), strict=False):
        off += max(0, meal.earliest - step.start, step.start - meal.latest)
    return sum(s.missed for s in line.steps), off, without_meal(day, line), line.wrap
