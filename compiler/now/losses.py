"""What is lost and who is gone: the shots that fall, those that survive and with what, and until when others are there.

A person who leaves later closes a window; who has left, or a thing that is lost, takes the shots along for which
nothing and nobody else serves. A lost roll takes its setups along, metres that are lost those for which the rest cannot
be cut any more.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import Facts, spare
from ..facts.hours import NIGHT
from ..facts.numbers import Window
from ..facts.spare import fewer
from ..record import record, replace
from ..trials import people, power
from .cloth import reach
from .left import rolls

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from ..facts.spare import Gap
    from ..log import Happened
    from ..plan import Plan
    from ..plan.setup import Setup
    from .left import Part

LAST = 2 * NIGHT


@record
class Fate:
    """What becomes of a shot: why it falls, or what serves instead; `plan_b` is what the plan says for it."""

    shot: str
    setup: str
    priority: str
    falls: tuple[str, ...] = ()
    served: tuple[str, ...] = ()
    plan_b: str = ""


@record
class Losses:
    """`fates` of the shots that are touched; `plan` with what serves put in its place; `lost` gear and how many;
    `windows` that people's hours put on setups; `absent` riggers (from, to, how many); `remarks` for the crew."""

    fates: tuple[Fate, ...]
    plan: Plan
    lost: Mapping[str, int]
    windows: Mapping[str, tuple[Window, ...]]
    absent: tuple[tuple[int, int, int], ...]
    remarks: tuple[str, ...]

    @property
    def fallen(self) -> frozenset[str]:
        """The shots that cannot be had any more."""
        return frozenset(f.shot for f in self.fates if f.falls)


def losses(plan: Plan, happened: Happened, left: Mapping[str, tuple[Part, ...]], at: int) -> Losses:
    """What the losses of a day do to what is left of it at a time."""
    leaves, comes = dict(happened.leaves), dict(happened.comes)
    if not (happened.lost or happened.cut or leaves or comes):
        return Losses((), plan, {}, {}, (), ())
    facts = Facts(plan)
    lost: Mapping[str, int] = {thing: n for family, thing, n in happened.lost if family == "gear"}
    gone = tuple(p for p, when in leaves.items() if when <= at)
    hangs = happened.visits[-1:] if happened.now.kind in ("rolled", "ready") else ()
    rolled_up = reach(facts, happened.cut, [name for name in left if name not in hangs])
    fates: list[Fate] = []
    serving: dict[str, str] = {}
    rolling = rolls(plan, happened)
    for setup_id, shots in left.items():
        setup = plan.setups[setup_id]
        for part in shots:
            state, away = happened, (lost, gone)
            if part.id == rolling:  # it rolls without what was lost before, whatever the plan says
                state, away = _since(happened, away)
            found = list(_gaps(facts, setup, part, state, away))
            falls = [*(_why(g) for g in found if not g.serves), *_stock(plan, setup, state)]
            falls += [rolled_up.falls[setup_id]] if setup_id in rolled_up.falls else []
            served = [f"{g.who}: {g.serves}" for g in found if g.serves]
            serving.update((g.path, g.by) for g in found if g.serves and g.by in plan.gear)
            if falls or served:
                plan_b = plan.shots[part.id].plan_b if part.id in plan.shots else None
                mine = (part.id, setup_id, part.priority)
                fates.append(Fate(*mine, tuple(dict.fromkeys(falls)), tuple(dict.fromkeys(served)), plan_b or ""))
    hours = {p: (0, when) for p, when in leaves.items() if when > at} | {p: (when, LAST) for p, when in comes.items()}
    return Losses(
        fates=tuple(fates),
        plan=_served(fewer(plan, lost), left, serving),
        lost=lost,
        windows=dict(_windows(facts, left, hours)),
        absent=tuple(_absent(plan, happened.day, leaves)),
        remarks=(*_remarks(plan, happened), *rolled_up.remarks),
    )


def _since(
    happened: Happened, away: tuple[Mapping[str, int], tuple[str, ...]]
) -> tuple[Happened, tuple[Mapping[str, int], tuple[str, ...]]]:
    """The state of a day, and what is away, without what was lost before the shot that rolls began."""
    before = set(happened.now.despite)
    lost, gone = away
    return (
        replace(happened, lost=tuple(one for one in happened.lost if one[:2] not in before)),
        ({t: n for t, n in lost.items() if ("gear", t) not in before},
         tuple(p for p in gone if ("person", p) not in before)),
    )  # fmt: skip


def _gaps(
    facts: Facts, setup: Setup, part: Part, happened: Happened, away: tuple[Mapping[str, int], tuple[str, ...]]
) -> Iterator[Gap]:
    shot = facts.plan.shots.get(part.id)
    lost, gone = away
    yield from spare.gaps(facts, setup, shot, lost)
    yield from people.gaps(facts, setup, shot, gone)
    yield from power.gaps(facts, setup, tuple(thing for family, thing, _ in happened.lost if family == "circuit"))


def _why(gap: Gap) -> str:
    names = ", ".join(f"'{name}'" for name in gap.taken)
    busy = f" ({names} would do, but {'is' if len(gap.taken) == 1 else 'are'} taken)" if names else ""
    return f"'{gap.lost}'{' ' if gap.who.startswith('plays ') else ' for '}{gap.who}{busy}"


def _stock(plan: Plan, setup: Setup, happened: Happened) -> Iterator[str]:
    """What a setup misses of stock that is wholly lost, and the set it is shot in, should that be lost."""
    for family, thing, n in happened.lost:
        if family == "set" and setup.set == thing:
            yield f"it is shot in '{thing}'"
        if family == "stock" and n >= (plan.stock[thing].quantity or 1) and thing in _stock_of(setup):
            yield f"'{thing}' is used up"


def _stock_of(setup: Setup) -> set[str]:
    found = {name for light in setup.lights.values() for name in light.with_}
    found |= {item.use or "" for item in setup.grip.values()}
    for window in setup.windows.values():
        found |= {window.black_out or "", window.tent or "", *window.layers}
    return found


def _windows(
    facts: Facts, left: Mapping[str, tuple[Part, ...]], hours: Mapping[str, tuple[int, int]]
) -> Iterator[tuple[str, tuple[Window, ...]]]:
    """Setup -> the hours that people who come late or leave early put on it; nobody's where somebody else can do it."""
    for setup_id, shots in left.items():
        found = []
        for person, (lo, hi) in hours.items():
            takes = [facts.plan.shots.get(part.id) for part in shots]
            gaps = [g for shot in takes for g in people.gaps(facts, facts.plan.setups[setup_id], shot, (person,))]
            if any(not g.serves for g in gaps):
                found.append(Window(f"'{person}' is here", ((lo, hi),), shared=True))
        if found:
            yield setup_id, tuple(found)


def _absent(plan: Plan, day_id: str, leaves: Mapping[str, int]) -> Iterator[tuple[int, int, int]]:
    """Riggers who are not there from a time on."""
    day = plan.days[day_id]
    for person, when in leaves.items():
        if "rig" in plan.people[person].skills and (not day.people or person in day.people):
            yield when, LAST, 1


def _served(plan: Plan, left: Mapping[str, tuple[Part, ...]], serving: Mapping[str, str]) -> Plan:
    """The plan with other things in the places of lost ones, where they stand in lights, camera or grip."""
    setups = dict(plan.setups)
    for path, thing in serving.items():
        steps = path.split(".")
        setup = setups.get(steps[1]) if steps[0] == "setups" and len(steps) > 3 else None
        if setup is None or setup.id not in left:
            continue
        key, family, name = steps[-1], steps[2], steps[3]
        if family == "camera" and setup.camera is not None and key in ("body", "lens", "on"):
            changed = replace(setup, camera=replace(setup.camera, **{key: thing}))
        elif family == "lights" and name in setup.lights and key in ("lamp", "on"):
            value = (thing,) if key == "lamp" else thing
            light = replace(setup.lights[name], **{key: value})
            changed = replace(setup, lights={**setup.lights, name: light})
        elif family == "grip" and name in setup.grip and key == "use":
            changed = replace(setup, grip={**setup.grip, name: replace(setup.grip[name], use=thing)})
        else:
            continue
        setups[setup.id] = changed
    return replace(plan, setups=setups)


def _remarks(plan: Plan, happened: Happened) -> Iterator[str]:
    for family, thing, n in happened.lost:
        if family == "stock" and n < (plan.stock[thing].quantity or 1):
            have = plan.stock[thing].quantity or 1
            yield f"{n} of {have} '{thing}' is lost: whether the rest is enough, 'hotset check --without {thing}' tells"
