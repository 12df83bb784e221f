"""What holds for every rule of the catalogue: its page is whole, it speaks on its plan and not on the one beside it."""

from __future__ import annotations

import re
from pathlib import Path
from types import ModuleType

import pytest
from hotset.rules import RULES, Rule
from hotset.rules.rule import rule

from .plans import HERE, compiled, marked_lines, said

PARTS = ("On set:", "How it is decided:", "Fix:", "When to accept it:")
WITHOUT_A_PLAN = {"broken-rule", "no-file"}
"""Faults no plan can have: of hotset itself, and of the name that was given for a plan."""


def ids(one: Rule) -> str:
    return one.id


def test_ids_are_slugs_and_differ() -> None:
    names = [one.id for one in RULES]
    assert len(set(names)) == len(names)
    assert all(name == name.lower() and name.replace("-", "").isalpha() for name in names)


@pytest.mark.parametrize("one", RULES, ids=ids)
def test_the_page_is_whole(one: Rule) -> None:
    at = [one.doc.find(part) for part in PARTS]
    assert -1 not in at
    assert at == sorted(at)
    assert re.search(r"[Ss]ource|NEC|\b(19|20)\d\d\b", one.doc), "a page names its source, or says that it has none"
    assert one.title
    assert one.title[0].islower()
    assert not one.title.endswith(".")


@pytest.mark.parametrize("one", [r for r in RULES if r.id not in WITHOUT_A_PLAN], ids=ids)
def test_it_alone_speaks_on_its_plan(one: Rule, tmp_path: Path) -> None:
    done = compiled(one.triggers.lstrip("\n"), tmp_path)
    mine = [f for f in done.findings if f.rule == one.id]
    others = [f for f in done.findings if f.rule != one.id and f.severity != "note"]
    assert mine
    assert said(others) == []
    for found in mine:
        assert found.severity == one.severity or one.id == "lost-text"
        assert found.sentence[0] == found.sentence[0].lower()
        assert not found.sentence.endswith(".")
        assert found.ways_out
    lines = marked_lines(one.triggers.lstrip("\n"))
    assert lines, f"the plan marks no line with '{HERE}'"
    assert sorted({f.place.line for f in mine}) == lines


@pytest.mark.parametrize("one", [r for r in RULES if r.id not in WITHOUT_A_PLAN], ids=ids)
def test_nothing_speaks_on_the_plan_beside_it(one: Rule, tmp_path: Path) -> None:
    done = compiled(one.passes.lstrip("\n"), tmp_path)
    assert said([f for f in done.findings if f.severity != "note" or f.rule == one.id]) == []
    assert done.plan is not None
    assert one.id not in {silent.rule for silent in done.coverage.not_checked}


def test_a_rule_without_its_parts_is_refused() -> None:
    module = ModuleType("half", "A page.")
    with pytest.raises(KeyError):
        rule(module)
