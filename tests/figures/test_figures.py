"""Every number that is printed leads to its formula, its inputs and its source."""

from __future__ import annotations

import ast
import html
import importlib
import json
import re
from pathlib import Path

import pytest
from hotset.cli import main
from hotset.figures import FIGURES, STANDINGS, Figure, footnote, named
from hotset.rules import RULES

ROOT = Path(__file__).resolve().parents[2]
NOUNS = ROOT / "schemas" / "nouns"


def ids(one: Figure) -> str:
    return one.name


def test_names_differ_and_no_detail_is_told_twice() -> None:
    assert len({f.name for f in FIGURES}) == len(FIGURES)
    details = [d for f in FIGURES for d in f.details]
    assert len(set(details)) == len(details)
    assert {f.standing for f in FIGURES} <= set(STANDINGS)


@pytest.mark.parametrize("one", FIGURES, ids=ids)
def test_the_function_is_there_and_what_goes_in_is_a_key_of_the_language(one: Figure) -> None:
    if one.function:
        module, _, name = one.function.rpartition(".")
        assert callable(getattr(importlib.import_module(f"hotset.{module}"), name))
    for want in one.wants:
        noun, _, key = want.partition(".")
        if key:
            keys = json.loads((NOUNS / f"{noun}.json").read_text("utf-8"))["properties"]
            assert key in keys, want
    assert one.formula
    assert one.source


def numbers_of_rules() -> set[tuple[str, str]]:
    """(rule, name) of what the rules write among the numbers of a finding, as far as their text shows that it is one:
    what they round, count or turn into a number."""
    found = set()
    for path in sorted((ROOT / "compiler" / "rules").glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if not isinstance(node, ast.Tuple) or len(node.elts) != 2:
                continue
            name, value = node.elts
            if not isinstance(name, ast.Constant) or not isinstance(name.value, str):
                continue
            number = isinstance(value, ast.Call) and isinstance(value.func, ast.Name)
            if number and value.func.id in ("round", "float", "int", "len"):  # type: ignore[attr-defined]
                found.add((path.stem.replace("_", "-"), name.value))
    return found


def test_every_number_in_the_text_of_the_rules_has_its_figure() -> None:
    rows = numbers_of_rules()
    assert len(rows) > 60
    lost = sorted({f"{rule}/{name}" for rule, name in rows if not named(name, rule)})
    assert lost == [], "add it to 'details' of a figure in compiler/figures"


def test_every_number_that_a_rule_prints_has_its_figure(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lost, met = set(), set()
    for rule in RULES:
        (tmp_path / "plan.yaml").write_text(rule.triggers.lstrip("\n"), "utf-8")
        capsys.readouterr()
        main(["check", str(tmp_path / "plan.yaml"), "--format", "json"])
        for one in json.loads(capsys.readouterr().out)["findings"]:
            for name, value in one.get("details", {}).items():
                if isinstance(value, (int, float)):
                    met.add(name)
                    lost |= set() if named(name, one["rule"]) else {f"{one['rule']}/{name}"}
    assert len(met) > 60
    assert sorted(lost) == []


UNIT = r"mired|MB/s|GB|Wh|Hz|fps|min|per s|deg|stops|stop|lx|mm|cm|kg|m2|m/s|GBP|EUR|W|K|A|V|m|g|h|%|°"
PRINTED = re.compile(rf"(?<![\w.:/-])[+-]?\d+(?:\.\d+)?[ \u00a0\u202f]?({UNIT})(?![\w/])")
SAME = {"stop": "stops", "GBP": "currency", "EUR": "currency"}
NAMES = {"A", "K", "V"}
"""Units that are letters of shots and scenes as well: `4 A` is a current only with a space between."""


QUOTING = ("risk", "crew", "setup-card", "index")
"""Sheets that print findings or whole lists of the others: any number may stand there."""


@pytest.mark.parametrize(("example", "least"), [("last-boat", 500), ("two-days-outside", 250), ("smallest", 0)])
def test_every_number_with_a_unit_on_the_sheets_has_its_figure(example: str, least: int, tmp_path: Path) -> None:
    path_of = str(ROOT / "examples" / example / "plan.yaml")
    assert main(["build", path_of, "--out", str(tmp_path), "--no-pdf"]) in (0, 1)
    lost: dict[str, str] = {}
    seen = 0
    for path in sorted(tmp_path.rglob("*.html")):
        sheet = re.sub(r"^(setup|cast)-.*", lambda m: {"setup": "setup-card", "cast": "cast"}[m[1]], path.stem)
        units = {f.unit for f in FIGURES if sheet in f.sheets or sheet in QUOTING}
        text = re.sub(r"<(style|script)\b.*?</\1>", " ", path.read_text("utf-8"), flags=re.DOTALL)
        text = html.unescape(re.sub(r"<[^>]+>", " \n ", text))
        text = re.sub(r"\d\s[NS],\s[\d.]+\s[EW]\b", " ", text)  # places on the map
        for hit in PRINTED.finditer(text):
            unit = hit[1]
            if unit in NAMES and hit[0][-2].isdigit():
                continue
            seen += 1
            if SAME.get(unit, unit) not in units:
                lost.setdefault(f"{sheet}: {unit}", " ".join(text[max(0, hit.start() - 30) : hit.end() + 20].split()))
    assert seen >= least
    assert lost == {}, "add the sheet to 'sheets' of the figure in compiler/figures, or a figure"


def test_a_footnote_says_formula_and_standing() -> None:
    assert (
        footnote("amperes")
        == "amperes: A = W / (V x power factor), summed, held sets and the house with it (arithmetic or geometry)"
    )
    assert footnote("volts lost").startswith("volts-lost: ")
    with pytest.raises(KeyError):
        footnote("luck")


PLAN = """\
hotset: 1
locations:
  landing:
    mains: 230 V 50 Hz
    circuits: {yard: {breaker: 16 A, already: 230 W}}
    sets: {quay: {size: 12 m x 6 m, outdoors: true}}
gear:
  big-lamp: {kind: light, draws: 2000 W, factor: 1}
  reel: {kind: power, long: 25 m, section: 2.5 mm2}
setups:
  quay-dark:
    set: quay
    lights: {moon: {lamp: big-lamp, circuit: yard, lead: reel}}
"""


def explained(capsys: pytest.CaptureFixture[str], *args: str) -> tuple[int, str]:
    capsys.readouterr()
    status = main(["explain", "--number", *args])
    both = capsys.readouterr()
    return status, " ".join((both.out + both.err).split())


def test_a_setup_shows_what_goes_in_and_what_comes_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = "plan.yaml"
    monkeypatch.chdir(tmp_path)
    Path(path).write_text(PLAN, "utf-8")
    status, said = explained(capsys, "amperes", path, "quay-dark")
    assert status == 0
    assert "draws: 2000 W (big-lamp, plan.yaml:8)" in said
    assert "9.70 A, 61% of 16 A = moon 2000 W / (230 V x 1) + the house 1 A" in said  # 2230 W / 230 V by hand
    # BS 7671 Table 4F3B, 2.5 mm2: 19 mV per A and m (read second hand); 0.019 x 25 x 8.696 = 4.13 V
    assert "4.13 V lost, 225.9 V of 230 V at the lamp" in explained(capsys, "volts-lost", path, "quay-dark")[1]
    assert "formula A = W / (V x power factor), summed, held sets" in said
    assert "nothing of its own for this setup" in explained(capsys, "money", path, "quay-dark")[1]


def test_a_tank_in_numbers(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from hotset.rules import station_runs_dry

    (tmp_path / "plan.yaml").write_text(station_runs_dry.TRIGGERS.lstrip("\n"), "utf-8")
    said = explained(capsys, "tank", str(tmp_path / "plan.yaml"), "close")[1]
    # 0.3 + 0.7 x 1500 / 2000 = 0.825 of a tank of 180 min a minute: 218 min a tank
    assert "'generator' on day 1: 1.15 of one full, dry at 12:07 = 1500 W in this setup" in said


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("8.2 A", {"amperes", "breaker"}),
        ("A", {"amperes", "inrush"}),
        ("1/3 stop", {"stops"}),
        ("58.5 GB", {"gigabytes"}),
        ("+138 mired", {"mired"}),
        ("12\u202flx", {"lux", "wanted-lux"}),
    ],
)
def test_a_number_as_it_stands_on_a_sheet(text: str, names: set[str], capsys: pytest.CaptureFixture[str]) -> None:
    status, said = explained(capsys, text)
    assert status == 0
    assert all(f"{name} " in said for name in names)
    assert "'hotset explain --number NAME' tells how" in said


def test_a_number_that_is_asked_for_as_a_rule(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "lux"]) == 2
    assert "it is a number: 'hotset explain --number lux'" in capsys.readouterr().err


def test_the_list_fits_a_page(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "--number"]) == 0
    assert all(len(line) <= 80 for line in capsys.readouterr().out.splitlines())


def test_the_list_and_the_wrong_names(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = explained(capsys)
    assert status == 0
    assert all(one.name in said for one in FIGURES)
    (tmp_path / "plan.yaml").write_text(PLAN, "utf-8")
    path = str(tmp_path / "plan.yaml")
    for args, words in (
        (("ampres",), "did you mean 'amperes'?"),
        (("amperes", path), "takes a name, or a name, a plan and one of its setups"),
        (("amperes", path, "quay-drak"), "did you mean 'quay-dark'?"),
        (("amperes", str(tmp_path / "none.yaml"), "quay-dark"), "cannot be read"),
    ):
        status, said = explained(capsys, *args)
        assert status == 2
        assert words in said
    assert "flashes" in explained(capsys, "limit")[1]
    assert "flashes" not in explained(capsys, "heavy-lift/limit")[1].split("printed on")[0]


def test_every_figure_works_on_every_setup_of_a_whole_plan(capsys: pytest.CaptureFixture[str]) -> None:
    from hotset.figures.worked import worked
    from hotset.pipeline import compile_plan

    done = compile_plan([str(ROOT / "examples/last-boat/plan.yaml")])
    assert done.facts is not None
    assert done.plan is not None
    spoke = {f.name for f in FIGURES for s in done.plan.setups.values() if worked(done.facts, s, f.name)}
    assert {"amperes", "lux", "kelvin", "field-of-view", "frame-height", "sharp", "gigabytes", "sun", "clock"} <= spoke
    assert capsys.readouterr().err == ""


def test_every_figure_of_every_setup_is_told_without_a_fault() -> None:
    """On the plans of all rules, right and wrong ones: what is missing is left out, never met with a traceback."""
    from hotset.figures.page import setup_lines
    from hotset.pipeline import compile_plan

    lines = 0
    for rule in RULES:
        for text in (rule.triggers, rule.passes):
            done = compile_plan(["-"], stdin_text=text.lstrip("\n").encode())
            for setup in done.plan.setups.values() if done.plan is not None and done.facts is not None else ():
                for one in FIGURES:
                    lines += sum(1 for _ in setup_lines(done.facts, setup, one)) if done.facts is not None else 0
    assert lines > 20_000
