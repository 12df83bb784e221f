"""Hostile and broken bytes: a finding with a place, quickly, and never more."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from hotset.findings import Finding
from hotset.source import Source, read
from hotset.source.compose import DEEPEST, LONGEST_SCALAR, MOST_NODES
from hotset.source.text import MOST_BYTES, excerpt_of


def of(data: bytes) -> Source:
    return read(["-"], stdin_text=data)


def only(source: Source) -> Finding:
    assert len(source.findings) == 1, source.findings
    assert source.root is None
    assert source.findings[0].unreadable
    return source.findings[0]


BOMB = b"a: &a [x, x, x, x, x, x, x, x, x]\n" + b"".join(
    f"{name}: &{name} [{', '.join(['*' + before] * 9)}]\n".encode()
    for before, name in zip("abcdefgh", "bcdefghi", strict=True)
)
NESTED_ALIASES = b"a0: &a0 [x]\n" + b"".join(f"a{i}: &a{i} [*a{i - 1}]\n".encode() for i in range(1, 200))


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"a: " + b"[" * 30_000, f"more than {DEEPEST} deep"),
        (b"a: " + b"{a: " * 30_000, f"more than {DEEPEST} deep"),
        (b"\n".join(b" " * i + b"a:" for i in range(3000)), f"more than {DEEPEST} deep"),
        (b"- " * 30_000, f"more than {DEEPEST} deep"),
        (NESTED_ALIASES, f"more than {DEEPEST} deep"),
        (BOMB, f"more than {MOST_NODES} values"),
        (b"a: [" + b"1," * (MOST_NODES + 1) + b"1]\n", f"more than {MOST_NODES} values"),
        (b"a: " + b"x" * 3_000_000 + b"\n", f"{LONGEST_SCALAR} are the most"),
        (b"a: '" + b"x\n " * 40_000 + b"'\n", f"{LONGEST_SCALAR} are the most"),
        (b"a" * (MOST_BYTES + 1), "larger than 8 MB"),
    ],
    ids=["brackets", "braces", "stairs", "dashes", "aliases deep", "aliases many", "values", "long line", "long text",
         "large"],
)  # fmt: skip
def test_limits_are_findings_and_quick(data: bytes, words: str) -> None:
    start = time.process_time()
    finding = only(of(data))
    assert finding.rule == "too-large"
    assert words in finding.sentence
    assert time.process_time() - start < 4


def test_depth_and_length_just_within_the_limits() -> None:
    deep = b"a: " + b"[" * (DEEPEST - 1) + b"x" + b"]" * (DEEPEST - 1)
    assert of(deep).findings == ()
    assert of(b"a: " + b"x" * LONGEST_SCALAR).findings == ()
    assert of(b"a: [" + b"1 m," * 200_000 + b"1 m]\n").findings == ()


def test_a_large_file_is_not_read_to_its_end(tmp_path: Path) -> None:
    path = tmp_path / "film.yaml"
    with path.open("wb") as stream:
        stream.truncate(50_000_000)
    assert only(read([str(path)])).rule == "too-large"


@pytest.mark.parametrize(
    ("data", "line", "column", "words"),
    [
        (b"a: 1\nb: \x00\n", 2, 4, "control character here (U+0000)"),
        (b"a: 1\nb: x\x1b[31m\n", 2, 5, "(U+001B)"),
        (b"a: 1\nb: x\xef\xbb\xbfy\n", 2, 5, "(U+FEFF)"),
        (b"title: caf\xe9\n", 1, 11, "0xe9 here is not UTF-8, perhaps 'é'"),
        ("a: ö\nb: ".encode() + b"\xff\n", 2, 4, "0xff here is not UTF-8"),
        (b"a: \xc3", 1, 4, "byte 4 of the file"),
        ("a: 1\n".encode("utf-16"), 1, 1, "UTF-16"),
        ("a: 1\n".encode("utf-16-le"), 1, 1, "UTF-16"),
        (b"a: \xed\xa0\x80\n", 1, 4, "not UTF-8"),
    ],
)
def test_bytes_that_are_no_text(data: bytes, line: int, column: int, words: str) -> None:
    finding = only(of(data))
    assert (finding.place.line, finding.place.column) == (line, column)
    assert words in finding.sentence
    assert of(data).excerpt(finding.place)[0].isprintable()


def test_byte_order_mark_and_line_ends_are_remembered() -> None:
    file = of(b"\xef\xbb\xbfa: 1\r\nb: 2\r\n").files[0]
    assert (file.bom, file.newline, file.text) == (True, "\r\n", "a: 1\r\nb: 2\r\n")
    assert of(b"a: 1\nb: 2\r\n").files[0].newline == "\n"


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
def test_lines_count_the_same_with_every_line_end(newline: str) -> None:
    source = of(newline.join(["a: 1", "b: 2", "a: 3", ""]).encode())
    (finding,) = source.findings
    assert (finding.place.line, finding.place.column) == (3, 1)
    assert source.excerpt(finding.place) == ("a: 3", 1)


def test_excerpts_show_what_a_terminal_would_hide() -> None:
    assert excerpt_of("a: \u202eevil\u2066 \x1b[0m\tz", 4) == ("a: \\u202eevil\\u2066 \\x1b[0m\\tz", 4)
    assert excerpt_of("\tkey: 1", 2) == ("\\tkey: 1", 3)
    assert excerpt_of("", 5) == ("", 1)


def test_excerpts_of_long_lines_show_the_spot() -> None:
    text, column = excerpt_of("x" * 5000 + "HERE" + "y" * 5000, 5001)
    assert len(text) < 200
    assert text[column - 1 :].startswith("HERE")
    assert text.startswith("...")
    assert text.endswith("...")


def test_other_line_separators_of_unicode_are_blanks() -> None:
    source = of("a: x\u2028y\nb: 1\x85c\na: 2\n".encode())
    assert [f.place.line for f in source.findings] == [3]
