"""Whole plans: the findings each bad one must give stand beside it, word for word; the others give none."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hotset.pipeline import compile_plan

PLANS = Path(__file__).resolve().parents[1] / "plans"


def found(path: Path) -> list[str]:
    done = compile_plan(["-"], stdin_text=path.read_bytes(), stdin_name=path.name)
    return [f"{f.place.line}:{f.place.column}: {f.severity}: {f.sentence} [{f.rule}]" for f in done.findings]


@pytest.mark.parametrize("path", sorted((PLANS / "bad").glob("*.yaml")), ids=lambda p: p.stem)
def test_a_bad_plan_gives_its_findings(path: Path) -> None:
    assert found(path) == path.with_suffix(".expected").read_text("utf-8").splitlines()


def test_five_mistakes_are_five_findings() -> None:
    assert len(found(PLANS / "bad" / "five-mistakes.yaml")) == 5


def test_every_bad_plan_is_bad() -> None:
    plans = sorted((PLANS / "bad").glob("*.yaml"))
    assert plans
    assert all(found(path) for path in plans)


EXAMPLE = PLANS.parents[1] / "examples" / "last-boat" / "plan.yaml"


def misspelt(text: str) -> list[tuple[str, str]]:
    """Every sixth place where the example names a thing or a cloth, with the plan in which just that name is wrong."""
    plan = compile_plan(["-"], stdin_text=text.encode()).plan
    assert plan is not None
    names = "|".join(re.escape(name) for name in (*plan.gear, *plan.stock))
    start = text.index("\nsetups:")
    uses = [m for m in re.finditer(rf"(?<=[:\[,] )(?:{names})(?=[,\]}}\n])", text) if m.start() > start]
    return [(m.group(), f"{text[: m.start()]}{m.group()[:-1]}qx{text[m.end() :]}") for m in uses[::6]]


def test_a_misspelt_name_is_one_finding() -> None:
    text = EXAMPLE.read_text("utf-8")
    wrong = misspelt(text)
    assert len(wrong) > 10
    for name, changed in wrong:
        done = compile_plan(["-"], stdin_text=changed.encode())
        said = [f"{f.rule}: {f.sentence}" for f in done.findings if f.severity != "note"]
        assert len(said) == 1, (name, said)
        assert said[0].startswith("unknown-name"), said
