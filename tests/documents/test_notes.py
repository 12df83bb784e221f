"""What people write as a note lands on a sheet, whatever it stands under."""

from __future__ import annotations

import json
import re
from importlib.resources import files
from pathlib import Path

import pytest
from hotset.documents import build
from hotset.pipeline import compile_plan

PLAN = Path(__file__).parent / "notes.yaml"


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> str:
    out = tmp_path_factory.mktemp("notes")
    compiled = compile_plan([str(PLAN)])
    assert compiled.plan is not None
    build(compiled, out, pdf=False)
    pages = (re.sub(r"<svg.*?</svg>", "", p.read_text("utf-8"), flags=re.DOTALL) for p in sorted(out.rglob("*.html")))
    return "\n".join(pages)


def test_every_noun_that_takes_a_note_is_in_the_plan() -> None:
    nouns = {
        path.name.removesuffix(".json").replace("-", "")
        for path in (files("hotset.schemas") / "nouns").iterdir()
        if path.name.endswith(".json") and "note" in json.loads(path.read_text("utf-8")).get("properties", {})
    }
    told = set(re.findall(r"N-(\w+)", PLAN.read_text("utf-8")))
    assert nouns <= told


@pytest.mark.parametrize("note", sorted(set(re.findall(r"N-\w+", PLAN.read_text("utf-8")))))
def test_a_note_is_printed(printed: str, note: str) -> None:
    assert re.search(rf"\b{note}\b", printed), note
