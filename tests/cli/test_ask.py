"""Questions without a plan: the answers others have published, and what is said when a question is half asked."""

from __future__ import annotations

import json
from importlib import import_module

import pytest
from hotset.asking import SUBJECTS
from hotset.cli import main


def asked(capsys: pytest.CaptureFixture[str], *args: str) -> dict[str, object]:
    assert main(["ask", *args, "--format", "json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["version"] == 1
    assert answer["formula"]
    assert answer["source"]
    return {one["name"]: one["value"] for one in answer["found"]}


@pytest.mark.parametrize("subject", SUBJECTS)
def test_every_example_runs_and_shows_its_working(subject: str, capsys: pytest.CaptureFixture[str]) -> None:
    import shlex

    for example in import_module(f"hotset.asking.{subject}").EXAMPLES:
        assert main(shlex.split(example)[1:]) == 0
        said = capsys.readouterr().out
        lines = said.splitlines()
        assert lines[0].startswith("given")
        assert any(line.startswith("formula") for line in lines)
        assert any(line.startswith("source") for line in lines)
        assert all(len(line) <= 80 for line in lines)
        assert len(f"  {example}") <= 100


@pytest.mark.parametrize("subject", SUBJECTS)
def test_every_subject_says_what_it_wants(subject: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", subject, "--help"]) == 0
    said = capsys.readouterr().out
    for ask in import_module(f"hotset.asking.{subject}").ASKS:
        assert f"--{ask.name}" in said
    assert main(["ask", subject]) == 2
    assert "is needed" in capsys.readouterr().err


def test_the_sun_by_an_almanac(capsys: pytest.CaptureFixture[str]) -> None:
    # the US Naval Observatory's minutes for 2015-01-02 at 39 N 105 W: 07:19 and 16:49
    found = asked(capsys, "sun", "--at", "39.0 N, 105.0 W", "--date", "2015-01-02", "--zone", "Etc/GMT+7")
    assert found["rises"] in ("07:19", "07:20")
    assert found["sets"] in ("16:48", "16:49")
    # NREL/TP-560-34302: azimuth 194.340 deg, height 39.872 deg without refraction
    found = asked(capsys, "sun", "--at", "39.742476 N, 105.1786 W", "--date", "2003-10-17", "--zone", "Etc/GMT+7",
                  "--clock", "12:30")  # fmt: skip
    assert found["bearing"] == pytest.approx(194.34, abs=0.3)  # half a minute before the published 12:30:30
    assert found["height"] == pytest.approx(39.87, abs=0.05)


def test_light_and_its_stop(capsys: pytest.CaptureFixture[str]) -> None:
    found = asked(capsys, "light", "--gives", "1000 lx at 1 m", "--away", "3 m", "--stop", "T4", "--fps", "24 fps")
    assert found["arrives"] == pytest.approx(111.11, abs=0.01)
    assert found["asked for"] == pytest.approx(240.0)  # T4, 1/48 s, ISO 800, C = 250
    found = asked(capsys, "light", "--gives", "1000 lm", "--beam", "60 deg", "--away", "1 m")
    assert found["arrives"] == pytest.approx(926.1, abs=0.1)


def test_lens(capsys: pytest.CaptureFixture[str]) -> None:
    found = asked(capsys, "lens", "--focal", "35 mm", "--sensor", "36 mm x 24 mm")
    assert found["field of view"] == pytest.approx(54.43, abs=0.01)
    # 35 mm, f/2.8, blur 0.025 mm, 2 m: sharp from 1.7981 m
    found = asked(capsys, "lens", "--focal", "35 mm", "--sensor", "30 mm x 22.5 mm", "--away", "2 m", "--stop", "f/2.8")
    assert found["sharp"] == pytest.approx(1.7981, abs=0.0005)


def test_colour(capsys: pytest.CaptureFixture[str]) -> None:
    found = asked(capsys, "colour", "--source", "10000 K", "--balance", "4000 K")
    assert found["against the balance"] == -150.0
    found = asked(capsys, "colour", "--source", "5600 K", "--gel", "131 mired")
    assert found["behind the gel"] == pytest.approx(3230, abs=1)


def test_power(capsys: pytest.CaptureFixture[str]) -> None:
    found = asked(capsys, "power", "--draws", "3680 W", "--mains", "230 V 50 Hz", "--factor", "1", "--breaker", "16 A",
                  "--lead", "25 m", "--section", "2.5 mm2")  # fmt: skip
    assert found["current"] == 16.0
    assert found["on the breaker"] == 1.0
    assert found["lost on the lead"] == pytest.approx(7.6)  # BS 7671 Table 4F3B: 19 mV/A/m
    found = asked(capsys, "power", "--draws", "2000 W", "--mains", "230 V 50 Hz", "--factor", "0.6")
    assert found["current"] == pytest.approx(14.49, abs=0.01)


def test_cloth(capsys: pytest.CaptureFixture[str]) -> None:
    found = asked(capsys, "cloth", "--window", "1.3 m x 1.2 m", "--roll", "1.6 m x 1.5 m")
    assert found["area"] == pytest.approx(2.4)  # 1.6 m x 1.5 m with 15 cm on each side
    assert found["the rolls are"] == "enough"
    assert (
        asked(capsys, "cloth", "--window", "1.3 m x 1.2 m", "--roll", "1.6 m x 1.4 m")["the rolls are"] == "not enough"
    )


def test_battery_and_card(capsys: pytest.CaptureFixture[str]) -> None:
    found = asked(capsys, "battery", "--holds", "98 Wh", "--draws", "45 W", "--for", "4 h", "--number", "3")
    assert found["runs"] == pytest.approx(104.53, abs=0.01)
    assert (found["without charging"], found["what there is"], found["by air"]) == (3, "yes", "free")
    found = asked(capsys, "card", "--holds", "64 GB", "--rate", "100 Mbit/s", "--rolls", "60 min", "--speed", "90 MB/s")
    assert found["records"] == pytest.approx(85.33 * 0.9, abs=0.01)
    assert found["volume"] == 45.0
    assert found["copying and verifying it"] == pytest.approx(16.67, abs=0.01)


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (["ligth"], "did you mean 'light'?"),
        (["zzz"], "there are: sun, light"),
        (["light", "--gives", "800 lx", "--away", "2 m"], "800 lx at 1 m"),
        (["light", "--gives", "800 lm", "--away", "2 m"], "--beam"),
        (["light", "--gives", "800 lx at 1 m", "--away", "0 m"], "nought"),
        (["lens", "--focal", "35", "--sensor", "36 mm x 24 mm"], "35 mm"),
        (["power", "--draws", "100 W", "--mains", "230 V 50 Hz", "--factor", "2"], "between 0 and 1"),
        (["power", "--draws", "100 W", "--mains", "230 V 50 Hz", "--lead", "5 m"], "--section"),
        (["sun", "--at", "55 N, 1 W", "--date", "2026-11-14", "--zone", "Nowhere/At"], "no time zone 'Nowhere/At'"),
    ],
)
def test_half_a_question(args: list[str], says: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", *args]) == 2
    said = capsys.readouterr()
    assert says in said.err
    assert said.out == ""
