"""Batteries, circuits and windows of a day of a plan, along its hours."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ...facts import cells, loads, sky, walls
from ..say import Say, join, plain
from ..words import Words, words_for
from . import batteries, circuits, windows
from .batteries import Cell, Doing, Kind, Leg
from .scene import Treatment
from .setplan import slug
from .svg import Drawing

if TYPE_CHECKING:
    from ...facts import Facts
    from ...facts.cells import Store
    from ...facts.loads import Moment
    from ...plan import Plan
    from ...plan.light import Treatment as Treated
    from ...science.cells import Spell
    from ..shoot import DayLine


def battery_lines(
    facts: Facts, line: DayLine, camera: bool, words: Words | None = None, width: float = 510.0
) -> Drawing:
    """The charge of each battery of a day that is used: those of the cameras, or those of everything else.

    `svg` is empty where the order is not agreed, and for batteries of which the plan says too little.
    """
    _ = words or words_for()
    say = Say(facts.plan, _)
    title = _("Batteries of day {day}", day=line.day.id)
    if not line.slots:
        return Drawing("", title, "", 0.0, 0.0)
    start, end = min(s.start for s in line.slots), max(s.end for s in line.slots)
    kinds = [
        kind
        for store in cells.stores(facts, line.day.id)
        if (kind := _kind(facts.plan, say, store, camera, start, end)) is not None
    ]
    prefix = f"cells-{'camera' if camera else 'light'}-{slug(line.day.id)}"
    return batteries.draw(kinds, start, end, prefix, title, _, width)


def _kind(plan: Plan, say: Say, store: Store, camera: bool, start: int, end: int) -> Kind | None:
    """One kind of battery; None where none of what it feeds is asked for."""
    _ = say.words
    spells: dict[int, list[Spell]] = {}
    for spell in store.day.spells:
        spells.setdefault(spell.cell, []).append(spell)
    mine = [n for n, row in sorted(spells.items()) if any(_of_camera(plan, s.what) == camera for s in row if s.what)]
    flat = store.day.flat
    if not mine and (flat is None or _of_camera(plan, flat.what) != camera):
        return None
    name = say.thing(store.gear.id)
    name = name[:1].upper() + name[1:]
    holds = _("its own battery") if store.own else _("{used} of {all} used", used=len(spells), all=store.pieces)
    swaps = len(store.day.swaps)
    changed = _.count("{n} swap", "{n} swaps", swaps) if swaps else ""
    rows = tuple(
        Cell(*_at_the_row(plan, say, store, n, name, [s.what for s in spells[n] if s.what]),
             tuple(_legs(spells[n], store.full, start, end)))
        for n in mine
    )  # fmt: skip
    gone = (flat.time * 2, _thing(plan, say, flat.what)) if flat is not None else None
    return Kind(name, rows, join(", ", (holds, changed)), gone, store.own)


def _at_the_row(plan: Plan, say: Say, store: Store, n: int, name: str, fed: list[str]) -> tuple[str, tuple[str, ...]]:
    """What stands at a battery's row: its number and what it feeds, or the thing whose own it is."""
    _ = say.words
    if store.own:
        return join(" ", (name, str(n + 1) if store.pieces > 1 else "")), (_("its own battery"),)
    return _("no. {n}", n=n + 1), tuple(dict.fromkeys(_thing(plan, say, what) for what in fed))


def _of_camera(plan: Plan, what: str) -> bool:
    gear = plan.gear.get(what.rpartition(" ")[0])
    return gear is not None and gear.kind == "camera"


def _thing(plan: Plan, say: Say, what: str) -> str:
    """The thing that is fed; its number where there are several of it."""
    name, _between, number = what.rpartition(" ")
    gear = plan.gear.get(name)
    several = gear is not None and (gear.quantity or 1) > 1
    return join(" ", (say.thing(name), number if several else ""))


def _legs(spells: list[Spell], full: float, start: int, end: int) -> Iterator[Leg]:
    """The day of one battery without a gap, in half-minutes and shares."""
    now, level = float(start), 1.0
    for spell in sorted(spells, key=lambda s: s.start):
        a, b = spell.start * 2, spell.end * 2
        if a > now:
            yield Leg("rest", now, a, level, level)
        doing: Doing = "use" if spell.what else "charge"
        before, after = spell.before / full, spell.after / full
        if b > end:
            after = before + (after - before) * max(end - a, 0.0) / (b - a)
            b = float(end)
        if b > a:
            yield Leg(doing, a, b, before, after)
            now, level = b, after
    if end > now:
        yield Leg("rest", now, float(end), level, level)


def circuit_hours(facts: Facts, line: DayLine, words: Words | None = None, width: float = 510.0) -> Drawing:
    """What flows on each circuit that the day's setups use, from the rigging of each setup to its last take; between
    them only what hangs there always."""
    _ = words or words_for()
    plan, say = facts.plan, Say(facts.plan, _)
    title = _("Circuits of day {day}", day=line.day.id)
    if not line.slots:
        return Drawing("", title, "", 0.0, 0.0)
    start, end = min(s.start for s in line.slots), max(s.end for s in line.slots)
    spans = {
        name: (mine[0].start, mine[-1].end)
        for name in line.setups
        if (mine := [s for s in line.slots if s.setup == name and s.kind in ("rig", "shoot")])
    }
    found: dict[str, list[Moment]] = {}
    for moment in facts.circuit_moments:
        if moment.setup in spans:
            found.setdefault(moment.circuit.id, []).append(moment)
    rows = []
    for moments in found.values():
        place = plan.location_of(moments[0].setup)
        rule = loads.profile(place) if place else None
        busy = sorted((*spans[m.setup], m.amperes) for m in moments)
        steps = tuple(_flow(busy, start, end, moments[0].already))
        limit = moments[0].breaker * rule.share if rule else None
        rows.append(circuits.Circuit(say.circuit(moments[0].circuit.id), moments[0].breaker, limit, steps))
    return circuits.draw(rows, start, end, f"circuits-{slug(line.day.id)}", title, _, width)


def _flow(busy: list[tuple[int, int, float]], start: int, end: int, always: float) -> Iterator[circuits.Step]:
    """The day of a circuit without a gap; what follows at the same height is one step."""
    steps: list[circuits.Step] = []
    now = start
    for a, b, amperes in [*busy, (end, end, always)]:
        for since, until, flows in ((now, a, always), (max(a, now), b, amperes)):
            if until <= since:
                continue
            if steps and abs(steps[-1].amperes - flows) < 1e-9:
                since = steps.pop().start
            steps.append(circuits.Step(since, until, flows))
        now = max(now, b)
    yield from steps


def window_hours(plan: Plan, line: DayLine, words: Words | None = None, width: float = 510.0) -> Drawing:
    """When direct sun falls on each window of the day's sets, and what hangs in it while they are rigged and shot."""
    _ = words or words_for()
    say = Say(plan, _)
    title = _("Windows of day {day}", day=line.day.id)
    if not line.slots:
        return Drawing("", title, "", 0.0, 0.0)
    rows = []
    rooms = dict.fromkeys(plan.setups[name].set or "" for name in line.setups)
    for room in rooms:
        indoors = room in plan.sets and not plan.sets[room].outdoors
        for name in plan.sets[room].windows if indoors else ():
            full = f"{room}/{name}"
            bearing = walls.facing(plan, full)
            spans = sky.struck(plan, line.day.id, room.split("/")[0], bearing) if bearing is not None else None
            if spans is not None:
                rows.append(windows.Row(plain(name), say.set(room), spans, tuple(_hung(plan, line, room, full))))
    start, end = min(s.start for s in line.slots), max(s.end for s in line.slots)
    return windows.draw(rows, start, end, f"windows-{slug(line.day.id)}", title, _, width)


def _hung(plan: Plan, line: DayLine, room: str, window: str) -> Iterator[windows.Hung]:
    """What the setups of a room do to a window: from the rigging of the first that wants it so to the end of the
    last."""
    now: windows.Hung | None = None
    for name in line.setups:
        setup = plan.setups[name]
        mine = [s for s in line.slots if s.setup == name and s.kind in ("rig", "shoot")]
        if setup.set != room or not mine:
            continue
        how = _kind_of(setup.windows.get(window) or setup.windows.get(window.rsplit("/", 1)[-1]))
        start, end = mine[0].start, mine[-1].end
        if now is not None and now.treatment == how:
            now = windows.Hung(how, now.start, end)
            continue
        if now is not None:
            yield now
        now = windows.Hung(how, start, end)
    if now is not None:
        yield now


def _kind_of(treatment: Treated | None) -> Treatment:
    if treatment is None or treatment.open:
        return "bare"
    if treatment.black_out:
        return "black-out"
    return "tent" if treatment.tent else "layers" if treatment.layers else "bare"
