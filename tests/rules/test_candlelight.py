"""A scene by candlelight: the flame is the key, and in a closed room it wants air.

Lux by the inverse square of the distance; lux asked for by ISO 2720 with C = 250: N2 C / (t S).
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hotset.cli import main

from .plans import compiled

PLAN = """\
hotset: 1
locations:
  house:
    sets:
      kitchen:
        size: 4 m x 4 m x 2.5 m
        marks: {letter: {at: [2.0 m, 2.0 m], thing: true, height: 0.8 m}}
        windows: {pane: {wall: east, from: 1 m, sill: 1 m, width: 1 m, height: 1 m}}
gear: {candle: {kind: prop, practical: true, of: candle, gives: {bare: 1 lx at 1 m}}}
stock: {cloth: {opaque: true, roll: 3 m x 12 m}}
setups:
  candle:
    set: kitchen
    camera: {iso: 3200, stop: T2.0, shutter: 1/50 s, fps: 25 fps}
    key-at: letter
    windows: {pane: {black-out: cloth}}
    practicals: {flame: {prop: candle, battery: own, at: [2.0 m, 2.25 m], height: 0.8 m}}
scenes: {1: {shots: {1A: {setup: candle}}}}
"""


def test_the_flame_is_measured_as_the_key(tmp_path: Path) -> None:
    """1 lx at 1 m is 16 lx at 25 cm; T2 at 1/50 s and 3200 ISO asks for 4 x 250 / (0.02 x 3200) = 15.6 lx."""
    found = compiled(PLAN, tmp_path)
    assert not [f for f in found.findings if f.rule in ("under-exposed", "over-exposed")]
    assert found.facts is not None
    assert found.facts.readings["candle"].lux == pytest.approx(16.0, rel=1e-6)


def test_a_flame_that_gives_next_to_nothing_is_said(tmp_path: Path) -> None:
    found = compiled(PLAN.replace("1 lx at 1 m", "0.001 lx at 1 m"), tmp_path)
    (dark,) = (f for f in found.findings if f.rule == "under-exposed")
    assert dark.sentence.startswith("'letter' in 'candle' gets 0.016 lx from 'flame', and T2 ")
    assert dark.sentence.endswith("10 stops under")


def test_a_flame_of_which_nothing_is_said_is_not_called_checked(tmp_path: Path) -> None:
    found = compiled(PLAN.replace(", gives: {bare: 1 lx at 1 m}", ""), tmp_path)
    wants = {n.rule: n.wants for n in found.coverage.not_checked}
    assert wants["under-exposed"] == "'gives:' of 'candle', such as bare: 1 lx at 1 m"


def asked(capsys: pytest.CaptureFixture[str], folder: Path, text: str) -> dict[str, str]:
    plan = folder / "plan.yaml"
    plan.write_text(text, "utf-8")
    assert main(["ask", "setup", "--plan", str(plan), "--name", "candle", "--format", "json"]) == 0
    out = capsys.readouterr().out
    assert json.loads(out)
    return {"out": " ".join(out.split())}


def test_the_setup_tells_where_it_is_measured_and_what_lacks(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "measured at" in asked(capsys, tmp_path, PLAN)["out"]
    lacking = asked(capsys, tmp_path, PLAN.replace(", gives: {bare: 1 lx at 1 m}", ""))["out"]
    assert "not known: wants 'gives:' of 'candle'" in lacking
    nowhere = asked(capsys, tmp_path, PLAN.replace("    key-at: letter\n", ""))["out"]
    assert "not known: wants 'key-at:' (where the key is measured)" in nowhere


@pytest.mark.parametrize(
    ("said", "instead", "burns"),
    [
        ("", "", True),
        ("of: candle,", "of: LED candle,", False),
        ("battery: own,", "circuit: ring,", False),
        ("windows: {pane: {black-out: cloth}}", "windows: {pane: {open: true}}", False),
        ("2.5 m\n", "2.5 m\n        vents: the door\n", False),
    ],
)
def test_a_flame_in_a_closed_room_wants_air(tmp_path: Path, said: str, instead: str, *, burns: bool) -> None:
    text = PLAN.replace(said, instead) if said else PLAN
    if "circuit" in instead:
        text = text.replace("    sets:\n", "    circuits: {ring: {breaker: 16 A, feeds: [kitchen]}}\n    sets:\n", 1)
    found = [f.sentence for f in compiled(text, tmp_path).findings if f.rule == "blackout-without-air"]
    closed = "whose windows are all closed over in 'candle', and no vents are named"
    assert found == ([f"'flame' burns in 'house/kitchen', {closed}"] if burns else [])
