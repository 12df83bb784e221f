"""Setups wait for one another in a circle, or the agreed order puts one before what it must follow.

On set: the window is to be broken before the take in which it is whole.

How it is decided: 'after:' and 'before:' of setups, and of shots by their setups, say what comes first; following them
must never lead back to where one began. In an agreed order, none may stand before what it follows. Source: a graph with
a circle has no order (topological sorting).

Fix: take one 'after:' or 'before:' out of the circle, or change the agreed order.

When to accept it: shots of one setup are taken at two times ('splits: yes').
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan import Plan

RULE = "order-cycle"
SEVERITY: Final = "error"
TITLE = "setups wait for one another"

TRIGGERS = """
hotset: 1
setups:
  wide: {after: close}  # <- here
  close: {after: wide}
"""
PASSES = TRIGGERS.replace("{after: close}  # <- here", "{}")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan

    def free(name: str) -> bool:
        return bool(plan.setups[name].splits) and name not in plan.parts

    every = _said(facts)
    said = {(a, b): path for (a, b), (path, by_setup) in every.items() if by_setup or not (free(a) or free(b))}
    follows: dict[str, list[str]] = {}
    for first, then in said:
        follows.setdefault(then, []).append(first)
    rings = _rings(follows)
    for ring in rings:
        first = min(ring, key=list(plan.setups).index)
        at = ring.index(first)
        turned = [*ring[at:], *ring[:at], first]
        paths = [said[b, a] for a, b in pairwise(turned)]
        yield finding(
            plan,
            (RULE, "error"),
            paths[0],
            f"each of these setups must come after the next, in a circle: {' -> '.join(turned)}",
            (*_apart(plan, turned, every), "take one 'after:' or 'before:' out of the circle"),
            (("setups", ", ".join(turned[:-1])),),
            also=[(p, "and this is part of it") for p in paths[1:8]],
        )
    in_ring = {name for ring in rings for name in ring}
    for day in plan.days.values():
        place = {name: i for i, name in enumerate(day.order) if day.order.count(name) == 1}
        for (first, then), (path, _) in every.items():
            if first in place and then in place and place[first] > place[then] and not {first, then} <= in_ring:
                ways = (f"move '{then}' behind '{first}'", "or take the 'after:' or 'before:' out")
                yield finding(
                    plan,
                    (RULE, "error"),
                    f"{day.path}.order.{place[then]}",
                    f"the agreed order of day {day.id} has '{then}' before '{first}', which must come first",
                    (*_visits(plan, first, then), *ways),
                    (("day", day.id), ("first", first), ("then", then)),
                    also=[(path, "said here")],
                )


def _apart(plan: Plan, ring: list[str], every: dict[tuple[str, str], tuple[str, bool]]) -> tuple[str, ...]:
    """The way out where it is shots that wait for one another, and a setup in the circle has several."""
    for k, name in enumerate(ring[:-1]):
        pairs = ((ring[k + 1], name), (name, ring[k - 1] if k else ring[-2]))
        if len(plan.shots_of(name)) > 1 and name not in plan.parts and not any(every[pair][1] for pair in pairs):
            return (f"let the shots of '{name}' be taken at different times: write 'splits: yes' under it",)
    return ()


def _visits(plan: Plan, first: str, then: str) -> tuple[str, ...]:
    """The way out where the shots of one of the two may be taken at different times, and the order takes them all."""
    for name in (first, then):
        shots = plan.shots_of(name)
        if plan.setups[name].splits and name not in plan.parts and len(shots) > 1:
            return (
                f"take the shots of '{name}' at different times, each named as in '{name} {shots[0].id}' "
                "(`hotset order --write` does it)",
            )
    return ()


def _said(facts: Facts) -> dict[tuple[str, str], tuple[str, bool]]:
    """(what comes first, what follows) -> where it is said, and whether of the setups themselves; each pair once."""
    plan = facts.plan
    found: dict[tuple[str, str], tuple[str, bool]] = {}
    for setup in plan.setups.values():
        for i, name in enumerate(setup.after):
            found.setdefault((name, setup.id), (f"{setup.path}.after.{i}", True))
        for i, name in enumerate(setup.before):
            found.setdefault((setup.id, name), (f"{setup.path}.before.{i}", True))
    for shot in plan.shots.values():
        for key, names in (("after", shot.after), ("before", shot.before)):
            for i, other in enumerate(names):
                a, b = shot.setup, plan.shots[other].setup if other in plan.shots else None
                if a and b and a != b:
                    pair = (b, a) if key == "after" else (a, b)
                    found.setdefault(pair, (f"{shot.path}.{key}.{i}", False))
    return {pair: where for pair, where in found.items() if pair[0] in plan.setups and pair[1] in plan.setups}


def _rings(follows: dict[str, list[str]]) -> list[list[str]]:
    """One circle for every knot of setups that wait for one another: each setup with the next it must come after."""
    done: set[str] = set()
    rings: list[list[str]] = []
    for start in follows:
        trail: list[str] = []
        on_trail: dict[str, int] = {}
        stack = [(start, iter(follows.get(start, ())))] if start not in done else []
        if stack:
            trail, on_trail = [start], {start: 0}
        while stack:
            name, rest = stack[-1]
            step = next(rest, None)
            if step is None:
                done.add(name)
                stack.pop()
                on_trail.pop(trail.pop(), None)
            elif step in on_trail:
                ring = trail[on_trail[step] :]
                if not any(set(ring) & set(other) for other in rings):
                    rings.append(ring)
            elif step not in done:
                on_trail[step] = len(trail)
                trail.append(step)
                stack.append((step, iter(follows.get(step, ()))))
    return rings
