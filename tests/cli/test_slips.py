"""Slips of the pen: each is told once, where it is written, with what to write instead."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.cli import main

DUSK = """\
hotset: 1
days: {1: {date: 2027-03-06, call: 08:00, wrap: 22:00, location: house, order: [dusk]}}
locations: {house: {at: "52.40 N, 4.90 E", zone: Europe/Amsterdam, sets: {garden: {size: 9 m x 9 m, outdoors: true}}}}
setups: {dusk: {set: garden, needs: dusk, takes: 20 min}}
"""


def said(capsys: pytest.CaptureFixture[str], tmp_path: Path, text: str, *args: str) -> tuple[int, str]:
    """The status of a command on a plan and what it says, with the lines made one."""
    plan = tmp_path / "plan.yaml"
    plan.write_text(text, "utf-8")
    status = main([args[0], str(plan), *args[1:]])
    out = capsys.readouterr()
    return status, " ".join((out.out + out.err).split())


@pytest.mark.parametrize(
    ("written", "reason", "better"),
    [
        ("Europe/Amsterdm", "did you mean 'Europe/Amsterdam'?", "write it like Europe/Amsterdam"),
        ("GMT+1", "says nothing of summer time", "write it like Europe/Amsterdam"),
    ],
)
def test_a_time_zone_that_is_none_is_an_error_where_it_stands(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], written: str, reason: str, better: str
) -> None:
    text = DUSK.replace("Europe/Amsterdam", written)
    status, words = said(capsys, tmp_path, text, "check")
    assert status == 1
    assert "plan.yaml:3:50: error: 'zone':" in words
    assert reason in words
    assert better in words
    _, order = said(capsys, tmp_path, text, "order")
    assert "for want of: 'dusk': when it is 'dusk': 'zone:' of 'house'" in order


def test_a_known_zone_is_no_fault_and_its_dusk_is_kept(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, words = said(capsys, tmp_path, DUSK, "order")
    assert "Not counted with" not in words
    assert "bad-quantity" not in said(capsys, tmp_path, DUSK, "check")[1]


ROOMS = """\
hotset: 1
locations: {house: {sets: {kitchen: {size: 4 m x 4 m x 3 m, furniture: {table: {at: [2 m, 2 m], size: 1 m x 1 m}}}}}}
gear: {lamp: {kind: light}}
setups:
  a-close: {like: night, takes: 10 min}
  night: {set: kitchen, takes: 20 min}
scenes: {1: {shots: {1A: {setup: night}, 1B: {setup: a-close}}}}
"""


def test_a_key_of_another_name_is_told_at_the_setup_that_says_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """'a-close' is like 'night' and comes first in the text; the slip is the latter's."""
    _, words = said(capsys, tmp_path, ROOMS.replace("set: kitchen", "room: kitchen"), "check")
    assert words.count("[unknown-key]") == 1
    assert "'night' (setup) has no key 'room'; did you mean 'set'?" in words
    assert "in setups.night.room" in words


def test_a_decimal_comma_in_a_place_is_answered_with_a_point(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _, words = said(capsys, tmp_path, ROOMS.replace("[2 m, 2 m]", "[2,4 m, 2,0 m]"), "check")
    assert "'at' has a decimal comma, and a comma parts the two lengths of a place" in words
    assert "do: write a decimal point: [2.4 m, 2.0 m]" in words
    assert "has no unit" not in words


def test_one_decimal_comma_is_found_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, words = said(capsys, tmp_path, ROOMS.replace("[2 m, 2 m]", "[2,4 m, 2 m]"), "check")
    assert "write a decimal point: [2.4 m, 2 m]" in words


def test_three_lengths_are_no_decimal_comma(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, words = said(capsys, tmp_path, ROOMS.replace("[2 m, 2 m]", "[2 m, 2 m, 1 m]"), "check")
    assert "decimal comma" not in words
    assert "'at' is a place, but a list stands here" in words


def test_a_delay_without_a_unit_is_meant_in_minutes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, words = said(capsys, tmp_path, ROOMS, "check", "--late", "40")
    assert status == 2
    assert "'40' has no unit; write it like 40 min" in words


@pytest.mark.parametrize(
    ("name", "answer"),
    [
        ("night", "'night' is a setup; ask for its set 'house/kitchen', or for a thing or a person of it"),
        ("1A", "'1A' is a shot; ask for a thing, a person or the set of its setup 'night'"),
        ("house", "'house' is a location; ask for one of its sets: 'house/kitchen'"),
    ],
)
def test_whereabouts_says_what_a_name_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str, answer: str
) -> None:
    status, words = said(capsys, tmp_path, ROOMS, "whereabouts", name)
    assert status == 2
    assert answer in words


def test_a_repair_that_cannot_be_tried_offers_what_to_do(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = ROOMS.replace("gear:", "people: {noa: {plays: GIRL, release: asked}}\ngear:")
    _, words = said(capsys, tmp_path, text.replace("1A: {", "1A: {cast: [GIRL], "), "check", "--repair")
    assert "nothing that can be tried by itself mends it do: have it signed before the first shot" in words


def test_a_question_without_names_is_answered_with_the_right_form(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", "setup", "film/plan.yaml", "night"]) == 2
    words = " ".join(capsys.readouterr().err.split())
    assert "every value is written with its name: hotset ask setup --plan film/plan.yaml --name night" in words
