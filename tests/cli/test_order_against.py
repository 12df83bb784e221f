"""`hotset order --against`: two orders of a day side by side, with what breaks in each."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hotset.cli import main

EXAMPLES = Path(__file__).parents[2] / "examples"
BOAT = str(EXAMPLES / "last-boat" / "plan.yaml")

PLAN = """
hotset: 1
title: Invented
days: {1: {call: "08:00", wrap: "13:00", load-in: 30 min, wrap-out: 30 min, buffer: 30 min}}
locations: {house: {sets: {hall: {size: 5 m x 4 m x 2.5 m}, loft: {size: 5 m x 4 m x 2.5 m}}}}
people: {mara: {plays: CLERK, here: 08:00-10:45}, olek: {skills: [rig]}}
gear: {lamp: {kind: light}}
setups:
  hall-wide: {set: hall, takes: 20 min, cast: [CLERK], lights: {a: {lamp: lamp, at: [1 m, 1 m]}}}
  loft-wide: {set: loft, takes: 20 min, lights: {a: {lamp: lamp, at: [1 m, 1 m]}}}
  hall-close: {set: hall, takes: 20 min, cast: [CLERK], after: hall-wide, lights: {a: {lamp: lamp, at: [1 m, 1 m]}}}
scenes:
  1: {shots: {1A: {size: WS, setup: hall-wide}, 1B: {size: WS, setup: loft-wide}, 1C: {size: CU, setup: hall-close}}}
"""


def said(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["order", *arguments]) == 0
    return capsys.readouterr().out


def test_story_order_carries_the_lamp_twice(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN)
    text = said(capsys, str(path), "--against", "story")
    rows = {line[:30].strip(): line[30:].split("  ") for line in text.splitlines() if len(line) > 60}
    # By hand: three setups of 20 min, the first lamp 6 min; best: one move of 15 min and the lamp once more, 5 min
    # or so; story: two moves, and the lamp carried to and fro.
    assert [cell.strip() for cell in rows["moves of the whole crew"] if cell.strip()] == ["1", "2", "+1"]
    assert [cell.strip() for cell in rows["things handled"] if cell.strip()] == ["2", "3", "+1"]
    assert "Handled more often in story order:\n  - lamp: 3 times instead of twice (before hall-close)" in text
    assert "They are alike up to 'hall-wide'. Then:" in text
    assert "Nothing breaks in either." in text


def test_what_breaks_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, order = tmp_path / "plan.yaml", tmp_path / "mine.txt"
    path.write_text(PLAN)
    order.write_text("# as we did it last time\nloft-wide\nhall-close, hall-wide\n")
    text = " ".join(said(capsys, str(path), "--against", "best", "--against", str(order)).split())
    assert "In the best order found nothing breaks." in text
    assert "'hall-close' comes before 'hall-wide', and has to come after it" in text
    order.write_text("loft-wide")
    text = " ".join(said(capsys, str(path), "--against", str(order)).split())
    assert "it leaves out 'hall-wide', 'hall-close'" in text
    path.write_text(PLAN.replace("10:45", "10:00"))
    text = " ".join(said(capsys, str(path), "--against", "best", "--against", "story").split())
    assert re.search(r"'hall-close' at 09:\d\d misses its hours: 'mara' is here \(08:00-10:00\)", text)


def test_orders_of_the_examples_stand_side_by_side(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    # Named from its own folder: how long a line is must not hang on where the project was unpacked.
    monkeypatch.chdir(Path(BOAT).parent)
    for name in ("agreed", "story", "rooms", "plan.yaml"):
        text = said(capsys, "plan.yaml", "--against", name)
        assert text.startswith("Day 1: the best order found against ")
        assert max(map(len, text.splitlines())) <= 80
        assert "everybody is out at" in text
        (head,) = (line for line in text.splitlines() if line.endswith(" difference"))
        assert re.match(r" +best order +\S.* +difference$", head)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--against", "nothing"], "'nothing' is none of 'best', 'agreed', 'story', 'rooms', and no file"),
        (["--against", "best", "--against", "story", "--against", "rooms"], "compares two orders"),
    ],
)
def test_orders_that_are_not_there(arguments: list[str], words: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", BOAT, *arguments]) == 2
    assert words in " ".join(capsys.readouterr().err.split())


def test_a_file_with_strange_names_offers_the_nearest(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    order = tmp_path / "mine.txt"
    order.write_text("hall-nigth-wide\n")
    assert main(["order", BOAT, "--against", str(order)]) == 2
    said = " ".join(capsys.readouterr().err.split())
    assert "names 'hall-nigth-wide', which is no setup of day 1; did you mean 'hall-night-wide'?" in said
