"""Sizes of nothing: what formulas divide by is refused where it is read, and counts as not said."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hotset.findings import Finding
from hotset.plan import Plan

Decoded = Callable[[str], tuple[Plan, tuple[Finding, ...]]]


@pytest.mark.parametrize(
    ("written", "key", "shown"),
    [
        ("lens: {kind: lens, focal: 0 mm}", "focal", "0 mm"),
        ("lens: {kind: lens, focal: 0-70 mm}", "focal", "0-70 mm"),
        ("lens: {kind: lens, squeeze: 0}", "squeeze", "0"),
        ("lead: {kind: power, long: 0 m}", "long", "0 m"),
    ],
)
def test_nothing_is_refused(decoded: Decoded, written: str, key: str, shown: str) -> None:
    plan, found = decoded(f"gear: {{{written}}}")
    (fault,) = found
    assert fault.rule == "bad-quantity"
    assert f"'{key}' is '{shown}'" in fault.sentence
    (thing,) = plan.gear.values()
    assert getattr(thing, key) is None


def test_heights_and_places_may_be_zero(decoded: Decoded) -> None:
    _plan, found = decoded("""
        locations: {a: {circuits: {c: {already: 0 W}}, sets: {r: {north: 0 deg, marks: {m: {at: [0 m, 0 m]}}}}}}
        setups: {s: {set: r, camera: {at: [0 m, 0 m], height: 0 m, aim: m}}}
    """)
    assert found == ()
