"""Compiled templates are kept where that is allowed, and never trusted blindly."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from hotset.documents.kept import Kept
from jinja2 import DictLoader, Environment


def said(folder: Path, text: str) -> str:
    env = Environment(loader=DictLoader({"sheet": text}), bytecode_cache=Kept(str(folder)), autoescape=True)
    return env.get_template("sheet").render(name="quay")


@pytest.fixture
def keeping(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)


@pytest.mark.usefixtures("keeping")
def test_a_template_is_kept_and_read_again(tmp_path: Path) -> None:
    assert said(tmp_path, "at {{ name }}") == "at quay"
    (kept,) = (tmp_path / "__pycache__").iterdir()
    before = kept.read_bytes()
    assert said(tmp_path, "at {{ name }}") == "at quay"
    assert kept.read_bytes() == before


@pytest.mark.usefixtures("keeping")
def test_a_changed_template_is_compiled_anew(tmp_path: Path) -> None:
    said(tmp_path, "at {{ name }}")
    assert said(tmp_path, "by {{ name }}") == "by quay"


@pytest.mark.usefixtures("keeping")
@pytest.mark.parametrize("damage", [b"", b"j2", b"\x00" * 200])
def test_a_damaged_file_is_compiled_anew(tmp_path: Path, damage: bytes) -> None:
    said(tmp_path, "at {{ name }}")
    (kept,) = (tmp_path / "__pycache__").iterdir()
    kept.write_bytes(damage)
    assert said(tmp_path, "at {{ name }}") == "at quay"


@pytest.mark.usefixtures("keeping")
def test_a_folder_that_cannot_be_written_does_no_harm(tmp_path: Path) -> None:
    (tmp_path / "__pycache__").write_text("a file where the folder should be", "utf-8")
    assert said(tmp_path, "at {{ name }}") == "at quay"


def test_nothing_is_kept_where_python_keeps_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert said(tmp_path, "at {{ name }}") == "at quay"
    assert list(tmp_path.iterdir()) == []
