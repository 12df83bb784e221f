"""Fetching and bringing back: who is on the way when, what it means for things and people, and errands that clash."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hotset.cli import main
from hotset.facts import errands

from .plans import compiled, conflicts

DAY = """
hotset: 1
days: {1: {date: 2026-11-14, call: "08:00", load-in: 30 min, order: [first, second]}}
people:
  bea: {works: art, skills: [drive, rig]}
  olek: {works: gaffer, skills: rig}
gear:
  panel: {kind: light, lent-by: the club, PANEL}
  crane: {kind: support, lent-by: the yard, CRANE}
  board: {kind: grip}
stock: {cloth: {opaque: true, roll: 3 m x 9 m, lent-by: the club, CLOTH}}
setups:
  first: {takes: 1 h, rig: 0 min, grip: {a: {use: board}}}
  second: {takes: 1 h, rig: 0 min, lights: {key: {lamp: panel, on: crane}}, grip: {b: {use: cloth, size: 1 m x 1 m}}}
"""


def plan(panel: str = "", crane: str = "", cloth: str = "") -> str:
    text = DAY
    for word, said in (("PANEL", panel), ("CRANE", crane), ("CLOTH", cloth)):
        text = text.replace(f", {word}", f", {said}" if said else "")
    return text


def rules(text: str, folder: Path) -> list[str]:
    return [f.rule for f in conflicts(text, folder)]


@pytest.mark.parametrize(
    ("panel", "speaks"),
    [
        # 'second' is rigged from 09:30 and shot until after 10:30
        ("fetch: {by: bea, at: 2026-11-14 08:40, takes: 40 min}", []),
        ("fetch: {by: bea, at: 2026-11-14 09:00, takes: 40 min}", ["not-in-hands-yet"]),
        ("fetch: {at: 2026-11-14 09:10}", ["not-in-hands-yet"]),  # 30 min, where nothing is said
        ("in-hands: 2026-11-14 09:20, fetch: {by: bea, takes: 40 min}", []),
        ("due: 2026-11-14 12:00, return: {by: bea, takes: 30 min}", []),
        ("due: 2026-11-14 10:50, return: {by: bea, takes: 30 min}", ["due-back"]),
        ("return: {by: bea, at: 2026-11-14 10:00, takes: 30 min}", ["due-back"]),
        ("return: {by: bea, at: 2026-11-14 11:30, takes: 30 min}", []),
        ("due: 2026-11-14 12:00, return: {by: bea, at: 2026-11-14 11:45, takes: 30 min}", ["errand-clash"]),
        ("in-hands: 2026-11-14 08:40, fetch: {by: bea, at: 2026-11-14 08:20, takes: 30 min}", ["errand-clash"]),
    ],
)
def test_when_a_thing_is_in_hands_follows_the_one_who_drives(panel: str, speaks: list[str], tmp_path: Path) -> None:
    assert rules(plan(panel), tmp_path) == speaks


def test_the_one_who_fetches_is_named(tmp_path: Path) -> None:
    found = conflicts(plan("fetch: {by: bea, at: 2026-11-14 09:00, takes: 40 min}"), tmp_path)[0]
    assert "is fetched by 'bea' at 2026-11-14 09:00 and there at 09:40" in found.sentence


@pytest.mark.parametrize(
    ("by", "due", "speaks"),
    [
        ("bea", "2026-11-14 20:45", True),
        ("olek", "2026-11-14 20:45", False),
        ("bea", "2026-11-14 20:20", False),  # from 19:50, and the other from 20:20
        ("bea", "2026-11-15 20:45", False),
    ],
)
def test_one_person_is_not_on_two_ways(by: str, due: str, speaks: bool, tmp_path: Path) -> None:
    other = f"due: {due}, return: {{by: {by}, takes: 30 min}}"
    text = plan("due: 2026-11-14 21:00, return: {by: bea, takes: 40 min}", other)
    assert rules(text, tmp_path) == ["errand-clash"] * speaks


def test_two_things_to_one_lender_are_one_drive(tmp_path: Path) -> None:
    back = "due: 2026-11-14 21:00, return: {by: bea, takes: 40 min}"
    text = plan(back, cloth=back)
    assert rules(text, tmp_path) == []
    done = compiled(text, tmp_path)
    assert done.plan is not None
    assert [drive.words for drive in errands.drives(done.plan, "bea")] == [
        "brings 'panel' and 'cloth' back to the club"
    ]


def not_checked(text: str, folder: Path) -> list[str]:
    return [n.wants for n in compiled(text, folder).coverage.not_checked if n.rule == "due-back"]


def test_a_way_back_nobody_knows_is_said_on_a_day_of_shooting_only(tmp_path: Path) -> None:
    assert not_checked(plan("due: 2026-11-14 20:00"), tmp_path) == ["'return:' of 'panel'"]
    assert not_checked(plan("due: 2026-11-16 20:00"), tmp_path) == []


def whereabouts(text: str, name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    (folder / "plan.yaml").write_text(text, "utf-8")
    assert main(["whereabouts", str(folder / "plan.yaml"), name, "--format", "json"]) == 0
    told: dict[str, Any] = json.loads(capsys.readouterr().out)
    return told


def test_whereabouts_tells_the_way_of_a_person(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    fetch = "fetch: {by: bea, at: 2026-11-14 08:40, takes: 40 min}"
    text = plan(f"{fetch}, due: 2026-11-14 21:00, return: {{by: bea, takes: 40 min}}")
    told = whereabouts(text, "bea", tmp_path, capsys)
    away = [(s["start"], s["end"], s["words"]) for s in told["stretches"] if s["state"] == "away"]
    assert away == [
        (1040, 1120, "fetches 'panel' from the club"),
        (1350, 2440, "has left"),
        (2440, 2520, "brings 'panel' back to the club"),
    ]
    thing = whereabouts(text, "panel", tmp_path, capsys)
    assert "2026-11-14 20:20-21:00: 'bea' brings it back to the club" in thing["known"]
    assert thing["stretches"][0]["words"] == "not in hands before 09:20"


def test_whereabouts_tells_the_way_without_an_order(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = plan("in-hands: 2026-11-13 18:00, fetch: {by: bea, takes: 1 h}").replace(", order: [first, second]", "")
    assert (
        "2026-11-13 17:00-18:00: fetches 'panel' from the club" in whereabouts(text, "bea", tmp_path, capsys)["known"]
    )
    assert (
        "2026-11-13 17:00-18:00: 'bea' fetches it from the club"
        in whereabouts(text, "panel", tmp_path, capsys)["known"]
    )
