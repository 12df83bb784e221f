"""Reading nouns: characters that nobody knows, and texts that are quantities."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hotset.findings import Finding
from hotset.plan import Plan

Decoded = Callable[[str], tuple[Plan, tuple[Finding, ...]]]
Said = list[tuple[str, str]]


def said(found: tuple[Finding, ...]) -> Said:
    return [(f.rule, f.sentence) for f in found]


@pytest.mark.parametrize(
    ("written", "sentence"),
    [
        ("{CLERC: ines}", "called 'CLERC'; did you mean 'CLERK'?"),
        ("{GUARD: ines}", "called 'GUARD'"),
        ("{CLERK: ines, LAMPLIGHTER: mara}", ""),  # played by nobody's own word, but the scene lists it
    ],
)
def test_a_character_nobody_knows_is_no_key_of_a_cast(decoded: Decoded, written: str, sentence: str) -> None:
    plan, found = decoded(
        "people: {mara: {plays: CLERK}, ines: {}}\n"
        f"scenes: {{1: {{characters: [CLERK, LAMPLIGHTER], shots: {{1A: {{cast: {written}}}}}}}}}\n"
    )
    front = "there is no character under 'plays:' or 'characters:' "
    assert said(found) == ([("unknown-name", front + sentence)] if sentence else [])
    assert plan.shots["1A"].cast


def test_where_a_scene_lists_nobody_a_new_character_may_come_in(decoded: Decoded) -> None:
    _, found = decoded("people: {mara: {plays: CLERK}, jon: {}}\nscenes: {1: {shots: {1A: {cast: {GUARD: jon}}}}}\n")
    assert said(found) == []
    _, found = decoded("people: {mara: {plays: CLERK}, jon: {}}\nscenes: {1: {shots: {1A: {cast: {CLERC: jon}}}}}\n")
    assert [rule for rule, _ in said(found)] == ["unknown-name"]


def test_clothes_of_a_character_nobody_knows(decoded: Decoded) -> None:
    _, found = decoded("people: {mara: {plays: CLERK}}\nscenes: {1: {wardrobe: {CLERC: coat}}}\n")
    assert [rule for rule, _ in said(found)] == ["unknown-name"]


@pytest.mark.parametrize(
    ("thing", "rule"),
    [
        ("{kind: battery, holds: 98}", "missing-unit"),
        ("{kind: media, holds: 128}", "missing-unit"),
        ("{kind: media, holds: 20 Wh}", "bad-quantity"),
        ("{kind: battery, holds: 98 Wh}", ""),
        ("{kind: drive, holds: 2 TB}", ""),
        ("{kind: adapter, from: 55, to: 67 mm}", "missing-unit"),
        ("{kind: adapter, from: 55 mm, to: 67}", "missing-unit"),
        ("{kind: adapter, from: 3-bolt, to: bayonet-a}", ""),
        ("{kind: light, flicker: 1200}", "missing-unit"),
        ("{kind: light, flicker: none}", ""),
    ],
)
def test_a_text_that_is_a_quantity_wants_its_unit(decoded: Decoded, thing: str, rule: str) -> None:
    _, found = decoded(f"gear: {{thing: {thing}}}\n")
    assert [r for r, _ in said(found)] == ([rule] if rule else [])
