"""The command as a whole: verbs, help, exit statuses, and that nobody meets a traceback."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from hotset.cli import main
from hotset.cli.group import VERBS

ERRORS = "Traceback"


@pytest.fixture(autouse=True)
def plain(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.delenv("HOTSET_DEBUG", raising=False)
    monkeypatch.delenv("FORCE_COLOR", raising=False)


def hotset(*args: str, **kwargs: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(  # type: ignore[call-overload, no-any-return]
        [sys.executable, "-m", "hotset", *args], capture_output=True, text=True, encoding="utf-8", **kwargs
    )


@pytest.mark.parametrize("verb", list(VERBS))
def test_help_has_three_real_examples(verb: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([verb, "--help"]) == 0
    said = capsys.readouterr().out
    examples = [line for line in said.partition("Examples:")[2].splitlines() if f"hotset {verb}" in line]
    assert len(examples) >= 3
    assert all(len(line) <= 80 for line in said.splitlines())


def test_help_lists_every_verb(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--help"]) == 0
    said = capsys.readouterr().out
    for verb in VERBS:
        assert f"\n  {verb} " in said


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--version"]) == 0
    assert capsys.readouterr().out.startswith("hotset ")


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (["chekc", "plan.yaml"], "'chekc'; did you mean 'check'?"),
        (["zzz"], "there are: new, check"),
        (["check", "plan.yaml", "--fial-on", "note"], "--fail-on"),
        (["check", "plan.yaml", "--format", "jsn"], "json"),
        (["check"], "PLAN"),
        (["schema", "--noun", "setups"], "did you mean 'setup'?"),
        (["explain", "circuit-overlaoded"], "did you mean 'circuit-overloaded'?"),
    ],
)
def test_what_cannot_be_used_exits_2_and_offers_the_nearest(
    args: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(args) == 2
    said = capsys.readouterr()
    assert says in said.err
    assert said.out == ""


def test_no_verb_shows_help_as_trouble(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 2
    assert "Verbs:" in capsys.readouterr().err


def test_a_fault_of_its_own_exits_3_and_asks_to_report(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(_options: object) -> int:
        raise ValueError("a \x1b[31m strange\nvalue")

    monkeypatch.setattr("hotset.cli.checking.run", broken)
    assert main(["check", "plan.yaml"]) == 3
    said = capsys.readouterr().err
    assert said.startswith("hotset: this is a fault of hotset, not of the plan: ValueError: a \\x1b[31m strange")
    assert "please report it" in said
    assert ERRORS not in said
    monkeypatch.setenv("HOTSET_DEBUG", "1")
    assert main(["check", "plan.yaml"]) == 3
    assert ERRORS in capsys.readouterr().err


def test_ctrl_c_is_quiet(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    def stopped(_options: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr("hotset.cli.checking.run", stopped)
    monkeypatch.setattr("hotset.cli.check.run", stopped)
    for args in (["check", "plan.yaml"], ["check", "--", "plan.yaml"]):
        assert main(args) == 130
    assert capsys.readouterr() == ("", "")


def test_a_closed_pipe_is_quiet() -> None:
    with subprocess.Popen(
        [sys.executable, "-m", "hotset", "schema"], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait() == 141


def test_a_full_disk_is_said_without_a_traceback() -> None:
    full = Path("/dev/full")
    if not full.exists():  # not every system has it; the message is the same for every error of the output
        full = Path("/dev/null")
    with full.open("w") as out:
        done = subprocess.run([sys.executable, "-m", "hotset", "schema"], stdout=out, stderr=subprocess.PIPE, text=True)
    assert ERRORS not in done.stderr
    if full.name == "full":
        assert done.returncode == 2
        assert "no space left" in done.stderr


def test_a_terminal_that_knows_only_ascii_still_gets_every_letter() -> None:
    done = hotset("schema", "--noun", "film", env={"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"})
    assert done.returncode == 0
    assert done.stdout.isascii()
