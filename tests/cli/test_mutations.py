"""A thousand damaged plans: each gives findings or none, never a traceback, never a fault of hotset itself."""

from __future__ import annotations

import io
import random
import re
import sys
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

import pytest
from hotset.cli import main

ROOT = Path(__file__).resolve().parents[2]
PLANS = [*sorted((ROOT / "examples").rglob("*.yaml")), ROOT / "templates" / "new" / "plan.yaml"]
RUNS = 1000
ODD = [
    "", " ", "\t", ":", ": ", "#", " #", "-", "- ", ",", "{", "}", "[", "]", '"', "'", "&a ", "*a", "!!int ", "%", "@",
    "|", ">", "?", "<<: ", "---\n", "...\n", "\n", "\r\n", "\0", "\x1b[31m", "\u202e", "\ufeff", "é", "窓", "😀", "0",
    "-1", "1e999", "NaN", "null", "~", "yes", "999999999999999999999", "1/0", "0 m", "-3 m", "24:61", "12 ft", "like: ",
    "remove: ",
]  # fmt: skip
LEAST_LINES = 40
WORD = re.compile(r"[A-Za-z0-9][\w.:/-]*\w|\w")


def damaged(text: str, chance: random.Random) -> str:
    """The text after one to four edits: of letters, of words, of whole lines."""
    for _ in range(chance.randint(1, 4)):
        lines = text.split("\n")
        here, there = chance.randrange(len(lines)), chance.randrange(len(lines))
        at = chance.randrange(len(text) + 1)
        kind = chance.randrange(8)
        if kind == 0:
            text = text[:at] + chance.choice(ODD) + text[at:]
        elif kind == 1:
            text = text[:at] + text[at + chance.randint(1, 12) :]
        elif kind == 2:
            del lines[here]
            text = "\n".join(lines)
        elif kind == 3:
            lines[here], lines[there] = lines[there], lines[here]
            text = "\n".join(lines)
        elif kind == 4:
            lines[here] = " " * chance.randint(0, 8) + lines[here].strip()
            text = "\n".join(lines)
        elif kind == 5:
            words = lines[here].split(" ")
            words[chance.randrange(len(words))] = chance.choice(ODD)
            lines[here] = " ".join(words)
            text = "\n".join(lines)
        elif kind == 6:
            key, colon, _value = lines[here].partition(":")
            lines[here] = key + colon + " " + chance.choice(ODD) if colon else lines[there]
            text = "\n".join(lines)
        else:
            text = text[: max(1, at)]
    return text


def changed(text: str, chance: random.Random) -> str:
    """The text with one to five words exchanged for others of the same plan, or odd numbers: still YAML, mostly."""
    words = [match.span() for match in WORD.finditer(text)]
    for start, end in sorted(chance.sample(words, chance.randint(1, 5)), reverse=True):
        word = text[start:end]
        if word[0].isdigit() and chance.random() < 0.5:
            word = chance.choice(["0", "-1", "0.001", "1e9", "7", "100000", word + word, "24:30", "12.5.3"])
        else:
            other = chance.choice(words)
            word = text[other[0] : other[1]] if other[1] <= start else "x" + word
        text = text[:start] + word + text[end:]
    return text


def checked(text: str, monkeypatch: pytest.MonkeyPatch) -> tuple[int, str, str]:
    out, err = io.StringIO(), io.StringIO()
    data = text.encode("utf-8", "surrogatepass")
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data), "utf-8"))
    with redirect_stdout(out), redirect_stderr(err):
        exit_status = main(["check", "-"])
    return exit_status, out.getvalue(), err.getvalue()


def test_there_are_plans_to_damage() -> None:
    assert sum(len(path.read_text("utf-8").splitlines()) > LEAST_LINES for path in PLANS) >= 3


def test_a_thousand_damaged_plans(monkeypatch: pytest.MonkeyPatch) -> None:
    chance = random.Random(20261125)
    originals = [path.read_text("utf-8") for path in PLANS]
    seen: dict[int, int] = {}
    for number in range(RUNS):
        text = (changed if number % 2 else damaged)(chance.choice(originals), chance)
        exit_status, out, err = checked(text, monkeypatch)
        seen[exit_status] = seen.get(exit_status, 0) + 1
        if exit_status not in (0, 1, 2) or "Traceback" in out + err or err:
            pytest.fail(f"damaged plan {number} gave exit {exit_status}:\n{err}{out[-1500:]}\nThe plan:\n{text}")
        assert exit_status == 0 or out, f"damaged plan {number} failed without a word"
        assert not set(out) & set("\0\x1b\u202e\ufeff\r"), f"damaged plan {number} sent the terminal something"
    assert set(seen) == {0, 1, 2}
    assert seen[0] + seen[1] > RUNS // 4, "most must be damaged in what they say, not in how they are written"
