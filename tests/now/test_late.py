"""When it is late: the nearest order that fits, the ways to win time, and what is never among them."""

from __future__ import annotations

import os
import subprocess
import sys
from itertools import permutations
from pathlib import Path

import pytest
from hotset.facts.numbers import FOREVER
from hotset.now import answer, lines
from hotset.now.judge import judge
from hotset.now.retime import retimed
from hotset.now.ways import Change, changed

from .lived import EXAMPLES, ask, clock, example, log_of, perfect, plan_of

WINDOWS = """
hotset: 1
title: Invented
days: {1: {call: "08:00", wrap: "15:00", load-in: 30 min, wrap-out: 30 min, order: [a, b, c, d, e]}}
setups:
  a: {takes: 40 min, rig: 10 min}
  b: {takes: 40 min, rig: 10 min}
  c: {takes: 40 min, rig: 10 min}
  d: {takes: 30 min, rig: 10 min, between: 08:00-12:30}
  e: {takes: 20 min, rig: 10 min, between: 08:00-12:15}
"""


@pytest.mark.parametrize(("ended", "turned"), [("09:20", 0), ("10:00", 2), ("10:20", 3), ("10:35", 4)])
def test_the_order_that_fits_with_the_fewest_pairs_turned_round_is_taken(ended: str, turned: int) -> None:
    plan = plan_of(WINDOWS.replace("08:00-12:15", "08:00-13:00") if ended == "09:20" else WINDOWS)
    found = ask(plan, f"rolled a 08:40\ndone a {ended}\n", ended)
    day, left = found.rest.day, ("b", "c", "d", "e")
    fitting: dict[int, int] = {}
    for order in permutations(left):
        pairs = sum(order.index(x) > order.index(y) for k, x in enumerate(left) for y in left[k + 1 :])
        verdict = judge(day, order)
        if not verdict.missed and verdict.wrap <= found.rest.limit:
            fitting[pairs] = min(fitting.get(pairs, FOREVER), verdict.wrap)
    assert found.way.turned == min(fitting) == turned
    assert found.way.timeline.wrap == fitting[turned]
    assert found.way.lost == ()


def test_a_window_that_has_passed_is_told_and_the_rest_goes_on() -> None:
    found = ask(plan_of(WINDOWS), "done a 12:05\n", "12:05")
    assert found.way.lost == (("d", "between (until 12:30)"), ("e", "between (until 12:15)"))
    assert found.way.order == ("b", "c", "meal")  # the wrap would come more than six hours after the call
    said = [words for _, words in lines(found)]
    assert "'e' (e) cannot be had any more: between (until 12:15)" in said


LATE = """
hotset: 1
title: Invented
days: {1: {call: "08:00", wrap: "13:00", load-in: 30 min, wrap-out: 30 min, order: [a, b, c]}}
people: {ada: {name: Ada, works: [direction]}, gus: {name: Gus, works: [gaffer], skills: [rig]}}
locations: {house: {sets: {hall: {size: 5 m x 5 m x 3 m}}}}
gear: {lamp: {kind: light}, tube: {kind: light}, eye: {kind: camera}, glass: {kind: lens, focal: 35 mm}}
setups:
  a: {set: hall, camera: {body: eye, lens: glass, at: [1 m, 2 m], height: 1.5 m, aim: [4 m, 2 m]}}
  b:
    set: hall
    camera: {body: eye, lens: glass, at: [1 m, 2.5 m], height: 1.5 m, aim: [4 m, 2 m]}
    lights:
      key: {lamp: lamp, at: [3 m, 3 m], role: key}
      rim: {lamp: tube, at: [4 m, 4 m], role: edge}
  c: {set: hall, camera: {body: eye, lens: glass, at: [4 m, 2 m], height: 1.5 m, aim: [1 m, 2 m]}}
scenes:
  1:
    shots:
      1A: {setup: a, size: WS, takes: 40 min}
      1B: {setup: b, size: MS, takes: 30 min}
      1C: {setup: b, size: MS, takes: 20 min}
      1D: {setup: b, size: CU, takes: 10 min, priority: if-time}
      1E: {setup: b, size: CU, takes: 12 min, priority: want}
      1F: {setup: c, size: MS, takes: 30 min, priority: want}
"""


def test_each_way_says_what_it_saves_what_breaks_and_whom_to_ask() -> None:
    plan = plan_of(LATE)
    found = ask(plan, "done 1A 10:20\n", "10:20")
    assert found.choice is not None
    assert found.choice.need == found.behind
    said = "\n".join(words for _, words in lines(found))
    assert found.behind is not None
    assert found.behind > 60
    assert (
        "never to be cut: meal, rest, safety, two verified copies of every card, room tone, putting the house" in said
    )
    assert len(found.choice.options) == 3
    for option in found.choice.options:
        assert option.saved > 0
        assert option.breaks
        assert option.ask in ("Ada (the director)", "Gus (the gaffer)")


def test_every_kind_of_way_is_tried_and_its_minutes_are_true() -> None:
    from hotset.now.cuts import lamps, merges, reverses

    plan = plan_of(LATE)
    found = ask(plan, "done 1A 10:20\n", "10:20")
    merge, _ = merges(found.rest)
    assert merge.words == "shoot 1B and 1C of 'b' as one"
    assert merge.saved == {"1C": 20}
    (reverse,) = reverses(found.rest)
    assert (reverse.kind, reverse.shots) == ("reverse", ("1F",))
    (lamp,) = lamps(found.rest)
    assert lamp.words == "leave 'tube' out of 'b'" or found.rest.going.setup == "b"


def test_lamps_are_left_out_of_what_is_not_yet_rigged() -> None:
    from hotset.now.cuts import lamps

    found = ask(plan_of(LATE), "rolled 1A 08:40\n", "09:00")
    (lamp,) = lamps(found.rest)
    assert (lamp.words, lamp.ask) == ("leave 'tube' out of 'b'", "Gus (the gaffer)")
    less = changed(found.rest, Change(needs=frozenset(lamp.needs)))
    assert judge(less, found.way.order).wrap < judge(found.rest.day, found.way.order).wrap


def test_if_times_go_before_wants_and_no_more_than_are_needed() -> None:
    plan = plan_of(LATE)
    found = ask(plan, "rolled 1A 08:43\ndone 1A 09:38\n", "09:38")
    assert found.choice is not None
    drops = [o for o in found.choice.options if o.kind in ("if-time", "want")]
    assert all("1B" not in o.change.shots and "1C" not in o.change.shots for o in drops)
    late = ask(plan, "rolled 1A 08:43\ndone 1A 09:24\n", "09:24")
    assert late.choice is not None
    assert "drop 1D" in [o.words for o in late.choice.options if o.kind == "if-time"]
    assert next(o for o in late.choice.options if o.kind == "if-time").enough


def test_many_shots_are_dropped_no_more_than_is_needed() -> None:
    shots = "".join(f"      1X{k}: {{setup: b, size: WS, takes: {3 + k} min, priority: if-time}}\n" for k in range(14))
    plan = plan_of(LATE.replace("13:00", "18:00") + shots)
    found = ask(plan, "rolled 1A 08:36\ndone 1A 10:21\n", "10:21")
    assert found.choice is not None
    drop = next(o for o in found.choice.options if o.kind == "if-time")
    assert drop.enough
    lengths = {p.id: p.left for parts in found.rest.parts.values() for p in parts}
    dropped = [lengths[name] for name in drop.change.shots]
    assert sum(dropped) >= found.choice.need
    assert all(sum(dropped) - one < found.choice.need for one in dropped)


def test_what_the_agreed_day_misses_by_itself_is_told_and_does_not_turn_it_round() -> None:
    text = WINDOWS.replace("08:00-12:15", "08:00-12:00")
    found = ask(plan_of(text), "rolled a 08:40\ndone a 09:20\n", "09:20")
    assert (found.way.turned, found.behind) == (0, 0)
    assert {c.name: c.misses for c in found.coming if c.misses} == {"e": "between (08:00-12:00)"}


def test_a_few_minutes_are_not_worth_a_word() -> None:
    found = ask(plan_of(LATE), "rolled 1A 08:40\ndone 1A 09:19\n", "09:19")
    assert found.behind is not None
    assert found.choice is None


def test_what_waits_anyway_wins_nothing_by_cutting() -> None:
    text = LATE.replace("c: {set: hall,", "c: {set: hall, between: 12:00-13:00,")
    found = ask(plan_of(text), "rolled 1A 08:40\ndone 1A 09:50\n", "09:50")
    assert found.behind == 0
    assert found.choice is None


def test_an_order_timed_anew_is_the_order_followed_anew() -> None:
    plan = example("last-boat")
    found = answer(plan, log_of(plan, perfect(plan, 1300)), 1300)
    whole = judge(found.rest.day, found.way.order)
    assert retimed(found.rest.day.day, whole.legs) == whole.legs
    for parts in found.rest.parts.values():
        less = changed(found.rest, Change(frozenset({parts[-1].id}) if len(parts) > 1 else frozenset()))
        again = judge(less, found.way.order)
        assert [leg.start for leg in retimed(less.day, whole.legs)] == [leg.start for leg in again.legs]


def test_a_hot_set_stays_hot_though_its_first_setup_is_shot() -> None:
    text = """
hotset: 1
title: Invented
days: {1: {call: "08:00", wrap: "18:00", load-in: 30 min, wrap-out: 30 min, order: [a, b, c]}}
locations: {house: {sets: {hall: {size: 5 m x 5 m x 3 m}}}}
gear: {pair: {kind: light, quantity: 2}}
setups:
  a: {set: hall, takes: 10 min, held-until: c, lights: {k: {lamp: pair, at: [1 m, 1 m]}}}
  b: {set: hall, takes: 10 min, lights: {k: {lamp: pair, at: [2 m, 1 m]}}}
  c: {set: hall, takes: 10 min, lights: {k: {lamp: pair, at: [1 m, 1 m]}}}
"""
    found = ask(plan_of(text), "done a 09:00\nrigging b 09:00\n", "09:00")
    assert found.rest.held == ("a",)
    step = found.way.timeline.preparing("c")
    assert step is None
    assert [c.name for c in found.coming] == ["b", "c"]
    assert {(t.piece, t.number) for s in found.way.timeline.steps for t in s.standing} == {("pair", 1), ("pair", 2)}


def test_the_answer_is_the_same_in_every_process(tmp_path: Path) -> None:
    plan = example("last-boat")
    (tmp_path / "day.log").write_text(perfect(plan, 1400, late=80), "utf-8")
    said = []
    for seed in ("1", "99"):
        command = [sys.executable, "-m", "hotset", "now", str(EXAMPLES / "last-boat/plan.yaml")]
        command += ["--log", "day.log", "--at", clock(1480)]
        env = {**os.environ, "PYTHONHASHSEED": seed}
        said.append(subprocess.run(command, capture_output=True, text=True, cwd=tmp_path, env=env).stdout)
    assert said[0] == said[1]
    assert "behind the agreed day" in said[0]
