"""A meal that has hours of its own begins within them in the agreed order."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.cli import main

PLAN = """
hotset: 1
days:
  1: {call: "08:00", load-in: 30 min, meal: {between: "HOURS", takes: 30 min}, order: [wide, meal, close]}
setups: {wide: {takes: 2 h, rig: 0 min}, close: {takes: 1 h, rig: 0 min}}
"""  # the meal begins at 10:30


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        ("10:00-10:30", ""),
        ("10:30-11:30", ""),
        ("09:30-10:29", "begins at 10:30, 1 min after its hours (09:30-10:29)"),
        ("10:31-12:00", ""),
    ],
)
def test_a_meal_keeps_its_hours(hours: str, words: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN.replace("HOURS", hours))
    assert main(["check", str(path), "--quiet"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert (words in said) if words else ("its hours" not in said)
