"""Answers replayed by a simulator that knows nothing of the search, on days too large for brute force."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from hotset.facts.follow import Entry, follow
from hotset.facts.numbers import Day, meet
from hotset.order.solve import Answer, solve
from hotset.record import replace

sys.path.insert(0, str(Path(__file__).parent))

import invented


def replay(day: Day, answer: Answer) -> int:
    """Walk through the steps with nothing but the day's own data; gives the wrap."""
    standing = [list(g.start) for g in day.groups]
    room, time, shot = day.room, day.call, []
    for k, step in enumerate(answer.steps):
        assert step.rig == time, "no gap and no overlap"
        if step.setup < 0:
            meal = day.meals[step.meal]
            assert meal.earliest <= step.start <= meal.latest
            assert step.end == step.start + meal.length
            time = step.end
            continue
        setup = day.setups[step.setup]
        assert step.setup not in shot, "shot once"
        assert all(a in shot for a, b in day.before if b == step.setup and a not in answer.dropped)
        tasks = []
        for g, before, after in step.moves:
            standing[g].remove(before)
            standing[g].append(after)
            tasks.append((day.groups[g].cost[before][after], day.groups[g].hands))
        for need in setup.needs:
            assert any(s in standing[g] for g, s in need), "every need is served"
        assert all(s not in standing[g] for g, s in setup.away), "nothing is in the way"
        work = sum(minutes * hands for minutes, hands in tasks)
        rig = max([minutes for minutes, _ in tasks] + [-(-work // day.riggers)], default=0)
        trip = (day.arrive if room < 0 else day.travel[room])[setup.room]
        assert step.start >= time + trip + setup.fixed + (0 if setup.flat else rig), "time enough to rig"
        assert step.end == step.start + setup.takes
        assert any(lo <= step.start and step.end <= hi for lo, hi in meet(setup.windows)), "inside its windows"
        shot.append(step.setup)
        left = [s.setup for s in answer.steps[k + 1 :] if s.setup >= 0]
        toned = setup.tone and not any(day.setups[i].tone and day.setups[i].room == setup.room for i in left)
        room, time = setup.room, step.end + (day.tone if toned else 0)
    assert sorted([*shot, *answer.dropped]) == list(range(len(day.setups)))
    assert time + day.pack <= day.latest_wrap
    return time + day.pack


@pytest.mark.parametrize("setups", [8, 9, 10])
def test_answers_hold_when_replayed(setups: int) -> None:
    replayed = 0
    for seed in range(12):
        day = invented.day(seed, invented.Mix(setups=setups, late=100, windows=0.15, before=0.1))
        answer = solve(day, 6_000)
        if answer.found:
            assert replay(day, answer) == answer.parts[0].value
            replayed += 1
    assert replayed >= 4


def test_following_an_answer_gives_its_times() -> None:
    followed = 0
    for seed in range(60):
        mix = invented.Mix(setups=6, late=100, windows=0.0, meals=False, options=False, holds=False)
        day = replace(invented.day(seed, mix), tone=0)
        answer = solve(day)
        if answer.found:
            legs = follow(day, tuple(Entry(setup=s.setup) for s in answer.steps))
            assert legs[-1].end + day.pack == answer.parts[0].value
            followed += 1
    assert followed >= 20


@pytest.mark.parametrize("change", ["rigger", "piece", "window", "precedence", "hold"])
def test_more_never_hurts(change: str) -> None:
    compared = 0
    for seed in range(40):
        day = invented.day(seed, invented.Mix(setups=5, optional=False, late=60))
        before = solve(day)
        if not before.found:
            continue
        after = solve(richer(day, change))
        assert after.found
        assert after.parts[0].value <= before.parts[0].value, seed
        compared += 1
    assert compared >= 15


def richer(day: Day, change: str) -> Day:
    """The day with a little more of something, or one wish less."""
    if change == "rigger":
        return replace(day, riggers=day.riggers + 1)
    if change == "piece":
        return replace(day, groups=tuple(replace(g, start=(*g.start, 0)) for g in day.groups))
    if change == "window":
        wide = tuple(
            replace(s, windows=tuple(replace(w, spans=tuple((a - 9, b + 9) for a, b in w.spans)) for w in s.windows))
            for s in day.setups
        )
        return replace(day, setups=wide)
    if change == "precedence":
        return replace(day, before=day.before[1:])
    return replace(day, holds=())
