"""What the crew has to touch from one setup to the next, and what it may leave alone."""

from __future__ import annotations

from pathlib import Path

from hotset.documents.changes import before_in_set, lamp_numbers, lamp_steps, thing_steps
from hotset.pipeline import compile_plan
from hotset.plan import Plan

PLAN = """
hotset: 1
locations: {a: {sets: {room: {windows: {w: {}}}, hall: {}}}}
gear: {key: {kind: light}, tube: {kind: light, quantity: 2}, board: {kind: grip}}
stock: {cloth: {opaque: yes}}
setups:
  one:
    set: a/room
    windows: {w: {black-out: cloth}}
    lights:
      quay: {lamp: key, at: [1 m, 1 m], level: 50 %, bounce: board, effect: {flashes: 1 per s}, note: mind the wall}
      door: {lamp: tube, at: [2 m, 1 m]}
  two: {like: one}
  three: {like: one, lights: {quay: {level: 60 %}, door: {at: [3 m, 1 m]}}}
  four: {set: a/room, lights: {moon: {lamp: key, at: [0 m, 0 m]}}}
  five: {set: a/hall, lights: {glow: {lamp: tube}}}
"""


def plan(tmp_path: Path) -> Plan:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN)
    made = compile_plan([str(path)]).plan
    assert made is not None
    return made


def test_nothing_written_nothing_touched(tmp_path: Path) -> None:
    setups = plan(tmp_path).setups
    assert [s.step for s in lamp_steps(setups["two"], setups["one"])] == ["keep", "keep"]
    assert [s.step for s in thing_steps(setups["two"].windows, setups["one"].windows)] == ["keep"]


def test_set_anew_is_not_moved(tmp_path: Path) -> None:
    setups = plan(tmp_path).setups
    steps = lamp_steps(setups["three"], setups["one"])
    assert [(s.name, s.step, s.changed) for s in steps] == [("quay", "change", ("level",)), ("door", "move", ("at",))]


def test_the_same_lamp_under_another_name_has_moved(tmp_path: Path) -> None:
    setups = plan(tmp_path).setups
    steps = lamp_steps(setups["four"], setups["one"])
    assert [(s.name, s.step, s.was) for s in steps] == [("moon", "move", "quay"), ("door", "remove", "")]
    assert [s.step for s in thing_steps(setups["four"].windows, setups["one"].windows)] == ["remove"]


def test_before_means_before_in_the_same_set(tmp_path: Path) -> None:
    made = plan(tmp_path)
    order = ("one", "five", "four")
    before = before_in_set(made, order, "four")
    assert before is not None
    assert before.id == "one"
    assert before_in_set(made, order, "five") is None
    numbers = lamp_numbers(made, order)
    assert numbers == {("a/room", "quay"): 1, ("a/room", "door"): 2, ("a/hall", "glow"): 1, ("a/room", "moon"): 3}
