"""What a lead may carry, and which circuits come to a room."""

from __future__ import annotations

from itertools import product

import pytest
from hotset.facts.loads import least_fullest
from hotset.pipeline import compile_plan
from hotset.rules import RULES
from hypothesis import given, settings
from hypothesis import strategies as st

LEADS = next(r for r in RULES if r.id == "lead-overloaded").triggers

CIRCUITS = """
hotset: 1
locations:
  landing:
    mains: 230 V 50 Hz
    circuits: {house: {breaker: 10 A, feeds: office}, shed: {breaker: 16 A, FEEDS}}
    sets: {office: {size: 4 m x 3 m x 2.4 m}, hut: {size: 3 m x 3 m x 2.4 m}}
gear: {big-lamp: {kind: light, draws: 1500 W, factor: 1, quantity: 2}}
setups:
  wide: {set: office, lights: {quay: {lamp: big-lamp, circuit: house}, moon: {lamp: big-lamp, circuit: house}}}
"""


# 2300 W at 230 V and power factor 1 are 10 A: P = V x I x pf, single phase.
@pytest.mark.parametrize(("rating", "speaks"), [("9.9 A", True), ("10 A", False)])
def test_a_lead_at_its_rating(rating: str, speaks: bool) -> None:
    found = compile_plan(["-"], LEADS.replace("6 A", rating).encode()).findings
    assert [f.rule for f in found if f.severity == "error"] == (["lead-overloaded"] if speaks else [])


def test_an_overloaded_reel_is_one_finding() -> None:
    reel = "{kind: power, of: reel, long: 40 m, section: 1 mm2, rating: 6 A}"
    plan = LEADS.replace("{kind: power, rating: 6 A}", reel)
    rules = [f.rule for f in compile_plan(["-"], plan.encode()).findings if f.severity != "note"]
    assert rules == ["lead-overloaded"]


FEEDS = [("feeds: hut", False), ("feeds: [office, hut]", True), ("note: x", True)]


@pytest.mark.parametrize(("feeds", "offered"), FEEDS)
def test_a_lamp_is_sent_only_to_a_circuit_of_its_room(feeds: str, offered: bool) -> None:
    (over,) = (
        f for f in compile_plan(["-"], CIRCUITS.replace("FEEDS", feeds).encode()).findings if f.severity == "error"
    )
    assert over.rule == "circuit-overloaded"
    assert any("on 'shed'" in way for way in over.ways_out) is offered


SHARED = """
hotset: 1
locations: {landing: {mains: 230 V 50 Hz, circuits: {house: {breaker: 16 A}}, sets: {office: {size: 4 m x 3 m}}}}
gear:
  lamp: {kind: light, draws: 690 W, factor: 1, quantity: 3}
  stinger: {kind: power, rating: RATED, quantity: 2}
setups:
  wide:
    set: office
    lights:
      quay: {lamp: lamp, circuit: house, lead: stinger}
      moon: {lamp: lamp, circuit: house, lead: stinger}
      buoy: {lamp: lamp, circuit: house, lead: stinger}
"""


# Three lamps of 690 / 230 = 3 A on two pieces: however they are shared, one piece carries at least 6 A.
@pytest.mark.parametrize(("rated", "speaks"), [("7 A", 0), ("6 A", 0), ("5.9 A", 1)])
def test_lamps_that_share_a_lead_are_shared_out_fairly(rated: str, speaks: int) -> None:
    found = compile_plan(["-"], SHARED.replace("RATED", rated).encode()).findings
    assert sum(f.rule == "lead-overloaded" for f in found) == speaks


@settings(max_examples=60)
@given(st.lists(st.integers(1, 20), min_size=1, max_size=6), st.integers(1, 3))
def test_the_least_fullest_piece_against_every_way(amperes: list[int], pieces: int) -> None:
    ways = product(range(pieces), repeat=len(amperes))
    every = min(
        max(sum(a for a, at in zip(amperes, way, strict=True) if at == piece) for piece in range(pieces))
        for way in ways
    )
    assert least_fullest([float(a) for a in amperes], pieces) == every


COILED = next(r for r in RULES if r.id == "lead-coiled").passes.replace("draws: 1500 W", "draws: 750 W")
SUN = "      sun: {lamp: big-lamp, at: [5 m, 2 m], circuit: ground-floor, lead: reel}\n"
TWO = (
    COILED.replace("coiled: 7 A", "COILED")
    .replace("rating: 16 A", "rating: 16 A, quantity: COUNT")
    .replace("        lead: reel\n", f"        lead: reel\n{SUN}")
)


@pytest.mark.parametrize(
    ("coiled", "count", "amperes"),
    # 750 W at 230 V are 3.26 A, two of them on one reel 6.52 A; a drum without a label carries a third of its 16 A
    [("coiled: 6.6 A", 1, None), ("coiled: 6.5 A", 1, 6.52), ("coiled: 6.5 A", 2, None), ("coiled: 3.2 A", 2, 3.26),
     ("of: cable drum", 1, 6.52), ("of: cable drum", 2, None), ("of: cable", 1, None)],
)  # fmt: skip
def test_a_wound_reel_carries_all_that_share_it(coiled: str, count: int, amperes: float | None) -> None:
    text = (
        TWO.replace("COILED", coiled)
        .replace("COUNT", str(count))
        .replace("  reel:", f"  {'lead' if 'of:' in coiled else 'reel'}:")
    )
    text = text.replace("lead: reel", "lead: lead") if "of:" in coiled else text
    found = [f for f in compile_plan(["-"], text.encode()).findings if f.rule == "lead-coiled"]
    met = [dict(f.details) for f in found]
    assert [m["amperes"] for m in met] == ([] if amperes is None else [amperes] * len(met))
    assert bool(met) is (amperes is not None)
    if met and "of:" in coiled:
        assert met[0]["coiled_amperes"] == pytest.approx(5.33)
        assert "coiled rating" in found[0].typical
