"""Grip sheet: what is stood, hung and weighed down where, by when, setup by setup, changes only."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Literal

from ..facts import cloth
from ..plan.light import Grip, Light, Practical, Treatment
from ..plan.setup import Setup
from ..plan.stock import Stock
from ..record import record, replace
from ..science.cloth import Panel
from . import load
from .camera import move_words
from .changes import before_in_set, lamp_numbers, lamp_steps, thing_steps
from .desk import Desk
from .light_words import grip_words, supply
from .say import join, plain
from .shoot import DayLine
from .standing import Leaving, leaving
from .view import Mark, Pair, Sheet

Step = Literal["keep", "new", "move", "change", "remove"]


@record
class Job:
    """One thing to rig: what to do, its name, where and how, what it must carry or be weighed with."""

    step: Step
    name: str
    words: str
    care: str = ""
    marks: tuple[Mark, ...] = ()


@record
class GripState:
    """What is rigged for one setup, and by when."""

    when: str
    by: str
    title: str
    id: str
    where: str
    jobs: tuple[Job, ...]
    kept: str
    leaving: Leaving | None


@record
class GripSheet:
    """The sheet. `needed` are the most pieces in use at once against what there is; `cuts` the cloth to cut."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    states: tuple[GripState, ...]
    cuts: tuple[Pair, ...]
    needed: tuple[Pair, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day on which something is stood, hung or darkened."""
    _ = desk.words
    people = desk.workers("grip", "rigger", "rigging", "gaffer")
    for line in desk.shoot.days:
        if any(_works(desk.shoot.plan.setups[name]) for name in line.setups):
            head = desk.head(_("Grip"), line)
            yield Sheet("grip", f"{desk.folder(line)}/grip", head, partial(view, desk, line), line.day.id, people)


def view(desk: Desk, line: DayLine) -> GripSheet:
    """Every setup's rigging in order, cloth to cut, pieces needed at once."""
    states = tuple(_state(desk, line, name) for name in line.setups)
    busy = [state for state in states if state.jobs] or list(states)
    first = busy[0]
    what = join(": ", (first.title, ", ".join(job.name for job in first.jobs[:3])))
    where, cuts = desk.say.place_of(first.id), tuple(_cuts(desk, line))
    return GripSheet(first.when, what, where, line.why, states, cuts, tuple(_needed(desk, line)))


def _works(setup: Setup) -> bool:
    camera = setup.camera is not None and setup.camera.on is not None
    return bool(camera or setup.lights or setup.grip or any(t.black_out or t.tent for t in setup.windows.values()))


def _state(desk: Desk, line: DayLine, name: str) -> GripState:
    plan, say = desk.shoot.plan, desk.say
    setup = plan.setups[name]
    before = before_in_set(plan, line.setups, name)
    place = line.setups.index(name)
    comes = place and plan.setups[line.setups[place - 1]].set != setup.set  # from another set, so all of it is new
    seen = _camera(desk, setup, None if comes else before)
    jobs = [*seen, *_stands(desk, line, setup, before), *_cloth(desk, setup, before)]
    return GripState(
        when=say.clock(line.start_of(name)), by=say.clock(line.rolling(name)), title=say.setup(name), id=name,
        where=desk.room_of(line, name), jobs=tuple(job for job in jobs if job.step != "keep"),
        kept=", ".join(job.name for job in jobs if job.step == "keep"), leaving=leaving(desk, line, name),
    )  # fmt: skip


def _camera(desk: Desk, setup: Setup, before: Setup | None) -> Iterator[Job]:
    """What the camera stands on, where that is another support than before."""
    _ = desk.words
    say, camera = desk.say, setup.camera
    if camera is None or not camera.on:
        return
    old = before.camera if before else None
    fresh = old is None or old.on != camera.on
    same = not fresh and old is not None and (old.at, old.height) == (camera.at, camera.height)
    if not fresh and not same:
        return  # the same support elsewhere is the camera's own affair
    words = join(" · ", (
        say.thing(camera.on), say.spot(camera.at, setup.set),
        _("lens {height} high", height=say.value("length", camera.height)) if camera.height is not None else "",
        join(" ", (_("move:"), move_words(desk, setup))) if setup.move else "",
    ))  # fmt: skip
    marks = desk.marking.at(f"{camera.path}.on", f"{camera.path}.height")
    yield Job("keep" if same else "new", _("Camera"), words, _weights(desk, camera.on), marks)


def _stands(desk: Desk, line: DayLine, setup: Setup, before: Setup | None) -> Iterator[Job]:
    """What each lamp stands on, with its weights."""
    _ = desk.words
    say = desk.say
    numbers = lamp_numbers(desk.shoot.plan, line.setups)
    for step in lamp_steps(setup, before):
        light: Light = step.light
        if not light.on:
            continue
        number = numbers[setup.set or "", step.name]
        name = _("{support} for lamp {number}", support=say.thing(light.on), number=number)
        high = _("{high} high", high=say.value("length", light.height)) if light.height is not None else ""
        carried = join(" + ", (say.things(light.lamp[:1]), say.things(light.with_)))
        words = "" if step.step == "remove" else join(" · ", (
            say.light_place(_alone(light), setup.set), high, carried, supply(desk, setup, light),
        ))  # fmt: skip
        kind: Step = "keep" if step.step == "change" else step.step
        care = "" if kind in ("keep", "remove") else _weights(desk, light.on)
        yield Job(kind, name, words, care, () if kind == "remove" else desk.marking.at(f"{light.path}.on"))


def _alone(light: Light) -> Light:
    """The lamp's place without the support, which the line names first."""
    return replace(light, on=None)


def _weights(desk: Desk, support: str) -> str:
    """Sand bags, counterweight, and what it carries at most."""
    _ = desk.words
    gear = desk.shoot.plan.gear.get(support)
    if gear is None:
        return ""
    return join(" · ", (
        _.count("{n} sand bag", "{n} sand bags", gear.bags) if gear.bags else "",
        _("COUNTERWEIGHT, nobody below it") if gear.counterweight else "",
        _("carries {weight}", weight=desk.say.value("weight", gear.carries)) if gear.carries else "",
    ))  # fmt: skip


def _cloth(desk: Desk, setup: Setup, before: Setup | None) -> Iterator[Job]:
    """Windows treated, flags and cloth set."""
    _ = desk.words
    families: tuple[tuple[Mapping[str, Treatment] | Mapping[str, Grip], Mapping[str, Treatment] | Mapping[str, Grip]],
                    ...] = ((setup.windows, before.windows if before else {}),
                            (setup.grip, before.grip if before else {}))  # fmt: skip
    for now, old in families:
        for step in thing_steps(now, old):
            thing, name = step.thing, plain(step.name.rsplit("/", 1)[-1])
            if isinstance(thing, Practical):
                continue
            marks = () if step.step == "remove" else desk.marking.under(thing.path)
            if isinstance(thing, Treatment):
                treated = bool(thing.black_out or thing.tent or thing.layers)
                if not treated and step.step in ("new", "keep"):
                    continue
                words = join(", ", (desk.say.treatment(thing), load.cloth_size(desk, step.name, thing)))
                yield Job(step.step, name, _("back to bare") if step.step == "remove" else words, marks=marks)
            elif step.step == "remove":
                yield Job("remove", name, "")
            else:
                yield Job(step.step, name, grip_words(desk, thing, setup.set), _weights(desk, thing.on or ""), marks)


def _cuts(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """What is cut from rolls for windows, tents and flags: each piece once, with what it is for."""
    _ = desk.words
    plan = desk.shoot.plan
    seen: set[tuple[str, str, tuple[Panel, ...]]] = set()
    for name in line.setups:
        wanted: dict[tuple[str, str], tuple[Panel, ...]] = {}
        for need in cloth.needs(plan, plan.setups[name]):
            if isinstance(need, cloth.Need) and need.panels:
                of = (need.panels[0].name, need.stock)
                wanted[of] = (*wanted.get(of, ()), *need.panels)
        for (what, stock), panels in wanted.items():
            counts: dict[Panel, int] = {}
            for panel in panels:
                if not _ready(plan.stock[stock], panel):
                    counts[panel] = counts.get(panel, 0) + 1
            sizes = "; ".join(_piece(desk, panel, count) for panel, count in counts.items())
            if sizes and (what, stock, panels) not in seen:
                seen.add((what, stock, panels))
                yield Pair(plain(what), _("from {cloth}: cut {sizes}", cloth=desk.say.thing(stock), sizes=sizes))


def _ready(stock: Stock, panel: Panel) -> bool:
    """Whether a piece of just this size lies there."""
    want = sorted((round(panel.width, 3), round(panel.height, 3)))
    return any(piece.size and sorted(round(float(s), 3) for s in piece.size) == want for piece in stock.pieces)


def _piece(desk: Desk, panel: Panel, count: int) -> str:
    """How many of which size, and which part of a tent it is."""
    _ = desk.words
    size = desk.say.value("size", (panel.width, panel.height))
    part = _("sides") if panel.name.endswith(", a side") else _("top") if panel.name.endswith(", top") else ""
    return join(" ", (f"{count} × {size}" if count > 1 or part else size, f"({part})" if part else ""))


def _needed(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """Supports and weights in use at once at most, against what the plan has."""
    _ = desk.words
    plan = desk.shoot.plan
    most: dict[str, int] = {}
    for name in line.setups:
        count: dict[str, int] = {}
        setup = plan.setups[name]
        used = [light.on for light in setup.lights.values()] + [item.on for item in setup.grip.values()]
        for support in (s for s in used if s in plan.gear):
            count[support or ""] = count.get(support or "", 0) + 1
            for weight in plan.gear[support or ""].needs:
                if weight in plan.gear:
                    count[weight] = count.get(weight, 0) + (plan.gear[support or ""].bags or 1)
        for thing, number in count.items():
            most[thing] = max(most.get(thing, 0), number)
    for thing, number in most.items():
        have = plan.gear[thing].quantity or 1
        words = _("{n} at once, {have} there", n=number, have=have)
        yield Pair(desk.say.thing(thing), words if number <= have else _("TOO FEW: {words}", words=words))
