"""All fixed words of the sheets are in one catalogue, and nothing a reader sees bypasses it."""

from __future__ import annotations

import ast
import struct
from importlib.resources import files
from pathlib import Path

import pytest
from hotset.documents import pot
from hotset.documents.words import words_for

# These speak to whoever runs the command or hold the words of a file format, never of a sheet.
NOT_SHEETS = {"po.py", "pdf.py", "writer.py", "disk.py", "render.py", "words.py", "csvtext.py", "version.py", "view.py"}
NOT_SHEETS |= {"__init__.py", "build.py", "drawings/__init__.py"}
NOT_SHEETS |= {"drawings/svg.py", "swatch.py", "ics.py"}  # the words of SVG and of iCalendar themselves


def test_the_catalogue_is_up_to_date() -> None:
    checked_in = (files("hotset.templates") / "words" / "hotset.pot").read_text("utf-8")
    assert checked_in == pot.pot_text(), "run: python -m hotset.documents.pot > templates/words/hotset.pot"


@pytest.mark.parametrize(("name", "text"), list(pot.sheet_templates()))
def test_no_template_speaks_by_itself(name: str, text: str) -> None:
    assert pot.loose_words_in_template(text) == [], name


@pytest.mark.parametrize(("name", "text"), [pair for pair in pot.document_modules() if pair[0] not in NOT_SHEETS])
def test_no_document_speaks_by_itself(name: str, text: str) -> None:
    loose = pot.loose_words_in_module(ast.parse(text))
    if name.startswith("drawings/"):  # there a word and a blank begin the key of a label, which nobody reads
        loose = [words for words in loose if not words.rstrip().isalpha()]
    assert loose == [], name


def test_the_guards_can_fail() -> None:
    assert pot.loose_words_in_template("<p>Call {{ when }}</p>") == ["Call"]
    assert pot.loose_words_in_template('<p title="Call">{{ _("Call") }}</p>') == ["Call"]
    assert pot.loose_words_in_module(ast.parse('x = "Call time"')) == ["Call time"]
    assert pot.loose_words_in_module(ast.parse('x = _("Call time")')) == []


def test_another_language_is_one_file(tmp_path: Path) -> None:
    folder = tmp_path / "xx" / "LC_MESSAGES"
    folder.mkdir(parents=True)
    (folder / "hotset.mo").write_bytes(mo({"": "Content-Type: text/plain; charset=UTF-8\n", "page": "Seite"}))
    _ = words_for("xx", str(tmp_path))
    assert (_.language, _("page"), _("of")) == ("xx", "Seite", "of")
    assert words_for("yy", str(tmp_path)).language == "en"


def mo(pairs: dict[str, str]) -> bytes:
    """A compiled catalogue, little-endian, as the gettext manual lays it out (chapter 'The Format of GNU MO Files')."""
    rows = [(k.encode(), v.encode()) for k, v in sorted(pairs.items())]
    start = 28 + 16 * len(rows)
    texts = b""
    heads: tuple[list[bytes], list[bytes]] = ([], [])
    for side in (0, 1):
        for row in rows:
            heads[side].append(struct.pack("<II", len(row[side]), start + len(texts)))
            texts += row[side] + b"\0"
    head = struct.pack("<7I", 0x950412DE, 0, len(rows), 28, 28 + 8 * len(rows), 0, 0)
    return head + b"".join(heads[0] + heads[1]) + texts
