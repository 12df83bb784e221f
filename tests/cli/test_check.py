"""`hotset check` from the command line: formats, statuses, standard input, and reading it twice says the same."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path

import pytest
from hotset.cli import main
from hotset.cli.checking import status
from hotset.findings import Finding, Place

RISK = "{rule: no-hospital, at: locations.flat, because: it is next door, agreed-by: ana}"
WARNS = f"hotset: 1\npeople: {{ana: {{}}}}\naccepted: [{RISK}]\n"  # a known risk that matches nothing
FAILS = "hotset: 1\ntitel: A film\n"
BROKEN = "hotset: 1\ndays: {1: {call: [}}\n"


def finding(rule: str = "r", severity: str = "error", unreadable: bool = False) -> Finding:
    return Finding(rule, severity, "s", Place("f", 1, 1), unreadable=unreadable)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("found", "fail_on", "expected"),
    [
        ([], "note", 0),
        ([("r", "note", False)], "error", 0),
        ([("r", "note", False)], "note", 1),
        ([("r", "warning", False)], "error", 0),
        ([("r", "warning", False)], "warning", 1),
        ([("r", "error", False)], "error", 1),
        ([("not-yaml", "error", True), ("r", "error", False)], "error", 2),
        ([("broken-rule", "error", False)], "error", 3),
    ],
)
def test_status(found: list[tuple[str, str, bool]], fail_on: str, expected: int) -> None:
    assert status(tuple(finding(*each) for each in found), fail_on) == expected


@pytest.mark.parametrize(
    ("text", "args", "expected"),
    [(WARNS, [], 0), (WARNS, ["--fail-on", "warning"], 1), (FAILS, [], 1), (BROKEN, [], 2), ("", [], 2)],
)
def test_exit_status_of_a_plan(text: str, args: list[str], expected: int, tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(text, "utf-8")
    assert main(["check", str(tmp_path / "plan.yaml"), *args]) == expected


def test_findings_go_to_standard_output_in_the_form_editors_know(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "plan.yaml").write_text(FAILS, "utf-8")
    monkeypatch.chdir(tmp_path)
    assert main(["check", "plan.yaml"]) == 1
    said = capsys.readouterr()
    assert said.err == ""
    assert said.out.startswith("plan.yaml:2:1: error: ")
    assert "'title'" in said.out
    assert "do: " in said.out


def test_standard_input_has_the_name_it_is_given(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(FAILS.encode()), "utf-8"))
    assert main(["check", "-", "--stdin-name", "draft.yaml"]) == 1
    assert capsys.readouterr().out.startswith("draft.yaml:2:1: error: ")


def test_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "plan.yaml").write_text(FAILS, "utf-8")
    assert main(["check", str(tmp_path / "plan.yaml"), "--format", "json"]) == 1
    whole = json.loads(capsys.readouterr().out)
    assert whole["format"] == 1
    assert whole["counts"]["error"] == 1
    assert whole["findings"][0]["place"]["line"] == 2
    assert whole["coverage"]["checks"] > 0


def test_quiet_says_nothing_when_well(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "plan.yaml").write_text("hotset: 1\ntitle: Nothing yet\n", "utf-8")
    assert main(["check", str(tmp_path / "plan.yaml"), "-q"]) == 0
    assert capsys.readouterr().out == ""
    assert main(["check", str(tmp_path / "plan.yaml")]) == 0
    assert "no findings" in capsys.readouterr().out


def test_both_ways_to_read_the_command_line_say_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "plan.yaml").write_text(FAILS, "utf-8")
    quick = main(["check", str(tmp_path / "plan.yaml")]), capsys.readouterr()
    library = main(["check", "--", str(tmp_path / "plan.yaml")]), capsys.readouterr()
    assert quick == library


def test_the_numbers_behind_a_finding_come_when_they_are_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "plan.yaml").write_text(WARNS, "utf-8")
    main(["check", str(tmp_path / "plan.yaml")])
    assert "numbers: " not in capsys.readouterr().out
    main(["check", str(tmp_path / "plan.yaml"), "--numbers"])
    assert "    numbers: " in capsys.readouterr().out


def test_why_not(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "plan.yaml").write_text(WARNS, "utf-8")
    assert main(["check", str(tmp_path / "plan.yaml"), "--why-not", "no-hospital"]) == 0
    assert capsys.readouterr().out == "'no-hospital' was checked everywhere it applies\n"
    assert main(["check", str(tmp_path / "plan.yaml"), "--why-not", "all"]) == 0
    assert capsys.readouterr().out == "every rule was checked everywhere it applies\n"
    example = str(Path(__file__).resolve().parents[2] / "examples" / "smallest" / "plan.yaml")
    assert main(["check", example, "--why-not", "all"]) == 0
    assert "'nobody-free' was not checked " in capsys.readouterr().out
    assert main(["check", str(tmp_path / "plan.yaml"), "--why-not", "no-hospitl"]) == 2
    assert "did you mean 'no-hospital'?" in capsys.readouterr().err


def test_a_file_that_is_not_there(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(tmp_path / "plna.yaml")]) == 2
    said = capsys.readouterr()
    assert "plna.yaml" in said.out + said.err
