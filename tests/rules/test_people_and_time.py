"""People and time: matching of hands, doubles, presence, and what holds with and without an agreed order."""

from __future__ import annotations

from pathlib import Path

import pytest

from .plans import compiled, conflicts

HANDS = """
hotset: 1
people:
  olek: {works: camera}
  jon: {works: [sound, light]}
  bea: {WHO}
gear: {panel: {kind: light, quantity: 3}}
setups:
  wide:
    camera: {height: 1.5 m}
    lights: {lick: {lamp: panel, held-by: any}}
scenes: {4: {characters: [CLERK], SOUND, shots: {4A: {setup: wide, CAST}}}}
"""


def rules(text: str, folder: Path) -> list[str]:
    return [f.rule for f in conflicts(text, folder)]


@pytest.mark.parametrize(
    ("who", "sound", "cast", "speaks"),
    [
        ("plays: CLERK", "sound: mos", "count: 2", []),  # jon holds the lamp
        ("plays: CLERK", "sound: sync", "count: 2", ["nobody-free"]),  # jon records
        ("works: light, plays: CLERK", "sound: sync", "count: 2", ["nobody-free"]),  # bea is in the picture
        ("works: light, plays: CLERK", "sound: sync", "cast: []", []),  # and here she is not
        ("works: light, plays: CLERK, minor: true", "sound: sync", "cast: []", ["nobody-free"]),
    ],
)
def test_hands_are_matched(who: str, sound: str, cast: str, speaks: list[str], tmp_path: Path) -> None:
    text = HANDS.replace("WHO", who).replace("SOUND", sound).replace("CAST", cast)
    found = [r for r in rules(text, tmp_path) if r != "no-emergency-contact"]
    assert found == speaks


def test_one_who_pulls_focus_may_also_operate_and_a_mixer_may_boom(tmp_path: Path) -> None:
    plan = """
hotset: 1
people: {olek: {works: camera}, jon: {works: sound}}
setups: {wide: {camera: {height: 1 m}, hands: {camera: olek, focus: olek, boom: jon, script: jon}, sound: {by: jon}}}
"""
    assert rules(plan, tmp_path) == []


def test_two_lamps_held_at_different_times_may_be_one_persons(tmp_path: Path) -> None:
    plan = """
hotset: 1
people: {jon: {works: light}, olek: {works: camera}}
gear: {panel: {kind: light, quantity: 2}}
setups:
  wide:
    lights: {a: {lamp: panel, held-by: jon, during: the knock}, b: {lamp: panel, held-by: jon, DURING}}
"""
    assert rules(plan.replace("DURING", "during: the exit"), tmp_path) == []
    assert rules(plan.replace("DURING", "height: 2 m"), tmp_path) == ["person-in-two-places"]


def test_two_units_do_not_share_people_at_the_same_hour(tmp_path: Path) -> None:
    plan = """
hotset: 1
days:
  1: {date: 2026-11-14, call: 08:00, wrap: 12:00, people: [jon]}
  2: {date: 2026-11-14, call: CALL, wrap: 18:00, unit: second, people: [jon]}
people: {jon: {works: sound}}
"""
    assert rules(plan.replace("CALL", "11:00"), tmp_path) == ["person-in-two-places"]
    assert rules(plan.replace("CALL", "12:00"), tmp_path) == []


def test_without_people_hands_are_not_checked(tmp_path: Path) -> None:
    done = compiled("hotset: 1\nsetups: {wide: {camera: {height: 1 m}}}\n", tmp_path)
    assert ("nobody-free", "hands") in {(s.rule, s.subject) for s in done.coverage.not_checked}


def test_presence_is_by_day_and_by_the_days_list(tmp_path: Path) -> None:
    plan = """
hotset: 1
days: {1: {call: 08:00, wrap: 18:00, LIST}}
people: {lea: {works: camera, HOURS}, jon: {works: light}}
setups: {wide: {hands: {camera: lea}}}
"""
    assert rules(plan.replace("LIST", "people: [lea, jon]").replace("HOURS", "here: 09:00-12:00"), tmp_path) == []
    assert rules(plan.replace("LIST", "people: [jon]").replace("HOURS", "here: 09:00-12:00"), tmp_path) == [
        "outside-availability"
    ]
    assert rules(plan.replace("LIST", "unit: main").replace("HOURS", "here: 19:00-22:00"), tmp_path) == [
        "outside-availability"
    ]


CAST = """
hotset: 1
days: {1: {call: 08:00, wrap: 18:00, load-in: 0 min, ORDER}}
people: {mara: {plays: CLERK, here: HOURS}}
setups: {wide: {rig: 0 min, takes: 1 h}, close: {rig: 0 min, takes: 1 h}}
scenes: {4: {shots: {4A: {setup: wide, cast: []}, 4B: {setup: close, cast: [mara]}}}}
"""


@pytest.mark.parametrize(
    ("order", "hours", "speaks"),
    [
        ("order: [close, wide]", "08:00-09:30", []),  # 08:00 to 09:00
        ("order: [wide, close]", "08:00-09:30", ["cast-window"]),  # 09:00 to 10:00
        ("order: [close, wide]", "09:00-10:00", []),  # the crew waits an hour
        ("order: [wide, close]", "08:00-10:00, before: 75 min", ["cast-window"]),  # ready at 09:15
        ("unit: main", "08:00-09:30", []),  # some order can
    ],
)
def test_cast_hours_follow_the_agreed_order(order: str, hours: str, speaks: list[str], tmp_path: Path) -> None:
    assert rules(CAST.replace("ORDER", order).replace("HOURS", hours), tmp_path) == speaks


def test_a_circle_over_shots_and_setups_is_found_once(tmp_path: Path) -> None:
    plan = """
hotset: 1
setups: {a: {after: b}, b: {takes: 10 min}, c: {before: b}}
scenes: {1: {shots: {1A: {setup: a, before: 1C}, 1C: {setup: c}, 1B: {setup: b}}}}
"""
    found = conflicts(plan, tmp_path)
    assert [f.rule for f in found] == ["order-cycle"]
    assert "a -> b -> c -> a" in found[0].sentence


def test_a_long_chain_of_setups_is_no_circle_and_costs_no_stack(tmp_path: Path) -> None:
    lines = [f"  s{i}: {{after: s{i - 1}}}" if i else "  s0: {takes: 1 min}" for i in range(3000)]
    assert rules("hotset: 1\nsetups:\n" + "\n".join(lines) + "\n", tmp_path) == []


def test_an_order_that_names_what_is_not_there(tmp_path: Path) -> None:
    plan = """
hotset: 1
days: {1: {call: 08:00, order: [wide, clsoe, meal, room-tone]}}
setups: {wide: {takes: 10 min}, close: {takes: 10 min, priority: if-time}}
"""
    found = conflicts(plan, tmp_path)
    assert [f.rule for f in found] == ["unknown-name"]
    assert "did you mean 'close'" in found[0].sentence


def test_a_day_past_midnight(tmp_path: Path) -> None:
    plan = """
hotset: 1
days:
  1:
    {call: 18:00, wrap: WRAP, load-in: 1 h, wrap-out: 1 h, buffer: 0 s, order: [wide, meal, close], meal: {takes: 1 h}}
setups: {wide: {rig: 0 min, takes: 3 h}, close: {rig: 0 min, takes: 2 h}}
"""
    assert rules(plan.replace("WRAP", "02:00"), tmp_path) == []
    found = conflicts(plan.replace("WRAP", "01:30"), tmp_path)
    assert [f.rule for f in found] == ["day-too-long"]
    assert "30 min too much" in found[0].sentence


ERRAND = """
hotset: 1
days: {1: {date: 2026-11-14, call: 08:00, load-in: 30 min, order: [wide, close]}}
people: {olek: {works: camera}, bea: {works: sound}}
gear: {board: {kind: grip, DUTY}}
setups:
  wide: {takes: 1 h, rig: 0 min, hands: {camera: olek}}
  close: {takes: 1 h, rig: 0 min, hands: {camera: olek, boom: bea}USES}
"""


@pytest.mark.parametrize(
    ("duty", "uses", "speaks"),
    [
        ("fetch: {by: bea, at: 2026-11-14 09:00, takes: 20 min}", "", False),  # while 'wide' is shot
        ("fetch: {by: bea, at: 2026-11-14 09:20, takes: 20 min}", "", True),
        ("fetch: {by: bea, at: 2026-11-14 09:00}", "", False),  # half an hour where it does not say
        ("fetch: {by: bea, at: 2026-11-13 09:20, takes: 20 min}", "", False),
        ("due: 2026-11-14 10:40, return: {by: bea, takes: 20 min}", "", True),  # on the way from 10:20
        ("due: 2026-11-14 10:50, return: {by: bea, takes: 20 min}", "", False),
        ("due: 2026-11-14 10:40, return: {by: olek, at: 2026-11-14 08:00, takes: 20 min}", "", False),
        ("due: 2026-11-14 10:40, return: {by: bea, takes: 20 min}", ", grip: {b: {use: board}}", False),  # due-back
    ],
)
def test_nobody_is_on_an_errand_and_at_a_job(duty: str, uses: str, speaks: bool, tmp_path: Path) -> None:
    found = rules(ERRAND.replace("DUTY", duty).replace("USES", uses), tmp_path)
    assert ("person-in-two-places" in found) == speaks
    assert ("due-back" in found) == bool(uses)


HELD = """
hotset: 1
days: {1: {date: 2026-11-14, call: 08:00, load-in: 30 min, MORE order: [wide, close]}}
people:
  olek: {works: camera}
  bea: {works: art, BEA}
gear: {panel: {kind: light}, board: {kind: grip, FETCH}}
setups:
  wide: {takes: 1 h, rig: 0 min, hands: {camera: olek}}
  close: {takes: 1 h, rig: 0 min, hands: {camera: olek}, lights: {lick: {lamp: panel, held-by: any}}}
"""


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ({}, ""),
        ({"BEA": "here: 08:00-10:29"}, "'bea' leaves at 10:29"),  # the takes run from 09:30 to 10:30
        ({"BEA": "here: 08:00-10:30"}, ""),
        ({"BEA": "call: 10:00"}, "'bea' comes at 10:00"),
        (
            {"FETCH": "fetch: {by: bea, at: 2026-11-14 09:00, takes: 40 min}"},
            "'bea' fetches 'board' from 09:00 to 09:40",
        ),
    ],
)
def test_hands_are_free_only_while_they_are_there(said: dict[str, str], words: str, tmp_path: Path) -> None:
    text = HELD
    for key, value in ({"MORE": "", "BEA": "name: Bea", "FETCH": "weight: 1 kg"} | said).items():
        text = text.replace(key, value)
    found = [f.sentence for f in conflicts(text, tmp_path) if f.rule == "nobody-free"]
    assert len(found) == bool(words)
    assert all(sentence.endswith(f"and nobody is free for it; {words}") for sentence in found)
