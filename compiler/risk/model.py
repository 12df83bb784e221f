"""A day in an order as stretches whose durations can be drawn: what is done in each, and how long it takes at least,
likely and at most.

Low and high of every kind of task are those of `schemas/tables/minutes.json`; where the plan says its own minutes they
are taken as likely, and low and high stand to them as in the table. So do the takes of a shot.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.changeover import spread, tasks
from ..facts.follow import Entry, Leg, follow
from ..facts.numbers import FOREVER, Window
from ..facts.timeline import TONE
from ..record import record

if TYPE_CHECKING:
    from ..facts.shootday import ShootDay
    from ..plan import Plan


@record
class Draw:
    """A duration to be drawn: the kind of task, and half-minutes at least, likely and at most."""

    kind: str
    low: float
    likely: float
    high: float


@record
class Task:
    """What is done to one piece: its actions one after the other, by so many people."""

    draws: tuple[Draw, ...]
    people: int


@record
class Stretch:
    """One entry of the order. `name` is the setup, the meal or room-tone; `before` is drawn and added before rigging
    (travel, a rigging time that is stated whole); `tasks` are shared among the riggers; `after` are the takes, the
    meal or the tone. `meal` is its number, -1 for none."""

    name: str
    before: tuple[Draw, ...]
    tasks: tuple[Task, ...]
    after: tuple[Draw, ...]
    windows: tuple[Window, ...]
    earliest: int
    latest: int
    meal: int


@record
class Model:
    """A day to be lived through: when it is called, the load-in, the stretches, the packing, the riggers, the longest
    time without a meal, and for how long a window is waited for."""

    call: int
    load_in: Draw
    stretches: tuple[Stretch, ...]
    pack: Draw
    day: ShootDay
    patience: int


def model(plan: Plan, day: ShootDay, order: tuple[str, ...]) -> Model:
    """The model of a day in an order (setups, meals, room tones)."""
    entries, names, eaten = [], [], 0
    for name in order:
        if name in day.setups:
            entries.append(Entry(setup=day.index(name)))
        elif name == TONE:
            entries.append(Entry())
        elif eaten < len(day.meals):
            entries.append(Entry(meal=eaten))
            eaten += 1
        else:
            continue
        names.append(name)
    legs = follow(day.day, tuple(entries))
    found = tuple(_stretch(plan, day, name, leg) for name, leg in zip(names, legs, strict=True))
    latest = day.day.latest_wrap
    patience = latest if latest < FOREVER else day.day.call + 2880
    load = _draw("load-in", day.load_in)
    return Model(day.call, load, found, _draw("wrap-out", day.day.pack), day, patience)


def _draw(action: str, likely: float) -> Draw:
    """A duration of a kind, around what is likely here."""
    low, middle, high = spread(action)
    return Draw(action, likely * low / middle, float(likely), likely * high / middle)


def _stretch(plan: Plan, day: ShootDay, name: str, leg: Leg) -> Stretch:
    minutes = day.minutes
    if leg.entry.setup < 0:
        meal = day.day.meals[leg.entry.meal] if leg.entry.meal >= 0 else None
        draw = _draw("meal", meal.length) if meal is not None else _draw("room-tone", day.day.tone)
        hours = (meal.earliest, meal.latest) if meal is not None else (-FOREVER, FOREVER)
        return Stretch(name, (), (), (draw,), (), *hours, leg.entry.meal)
    setup = day.day.setups[leg.entry.setup]
    before = []
    if leg.travel:
        within = "room" if leg.travel == minutes.of("room") else "company-move"
        before.append(_draw(within, leg.travel))
    if setup.fixed:
        before.append(_draw("setup", setup.fixed))
    done = () if setup.flat else tuple(_task(day, *move) for move in leg.moves)
    return Stretch(name, tuple(before), done, _takes(plan, day, name), setup.windows, -FOREVER, FOREVER, -1)


def _task(day: ShootDay, g: int, before: int, after: int) -> Task:
    piece = list(day.rig.pieces.values())[g]
    actions = tasks(piece, day.states[g][before], day.states[g][after])
    draws = tuple(_draw(action, day.minutes.of(action)) for action, _ in actions)
    return Task(draws, day.day.groups[g].hands)


def _takes(plan: Plan, day: ShootDay, name: str) -> tuple[Draw, ...]:
    """The takes of a setup, shot by shot, so that they sum up to the setup's."""
    whole = day.day.setups[day.index(name)].takes
    shots = plan.shots_of(name)
    said = [float(s.takes) / 30.0 for s in shots if s.takes is not None]
    parts = said if len(said) == len(shots) and round(sum(said)) == whole else [whole / max(len(shots), 1)] * len(shots)
    return tuple(_draw("takes", likely) for likely in parts or [whole] if likely)
