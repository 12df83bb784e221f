"""Days made impossible by construction: what is said to clash does, nothing of it is too much, every way out works.

Everything is judged by trying every order (`brute`), which shares nothing with the search but the day's data, and each
way out is solved again; wraps and calls are changed in the plan's text, too.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest
from hotset.facts.numbers import MUST, Day
from hotset.order import DayOrder, plan_day, speak
from hotset.order.clash import all_wishes
from hotset.order.explain import after, granted
from hotset.order.solve import solve

sys.path.insert(0, str(Path(__file__).parent))

import brute
import impossible
from plans import plan_of, setups


def able(day: Day) -> bool:
    """Whether the musts of a day can be shot, every order tried."""
    musts = musts_of(day)
    return not musts or brute.Brute(day, musts).best() is not None


def musts_of(day: Day) -> tuple[int, ...]:
    return tuple(i for i, s in enumerate(day.setups) if s.priority == MUST)


def faults(result: DayOrder) -> list[str]:
    """Everything that is wrong with the explanation of a day."""
    clash, day = result.clash, result.day.day
    if result.order or clash is None:
        return ["not found impossible"]
    found = [] if clash.sure else ["not sure"]
    if able(granted(day, list(clash.wishes))):
        found.append("the wishes can all be had")
    found += [f"{w} is not needed" for w in clash.wishes if not able(granted(day, [x for x in clash.wishes if x != w]))]
    for dropped, more in clash.others:
        if dropped not in clash.wishes or dropped in more:
            found.append(f"{dropped} is not what tells the second cause from the first")
        if able(granted(day, list(more))):
            found.append(f"{more} can all be had")
        found += [f"{w} is not needed" for w in more if not able(granted(day, [x for x in more if x != w]))]
    if not clash.others and len(musts_of(day)) == 1:  # one setup, one cause: letting any wish go frees the whole day
        wishes = all_wishes(day)
        found += [f"{w} frees nothing" for w in clash.wishes if not able(granted(day, [x for x in wishes if x != w]))]
    for way in clash.ways_out:
        new = after(day, way)
        if not (able(new) and solve(new).found):
            found.append(f"{way} is no way out")
    return found if clash.ways_out else [*found, "no way out"]


def moved(text: str, key: str, half_minutes: int) -> str:
    """The text with the first clock time of a key moved."""
    match = re.search(rf'{key}: "(\d\d):(\d\d)"', text)
    assert match is not None
    at = int(match[1]) * 60 + int(match[2]) + half_minutes // 2
    return text.replace(match[0], f'{key}: "{at // 60:02d}:{at % 60:02d}"', 1)


@pytest.mark.parametrize("number", range(impossible.COUNT))
def test_what_clashes_is_irreducible_and_every_way_out_works(number: int) -> None:
    kind, text = impossible.plan(number)
    result = plan_day(plan_of(text), "1")
    assert faults(result) == [], kind
    assert result.clash is not None
    for way in result.clash.ways_out:
        if way.kind == "call" or (way.kind == "wrap" and not result.day.ends):
            by = way.half_minutes if way.kind == "wrap" else -way.half_minutes
            assert plan_day(plan_of(moved(text, way.kind, by)), "1").order
    said = " ".join(speak(result).split())
    assert "Ways out, each tried: - " in said


def test_a_day_with_far_too_much_says_what_to_take_to_another_day() -> None:
    lines = [f"s{k}: {{set: {('hall', 'loft')[k % 2]}, takes: {40 + 5 * k} min, rig: 10 min}}" for k in range(9)]
    result = plan_day(plan_of(setups(*lines).replace('wrap: "20:00"', 'wrap: "11:30"')), "1")
    assert result.clash is not None
    assert result.clash.sure
    (way,) = result.clash.ways_out
    assert {w.kind for w in way.wishes} == {"must"}
    new = after(result.day.day, way)
    assert solve(new).found
    everything = all_wishes(result.day.day)
    for wish in way.wishes:  # none of them could stay
        rest = [w for w in everything if w not in way.wishes or w == wish]
        assert not solve(granted(result.day.day, rest)).found
    assert "to another day" in speak(result)


def test_two_causes_are_told_apart_and_what_can_be_asked_for_mends_both() -> None:
    """Dusk at 52 N in March is after the wrap and after whoever is in it has left."""
    text = """
hotset: 1
days: {1: {date: 2027-03-06, call: 08:00, wrap: 18:00, load-in: 0 min, wrap-out: 0 min}}
locations:
  house: {at: "52.40 N, 4.90 E", zone: Europe/Amsterdam, sets: {garden: {size: 10 m x 10 m, outdoors: true}}}
people: {wil: {plays: FATHER, here: 08:00-17:00}}
setups: {dusk: {set: garden, needs: dusk, rig: 0 min, takes: 30 min, cast: [wil]}}
"""
    result = plan_day(plan_of(text), "1")
    assert faults(result) == []
    assert result.clash is not None
    assert [w.kind for w in result.clash.wishes] == ["must", "window", "wrap"]
    ((dropped, more),) = result.clash.others
    assert dropped.kind == "wrap"
    assert [result.day.day.setups[0].windows[w.window].why for w in more[1:]] == ["needs dusk", "'wil' is here"]
    said = " ".join(speak(result).split())
    assert "Even with a later wrap these cannot all be had:" in said
    assert "needs dusk, 18:29-19:02 - 'wil' is here, 08:00-17:00" in said
    assert "- all of these: wrap 59 min later, at 18:59; have 'wil' here at other hours" in said
    one = plan_day(plan_of(text.replace("wrap: 18:00", "wrap: 21:00")), "1")
    assert faults(one) == []
    assert "another cause" not in speak(one)
    assert "'wil' stays until 19:00, 2 h longer" in speak(one)


def test_every_kind_of_conflict_is_told_in_its_own_words() -> None:
    said = {}
    for number in range(len(impossible.KINDS)):
        kind, text = impossible.plan(number)
        said[kind] = " ".join(speak(plan_day(plan_of(text), "1")).split())
    expected = {
        "access hours": "have 'house' open until",
        "cast hours": "'mara' stays until",
        "cloth": "'shut' is pinned",
        "cycle": "let 'c0' come before 'c1' after all",
        "day too short": "call everybody",
        "gone before dark": "shoot 'night' when it is not dark",
        "hot set": "do not hold 'hot' hot",
        "loan": "keep 'lamp' until",
        "meal": "make two setups of 'long', and eat between them",
        "one lamp, two rooms": "later than pinned",
        "rest between days": "so that there are 11 h of rest before day 2",
        "turned round": "let 'then' come before 'first' after all",
        "two causes": "Even with a later wrap these cannot all be had:",
        "windows": "may begin at",
    }
    assert {kind: words in said[kind] for kind, words in expected.items()} == dict.fromkeys(expected, True)
    assert not any("without meal" in words or "give up the meal" in words for words in said.values())
