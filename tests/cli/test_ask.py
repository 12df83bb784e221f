"""Questions without a plan: the answers others have published, and what is said when a question is half asked."""

from __future__ import annotations

import json
import math
from importlib import import_module
from pathlib import Path

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


@pytest.mark.parametrize(
    ("at", "date", "zone", "words"),
    [
        # civil and nautical limits of NREL's algorithm in UTC: 07:59:01, 13:17:03, 14:46:28; none in midsummer
        ("68 N, 20 E", "2026-12-21", "Europe/Stockholm", "does not come up|14:18|08:59|15:47"),
        ("68 N, 20 E", "2026-06-21", "Europe/Stockholm", "the sun does not set|not on this day"),
        # 2026-08-08 at 60 N: civil dusk 19:55:23 UTC, nautical 21:25:28
        ("60 N, 18 E", "2026-08-08", "Europe/Stockholm", "dark from 21:56|black night from 23:26"),
    ],
)
def test_where_the_sun_stays_up_or_down(
    at: str, date: str, zone: str, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["ask", "sun", "--at", at, "--date", date, "--zone", zone]) == 0
    said = " ".join(capsys.readouterr().out.split())
    for part in words.split("|"):
        assert part in said


def test_the_hour_that_the_clocks_lose(capsys: pytest.CaptureFixture[str]) -> None:
    """On 29 March 2026 British clocks go from 01:00 to 02:00: 00:30 is 00:30 UTC, 03:00 is 02:00 UTC, at which NREL's
    algorithm has the sun in 7.61 and 33.54 deg."""
    for clock, bearing in (("00:30", 7.61), ("03:00", 33.54)):
        found = asked(capsys, "sun", "--at", "52 N, 0 E", "--date", "2026-03-29", "--zone", "Europe/London", "--clock",
                      clock)  # fmt: skip
        assert found["bearing"] == pytest.approx(bearing, abs=0.05)


def test_daylight_by_the_exposure_tables(capsys: pytest.CaptureFixture[str]) -> None:
    """ANSI PH2.7: a sunny day is EV 15 at ISO 100, open shade EV 12, heavy cloud EV 12; at 1/50 s and ISO 100 that is
    N = sqrt(2^EV / 50): f/25.6, f/9.05."""
    for sky, stop in (("clear", 25.6), ("overcast", 9.05)):
        found = asked(capsys, "daylight", "--height", "50 deg", "--sky", sky, "--iso", "100", "--shutter", "1/50 s")
        assert isinstance(found["stop"], float)
        assert found["stop"] == pytest.approx(stop, rel=0.2)  # half a stop
    found = asked(capsys, "daylight", "--height", "50 deg", "--sky", "clear")
    assert found["sun to shade"] == pytest.approx(3.0, abs=0.5)
    three = asked(capsys, "daylight", "--height", "50 deg")
    assert {"clear: stop", "partly-cloudy: stop", "overcast: stop"} <= set(three)


def test_no_stop_is_named_where_no_light_arrives(capsys: pytest.CaptureFixture[str]) -> None:
    for level, words in (("0 %", "none: no light arrives"), ("100 %", "2.8")):
        assert main(["ask", "light", "--gives", "1100 lx at 1 m", "--away", "3 m", "--level", level]) == 0
        assert f"stop     {words}\n" in capsys.readouterr().out


def test_what_a_window_must_lose(capsys: pytest.CaptureFixture[str]) -> None:
    """By hand: an overcast sky with the sun 30 deg high is 300 + 21000 / 2 lx on the ground, 0.396 + 0.1 of it on the
    pane, 80 % through; the grey of T2.8 at ISO 800 and 1/50 s is 18 % of 122.5 lx: 7.6 stops over it, 4 below is 11.6.
    The pane of 2 x 1 m at 1.5 m fills 0.209071 of the view (closed form of the parallel rectangle)."""
    found = asked(capsys, "daylight", "--height", "30 deg", "--sky", "overcast", "--window", "2 m x 1 m", "--away",
                  "1.5 m", "--stop", "T2.8", "--shutter", "1/50 s")  # fmt: skip
    assert found["by the window"] == pytest.approx(10_800 * 0.496 * 0.8 * 0.209071, rel=0.01)
    assert found["the window looks"] == pytest.approx(7.6, abs=0.05)
    assert found["it must lose"] == pytest.approx(11.6, abs=0.05)
    layered = asked(capsys, "daylight", "--height", "30 deg", "--sky", "overcast", "--window", "2 m x 1 m", "--stop",
                    "T2.8", "--shutter", "1/50 s", "--loses", "8 stops", "--under", "3 stops")  # fmt: skip
    assert layered["it must lose"] == pytest.approx(2.6, abs=0.05)


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["--height", "95 deg"], "between -18 deg"),
        (["--height", "30 deg", "--sky", "grey"], "no sky 'grey'"),
        (["--height", "30 deg", "--window", "1 m x 1 m", "--away", "0 m"], "'--away' is nought"),
    ],
)
def test_daylight_half_asked(args: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", "daylight", *args]) == 2
    assert said in " ".join(capsys.readouterr().err.split())


SET = """
hotset: 1
days: {1: {date: 2026-06-20, call: "10:00", location: house, load-in: 30 min, order: [one], sky: overcast}}
locations:
  house:
    at: "52.0 N, 0.0 E"
    zone: Europe/London
    sets:
      room:
        size: 6 m x 4 m x 2.5 m
        walls: {reflects: 10 %}
        ceiling: {reflects: 10 %}
        floor: {reflects: 10 %}
        windows: {pane: {wall: east, from: 1 m, sill: 1 m, width: 2 m, height: 1 m}}
        marks: {chair: {at: [2 m, 2 m], height: 1.5 m}}
gear:
  lamp: {kind: light, colour: 3200-5600 K, gives: {bare: 1000 lx at 1 m}, beam: 60 deg, dims: 1-100 %, quantity: 3}
stock: {grey: {of: nd gel, loses: 9 stops}, straw: {of: gel, loses: 1 stop, shifts: 80 mired}}
setups:
  one:
    set: room
    takes: 30 min
    rig: 10 min
    key-at: chair
    windows: {pane: {layers: grey}}
    camera: {stop: T2.8, iso: 800, shutter: 1/50 s, white-balance: 4000 K, at: [5.5 m, 2.5 m], height: 1.5 m,
      aim: chair}
    lights:
      key: {lamp: lamp, role: key, at: [4 m, 2 m], height: 1.5 m, aim: chair, level: 50 %, colour: 4000 K}
      soft: {lamp: lamp, role: fill, at: [2 m, 0.5 m], height: 1.5 m, aim: chair, level: 10 %, colour: 4000 K,
        with: straw}
      back: {lamp: lamp, role: background, at: [1 m, 3 m], height: 1.5 m, aim: {at: [0 m, 3 m], height: 1.5 m}}
"""


def test_how_a_setup_is_lit(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """By hand: 1000 lx x 50 % / 2^2 = 125 lx from the key, 1000 x 10 % / 2 (1 stop) / 1.5^2 = 22.2 lx of fill,
    1000 lx a metre before the background lamp: 3 stops over 125 lx; 250 and 330 mired."""
    plan = tmp_path / "plan.yaml"
    plan.write_text(SET, "utf-8")
    found = asked(capsys, "setup", "--plan", str(plan), "--name", "one")
    assert found["'key'"] == pytest.approx(125.0)
    assert found["'soft'"] == pytest.approx(22.22, abs=0.01)
    assert found["background 'back'"] == pytest.approx(3.0, abs=0.01)
    # the camera looks past the chair to (0, 1.714): 30.6 lx of the key, 22.1 of the background lamp, 0.3 of the fill,
    # by distance, cosine and beam; a tenth of it comes back, against 18 % of 125 lx
    assert found["behind 'chair'"] == pytest.approx(math.log2(53.1 * 0.1 / (0.18 * 125.0)), abs=0.1)
    assert found["asked for"] == pytest.approx(122.5)
    assert found["colour of 'soft'"] == pytest.approx(80.0)
    assert found["on one face"] == pytest.approx(80.0)
    assert isinstance(found["the room, to the fill"], float)
    ratio = 125.0 / (22.22 + found["the room, to the fill"])
    assert found["key to fill"] == pytest.approx(ratio, abs=0.02)
    # the pane behind 9 stops: at its brightest the open ground's light x 0.496 x 0.8 / 2^9 over 18 % of 122.5 lx
    bare, treated = found["'pane' bare"], found["'pane' as treated"]
    assert isinstance(bare, float)
    assert treated == pytest.approx(bare - 9.0, abs=0.02)
    assert main(["ask", "setup", "--plan", str(plan), "--name", "on"]) == 2
    assert "did you mean 'one'?" in " ".join(capsys.readouterr().err.split())


def test_a_setup_whose_key_is_off(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(SET.replace("level: 50 %", "level: 0 %"), "utf-8")
    found = asked(capsys, "setup", "--plan", str(plan), "--name", "one")
    assert found["'key'"] == 0
    assert "key to fill" not in found


def test_dark_enough_is_when_the_window_has_lost_enough(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Without layers the pane is 4 stops under the grey of 122.5 lx (22.05 lx) at 1.38 lx: the open sky then gives
    1.38 / 0.8 / (0.5 + 0.1) = 2.9 lx, for a cloudy sky 3/8 of a clear one's: some 7.7 lx, between -0.83 deg (500 lx)
    and -6 deg (2.7 lx) in the twilight of the Met. Society's glossary: -4.97 deg. NREL's algorithm puts the sun there
    at 22:02 on that day."""
    plan = tmp_path / "plan.yaml"
    plan.write_text(SET.replace("    windows: {pane: {layers: grey}}\n", ""), "utf-8")
    found = asked(capsys, "setup", "--plan", str(plan), "--name", "one")
    hours, rest = str(found["dark enough bare"]).split(":")
    assert abs(int(hours) * 60 + int(rest) - (22 * 60 + 2)) <= 2


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
        (["zzz"], "there are: sun, daylight, light"),
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


def test_flicker_by_published_angles(capsys: pytest.CaptureFixture[str]) -> None:
    # 172.8 deg at 24 fps under 50 Hz, 144 deg under 60 Hz: arithmetic, and printed in several handbooks (second hand)
    for mains, angle in (("50 Hz", "172.8 deg"), ("60 Hz", "144.0 deg")):
        assert main(["ask", "flicker", "--fps", "24 fps", "--mains", mains]) == 0
        assert angle in capsys.readouterr().out
    found = asked(capsys, "flicker", "--fps", "24 fps", "--mains", "50 Hz", "--shutter", "180 deg")
    assert found["this shutter"] == pytest.approx(abs(math.sin(math.pi * 100 / 48) / (math.pi * 100 / 48)), abs=1e-4)
    assert asked(capsys, "flicker", "--fps", "25 fps", "--mains", "50 Hz", "--shutter", "150 deg")["this shutter"] == 0
    screen = asked(capsys, "flicker", "--fps", "25 fps", "--pulses", "60 Hz", "--shutter", "1/50 s")
    assert screen["this shutter"] == pytest.approx(2 / (math.pi * 1.2), abs=1e-4)
    assert asked(capsys, "flicker", "--fps", "25 fps", "--pulses", "60 Hz", "--shutter", "1/60 s")["this shutter"] == 0
    assert asked(capsys, "flicker", "--fps", "25 fps", "--mains", "50 Hz", "--flashes", "4 per s")["flashes"] == "yes"
    assert asked(capsys, "flicker", "--fps", "25 fps", "--mains", "50 Hz", "--flashes", "3 per s")["flashes"] == "no"


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (["flicker", "--fps", "24"], "'24' has no unit; write it like '24 fps'"),
        (["flicker", "--fps", "24 fps"], "add '--mains', such as '50 Hz'"),
        (["flicker", "--fps", "24 fps", "--mains", "50 Hz", "--shutter", "1/10 s"], "longer than a frame of 24 fps"),
        (["flicker", "--fps", "24 fps", "--mains", "50 Hz", "--shutter", "180"], "write it like '180 deg'"),
        (["lens", "--focal", "35", "--sensor", "36 mm x 24 mm"], "'35' has no unit; write it like '35 mm'"),
        (["lens", "--focal", "35 mm", "--sensor", "36 mm x 24 mm", "--away", "6'"], "write it like '6 ft'"),
        (["lens", "--focal", "35 mm", "--sensor", "36 mm x 24 mm", "--away", "2 m", "--tall", "5'6\""], "'5 ft 6 in'"),
        (["power", "--draws", "1000 W", "--mains", "120 V 60 Hz", "--lead", "100 ft", "--section", "14 AWG"],
         "write it like '2.08 mm2'"),
        (["battery", "--holds", "6800 mAh", "--draws", "45 W"], "volts x ampere-hours"),
        (["card", "--holds", "128 GB", "--rate", "100 MB/s"], "a writing speed where a data rate is due"),
    ],
)  # fmt: skip
def test_what_is_nearly_right_is_answered_with_what_would_be(
    args: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["ask", *args]) == 2
    assert says in " ".join(capsys.readouterr().err.split())


def test_imperial_lengths_and_a_wire_gauge(capsys: pytest.CaptureFixture[str]) -> None:
    found = asked(capsys, "power", "--draws", "1000 W", "--mains", "120 V 60 Hz", "--factor", "1", "--breaker", "15 A",
                  "--lead", "100 ft", "--section", "2.08 mm2")  # fmt: skip
    lost = 2 * 19.95 / 2080 * (1 + 0.00393 * 40) * 30.48 * 1000 / 120  # 14 AWG at 60 C
    assert found["lost on the lead"] == pytest.approx(lost, abs=0.01)
    assert found["at the lamp"] == pytest.approx(120 - lost, abs=0.01)
    feet = asked(capsys, "light", "--gives", "100 fc at 10 ft", "--away", "20 ft")
    assert feet["arrives"] == pytest.approx(25 * 10.763910, rel=1e-6)  # a quarter of 100 fc; 1 fc = 10.76391 lx


ODD = {
    "length": ("0 m", "1 mm", "100000 m"), "size": ("1 mm x 1 mm", "900 m x 900 m"), "power": ("0 W", "999999 kW"),
    "energy": ("0 Wh", "1 Wh", "99999 kWh"), "duration": ("0 min", "1 s", "9999 h"), "whole": ("0", "1", "1000000"),
    "percent": ("0 %", "300 %"), "data-volume": ("0 GB", "1 MB", "999999 TB"), "data-rate": ("0 Mbit/s", "1 kbit/s"),
    "data-speed": ("0 MB/s", "999999 GB/s"), "current": ("0 A", "1 mA"), "section": ("0 mm2", "0.01 mm2", "9999 mm2"),
    "number": ("0", "0.001", "-3", "5000"), "mains": ("1 V 1 Hz", "999 kV 999 kHz"),
    "frequency": ("0 Hz", "1 Hz", "900 kHz"), "fps": ("0 fps", "1 fps", "99999 fps"), "rate": ("0 per s", "99 per s"),
    "shutter": ("0.1 deg", "360 deg", "1/100000 s"),
    "stop": ("f/0.1", "T90"), "aspect": ("1:1", "100:1", "1:100"), "angle": ("0 deg", "90 deg", "180 deg", "360 deg"),
    "kelvin": ("1 K", "99999 K"), "mired": ("-999 mired", "0 mired", "999 mired"),
    "stops": ("0 stops", "-9 stops", "40 stops"), "output": ("0 lx at 1 m", "1 lm", "999999 cd"),
}  # fmt: skip


@pytest.mark.parametrize("subject", [s for s in SUBJECTS if s not in ("setup", "sun")])
def test_no_odd_number_is_a_fault(subject: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Whatever is given for one input, and with all others beside it, is answered or refused with what is due."""
    asks = import_module(f"hotset.asking.{subject}").ASKS
    usual = {ask.name: ask.example for ask in asks}
    for ask in asks:
        for value in ODD.get(ask.kind, ()):
            for others in (usual, {a.name: a.example for a in asks if a.needed}):
                args = [part for name, text in (others | {ask.name: value}).items() for part in (f"--{name}={text}",)]
                assert main(["ask", subject, *args]) in (0, 2), (args, capsys.readouterr().err)
