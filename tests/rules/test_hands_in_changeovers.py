"""The hands of changeovers: who can, who is there at that hour, what is left over and what it costs."""

from __future__ import annotations

from pathlib import Path

import pytest

from .plans import compiled, conflicts

ROOM = """
hotset: 1
days: {1: {date: 2026-11-14, call: 08:00, load-in: 30 min, wrap-out: 30 min, MORE order: [wide, close]}}
locations:
  landing:
    sets:
      office: {size: 4 m x 3 m x 3 m, windows: {hatch: {wall: east, from: 1 m, width: 1 m, height: 1 m, sill: 1 m}}}
people:
  olek: {works: gaffer, skills: rig, emergency: "a, 1"}
  bea: {works: art, emergency: "a, 1", BEA}
gear: {panel: {kind: light, quantity: 3}, legs: {kind: support}, ring: {kind: support, of: gimbal}}
stock: {cloth: {opaque: true, roll: 3 m x 12 m}}
setups:
  wide: {takes: 1 h, rig: 0 min}
  close: {set: office, takes: 10 min, RIG}
"""
WINDOW = "windows: {hatch: {black-out: cloth}}"


def said(tmp_path: Path, bea: str = "", rig: str = WINDOW, more: str = "") -> list[str]:
    text = ROOM.replace("BEA", bea).replace("RIG", rig).replace("MORE", more)
    return [f.sentence for f in conflicts(text, tmp_path) if f.rule == "nobody-to-rig"]


def test_two_who_are_there_are_enough(tmp_path: Path) -> None:
    assert said(tmp_path) == []


@pytest.mark.parametrize(
    ("bea", "more", "words"),
    [
        (
            "here: 10:00-18:00",
            "",
            "'bea' could, but comes at 10:00; waiting for whoever comes, it is done 18 min later",
        ),
        ("here: 08:00-09:00", "", "'bea' could, but leaves at 09:00; before the end of the day nobody can"),
        ("days: {2: 08:00-18:00}", "", "'bea' could, but is not there on day 1"),
        ("before: 2 h", "", "'bea' could, but comes at 10:00"),
        ("", "people: [olek],", "'bea' could, but is not there on day 1"),
    ],
)
def test_a_window_wants_two(bea: str, more: str, words: str, tmp_path: Path) -> None:
    (sentence,) = said(tmp_path, bea, more=more)
    assert "window 'hatch' is changed for 'close' from 09:30 to 09:54 on day 1" in sentence
    assert "it wants two (two at a window), and of those who can, only 'olek' is there" in sentence
    assert words in sentence


def test_who_is_on_an_errand_is_not_there(tmp_path: Path) -> None:
    errand = "gear: {board: {kind: grip, fetch: {by: bea, at: 2026-11-14 09:20, takes: 1 h}}, "
    text = ROOM.replace("BEA", "").replace("RIG", WINDOW).replace("MORE", "").replace("gear: {", errand)
    (found,) = [f for f in conflicts(text, tmp_path) if f.rule == "nobody-to-rig"]
    assert "'bea' could, but fetches 'board' from 09:20 to 10:20" in found.sentence
    assert ("could", "bea") in found.details
    assert ("longer_min", 38) in found.details


def test_who_rigs_ahead_is_not_there(tmp_path: Path) -> None:
    more = 'ahead: [{setup: late, by: bea, from: "09:00", to: "10:00"}],'
    text = ROOM.replace("BEA", "").replace("RIG", WINDOW).replace("MORE", more) + "  late: {takes: 10 min}\n"
    text = text.replace("[wide, close]", "[wide, close, late]")
    (found,) = [f for f in conflicts(text, tmp_path) if f.rule == "nobody-to-rig"]
    assert "'bea' could, but rigs 'late' ahead from 09:00 to 10:00" in found.sentence


def test_a_ladder_wants_a_second_pair_at_its_foot(tmp_path: Path) -> None:
    lamp = "lights: {top: {lamp: panel, on: ceiling, at: [1 m, 1 m], height: 2.8 m}}"
    low = lamp.replace("2.8 m", "2 m")
    assert said(tmp_path, "here: 10:00-18:00", low) == []
    (sentence,) = said(tmp_path, "here: 10:00-18:00", lamp)
    assert "it wants two (somebody foots the ladder)" in sentence


def test_a_ladder_that_nobody_holds_all_day_is_said_once(tmp_path: Path) -> None:
    lamp = "lights: {top: {lamp: panel, on: ceiling, at: [1 m, 1 m], height: 2.8 m}}"
    text = ROOM.replace('  bea: {works: art, emergency: "a, 1", BEA}\n', "").replace("RIG", lamp).replace("MORE", "")
    rules = {f.rule for f in conflicts(text, tmp_path)}
    assert ("work-at-height-alone" in rules, "nobody-to-rig" in rules) == (True, False)


@pytest.mark.parametrize(("lifts", "weight", "speaks"), [("20 kg", "24 kg", True), ("20 kg", "20 kg", False)])
def test_what_one_does_not_lift_two_do(lifts: str, weight: str, speaks: bool, tmp_path: Path) -> None:
    # two who lift 20 kg each lift two thirds of 40 kg, 26.7 kg
    text = ROOM.replace('emergency: "a, 1"', f'emergency: "a, 1", lifts: {lifts}').replace("MORE", "")
    text = text.replace("RIG", "lights: {key: {lamp: panel, on: legs}}").replace("BEA", "here: 10:00-18:00")
    text = text.replace("{kind: light, quantity: 3}", f"{{kind: light, weight: {weight}}}")
    found = [f.sentence for f in conflicts(text, tmp_path) if f.rule == "nobody-to-rig"]
    assert [s for s in found if "too heavy for one" in s or "is carried in" in s] == found
    assert len(found) == 2 * speaks
    assert not [f for f in conflicts(text, tmp_path) if f.rule == "heavy-lift"]


def test_a_gimbal_is_built_by_who_can_and_somebody_who_holds(tmp_path: Path) -> None:
    camera = "camera: {on: ring, height: 1 m}"
    assert said(tmp_path, "skills: gimbal", camera) == []
    (sentence,) = said(tmp_path, "skills: gimbal, here: 10:00-18:00", camera)
    assert "it wants somebody who builds the gimbal and a second pair of hands" in sentence
    assert "nobody who builds the gimbal is there; 'bea' could, but comes at 10:00" in sentence


def test_fewer_hands_than_the_order_counts_with(tmp_path: Path) -> None:
    lamps = ", ".join(f"l{n}: {{lamp: panel, on: legs, at: [{n} m, 1 m]}}" for n in (1, 2, 3))
    lamps = f"lights: {{{lamps}}}"
    assert said(tmp_path, "skills: rig", lamps) == []
    # three lamps of 6 min each: nine for two, eighteen for one
    assert said(tmp_path, "skills: rig, here: 10:00-18:00", lamps) == []  # 9 min more: below 10
    long = ROOM.replace("MORE", "").replace("BEA", "skills: rig, here: 12:00-18:00").replace("RIG", lamps)
    long += "timings: {lamp: 10 min}\n"
    (found,) = [f for f in conflicts(long, tmp_path) if f.rule == "nobody-to-rig"]
    assert "counts with 2 pairs of hands, and the changeovers to 'close' take at least 15 min longer" in found.sentence
    assert "'olek' is there" in found.sentence


def test_who_does_what_is_shared_out(tmp_path: Path) -> None:
    text = ROOM.replace("BEA", "").replace("RIG", f"{WINDOW}, dressing: [a, b]").replace("MORE", "")
    facts = compiled(text, tmp_path).facts
    assert facts is not None
    (one,) = facts.changeovers["1"]
    assert one.undone == ()
    assert "window 'hatch'" in one.does["olek"]
    assert "window 'hatch'" in one.does["bea"]
    assert "dressing 'office'" in one.does["bea"]


def test_one_who_is_missed_everywhere_is_one_cause(tmp_path: Path) -> None:
    text = ROOM.replace("BEA", "days: {2: 08:00-18:00}").replace("RIG", "dressing: [a]").replace("MORE", "")
    text = text.replace("[wide, close]", "[wide, close, third, fourth]")
    text += "".join(f"  {n}: {{set: office, takes: 10 min, dressing: [{n}]}}\n" for n in ("third", "fourth"))
    (found,) = [f for f in conflicts(text, tmp_path) if f.rule == "nobody-to-rig"]
    assert "nobody who dresses the set is there; 'bea' could, but is not there on day 1" in found.sentence
    assert found.sentence.endswith("; so it is for 'third' and 'fourth'")


HEAVY = """
hotset: 1
days: {1: {date: 2026-11-14, call: 08:00, load-in: 30 min, wrap-out: 30 min, order: [wide, close]}}
people:
  olek: {works: gaffer, skills: rig, emergency: "a, 1", lifts: 24 kg, OLEK}
  bea: {works: art, emergency: "a, 1", lifts: 18 kg, BEA}
  cy: {works: sound, emergency: "a, 1", lifts: 12 kg}
gear: {panel: {kind: light, weight: WEIGHT}, legs: {kind: support}}
setups:
  wide: {takes: 1 h, rig: 0 min}
  close: {takes: 10 min, lights: {key: {lamp: panel, on: legs}}}
"""


@pytest.mark.parametrize(
    ("weight", "olek", "bea", "when"),
    [
        # olek and bea lift 2/3 of 42 kg, 28 kg; bea and cy 20 kg; olek and cy 24 kg
        ("28 kg", "name: O", "name: B", []),
        ("26 kg", "name: O", "here: 09:00-18:00", ["carried in"]),
        ("26 kg", "name: O", "here: 08:00-09:00", ["changed for 'close'", "packed"]),
        ("21 kg", "name: O", "here: 08:00-09:00", []),
        ("21 kg", "here: 09:00-18:00", "name: B", ["carried in"]),
        ("20 kg", "here: 09:00-18:00", "name: B", []),
        ("29 kg", "here: 09:00-18:00", "name: B", []),  # no two of them: heavy-lift says so
    ],
)
def test_what_is_heavy_wants_those_who_lift_it(
    weight: str, olek: str, bea: str, when: list[str], tmp_path: Path
) -> None:
    text = HEAVY.replace("WEIGHT", weight).replace("OLEK", olek).replace("BEA", bea)
    found = conflicts(text, tmp_path)
    mine = [f.sentence for f in found if f.rule == "nobody-to-rig"]
    assert sorted(w for w in ("carried in", "changed for 'close'", "packed") if any(w in s for s in mine)) == when
    assert ("heavy-lift" in {f.rule for f in found}) == (weight == "29 kg")
