"""The shape of the code: short files, short functions, nothing left for later, nothing that only one machine knows."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LONGEST_FILE = 400
LONGEST_FUNCTION = 60
CODE = ("compiler", "schemas", "templates", "tests", "examples")
NOT_OURS = {".git", ".venv", "build", "dist", "out", "__pycache__", ".hypothesis"}

# Written in two halves, so that this file does not hold what it forbids.
UNFINISHED = [a + b for a, b in (("TO", "DO"), ("FIX", "ME"), ("XX", "X"), ("Not", "ImplementedError"))]
UNTESTED = [a + b for a, b in (("mark.", "skip"), ("mark.", "xfail"), ("pytest.", "skip("), ("pytest.", "xfail("))]
MACHINE = [a + b for a, b in (("/wo", "rk/"), ("/tmp", "/"), ("/ro", "ot/"), ("/ho", "me/"), ("contract", ".md"))]
HOSTS = [a + b for a, b in (("pypi", ".org"), ("python", "hosted"), ("npmjs", ".org"), ("debian", ".org"))]


def files(*folders: str) -> Iterator[Path]:
    for folder in folders:
        for path in sorted((ROOT / folder).rglob("*")):
            inner = path.relative_to(ROOT).parts
            if path.is_file() and not NOT_OURS & set(inner) and not any(p.endswith(".egg-info") for p in inner):
                yield path


def code() -> list[Path]:
    return [path for path in files(*CODE) if path.suffix == ".py"]


def texts() -> Iterator[tuple[Path, str]]:
    top = [path for path in ROOT.iterdir() if path.is_file() and path.suffix in (".md", ".toml")]
    for path in [*top, *files(*CODE, ".ci")]:
        if path.suffix not in (".ttf", ".pdf", ".png"):
            yield path, path.read_text("utf-8", errors="replace")


def test_there_is_code_to_look_at() -> None:
    assert len(code()) > 40


def test_no_file_is_too_long() -> None:
    lengths = {str(path.relative_to(ROOT)): len(path.read_text("utf-8").splitlines()) for path in code()}
    assert {name: n for name, n in lengths.items() if n > LONGEST_FILE} == {}


def test_no_function_is_too_long() -> None:
    long = {}
    for path in code():
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
                length = (node.end_lineno or node.lineno) - node.lineno + 1
                if length > LONGEST_FUNCTION:
                    long[f"{path.relative_to(ROOT)}:{node.lineno} {node.name}"] = length
    assert long == {}


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (UNFINISHED, "unfinished work"),
        (UNTESTED, "a test that does not run"),
        (MACHINE, "a path of one machine"),
        (HOSTS, "a registry's host"),
    ],
)
def test_no_text_holds(words: list[str], why: str) -> None:
    pattern = re.compile("|".join(re.escape(word) for word in words))
    found = []
    for path, text in texts():
        for number, line in enumerate(text.splitlines(), 1):
            if pattern.search(line):
                found.append(f"{path.relative_to(ROOT)}:{number}: {line.strip()[:80]}")
    assert found == [], why


def test_every_module_of_the_package_says_what_it_is() -> None:
    silent = []
    for path in files("compiler", "schemas", "templates"):
        if path.suffix == ".py" and not ast.get_docstring(ast.parse(path.read_text("utf-8"))):
            silent.append(str(path.relative_to(ROOT)))
    assert silent == []
