"""What people get wrong when they write their first plan: one finding each, at the spot, in words that help."""

from __future__ import annotations

import pytest
from hotset.findings import Finding
from hotset.source import read

# The text, the line and column of its one finding, words of its sentence, words of its ways out.
BROKEN: dict[str, tuple[str, int, int, str, str]] = {
    "tab": ("days:\n\t1: {call: 07:30}\n", 2, 1, "indented with a tab", "two blanks"),
    "tab after blanks": ("days:\n  1:\n  \tcall: 07:30\n", 3, 3, "indented with a tab", "two blanks"),
    "colon in text": ("does: She says: hello\n", 1, 15, "a colon and a blank inside text", '"She says: hello"'),
    "colon in braces": ("4A: {does: He asks: who}\n", 1, 19, "second colon after 'He asks'", '"He asks: who"'),
    "value and children": ("camera: body-a\n  lens: a\n", 2, 3, "already has the value 'body-a'", "column 1"),
    "deeper than the line above": ("a:\n  b: 1\n    c: 2\n", 3, 5, "indented under 'b'", "column 3"),
    "between two levels": ("a:\n    b: 1\n  c: 2\n", 3, 3, "starts at column 3", "column 1 or 5"),
    "one blank short": ("a:\n  b: 1\n c: 2\n", 3, 2, "starts at column 2", "column 1 or 3"),
    "no colon": ("title: x\ndays\n  1: a\n", 2, 1, "'days' has no colon", "'days:'"),
    "no blank after the colon": ("a: 1\ntitle:x\n", 2, 6, "no blank after the colon of 'title'", "'title: x'"),
    "no blank in the first line": ("title:x\nb: 1\n", 1, 6, "no blank after the colon of 'title'", "'title: x'"),
    "equals sign": ("a = 1\nb: 2\n", 1, 3, "an equals sign stands after 'a'", "'a: 1'"),
    "star": ("a: *star lamp\n", 1, 4, "starts with *", '"*star lamp"'),
    "lonely star": ("a: *\n", 1, 4, "cannot start with *", '"*"'),
    "star in a list": ("a: [b, *c]\n", 1, 8, "there is no &c", "in quotes"),
    "percent": ("a: %x\n", 1, 4, "cannot start with %", '"%x"'),
    "at": ("a: {b: @home, c: 1}\n", 1, 8, "cannot start with @", '"@home"'),
    "backtick": ("a: `x`\n", 1, 4, "cannot start with `", '"`x`"'),
    "dash": ("a: - x\n", 1, 4, "cannot start with -", '"- x"'),
    "question mark": ("a: ? x\n", 1, 4, "cannot start with ?", '"? x"'),
    "ampersand": ("a: & co\n", 1, 4, "cannot start with &", '"& co"'),
    "greater than": ("a: >5 m\n", 1, 4, "cannot start with >", '">5 m"'),
    "exclamation mark": ("a: !look here\n", 1, 4, "'!look' starts with an exclamation mark", "in quotes"),
    "quotes and rest": ('a: "Hello" he says\n', 1, 12, "the quotes end after", "'\"Hello\" he says'"),
    "quotes and rest in braces": ('{a: "Hello" he says}\n', 1, 13, "the quotes end after", "'\"Hello\" he says'"),
    "apostrophe": ("a: 'it's late'\n", 1, 8, "the quotes end after", '"it\'s late"'),
    "quote never closed": ('a: "x\nb: 1\n', 1, 4, "never closed", "the same quote"),
    "quote closed too late": ('a: "x\nb: "y"\n', 1, 4, "closed only on a later line", "close the quote"),
    "bracket never closed": ("a: [1, 2\nb: 3\n", 1, 4, "'[' opened here is never closed", "']'"),
    "brace never closed": ("a: {b: 1\n", 1, 4, "'{' opened here is never closed", "'}'"),
    "wrong bracket": ("a: [1}\n", 1, 6, "'[' is closed with '}'", "']'"),
    "bracket too many": ("b: [1]]\n", 1, 7, "closes nothing", "delete it"),
    "comma forgotten": ("a: {b: [1] c: 2}\n", 1, 12, "a comma is missing", "comma"),
    "hash in a list": ("a: [#4, #5]\nb: 1\n", 1, 5, "makes a comment of the rest", "in quotes"),
    "second plan": ("a: 1\n---\nb: 2\n", 2, 1, "three dashes", "include"),
    "list among names": ("a: 1\n- b\n", 2, 1, "list item", "line the dashes up"),
    "backslash": ('a: "C:\\dir"\n', 1, 7, "a backslash inside double quotes", "single quotes"),
    "no name": (": a\n", 1, 1, "no name before this colon", "write the name"),
    "percent line": ("%x\na: 1\n", 1, 1, "starts with %", "comment"),
    "blanks of a web page": ("a:\n\u00a0\u00a0b: 1\n", 2, 1, "not ordinary", "ordinary blanks"),
    "text under a bar": ("a: |\n    x\n  y\nb: 1\n", 3, 3, "indented less than the text", "first line"),
    "conflict of git": ("a: 1\n<<<<<<< HEAD\nb: 2\n=======\nb: 3\n>>>>>>> x\n", 2, 1, "two versions", "<<<<<<<"),
    "merge key": ("a: &x {b: 1}\nc:\n  <<: *x\n", 3, 3, "'<<'", "like:"),
    "two braces": ("does: {{card}}\n", 1, 7, "two braces", "in quotes"),
    "list for a name": ("[a, b]: 1\n", 1, 1, "where a name is due", "write a name"),
    "list on top": ("- a\n- b\n", 1, 1, "the file is a list", "above them"),
    "words on top": ("hello\n", 1, 1, "plain text", "hotset: 1"),
    "empty": ("", 1, 1, "the file is empty", "hotset new"),
    "comments only": ("# to do\n", 1, 1, "nothing but comments", "hotset: 1"),
    "circle": ("a: &x [1, *x]\n", 1, 11, "would never end", "delete"),
}

# These can be read on: text, line, column, rule, severity, words of the sentence, words of the ways out.
LOST: dict[str, tuple[str, int, int, str, str, str, str]] = {
    "comma in text": (
        "4B: {does: She turns, listens.}\n", 1, 23, "lost-text", "error",
        "a comma ended the text 'She turns'", '"She turns, listens."',
    ),
    "comma in coordinates": (
        "x: {at: 55.01 N, 1.44 W}\n", 1, 18, "lost-text", "error", "'1.44 W' after it is lost", '"55.01 N, 1.44 W"',
    ),
    "comma in thousands": ("x: {draws: 1,000 W, y: 2}\n", 1, 14, "lost-text", "error", "'1,000 W'", "write 1000 W"),
    "decimal comma": ("x: {height: 1,8 m}\n", 1, 15, "lost-text", "error", "'1,8 m'", "write 1.8 m"),
    "value forgotten": ("x: {with: [a], held}\n", 1, 16, "lost-text", "error", "'held' stands in braces", "its value"),
    "braces as text": ("does: {card}\n", 1, 8, "lost-text", "error", "in braces is read as a map", '"{card}"'),
    "hash as value": ("note: #4 is late\n", 1, 7, "lost-text", "error", "nothing is left", '"#4 is late"'),
    "hash in text": ("note: lamp #4 is late\n", 1, 12, "lost-text", "warning", "only 'lamp'", "in quotes"),
    "no blank in braces": ("a: {lamp: x, b:y}\n", 1, 14, "not-yaml", "error", "no blank after the colon", "'b: y'"),
    "name twice": ("a: 1\nb: {c: 1, c: 2}\n", 2, 11, "duplicate-key", "error", "'c' is written twice", "delete one"),
}  # fmt: skip


def only_finding(text: str) -> Finding:
    source = read(["-"], stdin_text=text.encode())
    assert len(source.findings) == 1, source.findings
    return source.findings[0]


@pytest.mark.parametrize("case", BROKEN)
def test_broken_text_gives_one_finding_at_the_spot(case: str) -> None:
    text, line, column, words, way = BROKEN[case]
    finding = only_finding(text)
    assert (finding.place.line, finding.place.column) == (line, column), finding
    assert finding.rule == "not-yaml"
    assert finding.unreadable
    assert words in finding.sentence
    assert way in " ".join(finding.ways_out)
    assert read(["-"], stdin_text=text.encode()).root is None


@pytest.mark.parametrize("case", LOST)
def test_lost_text_is_said_and_reading_goes_on(case: str) -> None:
    text, line, column, rule, severity, words, way = LOST[case]
    finding = only_finding(text)
    assert (finding.place.line, finding.place.column, finding.rule) == (line, column, rule), finding
    assert finding.severity == severity
    assert not finding.unreadable
    assert words in finding.sentence
    assert way in " ".join(finding.ways_out)
    assert read(["-"], stdin_text=text.encode()).root is not None


@pytest.mark.parametrize("case", [*BROKEN, *LOST])
def test_messages_speak_plainly(case: str) -> None:
    finding = only_finding((BROKEN | LOST)[case][0])
    said = " ".join((finding.sentence, *finding.ways_out, *(r.words for r in finding.related)))
    for jargon in ("token", "scalar", "mapping", "sequence", "parse", "block end", "indicator", "context", "stream"):
        assert jargon not in said
    assert finding.sentence[0] == finding.sentence[0].lower()
    assert not finding.sentence.endswith(".")


def test_second_place_of_a_name_written_twice() -> None:
    finding = only_finding("gear:\n  a: {kind: lens}\n  b: 1\n  a: {kind: light}\n")
    assert [(r.place.line, r.place.column) for r in finding.related] == [(2, 3)]
    assert finding.place.path == "gear"


def test_text_cut_by_a_comma_is_whole_again_for_what_follows() -> None:
    root = read(["-"], stdin_text=b"a: {does: She turns, listens., draws: 1,000 W}\n").root
    assert root is not None
    inner = root.get("a")
    assert [(name, getattr(value, "text", "")) for name, _, value in inner] == [  # type: ignore[union-attr]
        ("does", "She turns, listens."),
        ("draws", "1000 W"),
    ]


def test_one_file_says_at_most_twenty_things() -> None:
    text = "".join(f"a: {i}\n" for i in range(500))
    assert len(read(["-"], stdin_text=text.encode()).findings) == 20


def test_what_is_no_mistake() -> None:
    text = (
        "a: {call: 07:30, aspect: 16:9, see: http://example.org/x}\nb:\nc: [07:30, x]\nd: 1 # note\n"
        "e: {f: , g: 1}\nh: 'it''s'\ni: |\n  text: # here\n  - more\nj:\n- 1\n- 2\nk: a#4\n\"l m\": {n: 'a, b'}\n"
    )
    source = read(["-"], stdin_text=text.encode())
    assert source.findings == ()
    assert source.root is not None
    assert list(source.root.entries) == ["a", "b", "c", "d", "e", "h", "i", "j", "k", "l m"]
