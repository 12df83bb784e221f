"""The examples that keys have of their own: they read, and what lacks its unit gets that of the key."""

from __future__ import annotations

import pytest
from hotset.pipeline import compile_plan
from hotset.plan.schema import noun, noun_names
from hotset.source.quantities import KINDS, parse, show

OWN = [(name, key) for name in noun_names() for key in noun(name).keys.values() if key.example]


def test_there_are_some() -> None:
    assert len(OWN) >= 10


@pytest.mark.parametrize(("name", "key"), OWN, ids=lambda x: x if isinstance(x, str) else x.name)
def test_it_reads_and_shows_as_itself(name: str, key: object) -> None:
    one = noun(name).keys[getattr(key, "name", "")]
    assert show(one.kind, parse(one.kind, one.example)) == one.example
    assert one.example != KINDS[one.kind].example


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("people: {mara: {tall: 1.85}}", "1.85 m"),
        ("people: {mara: {tall: 185}}", "185 cm"),
        ("gear: {ring: {kind: filter, thread: 77}}", "77 mm"),
        ("gear: {old: {kind: lens, focal: 35}}", "35 mm"),
        ("gear: {old: {kind: lens, closest: 45}}", "45 cm"),
        ("setups: {wide: {camera: {zoom: 35}}}", "35 mm"),
        ("mounts: {short: {flange: 17.526}}", "17.526 mm"),
    ],
)
def test_what_lacks_its_unit(text: str, right: str) -> None:
    found = [f for f in compile_plan(["-"], f"hotset: 1\n{text}\n".encode()).findings if f.rule == "missing-unit"]
    assert [f.ways_out for f in found] == [(f"write it like {right}",)]
