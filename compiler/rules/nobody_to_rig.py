"""A changeover needs hands that are not there at that hour.

On set: the cloth wants two at the window, and the other pair of hands has gone to fetch the lunch.

How it is decided: in the agreed order, every task of every changeover wants somebody who says that they can (rigging,
the camera, the gimbal, dressing; where nobody says so, anybody of the crew). A second pair is wanted at a window, at
the foot of a ladder (above 2.2 m), for a weight that nobody of the crew lifts alone, and for building a gimbal; what is
heavy wants one who lifts it, or two (two thirds of their sum, from memory), at the load-in and the packing too. Those
there are the crew of the day inside their hours ('here:', 'call:'), without who rigs a room ahead or is on an errand
('fetch:', 'return:'). A task that they cannot do is named; where each can be done and all together cannot, it is said
from 10 min a day on. The work is shared as the greatest flow over the time of each (Edmonds and Karp, 1972), so the
time said is the least. Second pairs and 10 min: common practice, no source.

Fix: change the order so that it falls into the hours of those named, or ask them to come; or rig it within reach.

When to accept it: somebody of the house lends a hand; write who.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from .words import Once, clock, counted, finding, quoted, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.rigging import Rigging, Wanted
    from ..findings import Finding

RULE = "nobody-to-rig"
SEVERITY: Final = "warning"
TITLE = "a changeover needs hands that are not there"

TRIGGERS = """
hotset: 1
days: {1: {call: "08:00", load-in: 30 min, order: [wide, close]}}
locations:
  landing:
    sets:
      office: {size: 4 m x 3 m x 2.4 m, windows: {hatch: {wall: east, from: 1 m, width: 1 m, height: 1 m, sill: 1 m}}}
people:
  olek: {works: gaffer, skills: rig}
  bea: {works: art, here: "10:00-18:00"}
stock: {black-cloth: {opaque: true, roll: 3 m x 12 m}}
setups:
  wide: {takes: 1 h, rig: 0 min}
  close:
    set: office
    takes: 10 min
    windows:
      hatch: {black-out: black-cloth}  # <- here
"""
PASSES = TRIGGERS.replace("10:00-18:00", "09:30-18:00").replace("  # <- here", "")
LEAST = 20  # half-minutes a day


def check(facts: Facts) -> Iterator[Finding]:
    fresh = Once(facts.plan)
    for day_id, changeovers in facts.changeovers.items():
        late = []
        short: dict[tuple[str, str], list[tuple[Rigging, Wanted]]] = {}
        for one in changeovers:
            for task in one.undone:
                short.setdefault((_missing(one, task), _freed(facts, one, _able(one, task))), []).append((one, task))
            if not one.undone and (one.longer is None or one.longer):
                late.append(one)
        for rows in short.values():  # who is missed for the same reason is one cause
            from ..facts.rigging import asked_at

            path = asked_at(facts.plan, rows[0][0].setup, rows[0][1])
            if fresh(path, day_id):
                yield _undone(facts, rows, path)
        yield from _carried(facts, day_id)
        if late and (any(o.longer is None for o in late) or sum(o.longer or 0 for o in late) >= LEAST):
            yield _late(facts, day_id, late)


def _able(one: Rigging, task: Wanted) -> tuple[str, ...]:
    """Who could do it and is not there."""
    return tuple(dict.fromkeys(n for pair in task.pairs for n in pair if n not in one.there))


def _undone(facts: Facts, rows: list[tuple[Rigging, Wanted]], path: str) -> Finding:
    """Tasks that those who are there cannot do, for one and the same reason."""
    one, task = rows[0]
    able = _able(one, task)
    others = [t.words for r, t in rows[1:] if r is one]
    also = list(dict.fromkeys(r.setup for r, _ in rows if r is not one))
    so = f" (and so {', '.join(others[:3])}{', ...' if len(others) > 3 else ''})" if others else ""
    first = _missing(one, task)
    why = f"; {_freed(facts, one, able)}" if able else ""
    more = f"; so it is for {quoted(also)}" if also else ""
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        path,
        f"{task.words}{so} is changed for '{one.setup}' from {clock(one.start)} to {clock(one.end)} on day {one.day}: "
        f"{first}{why}; {_cost(one)}{more}",
        (
            *((f"ask {quoted(able, 'or')} to be there from {clock(one.start)}",) if able else ("ask one more person",)),
            f"{'or ' if able else ''}put '{one.setup}' elsewhere in the order, into the hours of those who can",
        ),
        (
            ("day", one.day),
            ("setup", one.setup),
            ("setups", 1 + len(also)),
            ("from", clock(one.start)),
            ("to", clock(one.end)),
            ("there", ", ".join(one.there)),
            ("could", ", ".join(able)),
            ("longer_min", "" if one.longer is None else one.longer / 2),
        ),
        also=[(f"people.{name}", "could, and is not there then") for name in able[:4]],
        typical=(task.why,) if task.why in ("two at a window", "one holds what the other balances") else (),
    )


def _carried(facts: Facts, day_id: str) -> Iterator[Finding]:
    """Heavy things of the day that those who are there at the load-in, or when it is packed, do not lift."""
    from ..facts.rigging import lifted, lifts, weighs

    plan, line = facts.plan, facts.timelines[day_id]
    used = dict.fromkeys(u.thing for name in line.order for u in facts.uses.get(name, ()))
    heavy = [(name, weight) for name in used if (weight := weighs(plan, name))]
    crew = {n: day for n, day in facts.work_days[day_id].items() if hands.is_crew(plan.people[n])}
    for step in line.steps if heavy else ():
        if step.kind not in ("load-in", "wrap") or step.end <= step.start:
            continue
        there = [n for n, day in crew.items() if day.within(step.start, step.end)]
        out = [(name, weight) for name, weight in heavy if not lifted(plan, there, weight)]
        if out:
            (name, weight), when = out[0], "is carried in" if step.kind == "load-in" else "is packed"
            others = f" (and so {quoted(n for n, _ in out[1:])})" if out[1:] else ""
            strong = ", ".join(f"'{n}' lifts {lifts(plan, n):g} kg" for n in there) or "nobody is there"
            gone = [n for n in crew if n not in there]
            kept = ", ".join(f"'{n}' {crew[n].kept(step.start, step.end)}" for n in gone[:3])
            could = f"; {kept}" if kept else ""
            yield finding(
                plan,
                (RULE, SEVERITY),
                f"gear.{name}.weight",
                f"'{name}'{others} weighs {weight:g} kg and {when} from {clock(step.start)} to {clock(step.end)} on "
                f"day {day_id}, and those there do not lift it, one or two together: {strong}{could}",
                (
                    "ask somebody to be there for it, or carry it while they are",
                    "or take a trolley, and say so in a note",
                ),
                (("day", day_id), ("thing", name), ("kilograms", weight), ("there", ", ".join(there))),
                typical=("two lift two thirds of their sum",),
            )


def _missing(one: Rigging, task: Wanted) -> str:
    """What is wanted, and who of it is there."""
    there = [n for n in one.there if any(n in pair for pair in task.pairs)]
    alone = f"of those who can, {'only ' + quoted(there) if there else 'nobody'} is there"
    if any(n in task.lead for n in there):
        if len(there) > 1 and task.weight:
            return (
                f"it weighs {task.weight:g} kg, and those there, {quoted(there)}, do not lift it, one or two together"
            )
        return f"it wants two ({task.why}), and {alone}"
    two = f" and a second pair of hands ({task.why})" if task.why else ""
    return f"it wants somebody {task.lead_words}{two}, and nobody {task.lead_words} is there"


def _freed(facts: Facts, one: Rigging, able: tuple[str, ...]) -> str:
    """Who could, and what keeps them."""
    said = [f"'{name}' could, but {_kept(facts, one, name)}" for name in able[:3]]
    return ", ".join(said)


def _kept(facts: Facts, one: Rigging, name: str) -> str:
    day = facts.work_days[one.day].get(name)
    if day is None:
        return f"is not there on day {one.day}"
    return day.kept(one.start, one.end, one.setup) or "is not named for it"


def _cost(one: Rigging) -> str:
    if one.longer is None:
        return "before the end of the day nobody can"
    return f"waiting for whoever comes, it is done {span(one.longer)} later"


def _late(facts: Facts, day_id: str, late: list[Rigging]) -> Finding:
    """Changeovers that take longer with those who are there than the order counts with."""
    whole = sum(one.longer or 0 for one in late)
    never = [one for one in late if one.longer is None]
    worst = never[0] if never else max(late, key=lambda one: one.longer or 0)
    riggers = facts.timelines[day_id].riggers
    much = "cannot be done before the end of the day" if never else f"take at least {span(whole)} longer than it says"
    own = "" if worst.longer is None else f" {span(worst.longer)} longer"
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"days.{day_id}.order",
        f"the order of day {day_id} counts with {counted(riggers, 'pair')} of hands, and the changeovers to "
        f"{quoted(one.setup for one in late)} {much}: for '{worst.setup}', from {clock(worst.start)} to "
        f"{clock(worst.end)}, {quoted(worst.there) or 'nobody'} {'is' if len(worst.there) < 2 else 'are'} there{own}",
        (
            "put them into the hours in which more of the crew are there, or ask one more person",
            "or write what it takes: 'rig:' of the setup",
        ),
        (
            ("day", day_id),
            ("setups", ", ".join(one.setup for one in late)),
            ("longer_min", "" if never else whole / 2),
            ("riggers", riggers),
        ),
        also=[(f"people.{name}", "there for it") for name in worst.there[:4]],
        typical=("minutes of each task",) if facts.plan.film.timings is None else (),
    )
