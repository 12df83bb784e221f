"""Setups whose shots are taken at different times (`splits: yes`): a plan with a setup of its own for every visit.

An agreed order names a visit by the setup and the shots taken then: `hall-wide 1A 1C`. Such a visit is a setup like
any other, with everything of the whole one but its time; `Plan.parts` tells of which setup it is a part.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import replace

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from ..findings import Finding
    from .plan import Plan
    from .scene import Shot
    from .setup import Setup

Visits = dict[str, list[tuple[str, ...]]]


def visit_name(plan: Plan, setup: str, shots: Iterable[str]) -> str:
    """What a visit is called: the setup, then its shots."""
    return " ".join((plan.parts.get(setup, setup), *shots))


def splits(plan: Plan, setup: str) -> bool:
    """Whether the shots of a setup may be taken at different times: it says so, has several, and is neither rigged
    ahead, nor pinned to an hour, nor part of a set that is held hot."""
    return not why_whole(plan, setup)


def why_whole(plan: Plan, setup: str) -> str:
    """Why the shots of a setup are all taken at one time; "" where they need not be."""
    one = plan.setups[setup]
    if not one.splits:
        return "it does not say 'splits: yes'"
    if len(plan.shots_of(setup)) < 2:
        return "it has a single shot"
    if one.held_until or any(other.held_until == setup for other in plan.setups.values()):
        return "a set is held hot with it ('held-until:')"
    if any(ahead.setup == setup for day in plan.days.values() for ahead in day.ahead):
        return "it is rigged ahead ('ahead:')"
    if any(setup in day.pinned for day in plan.days.values()):
        return "its time is pinned ('pinned:')"
    return ""


def parted(plan: Plan) -> Plan:
    """The plan with the visits that its agreed orders name. What is no visit stays as it is written."""
    visits: Visits = {}
    orders = {}
    for day in plan.days.values():
        if any(" " in entry for entry in day.order):
            orders[day.id] = tuple(_visit(plan, entry, visits) or entry for entry in day.order)
    if not visits:
        return plan
    days = {d.id: replace(d, order=orders[d.id]) if d.id in orders else d for d in plan.days.values()}
    for name, taken in visits.items():
        left = tuple(s.id for s in plan.shots_of(name) if not any(s.id in shots for shots in taken))
        if left:
            taken.append(left)
    return _cut(replace(plan, days=days), visits)


def by_shots(plan: Plan, setups: Iterable[str]) -> Plan:
    """The plan with a visit for every shot of those of these setups that may be split. Shots that nothing tells apart
    (the same cast, as much wanted, with the same before and after them) stay together."""
    visits: Visits = {name: _told_apart(plan, name) for name in setups if splits(plan, name)}
    visits = {name: taken for name, taken in visits.items() if len(taken) > 1}
    if not visits:
        return plan
    names = {name: [visit_name(plan, name, shots) for shots in taken] for name, taken in visits.items()}
    days = {
        d.id: replace(d, order=tuple(n for entry in d.order for n in names.get(entry, [entry]))) if d.order else d
        for d in plan.days.values()
    }
    return _cut(replace(plan, days=days), visits)


def ordered(plan: Plan, orders: Mapping[str, tuple[str, ...]]) -> Plan:
    """The plan with these orders agreed for its days, and the visits that they name instead of those it has."""
    days = {d.id: replace(d, order=orders.get(d.id, d.order)) for d in plan.days.values()}
    one = replace(plan, days=days)
    named = {name for order in orders.values() for name in order}
    if plan.parts and any(name in plan.parts for name in plan.setups if name not in named):
        one = _joined(one)
    return parted(one)


def why_no_visit(plan: Plan, entry: str) -> str:
    """What is wrong with an entry of an agreed order that looks like a visit; "" where it looks like none."""
    name, *shots = entry.split() or [""]
    bases = {plan.parts.get(n, n): n for n in plan.setups}
    if not shots and name in bases and name not in plan.setups:
        parts = ", ".join(f"'{n}'" for n in plan.setups if plan.parts.get(n) == name)
        return f"its shots are taken at different times in this order, as {parts}"
    if not shots or name not in bases:
        return ""
    mine = {s.id for n in plan.setups if plan.parts.get(n, n) == name for s in plan.shots_of(n)}
    strange = [s for s in shots if s not in mine]
    if strange:
        return f"'{name}' has no shot '{strange[0]}'"
    if name in plan.setups:
        return why_whole(plan, name) or f"shot '{shots[0]}' is named twice"
    return f"a shot of '{entry}' is named in another place already"


def told_once(plan: Plan, findings: list[Finding]) -> list[Finding]:
    """The findings without those that a visit repeats word for word from another visit of its setup."""
    if not plan.parts:
        return findings
    names = sorted(plan.parts, key=len, reverse=True)
    seen = set()
    kept = []
    for one in findings:
        words = one.sentence
        for name in names:
            words = words.replace(f"'{name}'", f"'{plan.parts[name]}'")
        key = (one.rule, one.place, words)
        if key not in seen:
            seen.add(key)
            kept.append(one)
    return kept


def _told_apart(plan: Plan, setup: str) -> list[tuple[str, ...]]:
    """The shots of a setup, those together that nothing tells apart."""
    alike: dict[tuple[object, ...], list[str]] = {}
    for shot in plan.shots_of(setup):
        first = {*shot.after, *(s.id for s in plan.shots.values() if shot.id in s.before)}
        then = {*shot.before, *(s.id for s in plan.shots.values() if shot.id in s.after)}
        priority = shot.priority or plan.setups[setup].priority or "must"
        alike.setdefault((shot.cast, priority, frozenset(first), frozenset(then)), []).append(shot.id)
    return [tuple(shots) for shots in alike.values()]


def _visit(plan: Plan, entry: str, visits: Visits) -> str | None:
    """The name of the visit that an entry stands for, which is added to the visits; None where it is none."""
    name, *shots = entry.split() or [""]
    if not shots or name not in plan.setups or not splits(plan, name):
        return None
    mine = {s.id for s in plan.shots_of(name)}
    taken = {s for visit in visits.get(name, ()) for s in visit}
    if len(set(shots)) < len(shots) or not set(shots) <= mine - taken:
        return None
    visits.setdefault(name, []).append(tuple(shots))
    return visit_name(plan, name, shots)


def _cut(plan: Plan, visits: Visits) -> Plan:
    setups: dict[str, Setup] = {}
    parts = {name: base for name, base in plan.parts.items() if name not in visits}
    new: dict[str, tuple[str, ...]] = {}
    home: dict[str, str] = {}
    for name, setup in plan.setups.items():
        if name not in visits:
            setups[name] = setup
            continue
        names = [visit_name(plan, name, shots) for shots in visits[name]]
        new[name] = tuple(names)
        for part, shots in zip(names, visits[name], strict=True):
            setups[part] = replace(setup, id=part, takes=_takes(plan, setup, shots))
            parts[part] = plan.parts.get(name, name)
            home.update((shot, part) for shot in shots)
    return _renamed(replace(plan, setups=setups, parts=parts), new, home)


def _joined(plan: Plan) -> Plan:
    """The plan with every setup whole again."""
    setups: dict[str, Setup] = {}
    new: dict[str, tuple[str, ...]] = {}
    home: dict[str, str] = {}
    for name, setup in plan.setups.items():
        base = plan.parts.get(name, name)
        if base == name:
            setups[name] = setup
            continue
        before = setups.get(base)
        takes = setup.takes
        if before is not None and takes is not None and before.takes is not None:
            takes = type(takes)(before.takes + takes)
        setups[base] = replace(setup, id=base, takes=takes)
        new[name] = (base,)
        home.update((shot.id, base) for shot in plan.shots_of(name))
    return _renamed(replace(plan, setups=setups, parts={}), new, home)


def _takes(plan: Plan, setup: Setup, shots: tuple[str, ...]) -> float | None:
    """A visit's share of the time that the whole setup says for all its takes: what its shots say themselves, and an
    even share of the rest for those that say nothing."""
    if setup.takes is None:
        return None
    every = plan.shots_of(setup.id)
    said = sum(float(s.takes) for s in every if s.takes is not None)
    silent = [s.id for s in every if s.takes is None]
    rest = float(setup.takes) - said
    if not silent or rest <= 0:
        return type(setup.takes)(float(setup.takes) * len(shots) / len(every))
    mine = sum(float(s.takes) if s.takes is not None else rest / len(silent) for s in every if s.id in shots)
    return type(setup.takes)(mine)


def _renamed(plan: Plan, new: Mapping[str, tuple[str, ...]], home: Mapping[str, str]) -> Plan:
    """The plan with every mention of a setup led to what has taken its place."""

    def led(names: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(dict.fromkeys(n for name in names for n in new.get(name, (name,))))

    def moved(shots: Mapping[str, Shot]) -> dict[str, Shot]:
        return {n: replace(s, setup=home[n]) if n in home else s for n, s in shots.items()}

    setups = {
        n: replace(s, after=led(s.after), before=led(s.before)) if s.after or s.before else s
        for n, s in plan.setups.items()
    }
    days = {n: replace(d, setups=led(d.setups)) if d.setups else d for n, d in plan.days.items()}
    scenes = {n: replace(s, shots=moved(s.shots)) for n, s in plan.scenes.items()}
    film = replace(plan.film, setups=setups, days=days, scenes=scenes)
    return replace(plan, film=film, setups=setups, days=days, scenes=scenes, shots=moved(plan.shots))
