"""A small plan with three faults, checked from end to end: what is said of it, and what is not."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.pipeline import Compiled, compile_plan

TASTE = Path(__file__).resolve().parents[1] / "plans" / "taste.yaml"


@pytest.fixture(scope="module")
def taste() -> Compiled:
    return compile_plan([str(TASTE)])


def test_the_faults_are_found_with_their_numbers(taste: Compiled) -> None:
    said = {f.rule: f for f in taste.findings}
    assert said["modifier-does-not-fit"].sentence.startswith("'soft-60' does not fit 'fresnel'")
    assert said["no-support"].sentence == "'4B' says 'slow push-in', and no support in the plan makes a push-in"
    framing = said["framing-differs"]
    assert framing.sentence == "'4B' is framed 52 cm high at 'desk' from 95 cm: a medium close-up, not a close-up"
    assert "about 59 mm from here would do, or 60 cm from the eyes instead of 95 cm" in framing.ways_out
    assert [f.rule for f in taste.findings if f.severity == "error"] == ["modifier-does-not-fit", "no-support"]


def test_what_could_not_be_checked_is_said_with_what_would_let_it(taste: Compiled) -> None:
    wants = {n.rule: n.wants for n in taste.coverage.not_checked}
    assert wants["nobody-free"].startswith("'people:'")  # hands: the plan names nobody
    assert wants["day-too-long"].startswith("an agreed order")  # places in time


def test_each_fault_is_told_once(taste: Compiled) -> None:
    rules = [f.rule for f in taste.findings]
    assert sorted(rules) == ["framing-differs", "modifier-does-not-fit", "no-spare", "no-support"]


def test_what_is_right_is_not_blamed(taste: Compiled) -> None:
    """The hatch is blacked out and the roll is enough: 1.6 m x 1.5 m with 15 cm of overlap. The fresnel stands 36
    degrees off the lens axis, outside of half the field of 27.2 degrees."""
    assert {"light-in-frame", "night-scene-in-daylight", "cloth-short", "circuit-overloaded"}.isdisjoint(
        f.rule for f in taste.findings
    )
