"""A generator that is left running between two setups, and what its circuit is said to carry.

A full tank lasts 'runs:' at 'gives:'; idling takes three tenths of full power (common practice, no source).
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hotset.cli import main

from .plans import compiled

PLAN = """\
hotset: 1
days: {1: {call: "08:00", load-in: 30 min, wrap-out: 30 min, order: [early, dry-scene, late]}}
locations:
  quay:
    mains: 230 V 50 Hz
    circuits: {genny: {gives: 2000 W, runs: 1 h}}
    sets: {pier: {size: 12 m x 6 m, outdoors: true}}
gear: {lamp: {kind: light, draws: 800 W, factor: 1}}
setups:
  early: {set: pier, rig: 20 min, takes: 10 min, lights: {a: {lamp: lamp, circuit: genny, level: 10 %}}}
  dry-scene: {set: pier, rig: 20 min, takes: 5 h, needs: any}
  late: {set: pier, rig: 20 min, takes: 10 min, lights: {a: {lamp: lamp, circuit: genny, level: 10 %}}}
"""


def test_it_runs_dry_between_two_setups_and_is_stopped_there(tmp_path: Path) -> None:
    """Lit from 08:40 to 09:00 at 80 W of 2000: 0.3 + 0.7 x 0.04 = 0.328 of 60 min, 6.6 min; the 53.4 that are left last
    178 min idling, to 11:58."""
    (found,) = (f for f in compiled(PLAN, tmp_path).findings if f.rule == "station-runs-dry")
    assert found.sentence.startswith(
        "'genny' runs dry at 11:58 on day 1, idling between 'early' and 'late', whose lamps are lit from 14:30 on: "
    )
    assert "up to 80 W at a time at their levels, 800 W at full power" in found.sentence
    assert found.ways_out[0].startswith("stop the engine between 'early' and 'late'")
    assert not any("one setup alone" in way for way in found.ways_out)


def test_the_circuit_is_said_in_round_amperes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """2000 W at 230 V are 8.7 A; 800 W at a factor of 1 are 3.5 A."""
    plan = tmp_path / "plan.yaml"
    plan.write_text(PLAN, "utf-8")
    assert main(["whereabouts", str(plan), "genny", "--format", "json"]) == 0
    words = [s["words"] for s in json.loads(capsys.readouterr().out)["stretches"]]
    assert "3.5 A of 8.7 A in 'early': 'a' 800 W" in words
    assert words[0] == "nothing of ours is on it"
