"""Whole plans: the findings each bad one must give stand beside it, word for word; the others give none."""

from __future__ import annotations

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
