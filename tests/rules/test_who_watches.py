"""Who watches the acting: the named, the director, or anybody whom the take leaves free."""

from __future__ import annotations

from pathlib import Path

import pytest

from .plans import conflicts

PLAN = """
hotset: 1
people:
  ada: {works: WORKS, emergency: "a, 1"}
  jon: {works: sound, emergency: "a, 1"}
  mara: {plays: CLERK, emergency: "a, 1"}
  MORE
gear: {panel: {kind: light}}
setups:
  wide: {camera: {height: 1.5 m}, hands: {HANDS}, LIGHT}
scenes: {4: {sound: SOUND, characters: [CLERK], shots: {4A: {SHOT, setup: wide, does: She looks.}}}}
"""


def rules(tmp_path: Path, **said: str) -> list[str]:
    plain = {"WORKS": "direction", "MORE": "", "HANDS": "camera: ada, boom: jon", "LIGHT": "takes: 5 min",
             "SOUND": "sync", "SHOT": "size: CU"}  # fmt: skip
    text = PLAN
    for key, words in (plain | said).items():
        text = text.replace(key, words)
    return [f.rule for f in conflicts(text, tmp_path)]


@pytest.mark.parametrize("works", ["direction", "director", "[writer, director]"])
def test_one_who_directs_and_operates(works: str, tmp_path: Path) -> None:
    assert rules(tmp_path, WORKS=works) == ["nobody-watches"]


@pytest.mark.parametrize("works", ["director of photography", "assistant director", "art director", "camera"])
def test_without_a_director_nothing_is_said(works: str, tmp_path: Path) -> None:
    assert rules(tmp_path, WORKS=works) == []


@pytest.mark.parametrize("job", ["performance", "watch", "direct", "monitor"])
def test_somebody_is_named(job: str, tmp_path: Path) -> None:
    bea = 'bea: {works: art, emergency: "a, 1"}'
    assert rules(tmp_path, MORE=bea, HANDS=f"camera: ada, boom: jon, {job}: bea") == []


def test_who_is_named_and_has_another_job_does_not_watch(tmp_path: Path) -> None:
    assert rules(tmp_path, HANDS="camera: ada, boom: jon, watch: jon") == ["nobody-watches"]


def test_the_sound_that_is_not_recorded_leaves_somebody_free(tmp_path: Path) -> None:
    assert rules(tmp_path, HANDS="camera: ada", SOUND="mos") == []


def test_an_insert_and_an_empty_picture_want_nobody(tmp_path: Path) -> None:
    assert rules(tmp_path, SHOT="size: insert, frame: 0.5 m") == []
    assert rules(tmp_path, SHOT="size: CU, cast: []") == []


def test_who_holds_the_lamp_does_not_watch(tmp_path: Path) -> None:
    bea = 'bea: {works: art, emergency: "a, 1"}'
    lamp = "lights: {lick: {lamp: panel, held-by: WHO}}"
    assert rules(tmp_path, MORE=bea, LIGHT=lamp.replace("WHO", "bea")) == ["nobody-watches"]
    assert rules(tmp_path, MORE=bea, LIGHT=lamp.replace("WHO", "any")) == ["nobody-watches"]
    two = bea + '\n  olek: {works: gaffer, emergency: "a, 1"}'
    assert rules(tmp_path, MORE=two, LIGHT=lamp.replace("WHO", "any")) == []


def test_hands_that_are_missing_are_said_first(tmp_path: Path) -> None:
    assert rules(tmp_path, LIGHT="lights: {lick: {lamp: panel, held-by: any}}") == ["nobody-free"]


def test_a_director_who_plays(tmp_path: Path) -> None:
    plays = {"HANDS": "boom: jon", "SHOT": "cast: {CLERK: ada}"}
    assert rules(tmp_path, WORKS="[direction, camera]", **plays) == ["nobody-free"]
    more = 'olek: {works: camera, emergency: "a, 1"}'
    assert rules(tmp_path, MORE=more, **plays) == ["nobody-watches"]


def test_a_minor_watches_nothing(tmp_path: Path) -> None:
    kid = 'kim: {works: art, minor: true, emergency: "a, 1"}'
    assert "nobody-watches" in rules(tmp_path, MORE=kid)
