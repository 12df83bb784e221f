"""The examples check without errors, and every change that their pages propose gives the finding they name."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from hotset.pipeline import compile_plan

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAMES = sorted(p.parent.name for p in EXAMPLES.glob("*/plan.yaml"))
ROW = re.compile(r"^\| `([^`]+)` to `([^`]+)`[^|]*\| `([a-z-]+)`", re.MULTILINE)
CHANGES = [(name, *row) for name in NAMES for row in ROW.findall((EXAMPLES / name / "README.md").read_text("utf-8"))]


def test_there_are_examples_and_changes() -> None:
    assert NAMES == ["last-boat", "smallest", "two-days-outside"]
    assert {name for name, *_ in CHANGES} == set(NAMES)
    for name in NAMES:
        rows = [line for line in (EXAMPLES / name / "README.md").read_text("utf-8").splitlines() if line[:3] == "| `"]
        assert len(rows) == sum(each == name for each, *_ in CHANGES), "a row that this test cannot read"


@pytest.mark.parametrize("name", NAMES)
def test_an_example_has_no_errors(name: str) -> None:
    compiled = compile_plan([str(EXAMPLES / name / "plan.yaml")])
    assert [f.sentence for f in compiled.findings if f.severity == "error"] == []


@pytest.mark.parametrize(("name", "old", "new", "rule"), CHANGES, ids=[f"{c[0]}-{c[3]}" for c in CHANGES])
def test_a_change_gives_its_finding(tmp_path: Path, name: str, old: str, new: str, rule: str) -> None:
    shutil.copytree(EXAMPLES / name, tmp_path / name)
    plan = tmp_path / name / "plan.yaml"
    before = {(f.rule, f.sentence) for f in compile_plan([str(plan)]).findings}
    text = plan.read_text("utf-8")
    assert old in text
    plan.write_text(text.replace(old, new, 1), "utf-8")
    after = {(f.rule, f.sentence) for f in compile_plan([str(plan)]).findings}
    assert rule in {r for r, _ in after - before}
