"""`hotset new`: what it writes, and that it never touches what exists."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.cli import main


def test_the_starter_checks_without_a_finding(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", str(tmp_path / "film")]) == 0
    assert f"next: hotset check {tmp_path / 'film' / 'plan.yaml'}" in capsys.readouterr().out
    assert sorted(path.name for path in (tmp_path / "film").iterdir()) == ["README.md", "plan.yaml"]
    assert main(["check", str(tmp_path / "film" / "plan.yaml"), "--fail-on", "warning", "-q"]) == 0
    assert capsys.readouterr().out == ""


@pytest.mark.parametrize("there", ["plan.yaml", "README.md"])
def test_nothing_is_overwritten_and_nothing_half_written(
    there: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / there).write_text("mine")
    assert main(["new", str(tmp_path)]) == 2
    assert "exists already, so nothing was written" in capsys.readouterr().err
    assert [(path.name, path.read_text()) for path in tmp_path.iterdir()] == [(there, "mine")]


def test_other_files_may_stand_beside_it(tmp_path: Path) -> None:
    (tmp_path / "script.fountain").write_text("FADE IN:")
    assert main(["new", str(tmp_path)]) == 0
    assert (tmp_path / "script.fountain").read_text() == "FADE IN:"


def test_a_file_where_the_folder_should_be(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "film").write_text("mine")
    assert main(["new", str(tmp_path / "film")]) == 2
    assert "Traceback" not in capsys.readouterr().err
    assert (tmp_path / "film").read_text() == "mine"


def test_when_writing_fails_half_way_nothing_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from hotset.cli import new

    monkeypatch.setattr(new, "STARTER", {"plan.yaml": "plan.yaml", "no/such/folder.md": "readme.txt"})
    assert main(["new", str(tmp_path)]) == 2
    assert list(tmp_path.iterdir()) == []
