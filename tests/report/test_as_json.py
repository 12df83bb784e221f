"""Findings as JSON: the shape that programs rely on."""

from __future__ import annotations

import json

from hotset.findings import Finding, NotChecked, Place, Related
from hotset.report.as_json import document


def test_the_shape() -> None:
    finding = Finding(
        rule="circuit-overloaded",
        severity="error",
        sentence="3.1 kW on a 10 A breaker \u202e",
        place=Place("p.yaml", 3, 5, "locations.landing.circuits.ground"),
        related=(Related(Place("p.yaml", 9, 1), "also draws from it"),),
        ways_out=("move a lamp",),
        details=(("amps", 13.5), ("ratio", float("inf"))),
        typical=("power factor 0.9",),
    )
    text = document((finding,), 40, 2, (NotChecked("cards-full", "day 1", "media"),), "0.1.0")
    assert text.isascii()
    assert text.endswith("}\n")
    assert json.loads(text) == {
        "format": 1,
        "hotset": "0.1.0",
        "counts": {"error": 1, "warning": 0, "note": 0},
        "findings": [
            {
                "rule": "circuit-overloaded",
                "severity": "error",
                "sentence": "3.1 kW on a 10 A breaker \u202e",
                "place": {"file": "p.yaml", "line": 3, "column": 5, "path": "locations.landing.circuits.ground"},
                "related": [
                    {"place": {"file": "p.yaml", "line": 9, "column": 1, "path": ""}, "words": "also draws from it"}
                ],
                "ways_out": ["move a lamp"],
                "details": {"amps": 13.5, "ratio": "inf"},
                "typical": ["power factor 0.9"],
                "unreadable": False,
            }
        ],
        "coverage": {
            "checks": 40,
            "setups": 2,
            "not_checked": [{"rule": "cards-full", "subject": "day 1", "wants": "media"}],
        },
    }


def test_nothing_found() -> None:
    whole = json.loads(document((), 0, 0, (), "0.1.0"))
    assert whole["findings"] == []
    assert whole["counts"] == {"error": 0, "warning": 0, "note": 0}
