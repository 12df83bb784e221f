"""The generated pages say what the schema and the rules say now."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.report import pages
from hotset.rules import RULES


def test_the_pages_in_the_repository_are_fresh() -> None:
    assert pages.stale(pages.home()) == [], "run: python -m hotset.report.pages"


def test_a_stale_page_is_found_and_written_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(pages, "home", lambda: tmp_path)
    assert pages.main(["--check"]) == 1
    assert "LANGUAGE.md is not what" in capsys.readouterr().out
    assert pages.main([]) == 0
    assert pages.main(["--check"]) == 0
    (tmp_path / "RULES.md").write_text("old")
    assert pages.main(["--check"]) == 1
    assert pages.main(["--chekc"]) == 2


def test_every_rule_has_its_part_of_the_catalogue() -> None:
    text = pages.pages()["RULES.md"]
    for rule in RULES:
        assert f"\n## {rule.id}\n" in text
        assert f"| [{rule.id}](#{rule.id}) | {rule.severity} |" in text
