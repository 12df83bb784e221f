"""The smallest repair: found by trying, proven by compiling again, written without touching anything else."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.pipeline import compile_plan
from hotset.trials.repair import repairs

from .plans import LAST_BOAT, ROOM, ask, data, write

FULL = ROOM.replace("already: 300 W", "already: 1500 W")
CASES = {
    "a lamp on another circuit": (
        ("already: 300 W", "already: 1500 W"),
        "setups.wide.lights.quay.circuit: first-floor",
    ),
    "a free lamp of the group": (
        ("fill: {lamp: panel}", "fill: {lamp: big-lamp}"),
        "setups.wide.lights.fill.lamp: spot",
    ),
    "somebody else at the boom": (("boom: jon}\n  close", "boom: olek}\n  close"), "setups.wide.hands.boom: jon"),
    "a setup later in the order": (
        ("  door: {", '  door: {between: "08:00-09:45", '),
        "days.1.order: [door, close, room-tone, wide]",
    ),
    "a room tone that is missing": (
        ("close, room-tone, door]", "close, door]"),
        "days.1.order: [wide, close, room-tone, door]",
    ),
    "a setup that no order holds": (
        ("room-tone, door]", "room-tone]"),
        "days.1.order: [wide, close, room-tone, door]",
    ),
    "a name as it is spelt": (("edge: {lamp: panel}", "edge: {lamp: pannel}"), "setups.close.lights.edge.lamp: panel"),
    "a key as it is spelt": (("factor: 0.95", "fctor: 0.95"), "gear.big-lamp.factor: 0.95"),
}


@pytest.mark.parametrize("case", list(CASES))
def test_it_is_found_shown_and_written(case: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (old, new), expected = CASES[case]
    assert old in ROOM
    text = ROOM.replace(old, new)
    plan = write(tmp_path, text)
    before = compile_plan([str(plan)])
    assert [f for f in before.findings if f.severity != "note"]
    status, said = ask(capsys, "check", str(plan), "--repair")
    assert (status, plan.read_text("utf-8")) == (1, text)
    assert expected in said
    assert "nothing is written" in said
    assert ask(capsys, "check", str(plan), "--repair", "--write")[0] == 0
    after = plan.read_text("utf-8")
    changed = [(a, b) for a, b in zip(text.splitlines(), after.splitlines(), strict=True) if a != b]
    assert len(changed) == 1
    assert [f for f in compile_plan([str(plan)]).findings if f.severity != "note"] == []


def test_a_held_lamp_is_put_on_a_stand(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = ROOM.replace("fill: {lamp: panel}", "fill: {lamp: panel, held-by: any}  # who?").replace(
        "  boom: {kind: sound}", "  boom: {kind: sound}\n  tall-stand: {kind: support, quantity: 3}"
    )
    plan = write(tmp_path, text)
    assert ask(capsys, "check", str(plan), "--repair", "--write")[0] == 0
    assert "fill: {lamp: panel, on: tall-stand}  # who?" in plan.read_text("utf-8")


def test_line_ends_and_mark_stay(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (old, new), _ = CASES["a lamp on another circuit"]
    data_ = b"\xef\xbb\xbf" + ROOM.replace(old, new).replace("\n", "\r\n").encode()
    plan = tmp_path / "plan.yaml"
    plan.write_bytes(data_)
    assert ask(capsys, "check", str(plan), "--repair", "--write")[0] == 0
    assert plan.read_bytes() == data_.replace(b"circuit: ground-floor}", b"circuit: first-floor}")


def test_what_is_inherited_is_mended_where_it_stands(tmp_path: Path) -> None:
    text = ROOM.replace("already: 300 W", "already: 1500 W")
    found = repairs(compile_plan([str(write(tmp_path, text))]))
    assert [edit.path for edit in found.edits] == [("setups", "wide", "lights", "quay", "circuit")]
    assert found.left == ()
    assert [f for f in found.after if f.severity != "note"] == []


def test_a_repair_in_an_included_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    head, gear = ROOM.split("gear:\n")
    gear, rest = gear.split("setups:\n")
    kit = write(tmp_path, "gear:\n" + gear.replace("factor:", "fcator:"), "kit.yaml")
    plan = write(tmp_path, head.replace("days:", "include: kit.yaml\ndays:") + "setups:\n" + rest)
    kept = plan.read_bytes()
    assert ask(capsys, "check", str(plan), "--repair", "--write")[0] == 0
    assert "factor: 0.95" in kit.read_text("utf-8")
    assert plan.read_bytes() == kept


def test_what_cannot_be_spliced_is_said_and_left(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = FULL.replace("quay: {lamp: big-lamp, circuit: ", "quay: {lamp: big-lamp, circuit: &c ")
    plan = write(tmp_path, text)
    kept = plan.read_bytes()
    status, said = ask(capsys, "check", str(plan), "--repair", "--write")
    assert status == 2
    assert "cannot be written for you" in said
    assert "setups.wide.lights.quay.circuit: first-floor" in said
    assert plan.read_bytes() == kept


def test_nothing_small_mends_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = write(tmp_path, FULL.replace(", first-floor: {breaker: 16 A}", ""))
    status, said = ask(capsys, "check", str(plan), "--repair")
    assert status == 1
    assert "nothing that can be tried by itself mends it" in said


def test_a_repair_brings_nothing_new(tmp_path: Path) -> None:
    """The other circuit is as full: a lamp moved there would trip it, so no repair is offered."""
    text = FULL.replace("first-floor: {breaker: 16 A}", "first-floor: {breaker: 4 A}")
    found = repairs(compile_plan([str(write(tmp_path, text))]))
    assert found.found == ()
    assert [f.rule for f in found.left] == ["circuit-overloaded"]


def test_nothing_to_mend_and_write_alone(capsys: pytest.CaptureFixture[str]) -> None:
    assert ask(capsys, "check", str(LAST_BOAT), "--repair") == (0, "nothing to mend: no errors and no warnings")
    status, said = ask(capsys, "check", str(LAST_BOAT), "--write")
    assert (status, "--write belongs to --repair" in said) == (2, True)


def test_the_same_plan_gives_the_same_repair(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = write(tmp_path, ROOM.replace("already: 300 W", "already: 1500 W").replace("factor: 0.95", "fctor: 0.95"))
    first = data(capsys, "check", str(plan), "--repair")
    assert first == data(capsys, "check", str(plan), "--repair")
    assert len(first["repairs"]) == 2
