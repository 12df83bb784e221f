"""One cause, one finding, mechanically: every third quantity of the examples without its unit is one new finding."""

from __future__ import annotations

import pytest
from hotset.pipeline import compile_source
from hotset.source.tree import Scalar

from .plant import Bed, entries


@pytest.mark.parametrize("name", ["last-boat", "two-days-outside"])
def test_a_missing_unit_is_one_finding(name: str) -> None:
    bed = Bed(name)
    known = bed.known | {(f.rule, f.place.path, f.sentence) for f in bed.compiled.findings}
    measured = [
        (path, node.text.partition(" ")[0])
        for path, node in entries(bed.source.root)
        if isinstance(node, Scalar) and node.text[:1].isdigit() and " " in node.text
    ]
    several = {}
    for path, number in measured[::3]:
        found = compile_source(bed.put(path, number)).findings
        new = [f for f in found if f.severity != "note" and (f.rule, f.place.path, f.sentence) not in known]
        if len(new) > 1:
            several[path] = [f.sentence for f in new]
    assert len(measured) > 100
    assert several == {}
