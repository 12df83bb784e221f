"""Cloth over windows, tents, layers and holds; papers that are due, asked for or run out; a rule that breaks."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.facts import Facts
from hotset.findings import Finding
from hotset.rules import RULES, run
from hotset.rules.rule import Rule

from .plans import compiled, conflicts

ROOM = """
hotset: 1
DAYS
locations:
  landing:
    sets:
      office:
        size: 5 m x 4 m x 2.5 m
        windows:
          hatch: {wall: east, from: 1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}
          door-light: {wall: north, from: 1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}
stock: {cloth: {opaque: true, STOCK}, frost: {loses: 0.5 stops, roll: 1.22 m x 7 m}}
setups:
SETUPS
"""
WIDE = "  wide: {set: office, takes: 10 min, windows: {hatch: {HOW}}}"


def room(stock: str, setups: str, days: str = "") -> str:
    return ROOM.replace("STOCK", stock).replace("SETUPS", setups).replace("DAYS", days)


def rules(text: str, folder: Path) -> list[str]:
    return [f.rule for f in conflicts(text, folder)]


@pytest.mark.parametrize(
    ("stock", "how", "speaks"),
    [
        ("roll: 1.6 m x 1.5 m", "black-out: cloth", []),  # 1.3 + 2 x 0.15 by 1.2 + 2 x 0.15
        ("roll: 1.59 m x 1.5 m", "black-out: cloth", ["cloth-short"]),
        ("roll: 1.59 m x 1.5 m", "black-out: cloth, overlap: 10 cm", []),
        ("roll: 1.59 m x 1.5 m, overlap: 10 cm", "black-out: cloth", []),
        ("roll: 1.6 m x 1.5 m", "black-out: cloth, layers-of: 2", ["cloth-short"]),
        ("roll: 1.6 m x 1.5 m, quantity: 2", "black-out: cloth, layers-of: 2", []),
        ("pieces: [{size: 1.5 m x 1.6 m, count: 1}]", "black-out: cloth", []),
        ("roll: 1.6 m x 4.7 m", "tent: cloth, depth: 0.8 m", []),  # 1.6 x 1.5, twice 0.8 x 1.5, 1.6 x 0.8
        ("roll: 1.6 m x 3.7 m", "tent: cloth, depth: 0.8 m", ["cloth-short"]),  # 5.92 m2 of 6.08 m2
    ],
)
def test_cloth_over_one_window(stock: str, how: str, speaks: list[str], tmp_path: Path) -> None:
    assert rules(room(stock, WIDE.replace("HOW", how)), tmp_path) == speaks


def test_two_strips_are_joined_where_the_roll_is_narrow(tmp_path: Path) -> None:
    """1.5 m high from strips of 0.8 m with a seam of 0.1 m: 0.8 + 0.8 - 0.1 = 1.5."""
    assert rules(room("roll: 0.8 m x 3.2 m", WIDE.replace("HOW", "black-out: cloth")), tmp_path) == []
    assert rules(room("roll: 0.8 m x 3.1 m", WIDE.replace("HOW", "black-out: cloth")), tmp_path) == ["cloth-short"]


def test_diffusion_is_not_joined(tmp_path: Path) -> None:
    text = room("roll: 2 m x 2 m", WIDE.replace("HOW", "layers: [frost]"))
    assert rules(text, tmp_path) == []
    assert rules(text.replace("1.22 m x 7 m", "0.7 m x 7 m"), tmp_path) == ["diffusion-short"]


def test_cloth_in_a_held_set_is_not_free(tmp_path: Path) -> None:
    setups = (
        "  wide: {set: office, takes: 10 min, windows: {hatch: {black-out: cloth}}, held-until: last}\n"
        "  other: {set: office, takes: 10 min, windows: {door-light: {black-out: cloth}}}\n"
        "  last: {set: office, takes: 10 min, windows: {hatch: {black-out: cloth}}}"
    )
    days = "days: {1: {call: 08:00, order: ORDER}}"
    plan = room("roll: 1.6 m x 1.5 m", setups, days)
    found = conflicts(plan.replace("ORDER", "[wide, other, last]"), tmp_path)
    assert [f.rule for f in found] == ["cloth-short"]
    assert "beside 'wide', held hot" in found[0].sentence
    assert rules(plan.replace("ORDER", "[other, wide, last]"), tmp_path) == []


def test_cloth_of_unknown_size_is_not_checked(tmp_path: Path) -> None:
    done = compiled(room("cost: 10 EUR", WIDE.replace("HOW", "black-out: cloth")), tmp_path)
    assert ("cloth-short", "'roll:' or 'pieces:' of 'cloth'") in {(s.rule, s.wants) for s in done.coverage.not_checked}


PAPER = """
hotset: 1
days: {1: {DATE}}
people: {olek: {works: camera}}
locations: {landing: {hospital: Saltmere General, PLACE, sets: {office: {size: 4 m x 3 m x 2.4 m}}}}
setups: {wide: {set: office}}
"""


@pytest.mark.parametrize(
    ("date", "place", "speaks"),
    [
        ("date: 2026-11-14", "parking: in the yard", []),
        ("date: 2026-11-14", "address: Quay 1", ["no-permission"]),
        ("call: 08:00", "address: Quay 1", []),
        ("date: 2026-11-14", "address: Quay 1, permission: not-needed", []),
        ("date: 2026-11-14", "permission: granted", ["no-insurance"]),
        ("date: 2026-11-14", "permission: granted, insurance: asked", ["no-insurance"]),
        (
            "date: 2026-11-14",
            "permission: {state: granted, until: 2026-11-13 18:00}, insurance: granted",
            ["no-permission"],
        ),
        (
            "date: 2026-11-14",
            "permission: {state: granted, until: 2026-11-14 18:00}, insurance: granted",
            [],
        ),
    ],
)
def test_papers_are_asked_for_once_a_plan_is_far_enough(
    date: str, place: str, speaks: list[str], tmp_path: Path
) -> None:
    assert rules(PAPER.replace("DATE", date).replace("PLACE", place), tmp_path) == speaks


def test_a_rule_that_breaks_is_a_finding_and_the_others_go_on(tmp_path: Path) -> None:
    done = compiled(room("roll: 1 m x 1 m", WIDE.replace("HOW", "black-out: cloth")), tmp_path)
    assert done.plan is not None
    broken = Rule("half-done", "error", "", "", "", "", lambda facts: iter([1 // (len(facts.plan.stock) - 2)]))  # type: ignore[list-item]
    good = next(r for r in RULES if r.id == "cloth-short")
    found, coverage = run((broken, good), Facts(done.plan))
    assert [f.rule for f in found] == ["cloth-short", "broken-rule"]
    assert "'half-done'" in found[1].sentence
    assert coverage.checks == 2


def test_what_is_rigged_ahead_needs_its_things_and_its_people(tmp_path: Path) -> None:
    plan = """
hotset: 1
days:
  1:
    call: 08:00
    load-in: 30 min
    order: [wide, attic]
    ahead: [{setup: attic, by: WHO, from: 08:30, to: 10:00}]
people: {bea: {works: light}, jon: {works: light}, olek: {works: camera}}
gear: {panel: {kind: light, quantity: COUNT}}
setups:
  wide: {rig: 0 min, takes: 2 h, hands: {fan: bea}, lights: {key: {lamp: panel}}}
  attic: {rig: 30 min, takes: 1 h, lights: {key: {lamp: panel}}}
"""
    assert rules(plan.replace("WHO", "jon").replace("COUNT", "2"), tmp_path) == []
    assert rules(plan.replace("WHO", "bea").replace("COUNT", "2"), tmp_path) == ["person-in-two-places"]
    found = conflicts(plan.replace("WHO", "jon").replace("COUNT", "1"), tmp_path)
    assert [f.rule for f in found] == ["piece-in-two-places"]
    assert "'attic', rigged ahead, keeps it" in found[0].sentence


def test_rules_that_break_on_the_same_fact_are_one_finding(tmp_path: Path) -> None:
    done = compiled("hotset: 1\n", tmp_path)
    assert done.plan is not None

    def fails(facts: Facts) -> list[Finding]:
        return [facts.plan.days["none"]]  # type: ignore[list-item]

    rules_ = [Rule(name, "error", "", "", "", "", lambda facts: iter(fails(facts))) for name in ("one", "two", "three")]
    found, _ = run(rules_, Facts(done.plan))
    assert len(found) == 1
    assert "'one' and 2 more" in found[0].sentence
    assert ("rules", "one, two, three") in found[0].details
