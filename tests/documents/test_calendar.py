"""The iCalendar files: read by another's reader of RFC 5545, the same bytes always, times of the day's own zone."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from hotset.documents import build
from hotset.documents.ics import LONGEST, escaped, folded
from hotset.pipeline import compile_plan
from hypothesis import given
from hypothesis import strategies as st

EVENING = Path(__file__).parent / "evening.yaml"
EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("calendars")
    build(compile_plan([str(EVENING)]), folder, only=["calendar"])
    return folder


def entries(path: Path) -> list[dict[str, str]]:
    text = path.read_bytes().decode("utf-8").replace("\r\n ", "")
    assert "\n" not in text.replace("\r\n", "")
    found = []
    for block in re.findall(r"BEGIN:VEVENT\r\n(.*?)END:VEVENT", text, flags=re.DOTALL):
        found.append(dict(line.split(":", 1) for line in block.split("\r\n") if line))
    return found


def test_a_day_of_an_actor(out: Path) -> None:
    first = entries(out / "calendar-mara.ics")[0]
    # Europe/London in November is UTC.
    assert re.fullmatch(r"20261114T0[89]\d{2}00Z", first["DTSTART"])  # with no call said, when she is first needed
    assert first["SUMMARY"] == "The <Last> Boat · Day 1 of 2"
    assert first["LOCATION"] == "The landing\\, 1 Quay Road\\, Northhaven"
    assert first["DTSTART"] < first["DTEND"]
    assert "office wide" in first["DESCRIPTION"].lower()


def test_summer_time_is_reckoned_with(tmp_path: Path) -> None:
    text = EVENING.read_text("utf-8").replace("2026-11-14", "2026-06-14")
    plan = tmp_path / "plan.yaml"
    plan.write_text(text, "utf-8")
    build(compile_plan([str(plan)]), tmp_path / "out", only=["calendar"])
    assert entries(tmp_path / "out" / "calendar-tomas.ics")[0]["DTSTART"] == "20260614T061500Z"  # 07:15 BST


def test_what_is_brought_back(out: Path) -> None:
    errands = [e for e in entries(out / "calendar-bea.ics") if e["SUMMARY"].startswith("Bring back")]
    # Due at 21:00 on the 16th and 40 minutes away; no day of the shoot has that date, so the time is floating.
    assert [(e["DTSTART"], e["DTEND"]) for e in errands] == [("20261116T202000", "20261116T210000")]


def test_an_entry_keeps_its_name_when_the_plan_changes(out: Path, tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(EVENING.read_text("utf-8").replace("call: 07:30", "call: 08:00"), "utf-8")
    build(compile_plan([str(plan)]), tmp_path / "out", only=["calendar"])
    before, after = (entries(folder / "calendar-olek.ics") for folder in (out, tmp_path / "out"))
    assert [e["UID"] for e in before] == [e["UID"] for e in after]
    assert before[0]["DTSTART"] != after[0]["DTSTART"]
    every = [e["UID"] for path in out.glob("*.ics") for e in entries(path)]
    assert len(every) == len(set(every))


HEAD = {"VERSION": "2.0", "CALSCALE": "GREGORIAN"}
ONCE = ("UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY", "DESCRIPTION")


@pytest.mark.parametrize("example", ["last-boat", "two-days-outside", "smallest"])
def test_the_form_is_that_of_the_standard(example: str, tmp_path: Path) -> None:
    """RFC 5545: 3.1 content lines, 3.3.5 date-time, 3.3.11 text, 3.6 components, 3.6.1 what an event must have."""
    plan = shutil.copytree(EXAMPLES / example, tmp_path / example) / "plan.yaml"
    words = plan.read_text("utf-8")
    plan.write_text(re.sub(r"(?m)^title: .*", 'title: "Ä; \\\\ \\n, Überlänge %s"' % ("ß" * 90), words), "utf-8")
    build(compile_plan([str(plan)]), tmp_path / "out", only=["calendar"])
    for path in (tmp_path / "out").glob("*.ics"):
        octets = path.read_bytes()
        assert octets.endswith(b"END:VCALENDAR\r\n")
        assert all(len(line) <= LONGEST for line in octets.split(b"\r\n"))
        text = octets.decode("utf-8").replace("\r\n ", "")
        assert not re.search(r"[\x00-\x09\x0b\x0c\x0e-\x1f\x7f]|(?<!\r)\n", text)
        lines = text.removesuffix("\r\n").split("\r\n")
        assert all(re.fullmatch(r"[A-Z-]+:.*", line) for line in lines)
        assert (lines[0], lines[-1]) == ("BEGIN:VCALENDAR", "END:VCALENDAR")
        assert HEAD.items() <= dict(line.split(":", 1) for line in lines).items()
        for event in re.findall(r"BEGIN:VEVENT\r\n(.*?)END:VEVENT", text, flags=re.DOTALL):
            rows = [line.split(":", 1) for line in event.split("\r\n") if line]
            assert all([name for name, _ in rows].count(once) == 1 for once in ONCE)
            values = dict(rows)
            assert re.fullmatch(r"\d{8}T\d{6}Z", values["DTSTAMP"])
            assert all(re.fullmatch(r"\d{8}T\d{6}Z?", values[name]) for name in ("DTSTART", "DTEND"))
            assert values["DTSTART"] < values["DTEND"]
            for name in ("SUMMARY", "LOCATION", "DESCRIPTION"):
                assert re.fullmatch(r"(?:[^\\;,]|\\[\\;,nN])*", values.get(name, "")), values[name]


def test_private_matters_stay_out(out: Path) -> None:
    for path in out.glob("*.ics"):
        assert not re.search("asthma|960123|under age", path.read_text("utf-8"))


@given(st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=300))
def test_lines_are_short_and_whole(words: str) -> None:
    line = f"SUMMARY:{escaped(words)}"
    made = folded(line)
    assert made.replace("\r\n ", "") == line
    assert all(len(piece.encode()) <= LONGEST for piece in made.split("\r\n"))


def test_signs_of_the_format_are_escaped() -> None:
    # RFC 5545, section 3.3.11
    assert escaped("a, b; c\\d\ne\r\x07") == "a\\, b\\; c\\\\d\\ne"
