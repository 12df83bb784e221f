"""Who may import whom: data flows one way, every library used is declared, and a check pays only for what it needs."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from importlib.metadata import packages_distributions
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
COMPILER = ROOT / "compiler"

EVERYWHERE = {"data", "record"}
LEFT_OF: dict[str, set[str]] = {
    "data": set(),
    "record": set(),
    "findings": set(),
    "source": {"findings"},
    "science": set(),
    "plan": {"findings", "source"},
    "facts": {"findings", "source", "science", "plan"},
    "rules": {"findings", "source", "science", "plan", "facts"},
    "figures": {"source", "science", "plan", "facts"},
    "asking": {"source", "science", "plan", "facts"},
    "order": {"findings", "source", "science", "plan", "facts"},
    "log": {"source", "plan", "facts"},
    "risk": {"source", "science", "plan", "facts", "order"},
    "accepting": {"findings", "plan"},
    "mending": {"findings", "source"},
    "pipeline": {"findings", "source", "science", "plan", "facts", "rules", "accepting", "mending"},
    "trials": {"findings", "source", "science", "plan", "facts", "rules", "order", "accepting", "pipeline"},
    "now": {"source", "plan", "facts", "rules", "order", "log", "trials"},
    "documents": {"findings", "source", "science", "plan", "facts", "figures", "rules", "order", "pipeline"},
    "report": {"findings", "source", "rules", "pipeline"},
    "__main__": {"cli"},
    "__init__": set(),
}
LEFT_OF["cli"] = set(LEFT_OF) - {"cli", "__main__", "__init__"}
"""Part of the package -> the parts it may import beside itself."""


def modules() -> Iterator[tuple[Path, ast.Module]]:
    for path in sorted(COMPILER.rglob("*.py")):
        yield path, ast.parse(path.read_text("utf-8"))


def imported(path: Path, tree: ast.Module) -> Iterator[tuple[int, str]]:
    """Absolute names of what a module imports, wherever in it, with the line."""
    package = ["hotset", *path.relative_to(COMPILER).parent.parts]
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield node.lineno, alias.name
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            stem = ".".join([*base, *((node.module or "").split(".") if node.module else [])])
            for alias in node.names:
                yield node.lineno, f"{stem}.{alias.name}"


def test_every_part_imports_only_from_its_left() -> None:
    wrong = []
    for path, tree in modules():
        part = path.relative_to(COMPILER).parts[0].removesuffix(".py")
        for line, name in imported(path, tree):
            steps = name.split(".")
            if steps[0] != "hotset" or len(steps) < 2 or steps[1] in ("schemas", "templates"):
                continue
            if steps[1] != part and steps[1] not in LEFT_OF.get(part, set()) | EVERYWHERE:
                wrong.append(f"{path.relative_to(ROOT)}:{line} imports {name}")
    assert wrong == []


def test_every_part_has_its_place() -> None:
    parts = {path.relative_to(COMPILER).parts[0].removesuffix(".py") for path, _tree in modules()}
    assert parts == set(LEFT_OF)


def test_every_library_is_declared() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    declared = {re.split(r"[\[<>=;! ]", line, maxsplit=1)[0].lower() for line in project["dependencies"]}
    homes = packages_distributions()
    undeclared = {}
    for path, tree in modules():
        for line, name in imported(path, tree):
            top = name.split(".")[0]
            if top == "hotset" or top in sys.stdlib_module_names:
                continue
            owners = {owner.lower() for owner in homes.get(top, [top])}
            if not owners & declared:
                undeclared[f"{path.relative_to(ROOT)}:{line}"] = name
    assert undeclared == {}


MAY_IMPORT = ("hotset", "ruamel", "_ruamel_yaml", "cython_runtime", "_cython_", "__editable__")
"""How the names begin of what a clean check may import beside Python's own (the reader of YAML is made with Cython)."""

NOT_OF_PYTHON = {
    "asyncio", "ssl", "http", "urllib.request", "email", "xml", "sqlite3", "ctypes", "multiprocessing", "tempfile",
    "concurrent.futures", "zipfile", "unittest", "pydoc", "importlib.metadata", "decimal", "zoneinfo", "difflib",
    "dataclasses", "inspect",
}  # fmt: skip
"""Modules of Python itself that cost more than they give on the way of a clean check."""

LONGEST_LIST = 100
"""Modules that are not ours a clean check may import beyond a bare Python's; more need a reason and a new number."""

PLAN = """\
hotset: 1
title: Nothing wrong
days:
  1: {call: "09:00", wrap: "12:00", order: [wide]}
setups:
  wide: {takes: 10 min}
scenes:
  1:
    heading: INT. ROOM - DAY
    shots:
      1A: {setup: wide, takes: 10 min, does: Nothing happens.}
"""


def loaded_by(code: str, folder: Path) -> set[str]:
    ask = f"import sys\nbefore = set(sys.modules)\n{code}\nprint('\\n'.join(sorted(set(sys.modules) - before)))"
    done = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, cwd=folder)
    assert done.returncode == 0, done.stderr
    return set(done.stdout.split())


def test_a_clean_check_imports_little(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(PLAN, "utf-8")
    run = "from hotset.cli import main; assert main(['check', 'plan.yaml', '-q']) == 0"
    loaded = loaded_by(run, tmp_path)
    outside = {name.split(".")[0] for name in loaded} - set(sys.stdlib_module_names)
    assert {name for name in outside if not name.startswith(MAY_IMPORT)} == set()
    assert loaded & NOT_OF_PYTHON == set()
    others = sorted(name for name in loaded if not name.startswith("hotset"))
    assert len(others) <= LONGEST_LIST, others


def test_findings_on_paper_cost_no_library_either(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(PLAN.replace("setup: wide", "setup: wild"), "utf-8")
    loaded = loaded_by("from hotset.cli import main; main(['check', 'plan.yaml'])", tmp_path)
    assert {"click", "jinja2", "jsonschema", "networkx", "plutoprint", "ortools", "pypdf"} & loaded == set()
