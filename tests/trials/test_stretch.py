"""Who steps in for the sound: somebody who only holds booms is said to be a stretch as the recordist."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.cli import main

PLAN = """\
hotset: 1
people:
  dot: {works: camera}
  rik: {skills: [rig, boom]}
  kit: {works: sound, skills: [boom, record]}
gear: {boom: {kind: sound}, recorder: {kind: sound}}
setups:
  wide: {sound: {boom: boom, recorder: recorder, by: kit}, hands: {boom: kit, camera: dot}}
scenes: {1: {sound: sync, shots: {1A: {setup: wide}}}}
"""


def said(capsys: pytest.CaptureFixture[str], folder: Path, text: str) -> str:
    plan = folder / "plan.yaml"
    plan.write_text(text, "utf-8")
    main(["check", str(plan), "--without", "kit"])
    return " ".join(capsys.readouterr().out.split())


def test_a_boom_operator_who_would_record_as_well_is_a_stretch(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = said(capsys, tmp_path, PLAN)
    assert "the boom: 'rik', who is free; the sound: 'rik', who is free, but a stretch:" in words
    assert "no 'record' or 'sound' is said of them" in words


def test_somebody_who_records_goes_first_and_is_none(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = said(capsys, tmp_path, PLAN.replace("  kit:", "  ola: {skills: [recordist]}\n  kit:"))
    assert "the sound: 'ola', who is free" in words
    assert "stretch" not in words
