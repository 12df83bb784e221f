"""The day of a piece of gear or a stock: in its case, rigged, in use, held hot, standing free, due back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from . import cloth, errands
from .struck import Struck
from .whereabouts import Stretch, clock, held_during, not_agreed

if TYPE_CHECKING:
    import datetime
    from collections.abc import Iterator

    from ..plan.gear import Gear
    from ..plan.stock import Stock
    from .facts import Facts
    from .rig import State
    from .timeline import Step


def gear(facts: Facts, name: str, day_id: str) -> Iterator[Stretch]:
    """The stretches of every piece of a thing on a day with an agreed order."""
    line = facts.timelines[day_id]
    thing = facts.plan.gear[name]
    count = 1 if thing.quantity is None else thing.quantity
    if any(task.piece == name for step in line.steps for task in step.tasks):
        for number in range(1, count + 1):
            yield from _tracked(facts, name, day_id, number, count)
    else:
        yield from _counted(facts, name, day_id, count)


def _label(name: str, number: int, count: int) -> str:
    return f"{name} {number}" if count > 1 else name


def _tracked(facts: Facts, name: str, day_id: str, number: int, count: int) -> Iterator[Stretch]:
    """A piece that the day follows from place to place: lamps, cameras, grip, practicals."""
    line = facts.timelines[day_id]
    piece = _label(name, number, count)
    case = _case(facts.plan.gear[name])
    struck = Struck(facts, day_id)
    for i, step in enumerate(line.steps):
        away = _away(facts.plan.gear[name], facts, day_id, step)
        state = next((s.state for s in step.standing if (s.piece, s.number) == (name, number)), None)
        task = next((t for t in step.tasks if (t.piece, t.number) == (name, number)), None)
        if away:
            yield Stretch(day_id, piece, step.start, step.end, "away", words=away)
        elif task is not None:
            where = task.after.room if task.after is not None else task.before.room if task.before is not None else ""
            does = ", ".join(w if w.split(",")[0] == a else f"{a} {w}".strip() for a, w, _ in task.actions)
            yield Stretch(day_id, piece, step.start, step.end, "rigged", where, f"for '{step.setup}': {does}")
        elif state is None:
            yield Stretch(day_id, piece, step.start, step.end, "in case", case)
        elif gone := struck.since(i, name, state):
            yield Stretch(day_id, piece, step.start, step.end, "in case", case, gone)
        else:
            yield _standing(facts, name, day_id, piece, step, state)


def _standing(facts: Facts, name: str, day_id: str, piece: str, step: Step, state: State) -> Stretch:
    users = _users(facts, name, step.setup) if step.kind == "setup" else []
    held = [h for h in held_during(facts, day_id, step) if _users(facts, name, h) and _room(facts, h) == state.room]
    where = ", ".join(w for w in (state.room, state.place) if w)
    if users and state.room in (_room(facts, step.setup), *(_other_rooms(facts, step.setup))):
        return Stretch(day_id, piece, step.start, step.end, "in use", where, f"{users[0]} of '{step.setup}'")
    if held:
        return Stretch(day_id, piece, step.start, step.end, "held hot", where, f"for '{held[0]}'")
    words = "is packed up" if step.kind == "wrap" else "stands there"
    return Stretch(day_id, piece, step.start, step.end, "free", where, words)


def _room(facts: Facts, setup: str) -> str:
    return facts.plan.setups[setup].set or "" if setup in facts.plan.setups else ""


def _other_rooms(facts: Facts, setup: str) -> tuple[str, ...]:
    """Rooms in which lamps of a setup stand beside its own."""
    lights = facts.plan.setups[setup].lights.values() if setup in facts.plan.setups else ()
    return tuple(r for i in lights for r in (i.in_, i.outside.rsplit("/", 1)[0] if i.outside else None) if r)


def _users(facts: Facts, name: str, setup: str) -> list[str]:
    """What takes the thing in a setup, in the crew's words."""
    who = [use.who for use in facts.uses.get(setup, ()) if name in use.among]
    for shot in facts.shots_of.get(setup, ()):
        if name in (shot.lens, *shot.filters):
            who.append(f"the camera, for {shot.id},")
    return who


def _counted(facts: Facts, name: str, day_id: str, count: int) -> Iterator[Stretch]:
    """A thing that the day does not follow piece by piece: lenses, leads, stands, cards, sound."""
    line = facts.timelines[day_id]
    thing = facts.plan.gear[name]
    for step in line.steps:
        mine = _users(facts, name, step.setup) if step.setup else []
        held = [(h, _users(facts, name, h)) for h in held_during(facts, day_id, step)]
        hot = [(h, who) for h, who in held if who]
        taken = len(mine) + sum(len(who) for _, who in hot)
        many = f"{min(taken, count)} of {count}: " if count > 1 else ""
        away = _away(thing, facts, day_id, step)
        if away:
            yield Stretch(day_id, name, step.start, step.end, "away", words=away)
        elif mine and step.kind in ("prepare", "setup", "wait"):
            state = {"prepare": "rigged", "setup": "in use", "wait": "free"}[step.kind]
            words = f"{many}{', '.join(dict.fromkeys(mine))} of '{step.setup}'"
            yield Stretch(day_id, name, step.start, step.end, state, step.room, words)
        elif hot:
            words = f"{many}for {_listed([h for h, _ in hot])}"
            yield Stretch(day_id, name, step.start, step.end, "held hot", _room(facts, hot[0][0]), words)
        else:
            yield Stretch(day_id, name, step.start, step.end, "in case", _case(thing))


def _case(thing: Gear | Stock) -> str:
    return thing.case or ""


def _away(thing: Gear | Stock, facts: Facts, day_id: str, step: Step) -> str:
    """Why a thing is not in hands during a step, "" where it is."""
    day = facts.plan.days[day_id]
    if day.date is None:
        return ""
    there, gone = errands.comes(thing, day), errands.leaves(thing, day)
    if there is not None and step.end <= there:
        return f"not in hands before {clock(there)}" + (f" of {_date(day.date, there)}" if there >= errands.DAY else "")
    if gone is not None and step.start >= gone:
        return f"has left at {clock(gone)} for its lender" + (f" on {_date(day.date, gone)}" if gone < 0 else "")
    return ""


def _date(day: datetime.date, half_minutes: int) -> str:
    return str(day.fromordinal(day.toordinal() + half_minutes // errands.DAY))


def stock(facts: Facts, name: str, day_id: str) -> Iterator[Stretch]:
    """What hangs of a cloth, gel or diffusion, in square metres: on windows and in frames, until it is taken down."""
    plan, line = facts.plan, facts.timelines[day_id]
    whole = sum(s.width * s.length for s in cloth.sheets(plan.stock[name]))
    areas = _areas(facts, name, day_id)
    struck = Struck(facts, day_id)
    for i, step in enumerate(line.steps):
        hanging = [(s.state.room, areas.get((s.piece, s.state), 0.0)) for s in struck.standing(i)]
        area = sum(each for _, each in hanging)
        away = _away(plan.stock[name], facts, day_id, step)
        if away:
            yield Stretch(day_id, name, step.start, step.end, "away", words=away)
        elif area > 0:
            mine = step.kind in ("setup", "prepare") and _cut(facts, name, step.setup)
            state = {"setup": "in use", "prepare": "rigged"}[step.kind] if mine else "free"
            rooms = ", ".join(dict.fromkeys(room for room, each in hanging if each > 0))
            taken = " is taken down" if step.kind == "wrap" else " left hanging"
            what = f" for '{step.setup}'" if mine else taken
            left = f", {max(whole - area, 0.0):.1f} m2 left" if whole else ""
            yield Stretch(day_id, name, step.start, step.end, state, rooms, f"{area:.1f} m2{what}{left}")
        else:
            yield Stretch(day_id, name, step.start, step.end, "in case", _case(plan.stock[name]))


def _areas(facts: Facts, name: str, day_id: str) -> dict[tuple[str, State], float]:
    """Piece and state (a window treated so, a frame set so) -> square metres of this stock in it."""
    from .rig import rig

    plan = facts.plan
    found: dict[tuple[str, State], float] = {}
    for setup in rig(plan, plan.setups_on(day_id)).setups:
        for need in cloth.needs(plan, plan.setups[setup.setup]):
            if isinstance(need, cloth.Need) and need.stock == name:
                area = sum(panel.width * panel.height for panel in need.panels)
                for other in setup.needs:
                    if need.path == other.path or need.path.startswith(f"{other.path}."):
                        found[other.options[0]] = area
    return found


def known(facts: Facts, name: str, day_id: str) -> Iterator[str]:
    """Loans and errands, and without an order which setups of the day take it."""
    plan = facts.plan
    thing: Gear | Stock = plan.gear[name] if name in plan.gear else plan.stock[name]
    lender = f" by {thing.lent_by}" if thing.lent_by else ""
    if thing.in_hands is not None:
        yield f"in hands from {thing.in_hands.date} {clock(thing.in_hands.clock)}"
    if thing.due is not None:
        yield f"lent{lender}, due back {thing.due.date} {clock(thing.due.clock)}"
    for trip in errands.trips(plan):
        if trip.thing == name:
            does = trip.words.replace(f"'{name}'", "it")
            who = f"'{trip.by}' {does}" if trip.by else f"nobody named {does}"
            usual = ", taken as 30 min" if trip.typical else ""
            yield f"{trip.date} {clock(trip.start)}-{clock(trip.end)}: {who}{usual}"
    if day_id not in facts.timelines:
        mine = [s for s in plan.setups if facts.day_of[s] == day_id]
        setups = [s for s in mine if _users(facts, name, s) or _cut(facts, name, s)]
        if setups:
            yield f"day {day_id}: taken by {_listed(setups)}"
        yield not_agreed(day_id)


def _cut(facts: Facts, name: str, setup: str) -> bool:
    return any(n.stock == name for n in cloth.needs(facts.plan, facts.plan.setups[setup]))


def _listed(names: list[str]) -> str:
    return ", ".join(f"'{name}'" for name in names)
