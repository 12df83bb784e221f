"""How long the order of a day takes: invented days, all rules on or plain, with the seconds to proof or the gap left.

    python tests/bench/orders.py [--days N]

Everything in the days is invented. Nothing is asserted: seconds differ from machine to machine.
"""

from __future__ import annotations

import gc
import sys
import time
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1] / "order"))

import invented
from hotset.facts.numbers import FOREVER, Day, Meal, Setup, Window
from hotset.facts.pieces import Group
from hotset.order.solve import solve
from hotset.record import replace

SIZES = (
    ("a house", 12, 0.3), ("a house", 16, 2.0), ("a house", 20, 5.0), ("a house", 24, 20.0),
    ("scattered", 12, 0.3), ("scattered", 16, 2.0), ("scattered", 20, 5.0),
    ("plain", 30, 2.0), ("plain, alone", 30, 2.0), ("tangled", 30, 2.0),
)  # fmt: skip
"""What is measured, how many setups, and the seconds aimed at. In a house the setups of a room share its light, as on
a real day. A plain day is that house without hours, meal, cast and second panel, its cloth hung by one; with two
riggers, or one alone. Scattered and tangled days draw every need of every setup by lot, and what comes before what in
other rooms, which no crew would plan; tangled ones have no hours."""


def house(setups: int, seed: int) -> Day:
    """A day in four rooms: one camera, a key for one room at a time, two equal panels, two tubes, cloth for one room
    at a time and dressing; sun on a fifth of the setups, the last room only in the dark, cast with hours."""
    rng, rooms = Random(seed), 4
    room = [*sorted(rng.randrange(rooms - 1) for _ in range(setups - 1)), rooms - 1]
    camera = _group("camera", room, 12, 6)
    lights = [2 * r + rng.randrange(2) for r in room]
    key, tubes = _group("key", lights, 18, 9), _group("tube", lights, 12, 5, 2)
    panels = _group("panel", [k % 7 for k in range(setups)], 10, 4, 2, room)
    cloth, dressing = _group("cloth", room, 36, 30, 1, None, 2), _group("dressing", lights, 10, 10)
    groups = (camera, key, tubes, panels, cloth, dressing)
    length = setups * 70
    sun = Window("sun", ((1000, 1000 + length // 3),))
    dark = Window("dark", ((1000 + 9 * length // 10, 1 << 30),))
    late = Window("ines is here", ((1000 + length // 3, 1 << 30),))
    found = []
    for k in range(setups):
        lit = room[k] < rooms - 1
        needs: list[tuple[tuple[int, int], ...]] = [((0, k + 1),)]
        if lit:
            needs += [((1, lights[k] + 1),), ((2, lights[k] + 1),), ((4, room[k] + 1),)]
        if rng.random() < 0.7:
            needs.append(((3, k % 7 + 1),))
        needs.append(((5, lights[k] + 1),))
        windows = [dark] if not lit else [sun] if room[k] == 0 and rng.random() < 0.6 else []
        cast = tuple(sorted(rng.sample(range(2), rng.randint(1, 2))))
        if room[k] > 0 and 1 in cast:
            windows.append(late)
        found.append(Setup(f"s{k}", rng.randint(24, 64), room[k], tuple(needs), cast=cast, windows=tuple(windows)))
    before = tuple((k, k + 1) for k in range(setups - 1) if room[k] == room[k + 1] and rng.random() < 0.15)
    travel = tuple(tuple(0 if a == b else 30 for b in range(rooms)) for a in range(rooms))
    meal = Meal("meal", 80, 1000 + length // 3, 1000 + 2 * length // 3)
    return Day("house", tuple(found), groups, travel, (0,) * rooms, 2, 1000, 1000 + 2 * length, before=before,
               meals=(meal,), gap=max(720, length), cast=("mara", "ines"), pack=60)  # fmt: skip


def _group(
    name: str, where: list[int], far: int, near: int, pieces: int = 1, room: list[int] | None = None, hands: int = 1
) -> Group:
    """One state for each setup (camera) or each place; `near` half-minutes inside of a room, `far` from elsewhere."""
    states = [-1, *range(len(where))] if name == "camera" else [-1, *range(max(where) + 1)]
    rooms = (
        [-1, *(room or where)] if name == "camera" else [-1, *(s // (1 if name == "cloth" else 2) for s in states[1:])]
    )
    cost = tuple(
        tuple(0 if a == b else near if rooms[a] == rooms[b] else far for b in range(len(states)))
        for a in range(len(states))
    )
    places = tuple((-1, -1) if k == 0 else (rooms[k], k) for k in range(len(states)))
    return Group(name, places, cost, (0,) * pieces, hands)


def day(kind: str, setups: int, seed: int) -> Day:
    """A day with room enough for all setups and reason enough to think about their order."""
    if kind == "a house":
        return house(setups, seed)
    if kind in ("plain", "plain, alone"):
        whole = house(setups, seed)
        groups = [replace(g, start=(0,)) if g.name == "panel" else replace(g, hands=1) for g in whole.groups]
        still = tuple(replace(s, windows=(), cast=()) for s in whole.setups)
        return replace(whole, setups=still, groups=tuple(groups), meals=(), gap=FOREVER, cast=(),
                       riggers=2 if kind == "plain" else 1)  # fmt: skip
    if kind == "tangled":
        mix = invented.Mix(setups, 3, windows=0.0, meals=False, twins=False, holds=False, optional=False, options=False,
                           before=0.1, late=2000)  # fmt: skip
        whole = invented.day(seed, mix)
        still = tuple(replace(s, cast=()) for s in whole.setups)
        return replace(whole, setups=still, meals=(), gap=FOREVER, agreed=(), absent=(), tone=0, cast=(), riggers=2)
    whole = invented.day(seed, invented.Mix(setups, 3, windows=0.0, optional=False, before=0.06, late=400))
    rng, length = Random(seed), round(1.3 * sum(s.takes for s in whole.setups))
    opens = [whole.call + rng.randint(0, 6 * length // 10) if rng.random() < 0.2 else 0 for _ in whole.setups]
    windows = [(Window("sun", ((a, a + 4 * length // 10),)),) if a else () for a in opens]
    timed = tuple(replace(s, windows=w) for s, w in zip(whole.setups, windows, strict=True))
    return replace(whole, setups=timed, riggers=2, agreed=())


def main() -> None:
    gc.disable()  # as the command does
    wanted = int(sys.argv[sys.argv.index("--days") + 1]) if "--days" in sys.argv else 5
    print(f"{'':<12} {'setups':>6} {'aim':>6}   seconds to proof, or the gap in % of the bound after as many")
    for kind, setups, aim in SIZES:
        told: list[str] = []
        seed = impossible = 0
        while len(told) < wanted:
            one = day(kind, setups, seed)
            seed += 1
            began = time.process_time()
            answer = solve(one)
            took = time.process_time() - began
            if answer.found:
                part = answer.parts[0]
                gap = 100 * (part.value - part.bound) / max(1, part.bound - one.call)
                rest = "" if all(p.proven for p in answer.parts) else " (later steps open)"
                told.append(f"{took:.2f}" + (rest if part.proven else f" ({gap:.1f} %)"))
            elif answer.proved:
                impossible += 1
            else:
                told.append(f"{took:.2f} (none found)")
        print(f"{kind:<12} {setups:>6} {aim:>5} s   {', '.join(told)}; {impossible} impossible", flush=True)


if __name__ == "__main__":
    main()
