"""Invented days for the tests of the order: small whole-number days with every rule on, from a seed."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from hotset.facts.numbers import Day, Hold, Meal, Setup, Window
from hotset.facts.pieces import Group


@dataclass(frozen=True)
class Mix:
    """Which rules an invented day has."""

    setups: int = 5
    rooms: int = 2
    cast: int = 3
    windows: float = 0.3
    meals: bool = True
    twins: bool = True
    holds: bool = True
    optional: bool = True
    options: bool = True
    before: float = 0.15
    late: int = 0


def group(rng: Random, name: str, rooms: int, places: int, settings: int, pieces: int) -> Group:
    """A group whose states form a tree room > place > setting, dearer the farther apart."""
    spots = [(-1, -1)]
    for room in range(rooms):
        for place in range(places):
            spots += [(room, room * places + place)] * settings
    rig, strike = rng.randint(4, 9), rng.randint(1, 4)
    across, shift, tweak = rng.randint(8, 14), rng.randint(4, 7), rng.randint(1, 3)
    cost = []
    for a, one in enumerate(spots):
        row = []
        for b, two in enumerate(spots):
            if a == b:
                row.append(0)
            elif a == 0 or b == 0:
                row.append(rig + rng.randint(0, 2) if a == 0 else strike)
            elif one == two:
                row.append(tweak)
            elif one[0] == two[0]:
                row.append(shift + rng.randint(0, 2))
            else:
                row.append(across + rng.randint(0, 2))
        cost.append(tuple(row))
    return Group(name, tuple(spots), tuple(cost), (0,) * pieces, 2 if name == "cloth" else 1)


def day(seed: int, mix: Mix = Mix()) -> Day:
    """A day invented from a seed; the same seed gives the same day."""
    rng = Random(seed)
    groups = [group(rng, "camera", mix.rooms, 2, 2, 1), group(rng, "key", mix.rooms, 2, 1, 1)]
    groups.append(group(rng, "cloth", mix.rooms, 1, 1, rng.choice((1, 2)) if mix.twins else 1))
    groups.append(group(rng, "panel", mix.rooms, 2, 1, rng.choice((1, 2, 3)) if mix.twins else 1))
    setups = tuple(_setup(rng, k, groups, mix) for k in range(mix.setups))
    pairs = [(a, b) for a in range(mix.setups) for b in range(mix.setups) if a != b]
    ranks = list(range(mix.setups))
    rng.shuffle(ranks)
    before = tuple((a, b) for a, b in pairs if ranks[a] < ranks[b] and rng.random() < mix.before / 2)
    holds: tuple[Hold, ...] = ()
    if mix.holds and mix.setups > 3 and rng.random() < 0.3:
        first, until, inside = rng.sample(range(mix.setups), 3)
        holds = (Hold(first, until, (inside,)),)
    travel = tuple(tuple(0 if a == b else rng.randint(6, 12) for b in range(mix.rooms)) for a in range(mix.rooms))
    takes = sum(s.takes for s in setups)
    gap = rng.choice((takes // 2 + 25, takes + 40, 1 << 40)) if mix.meals else 1 << 40
    meals: tuple[Meal, ...] = (
        Meal("lunch", 10, rng.choice((-(1 << 40), 130)), rng.choice((1 << 40, 190)), rng.random() < 0.7),
    )
    if mix.meals and rng.random() < 0.5:
        meals = (*meals, Meal("supper", 8, must=False))
    return Day(
        name=str(seed),
        setups=setups,
        groups=tuple(groups),
        travel=travel,
        arrive=tuple(rng.randint(0, 4) for _ in range(mix.rooms)),
        riggers=rng.choice((1, 2, 2, 3)),
        call=100,
        latest_wrap=100 + takes + rng.choice((50, 90, 150, 300)) + mix.late,
        pack=rng.choice((0, 5)),
        before=before,
        holds=holds,
        meals=meals if mix.meals else (),
        gap=gap,
        cast=tuple("abc"[: mix.cast]),
        agreed=tuple(rng.sample(range(mix.setups), mix.setups)) if rng.random() < 0.2 else (),
        tone=rng.choice((0, 3)),
        absent=((start := rng.randint(100, 160), start + rng.randint(10, 60), 1),) if rng.random() < 0.3 else (),
    )


def _setup(rng: Random, k: int, groups: list[Group], mix: Mix) -> Setup:
    room = rng.randrange(mix.rooms)
    states = [[s for s, spot in enumerate(g.places) if spot[0] == room] for g in groups]
    needs: list[tuple[tuple[int, int], ...]] = [((0, rng.choice(states[0])),)]
    if rng.random() < 0.6:
        needs.append(((1, rng.choice(states[1])),))
    if rng.random() < 0.5:
        needs.append(((2, rng.choice(states[2])),))
    away: list[tuple[int, int]] = []
    wanted = rng.sample(states[3], rng.choice((0, 1, 1, 2)) if len(groups[3].start) > 1 else rng.choice((0, 1)))
    for s in wanted:
        if mix.options and len(needs) > 1 and len(wanted) == 1 and needs[-1][0][0] != 1 and rng.random() < 0.2:
            needs.append(((3, s), (1, rng.choice(states[1]))))
            needs = [n for n in needs if n[0][0] != 1]
        else:
            needs.append(((3, s),))
    if rng.random() < 0.25:
        away = [(3, s) for s in states[3] if s not in wanted][:1]
    if rng.random() < 0.2 and not any(o[0] == 2 for n in needs for o in n):
        away.append((2, states[2][0]))
    windows: list[Window] = []
    if rng.random() < mix.windows:
        opens = 100 + rng.randint(0, 90)
        spans = [(opens, opens + rng.randint(30, 120))]
        if rng.random() < 0.3:
            later = spans[0][1] + rng.randint(5, 30)
            spans.append((later, later + 60))
        windows.append(Window("sun", tuple(spans)))
    return Setup(
        name=f"s{k}",
        takes=rng.randint(4, 20),
        room=room,
        needs=tuple(needs),
        away=tuple(away),
        fixed=rng.choice((0, 0, 2)),
        cast=tuple(sorted(rng.sample(range(mix.cast), rng.randint(0, mix.cast)))),
        windows=tuple(windows),
        priority=rng.choice((0, 0, 0, 1, 2)) if mix.optional else 0,
        flat=rng.random() < 0.1,
        tone=rng.random() < 0.5,
    )
