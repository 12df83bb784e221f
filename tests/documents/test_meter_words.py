"""What the meter will read, as lighting sheet, setup card and crew's page say it: the same numbers as `hotset ask`."""

from __future__ import annotations

import html
import json
import re
from pathlib import Path

import pytest
from hotset.cli import main

ROOT = Path(__file__).resolve().parents[2]
BOAT = ROOT / "examples" / "last-boat" / "plan.yaml"

# A bare source of 800 lx at 1 m gives 192 lx at 2.04 m. T2.8 at 1/50 s asks for 250 N^2 / (t S) (ISO 2720, C = 250):
# 196 lx at ISO 500, level within a sixth of a stop; 490 lx at ISO 200, 1.35 stops more; 31 lx at ISO 3200, 2.65 less.
PLAN = """
hotset: 1
days: {1: {date: 2026-11-14, call: "08:00"}}
locations: {house: {sets: {hall: {size: 6 m x 5 m x 3 m, marks: {seat: [3 m, 1 m]}}}}}
gear:
  body: {kind: camera, sensor: 24 mm x 14 mm}
  prime: {kind: lens, focal: 35 mm}
  lamp: {kind: light, gives: {bare: 800 lx at 1 m}, draws: 100 W}
setups:
  close:
    set: house/hall
    key-at: seat
    camera: {body: body, lens: prime, stop: T2.8, iso: ISO, shutter: 1/50 s, fps: 25 fps, white-balance: 5600 K}
    lights: {key: {lamp: lamp, role: key, at: [3 m, 3 m], height: 1.2 m, aim: seat}}
scenes: {1: {shots: {1A: {setup: close}}}}
"""


def sheet(path: Path, out: Path, name: str) -> str:
    assert main(["build", str(path), "--out", str(out), "--no-pdf", "--quiet"]) in (0, 1)
    text = (out / "day-1" / f"{name}.html").read_text("utf-8")
    return html.unescape(re.sub(r"<[^>]*>", " ", text)).replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("iso", "words"),
    [("500", "T2.8 as set"), ("200", "1 1/3 stops under T2.8"), ("3200", "2 2/3 stops over T2.8")],
)
def test_lux_and_stop_stand_against_the_stop_that_is_set(iso: str, words: str, tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN.replace("ISO", iso))
    for name in ("lighting", "setup-close", "crew"):
        said = sheet(path, tmp_path / "out", name)
        assert "Meter at Seat: " in said
        (line,) = {line.strip() for line in re.findall(r"Meter at Seat:[^\n]*", said)}
        assert words in line


def test_without_a_stop_nothing_is_said(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN.replace("stop: T2.8, iso: ISO, ", ""))
    assert "Meter" not in sheet(path, tmp_path / "out", "lighting")


def test_the_sheet_has_the_numbers_of_ask(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = sheet(BOAT, tmp_path, "lighting")
    for name, mark in (("office-wide", "Desk"), ("hall-night-door", "Ticket"), ("quay-dark", "Rail")):
        capsys.readouterr()
        assert main(["ask", "setup", "--plan", str(BOAT), "--name", name, "--format", "json"]) == 0
        found = {line["name"]: line["words"] for line in json.loads(capsys.readouterr().out)["found"]}
        lux, stop = re.fullmatch(r"([\d.]+ lx): (T[\d.]+), .*", found["gets"]).groups()  # type: ignore[union-attr]
        assert f"Meter at {mark}: {lux}, {stop} as set" in said
        if "key to fill" in found:
            assert f"key to fill {found['key to fill'].split(',')[0]} " in said


def test_what_is_not_counted_is_named_and_daylight_has_two_ends(tmp_path: Path) -> None:
    assert "without Desk lamp" in sheet(BOAT, tmp_path / "boat", "setup-office-wide")
    outside = ROOT / "examples" / "two-days-outside" / "plan.yaml"
    assert re.search(
        r"Meter: [\d.]+ – [\d.]+ lx, T[\d.]+ to T[\d.]+ by daylight, set to T4",
        sheet(outside, tmp_path / "out", "crew"),
    )


def test_what_is_found_at_a_lamp_and_the_camera_stands_once_on_the_card(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN.replace("ISO", "3200"))
    assert sheet(path, tmp_path / "out", "setup-close").count("asks for") == 1
