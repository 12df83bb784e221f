"""Lists as CSV, and the version of a plan."""

from __future__ import annotations

import csv
import io

import pytest
from hotset.documents.csvtext import csv_text, safe_cell
from hotset.documents.version import version_of
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize("text", ["=1+1", "+44 1", "-5", "@SUM(A1)", "\tx", "\rx", "\nx", " =1+1", "＝1+1"])
def test_a_spreadsheet_computes_nothing(text: str) -> None:
    assert safe_cell(text) == "'" + text


def test_nor_does_one_that_parts_cells_at_semicolons() -> None:
    text = csv_text(["what"], [["a lamp;=cmd|'/c calc'!A1"], ["till;-2+3\n@x"]])
    for row in csv.reader(io.StringIO(text, newline=""), delimiter=";"):
        for cell in row:
            assert not cell.startswith(("=", "+", "-", "@")), row


def test_plain_cells_stay() -> None:
    assert csv_text(["what", "whose"], [["lamp, big", 'the "club"']]) == 'what,whose\r\n"lamp, big","the ""club"""\r\n'


@given(st.lists(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0")), min_size=2, max_size=4))
def test_every_row_reads_back(row: list[str]) -> None:
    read = list(csv.reader(io.StringIO(csv_text(["a"] * len(row), [row]), newline="")))
    assert read[1] == [safe_cell(cell) for cell in row]
    assert [cell.replace("'", "") for cell in read[1]] == [cell.replace("'", "") for cell in row]


def test_the_version_follows_the_words_alone() -> None:
    here = version_of({"plan.yaml": b"a", "kit.yaml": b"b"})
    assert len(here) == 8
    assert here == version_of({"elsewhere/kit.yaml": b"b", "elsewhere/plan.yaml": b"a"})
    assert here != version_of({"plan.yaml": b"a", "kit.yaml": b"c"})
    assert here != version_of({"plan.yaml": b"ab"})
