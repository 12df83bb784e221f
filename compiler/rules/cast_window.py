"""An actor is needed outside the hours at which they can be there.

On set: the actor must leave at six, and the last close-up is at half past.

How it is decided: with an agreed order, the takes of every setup somebody is in must lie inside their hours ('here:',
own 'call:', and 'before:' for make-up). Without one, the takes they are in are added up, as far as the plan says how
long they are: more than their hours on that day cannot be avoided by any order. Source: counting.

Fix: move the setup into their hours, ask for more, or shoot the reverse with a double.

When to accept it: they have promised to stay; then change their hours.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from ..findings import NotChecked
from . import timing, unmet
from .words import clock, finding, quoted, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.day import Day
    from ..plan.person import Person

RULE = "cast-window"
SEVERITY: Final = "error"
TITLE = "an actor is needed outside their hours"

TRIGGERS = """
hotset: 1
days: {1: {call: 08:00, wrap: 18:00}}
people:
  mara: {plays: CLERK, here: 09:00-10:00}  # <- here
setups: {wide: {}, close: {}}
scenes:
  4:
    characters: [CLERK]
    shots: {4A: {setup: wide, takes: 45 min}, 4B: {setup: close, takes: 30 min}}
"""
PASSES = TRIGGERS.replace("09:00-10:00}  # <- here", "09:00-12:00}").replace(
    "wrap: 18:00}", "wrap: 18:00, order: [wide, close]}"
).replace("{wide: {}, close: {}}", "{wide: {rig: 1 h}, close: {rig: 20 min}}").replace(
    "call: 08:00", "call: 08:00, load-in: 0 min"
)


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    wanted: dict[tuple[str, str], list[str]] = {}
    for setup, shot in facts.takes:
        shot_on = facts.day_of[setup.id]
        if shot_on in plan.days and shot_on is not None:
            for _, who in hands.cast(plan, setup, shot, facts.players):
                if who in plan.people and setup.id not in wanted.setdefault((who, shot_on), []):
                    wanted[who, shot_on].append(setup.id)
    for (who, day_id), setups in wanted.items():
        person, day = plan.people[who], plan.days[day_id]
        if not hands.present(plan, person, day_id) or (hours := _hours(person, day)) is None:
            continue
        if day_id in facts.timelines:
            yield from _along(facts, person, day, hours, setups)
            continue
        found = _too_much(facts, person, day, hours, setups)
        yield found or timing.not_agreed(RULE, day)


def _hours(person: Person, day: Day) -> tuple[int, int] | None:
    """When somebody can be in front of the camera: hours, own call, make-up."""
    here = hands.hours(person, day.id)
    call = int(day.call) if day.call is not None else None
    own = person.days.get(day.id)
    own_call = own.call if own is not None and own.call is not None else person.call
    if here is None and own_call is None:
        return None
    start, end = timing.shifted(here, call) if here is not None else (0, 2 * timing.NIGHT)
    if own_call is not None:
        start = max(start, timing.later(int(own_call), min(call, int(own_call)) if call is not None else None))
    return (start + (round(float(person.before) / 30) if person.before is not None else 0), end)


def _words(hours: tuple[int, int]) -> str:
    until = "on" if hours[1] >= 2 * timing.NIGHT else f"to {clock(hours[1])}"
    return f"from {clock(hours[0])} {until}"


def _along(
    facts: Facts, person: Person, day: Day, hours: tuple[int, int], setups: list[str]
) -> Iterator[Finding]:
    line = facts.timelines[day.id]
    late = [s for name in setups if (s := line.shooting(name)) and (s.start < hours[0] or s.end > hours[1])]
    barred = {s.setup: _barred(facts, person, day, s.setup) for s in late}
    late = [s for s in late if not (barred[s.setup] and unmet.wrong_hour(facts, facts.plan.setups[s.setup]))]
    if not late:  # or told as a window that is missed, with who is not there then
        return
    first = late[0]
    asked = next((barred[s.setup] for s in late if barred[s.setup]), "")
    move = f"move {quoted(s.setup for s in late)} into those hours in the order of day {day.id}"
    yield finding(
        facts.plan,
        (RULE, SEVERITY),
        f"people.{person.id}",
        f"'{person.id}' can be in front of the camera {_words(hours)} on day {day.id}, and the takes of "
        f"{quoted(s.setup for s in late)} run {'' if len(late) == 1 else 'outside of it, the first '}from "
        f"{clock(first.start)} to {clock(first.end)}",
        (
            asked or move,
            f"or change the hours of '{person.id}' when they have agreed",
        ),
        (("person", person.id), ("day", day.id), ("from", clock(first.start)), ("to", clock(first.end))),
        also=[(f"setups.{s.setup}", "needed here") for s in late[:6]],
    )


def _barred(facts: Facts, person: Person, day: Day, name: str) -> str:
    """What to ask somebody for who is never there under the sky a setup needs; "" where another hour will do."""
    setup = facts.plan.setups[name]
    spans = unmet.under_the_sky(facts, setup)
    found = unmet.bars(facts, setup, day, spans) if spans else ()
    return next((bar.way for bar in found if bar.who == person.id), "")


def _too_much(facts: Facts, person: Person, day: Day, hours: tuple[int, int], setups: list[str]) -> Finding | None:
    need = 0.0
    for name in setups:
        for shot in facts.shots_of.get(name, ()):
            if person.id in [p for _, p in hands.cast(facts.plan, facts.plan.setups[name], shot, facts.players)]:
                need += float(shot.takes or 0.0) / 30
    frame = timing.frame(day)
    start, end = (max(hours[0], frame[0]), min(hours[1], frame[1])) if frame else hours
    if end - start >= need or end <= start:
        return None
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"people.{person.id}",
        f"the takes with '{person.id}' on day {day.id} last {span(need)}, and they can be in front of the camera only "
        f"from {clock(start)} to {clock(end)}: {span(end - start)}",
        ("shorten the takes, or give some of them to a double", f"or change the hours of '{person.id}'"),
        (("person", person.id), ("day", day.id), ("takes_min", need / 2), ("hours_min", (end - start) / 2)),
        also=[(f"setups.{name}", "needed here") for name in setups[:6]],
    )
