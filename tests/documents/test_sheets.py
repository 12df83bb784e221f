"""Every sheet of a small plan, as a reader meets it: built through the public function, read as text."""

from __future__ import annotations

import csv
import html
import io
import math
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest
from hotset.documents import DOCUMENTS, NothingToBuild, build
from hotset.documents.say import Say
from hotset.documents.window_words import reasons
from hotset.documents.words import words_for
from hotset.facts.shootday import shoot_day
from hotset.pipeline import Compiled, compile_plan
from pypdf import PdfReader

PLAN = Path(__file__).parent / "evening.yaml"


@pytest.fixture(scope="module")
def compiled() -> Compiled:
    return compile_plan([str(PLAN)])


@pytest.fixture(scope="module")
def out(compiled: Compiled, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("sheets")
    build(compiled, folder, label="second draft")
    return folder


def read(folder: Path, name: str) -> str:
    """The words of a sheet in one line, tags away, blanks single."""
    text = (folder / f"{name}.html").read_text("utf-8")
    text = re.sub(r"<style>.*?</style>|<title>.*?</title>|<svg.*?</svg>", " ", text, flags=re.DOTALL)
    return " ".join(html.unescape(re.sub(r"<[^>]*>", " ", text)).replace("\u200b", "").split())


def without_own_script(path: Path) -> str:
    """A page without the one script of ours, which only the crew's page has."""
    own = (files("hotset.templates") / "crew" / "crew.js").read_text("utf-8")
    return path.read_text("utf-8").replace(f"<script>{own}</script>", "" if path.stem == "crew" else "not here")


def test_the_index_links_every_file(out: Path, compiled: Compiled) -> None:
    links = set(re.findall(r'href="([^"]+)"', (out / "index.html").read_text("utf-8")))
    files = {p.relative_to(out).as_posix() for p in out.rglob("*.*") if p.suffix in (".html", ".pdf", ".csv", ".ics")}
    assert links == files - {"index.html"}
    errors = sum(1 for finding in compiled.findings if finding.severity == "error")
    assert re.search(rf"Still open in the plan · {errors} things? cannot be as planned", read(out, "index"))


def test_every_document_has_a_sheet(out: Path) -> None:
    names = {p.stem for p in out.rglob("*.*")}
    for document in DOCUMENTS:
        stems = {"setup-card": "setup-office-wide", "cast": "cast-mara", "calendar": "calendar-mara"}
        assert stems.get(document, document) in names, document


def test_every_page_says_which_and_of_what(out: Path) -> None:
    version = re.search(r"version ([0-9a-f]{8}) · second draft", read(out, "index"))
    assert version
    for path in sorted(out.rglob("*.pdf")):
        pages = PdfReader(path).pages
        for number, page in enumerate(pages, 1):
            text = " ".join(page.extract_text().split())
            assert f"page {number} of {len(pages)}" in text, path
            assert version[1] in text, path
            assert "The <Last> Boat" in text, path
            if path.parent != out:
                assert re.search(r"Day [12] of 2", text), path
                assert "November 2026" in text, path


def test_nothing_shrinks_a_page(out: Path) -> None:
    """Body at least 11 pt, times and shot numbers 16 pt, nothing below 8 pt outside of drawings."""
    for path in sorted(out.rglob("*.pdf")):
        sizes: dict[float, int] = {}

        def visit(text: str, cm: list[float], tm: list[float], _font: object, size: float,
                  sizes: dict[float, int] = sizes) -> None:  # fmt: skip
            if text.strip():
                points = round(size * math.hypot(tm[2], tm[3]) * math.hypot(cm[2], cm[3]), 1)
                sizes[points] = sizes.get(points, 0) + len(text)

        for page in PdfReader(path).pages:
            page.extract_text(visitor_text=visit)
        assert 11.0 in sizes, (path, sizes)
        assert 16.0 in sizes, (path, sizes)
        if "setup-" not in path.name:
            assert min(sizes) >= 8.0, (path, sizes)


def test_words_of_the_plan_stay_words(out: Path) -> None:
    for path in out.rglob("*.html"):
        text = without_own_script(path)
        assert "<script" not in text
        assert "<Last>" not in text
    assert "<script>alert(1)</script> steps in" in read(out, "day-1/cast-mara")


def test_no_sheet_loads_anything(out: Path) -> None:
    for path in out.rglob("*.html"):
        text = without_own_script(path)
        assert "default-src 'none'" in text
        loads = re.findall(r'(?:src|url)\s*[=(]\s*["\']?([a-z]+:[^"\')]*)', text)
        assert [link for link in loads if not link.startswith("data:image/svg+xml")] == [], path
        assert not re.findall(r"<(?:link|script|img|iframe|object)\b", text), path


def test_call_sheet(out: Path) -> None:
    text = read(out, "day-1/call-sheet")
    assert text.index("07:30 Call") < text.index("07:15 Tomas Example")
    for words in ("1 Quay Road", "Behind the net loft", "Northhaven Infirmary", "18 min away", "kit in the blue box",
                  "1 × no nuts", "In heavy rain", "Bring boots.", "01632 960100", "sunset 16:0"):  # fmt: skip
        assert words in text, words


def test_private_data_stays_with_those_responsible(out: Path) -> None:
    for path in out.rglob("*.html"):
        text = path.read_text("utf-8")
        assert ("asthma" in text and "Ines" in text) == (path.stem == "first-aid"), path
        assert "960123" not in text, path


def test_running_order(out: Path) -> None:
    text = read(out, "day-1/running-order")
    assert text.index("Office wide") < text.index("Office close") < text.index("Office door")
    for words in ("07:30 Call and load-in", "Shoot: Office wide · CLERK 4A WS · She counts the till. 20 min",
                  "Change to: Office close", "Meal", "released afterwards: Mara Example", "Pack and put"):  # fmt: skip
        assert words in text, words
    shown = (out / "day-1/running-order.html").read_text("utf-8")
    rigging = re.search(r"Change to: Office close.*?</tr>", shown, re.DOTALL)
    assert rigging
    assert 'class="framed"' in rigging[0]  # the plan says nothing of its crew's minutes
    assert "Meal 45 min" in text
    times = re.findall(r"\b\d\d:\d\d (?=Call|Rig|Shoot|Change|Meal|Pack)", text)
    assert times == sorted(times)
    assert len(times) >= 8
    assert "only if there is time: 4D (Office close)" in text
    assert "Never cut: meal, rest, safety" in text


def test_a_day_without_an_order_says_so(out: Path) -> None:
    for name in ("running-order", "camera", "art", "cast-ines"):
        assert "No order is agreed for this day yet" in read(out, f"day-2/{name}"), name
    assert "needs dusk" in read(out, "day-2/running-order")
    assert not (out / "day-2/lighting.html").exists()  # nothing is lit


def test_setup_card(out: Path) -> None:
    text = read(out, "day-1/setup-office-door")
    for words in ("Setup card 3 of 3", "4C MS", "35 mm prime", "NEW 4 Buoy", "FLASHES 1.5 per s"):
        assert words in text, words
    assert "CHANGE 3 Hall, edge" in text
    assert "keep 1 Quay" in text
    drawing = (out / "day-1/setup-office-wide.html").read_text("utf-8")
    assert drawing.count('role="img"') == 2  # the set from above and what the lens sees
    assert drawing.count('class="swatch"') == 3  # the lamps' colours


def test_lighting_sheet(out: Path) -> None:
    text = read(out, "day-1/lighting")
    # 3200 K against 3600 K: 1e6/3200 - 1e6/3600 = 312.5 - 277.8 = +34.7 mired; 5600 K: 178.6 - 277.8 = -99.2 mired.
    assert "3200 K (+35 mired, a little warm)" in text
    assert "5600 K (−99 mired, blue)" in text
    assert "HOT: cloth no nearer than 30 cm" in text
    assert "cut 1.6 m x 1.5 m" in text
    assert "black out with black molton" in text
    assert "MOVE 1 Quay" in text
    assert "new here: level" in text
    assert "remove 2 Till" in text
    assert text.index("Office wide") < text.index("Office close")


def test_findings_stand_at_their_line(out: Path) -> None:
    text = read(out, "day-1/lighting")
    assert "Cannot be as planned: 'buoy' is in the picture of 'office-door'" in text
    assert text.index("'buoy' is in the picture") > text.index("NEW 4 Buoy")
    assert "accepted: a ring was ordered (agreed by Olek)" in text


def test_camera_sheet(out: Path) -> None:
    text = read(out, "day-1/camera")
    assert "f/2.8 · ISO 800" in text
    assert "framed: a default, not a decision" in text
    assert "● 85 mm prime" in text
    assert re.search(r"\d\d:\d\d 35 mm prime, Office door", text)
    assert '<span class="framed">800</span>' in (out / "day-1/camera.html").read_text("utf-8")
    assert "3 × camera battery · 98 Wh" in text


def test_art_sheet(out: Path) -> None:
    text = read(out, "day-1/art")
    assert "NEW till open" in text
    assert "remove clock at ten to eight" in text
    assert "keep till open" in text
    assert "Counter back to the east wall" in text
    assert "from an aunt" in text


def test_cast_sheet(out: Path) -> None:
    text = read(out, "day-1/cast-mara")
    for words in ("Your call", "CLERK", "wear: grey uniform", "boots: size 39", "Net loft, heated",
                  "a lamp FLASHES 1.5 per s: speak up if flashing light harms you (Ticket office)",
                  "light haze (Ticket office)"):  # fmt: skip
        assert words in text, words
    assert not (out / "day-2/cast-mara.html").exists()
    assert "out of doors" in read(out, "day-2/cast-ines")


def test_gear_list(out: Path) -> None:
    text = read(out, "gear-list")
    assert "Back first: LED fresnel 300 W" in text
    assert "Monday 16 November 2026 21:00" in text
    assert "Bea Example, 40 min" in text
    assert "in all: 61.50 EUR" in text  # 48 + 3 x 4.50
    assert "13.1 kg" in text  # 1.2 + 5.5 + 6.4
    rows = list(csv.reader(io.StringIO((out / "gear-list.csv").read_text("utf-8-sig"), newline="")))
    assert rows[0][:5] == ["owner", "from", "case", "count", "thing"]
    assert "'=brass lamp" in [row[4] for row in rows]


def test_risk_sheet(out: Path) -> None:
    text = read(out, "day-1/risk")
    for words in ("Mains", "Heat", "Ladders", "Flashing light", "Darkness", "Effects", "Tiredness", "Batteries",
                  "local codes and those licensed for the work decide", "a ring was ordered", "signature"):  # fmt: skip
        assert words in text, words
    assert "Ines Example" not in text
    private = read(out, "day-1/first-aid")
    for words in ("Private: for those responsible only", "If something happens",
                  "Ines Example asthma · under age (16) · looked after by Bea Example"):  # fmt: skip
        assert words in private, words
    assert "Flashing light" not in read(out, "day-2/risk")


def test_only_what_is_asked_for(compiled: Compiled, tmp_path: Path) -> None:
    build(compiled, tmp_path, pdf=False)
    everything = {p.relative_to(tmp_path) for p in tmp_path.rglob("*.html")}
    result = build(compiled, tmp_path, only=["lighting"], day="1", pdf=False, label="x")
    assert set(result.written) == {"day-1/lighting.html", "index.html"}
    assert {p.relative_to(tmp_path) for p in tmp_path.rglob("*.html")} == everything
    build(compiled, tmp_path / "mara", person="mara", pdf=False)
    mine = {p.relative_to(tmp_path / "mara").as_posix() for p in (tmp_path / "mara").rglob("*.html")}
    assert "day-1/cast-mara.html" in mine
    assert not {name for name in mine if "ines" in name or "risk" in name or "lighting" in name}
    index = (tmp_path / "mara" / "index.html").read_text("utf-8")
    assert set(re.findall(r'href="([^"]+)"', index)) == (
        mine | {"gear-list.csv", "calendar-mara.ics", "day-1/running-order.csv", "day-2/running-order.csv"}
    ) - {"index.html"}


@pytest.mark.parametrize(
    ("asked", "says"),
    [({"day": "7"}, "day called '7'; there are: 1, 2"), ({"person": "nina"}, "person called 'nina'"),
     ({"only": ["lightning"]}, "document called 'lightning'; there are: call-sheet")],
)  # fmt: skip
def test_what_is_not_there_is_said(compiled: Compiled, tmp_path: Path, asked: dict[str, str], says: str) -> None:
    with pytest.raises(NothingToBuild, match=says):
        build(compiled, tmp_path / "x", **asked)  # type: ignore[arg-type]
    assert not (tmp_path / "x").exists()


def test_without_the_engine_there_is_html(
    compiled: Compiled, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "plutoprint", None)
    result = build(compiled, tmp_path)
    assert not list(tmp_path.rglob("*.pdf"))
    assert (tmp_path / "day-1/lighting.html").is_file()
    assert result.remarks[0].startswith("no PDF on this machine")


def test_letters_the_face_lacks_are_named(tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text("hotset: 1\ntitle: 小船\nsetups: {a: {}}\ngear: {b: {kind: tool}}\n", "utf-8")
    result = build(compile_plan([str(plan)]), tmp_path / "out")
    assert result.remarks == ("the PDF sheets cannot show these letters, the HTML sheets can: 小船",)


@pytest.mark.parametrize("text", ["hotset: 1\n", "hotset: 1\ndays: {1: {}}\n", "hotset: 1\nsetups: {a: {}}\n",
                                  "hotset: 1\npeople: {a: {plays: B}}\nscenes: {1: {shots: {1A: {}}}}\n"])  # fmt: skip
def test_a_plan_with_next_to_nothing_still_builds(tmp_path: Path, text: str) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(text, "utf-8")
    build(compile_plan([str(plan)]), tmp_path / "out")
    assert (tmp_path / "out" / "index.html").is_file()


RUN = """
import sys
from pathlib import Path
from hotset.documents import build
from hotset.pipeline import compile_plan
build(compile_plan([sys.argv[1]]), Path(sys.argv[2]))
"""


def contents(folder: Path) -> Iterator[tuple[str, bytes]]:
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            yield path.relative_to(folder).as_posix(), path.read_bytes()


def test_same_plan_same_bytes(tmp_path: Path) -> None:
    made = []
    for number, zone in enumerate(("UTC", "Pacific/Auckland")):
        folder = tmp_path / f"run {number}"
        folder.mkdir()
        plan = folder / "plan.yaml"
        plan.write_bytes(PLAN.read_bytes())
        env = {**os.environ, "TZ": zone, "PYTHONHASHSEED": str(number + 1), "LC_ALL": "C"}
        command = [sys.executable, "-c", RUN, str(plan), str(folder / "out")]
        subprocess.run(command, check=True, env=env, cwd=folder)
        made.append(dict(contents(folder / "out")))
    assert made[0].keys() == made[1].keys()
    assert [name for name in made[0] if made[0][name] != made[1][name]] == []


@pytest.mark.parametrize(
    ("why", "words"),
    [("needs sun", "sun"), ("between", "its own hours"), ("'mara' is here", "Mara Example is here"),
     ("access to 'landing'", "The landing is open to us"), ("rigged ahead by 09:00", "rigged ahead by 09:00"),
     ("'fresnel' is in hands", "LED fresnel 300 W is in our hands"), ("for the meal", "the meal"),
     ("needs dark; needs dark", "darkness outside")],
)  # fmt: skip
def test_windows_are_said_as_on_set(compiled: Compiled, why: str, words: str) -> None:
    assert compiled.plan is not None
    assert reasons(Say(compiled.plan, words_for()), "office-wide", why) == words


def test_every_window_of_the_facts_is_known(compiled: Compiled) -> None:
    """Whatever reason the day in numbers gives, the sheets have words for it."""
    assert compiled.plan is not None
    say = Say(compiled.plan, words_for())
    for path in (PLAN, *sorted((Path(__file__).parents[2] / "examples").glob("*/plan.yaml"))):
        plan = compile_plan([str(path)]).plan
        assert plan is not None
        for day in plan.days:
            numbers = shoot_day(plan, day)
            for setup in numbers.day.setups:
                for window in setup.windows:
                    assert reasons(Say(plan, words_for()), setup.name, window.why) != window.why, window.why
    assert reasons(say, "office-wide", "unheard of") == "unheard of"
