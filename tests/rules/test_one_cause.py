"""One cause, one finding: nothing is said beside a misspelling that only follows from it; what stands by itself is."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.findings import Finding
from hotset.pipeline import compile_plan

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
LAST_BOAT = (EXAMPLES / "last-boat" / "plan.yaml").read_text("utf-8")


def found(old: str, new: str, more: tuple[str, str] = ("", "")) -> list[Finding]:
    assert old in LAST_BOAT
    text = LAST_BOAT.replace(old, new, 1).replace(*more, 1) if more[0] else LAST_BOAT.replace(old, new, 1)
    return [f for f in compile_plan(["-"], stdin_text=text.encode()).findings if f.severity != "note"]


@pytest.mark.parametrize(
    ("old", "new", "rule"),
    [
        ("\nlocations:", "\nlcations:", "unknown-key"),  # the whole place with its rooms, windows and circuits
        ("ground-floor: {breaker", "gound-floor: {breaker", "unknown-name"),  # eight places call it by its name
        ("lens: wide-24, filters: mist", "lens: wde-24, filters: mist", "unknown-name"),
        ("like: hall-sun-wide", "like: hll-sun-wide", "unknown-name"),  # what it changes of a grip thing wants a use
        ("hands: {camera: tomas", "hands: {camera: tmas", "unknown-name"),  # nobody would pull focus
        ("  shed-two:\n", "  shed-twoo:\n", "unknown-name"),  # held until it, shot from it, and in the order
        ("  fresnel:                       #", "  fresnl:                       #", "unknown-name"),
        ("    kind: lens\n", "    knd: lens\n", "unknown-key"),
        ("quantity: 4, long: 15 m", "quantity: 4x, long: 15 m", "bad-quantity"),
        ("rule: noisy-set", "rule: nosy-set", "accepted-nothing"),
        ("buffer: 60 min", "buffer: 60", "missing-unit"),
        ("buffer: 60 min", "bufer: 60 min", "unknown-key"),
        ("sill: 0.8 m", "sill: 0.8", "missing-unit"),  # the lamp behind the window would shine on a wall
        ("plays: CLERK", "plays: CLRK", "cast-missing"),
        ("cast: {CLERK: mara", "cast: {CLRK: mara", "unknown-name"),
        ("      - office-close\n", "      - office-clse\n", "unknown-name"),
        ("shot: {count: 3", "shot: {cunt: 3", "unknown-key"),  # the default of every shot
        ("noise:\n", "nise:\n", "unknown-key"),  # the accepted risk would match nothing
    ],
)
def test_one_slip_is_one_finding(old: str, new: str, rule: str) -> None:
    said = found(old, new)
    assert [f.rule for f in said] == [rule], [f.sentence for f in said]


def test_the_other_places_of_a_name_are_named_beside_it() -> None:
    one = found("ground-floor: {breaker", "gound-floor: {breaker")[0]
    assert len(one.related) >= 5
    assert {related.words for related in one.related} == {"written here, too"}


def test_what_has_another_cause_is_still_said() -> None:
    said = found("buffer: 60 min", "bufer: 60 min", ("access: 07:00-20:00", "access: 07:00-17:00"))
    assert sorted({f.rule for f in said}) == ["access-hours", "unknown-key"]


def test_two_slips_are_two_findings() -> None:
    said = found("lens: wide-24, filters: mist", "lens: wde-24, filters: mst")
    assert [f.rule for f in said] == ["unknown-name", "unknown-name"]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("normal-50, on: overhead-arm", "normal-50, on: giraffe"),  # without it the camera would stand in the table
        ("with: soft-60", "with: umbrella"),  # without it the lamp would be too bright
    ],
)
def test_what_rests_on_a_name_that_means_nothing_waits_for_it(old: str, new: str) -> None:
    assert [f.rule for f in found(old, new)] == ["unknown-name"]


def test_one_adapter_that_is_missing_is_missing_once() -> None:
    unnamed = ("lens: portrait-85, adapters: long-to-short", "lens: portrait-85")
    said = found("adapter, from: cine-short, to: slr-long", "adapter, from: other, to: slr-long", unnamed)
    assert [f.rule for f in said] == ["missing-adapter"]
    assert [r.place.path for r in said[0].related if r.words == "and here"] == [
        "setups.office-close.camera.lens",
        "setups.hall-night-bench.camera.lens",
        "setups.shed-close.camera.lens",
    ]


def test_what_several_stands_need_is_missing_once() -> None:
    said = found("  sand-bag: {kind: grip, of: sand bag 7 kg", "  weight: {kind: grip, of: weight 7 kg")
    assert "missing-modifier" in [f.rule for f in said]
    assert "no-sandbag" not in [f.rule for f in said]
    assert said[0].sentence == "'stand' and 'mini-stand' cannot work without 'sand-bag', and the plan has none"
