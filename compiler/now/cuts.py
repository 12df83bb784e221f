"""Ways to save time that stand in the plan: shots of one setup that can be had in one, reverses, lamps to leave out."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from ..facts import places
from ..facts.tables import table
from ..record import field, record
from ..rules.words import quoted

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from ..plan.scene import Shot
    from .left import Part
    from .rest import Rest


@record
class Cut:
    """One way: its kind in the table, what to do, shots that fall away, half-minutes saved on others, needs (setup and
    index) that are left out, what breaks, whom to ask."""

    kind: str
    words: str
    breaks: str
    ask: str
    shots: tuple[str, ...] = ()
    saved: Mapping[str, int] = field(default_factory=dict)
    needs: tuple[tuple[str, int], ...] = ()


def parts(rest: Rest, priority: str) -> list[Part]:
    """What is left with a priority, in the order of the day; a shot that has begun is not given up here."""
    begun = {s.id for s in rest.happened.shootings}
    names = rest.agreed or tuple(rest.parts)
    ordered = [p for name in names for p in rest.parts.get(name, ())]
    return [p for p in ordered if p.priority == priority and p.id not in begun]


def ask(rest: Rest, work: str) -> str:
    """Who decides, by what people work as; the word itself where the plan names nobody."""
    word = {"direction": "direct", "gaffer": "gaffer", "first assistant": "first assist"}[work]
    people = [p for p in rest.plan.people.values() if any(word in w.lower() for w in p.works)]
    title = {"direction": "the director", "gaffer": "the gaffer", "first assistant": "the first assistant"}[work]
    return f"{people[0].name or people[0].id} ({title})" if people else title


def merges(rest: Rest) -> Iterator[Cut]:
    """Neighbouring shots of one setup with the same frame, glass and people: two pieces of action in one take."""
    share = float(table("late")["merged"]["likely"])
    for setup, mine in rest.parts.items():
        for one, two in pairwise(mine):
            a, b = rest.plan.shots.get(one.id), rest.plan.shots.get(two.id)
            if a is not None and b is not None and _frame(a) == _frame(b):
                less = int(min(one.left, two.left) * share)
                shorter = one if one.left < two.left else two
                yield Cut("merge", f"shoot {one.id} and {two.id} of '{setup}' as one",
                          f"no separate takes of {shorter.id}: less to choose from in the edit", ask(rest, "direction"),
                          saved={shorter.id: less})  # fmt: skip


def _frame(shot: Shot) -> tuple[object, ...]:
    people = tuple(p for _, p in shot.cast) if shot.cast is not None else None
    return (shot.size, shot.of, shot.lens, shot.zoom, shot.filters, shot.fps, shot.frame, shot.move, people, shot.sound)


def reverses(rest: Rest) -> Iterator[Cut]:
    """Setups that look back at where another of their set was shot from."""
    least = float(table("late")["reverse"]["likely"])
    looking = {name: d for name in rest.plan.setups if (d := _direction(rest, name)) is not None}
    names = [n for n in rest.agreed if n in rest.parts] or list(rest.parts)
    done = [v for v in dict.fromkeys(rest.happened.visits) if v not in rest.parts]
    for k, name in enumerate(names):
        before = [n for n in (*done, *names[:k]) if rest.plan.setups[n].set == rest.plan.setups[name].set]
        if not before or name not in looking or rest.going.setup == name:
            continue
        against = [n for n in before if n in looking and _apart(looking[n], looking[name]) >= least]
        shots = tuple(p.id for p in rest.parts[name])
        if len(against) == len(before):
            must = any(p.priority == "must" for p in rest.parts[name])
            yield Cut("reverse-must" if must else "reverse",
                      f"leave out the reverse '{name}' ({', '.join(shots)}) and play it from '{against[-1]}'",
                      f"{', '.join(shots)} {'is' if len(shots) == 1 else 'are'} not shot as planned"
                      + ("; a must is among them" if must and len(shots) > 1 else "; it is a must" if must else ""),
                      ask(rest, "direction"), shots)  # fmt: skip


def _direction(rest: Rest, name: str) -> float | None:
    """Degrees in which the camera of a setup looks, in its own set."""
    stand = places.camera(rest.plan, rest.plan.setups[name])
    if stand is None or stand.down:
        return None
    return math.degrees(math.atan2(stand.aim[1] - stand.at[1], stand.aim[0] - stand.at[0]))


def _apart(one: float, two: float) -> float:
    return abs((one - two + 180.0) % 360.0 - 180.0)


def lamps(rest: Rest) -> Iterator[Cut]:
    """Each lamp that only fills, edges or backs, left out of one setup, and of all setups that are left."""
    roles = set(table("late")["spared-roles"])
    rigs = {r.setup: r for r in rest.day.rig.setups}
    by_lamp: dict[str, list[tuple[str, int, str]]] = {}
    for name in rest.parts:
        if name == rest.going.setup:
            continue
        lights = {light.path: light for light in rest.plan.setups[name].lights.values()}
        for k, need in enumerate(rigs[name].needs):
            light = lights.get(need.path)
            if light is not None and light.role in roles and need.options:
                by_lamp.setdefault(need.options[0][0], []).append((name, k, light.id))
    for thing, uses in by_lamp.items():
        sets = [uses] if len(uses) == 1 else [uses, *([one] for one in uses)]
        for chosen in sets:
            where = quoted(name for name, _, _ in chosen)
            what = quoted(dict.fromkeys(light for _, _, light in chosen))
            yield Cut("lamp", f"leave '{thing}' out of {where}", f"no {what}: look at the contrast once more",
                      ask(rest, "gaffer"), needs=tuple((name, k) for name, k, _ in chosen))  # fmt: skip
