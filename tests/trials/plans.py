"""Small plans for the tests of trials, and asking for them from the command line."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hotset.cli import main

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
LAST_BOAT = EXAMPLES / "last-boat" / "plan.yaml"

ROOM = """\
hotset: 1   # keep this comment
days: {1: {call: 08:00, wrap: 18:00, load-in: 30 min, wrap-out: 30 min, order: [wide, close, room-tone, door]}}
locations:
  landing:
    mains: 230 V 50 Hz
    circuits: {ground-floor: {breaker: 10 A, already: 300 W}, first-floor: {breaker: 16 A}}
    sets: {office: {size: 4.2 m x 3.6 m x 2.4 m}, hall: {size: 6 m x 5 m x 3 m}}
people:
  mara: {plays: CLERK, here: "08:00-18:00"}
  olek: {works: camera, skills: [boom, rig]}
  jon: {works: sound, skills: [boom, rig]}
gear:
  big-lamp: {kind: light, draws: 1000 W, factor: 0.95, plan-b: spot}   # the big one
  spot: {kind: light, draws: 400 W}
  panel: {kind: light, quantity: 2, runs: 8 h}
  boom: {kind: sound}
setups:
  wide:
    set: office
    takes: 1 h
    rig: 0 min
    lights:
      quay: {lamp: big-lamp, circuit: ground-floor}   # 'quoted'
      fill: {lamp: panel}
    sound: {boom: boom, by: jon}
    hands: {camera: olek, boom: jon}
  close:
    like: wide
    lights:
      edge: {lamp: panel}
  door: {set: hall, takes: 1 h, rig: 0 min, hands: {camera: olek}}
scenes:
  4:
    heading: INT. OFFICE - DAY
    sound: sync
    shots:
      4A: {setup: wide, cast: [CLERK], takes: 1 h}
      4B: {setup: close, cast: [CLERK], takes: 1 h, priority: want}
      4C: {setup: door, cast: [], takes: 1 h, sound: mos}
"""


def write(folder: Path, text: str, name: str = "plan.yaml") -> Path:
    """A plan on disk."""
    path = folder / name
    path.write_text(text, "utf-8")
    return path


def ask(capsys: pytest.CaptureFixture[str], *args: str) -> tuple[int, str]:
    """Exit status and what was printed, both streams together, with broken lines joined again."""
    status = main(list(args))
    said = capsys.readouterr()
    return status, " ".join((said.out + said.err).split())


def data(capsys: pytest.CaptureFixture[str], *args: str) -> Any:
    """What was printed as JSON."""
    main([*args, "--format", "json"])
    return json.loads(capsys.readouterr().out)
