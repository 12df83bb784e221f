"""What people look for on their sheet while they stand on set: asked of the example day."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest
from hotset.cli import main
from hotset.documents import BrokenSheet, build, lighting
from hotset.pipeline import Compiled, compile_plan
from hotset.plan.gear import Gear
from hotset.plan.stock import Stock
from pypdf import PdfReader

PLAN = Path(__file__).parents[2] / "examples" / "last-boat" / "plan.yaml"


@pytest.fixture(scope="module")
def compiled() -> Compiled:
    return compile_plan([str(PLAN)])


@pytest.fixture(scope="module")
def out(compiled: Compiled, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("held")
    build(compiled, folder)
    return folder


def read(out: Path, name: str) -> str:
    text = (out / f"{name}.html").read_text("utf-8")
    text = re.sub(r"<style>.*?</style>|<title.*?</title>|<desc.*?</desc>|<svg.*?</svg>", " ", text, flags=re.DOTALL)
    plain = html.unescape(re.sub(r"<[^>]*>", " ", text)).replace("\u200b", "").replace("\u00a0", " ")
    return re.sub(r" ([,.;:])", r"\1", " ".join(plain.split()))


def test_call_sheet_has_the_crews_phones_and_both_ends_of_the_day(out: Path) -> None:
    text = read(out, "day-1/call-sheet")
    assert re.search(r"Olek · gaffer, grip · 07700 900103 (\d\d:\d\d)", text)
    ends = re.search(r"end of the day (\d\d:\d\d) as planned, 19:30 at the latest", text)
    assert ends
    assert f"07700 900103 {ends[1]}" in text  # the crew leaves when everything is packed
    assert "07700 900105" not in text  # nobody's but the crew's
    assert "07700 900113" not in text


def test_the_grip_knows_what_feeds_a_lamp_and_what_to_cut(out: Path) -> None:
    text = read(out, "day-1/grip")
    assert "LED fresnel lamp · circuit Ground floor, socket by hatch · over extension lead 15 m · 1 sand bag" in text
    # The window of 1.3 m x 1.2 m and 15 cm on each side; a tent as deep as 1.4 m has two sides and a top.
    assert "Hatch from black stage cloth: cut 1.6 m x 1.5 m; 2 × 1.4 m x 1.5 m (sides); 1 × 1.6 m x 1.4 m (top)" in text
    assert "Dark side from black stage cloth: cut 1.2 m x 2 m" in text
    assert "Slit from grey gel 1.2: cut 2 × 90 cm x 70 cm" in text  # two layers of it
    assert "Lift from" not in text  # a piece of that size lies there


def test_a_room_is_left_with_a_list(out: Path) -> None:
    assert read(out, "day-1/lighting").count("Last setup in ") == 4
    assert "Last setup in Jetty shed: take out Mini stand for lamp 1 Mini stand for lamp 2" in read(out, "day-1/grip")
    crew = read(out, "day-1/crew")
    assert "Last setup in Ticket office: take out remove 1 Quay lamp, goes on to Waiting hall" in crew
    shown = (out / "day-1/crew.html").read_text("utf-8")
    line = re.search(r"<li[^>]*>\s*<label><input[^>]*data-name=\"1 Quay lamp[^>]*>", shown)
    assert line, "it can be ticked"


def test_what_comes_off_the_camera_is_said_there_and_on_the_crews_page(out: Path) -> None:
    for name in ("day-1/camera", "day-1/crew"):
        assert "Long to short OFF" in read(out, name), name
        assert "soft mist filter, grey filter 1.2 OFF" in read(out, name), name


def test_sound_hears_a_bell_only_at_its_hour(out: Path) -> None:
    text = read(out, "day-1/sound")
    assert "church bell: 12:00-12:02" in text
    heard = re.findall(r"hear: ([a-z ]+)", text)
    assert heard
    assert not [words for words in heard if "bell" in words]
    assert "boom boom" not in text


def test_a_name_that_says_its_role_says_it_once(out: Path) -> None:
    assert "Fill, fill" not in read(out, "day-1/lighting")
    assert "Quay lamp, key" in read(out, "day-1/lighting")


def test_an_actor_knows_when_there_is_time_to_rest(out: Path) -> None:
    assert re.search(r"free from \d\d:\d\d, 2 h 25 min", read(out, "day-1/cast-mara"))
    assert "free from" not in read(out, "day-1/cast-ines")


def test_the_house_sees_the_whole_day(out: Path) -> None:
    text = read(out, "day-1/place")
    rows = re.findall(r"(\d\d:\d\d) (\d\d:\d\d) (?=[A-Zw]|the)", text)
    assert rows == sorted(rows)
    for words in ("we carry in", "the hall's back corner meal", "we pack and put everything back",
                  "compressor: on again", "foil on the glass of slit (outside)"):  # fmt: skip
        assert words in text, words


def test_after_the_day_stands_in_the_order_of_time(out: Path) -> None:
    text = read(out, "day-1/after-the-day")
    times = re.findall(r"\d\d:\d\d", text[text.index("The day as it was") : text.index("By kind of task")])
    assert len(times) > 20
    assert times == sorted(times)


def test_the_gear_list_adds_up(out: Path, compiled: Compiled) -> None:
    text = read(out, "gear-list")
    assert compiled.plan is not None
    things: list[Gear | Stock] = [*compiled.plan.gear.values(), *compiled.plan.stock.values()]
    assert f"in all {sum(1 if t.quantity is None else t.quantity for t in things)} pieces" in text
    # body 2400, lens 300, fresnel 650; of these the lens and the fresnel are lent
    unknown = sum(t.value is None for t in things)
    assert f"value for the insurance 3350.00 GBP, {unknown} lines without a value" in text
    assert "of it not our own 950.00 GBP" in text
    assert re.search(r"10 sand bag 7 kg sand-bag – 7 kg each", text)


def test_the_index_tells_the_day(out: Path) -> None:
    text = read(out, "index")
    assert re.search(r"call 07:30, The old landing takes 08:30 – \d\d:\d\d meal \d\d:\d\d", text)
    assert "to shoot 14 setups, 26 shots" in text
    assert re.search(r"rooms 08:10 Waiting hall · \d\d:\d\d Ticket office · \d\d:\d\d Waiting hall", text)


MOST = {"camera": 4, "sound": 2, "grip": 3, "lighting": 5, "art": 2, "cast-mara": 1, "cast-ines": 1, "risk": 2,
        "place": 2, "call-sheet": 2, "running-order": 3, "after-the-day": 2, "wardrobe": 1}  # fmt: skip


def test_no_sheet_is_longer_than_it_was(out: Path) -> None:
    pages = {path.stem: len(PdfReader(path).pages) for path in (out / "day-1").glob("*.pdf")}
    assert {name: pages[name] for name in MOST if pages[name] > MOST[name]} == {}
    cards = [count for name, count in pages.items() if name.startswith("setup-")]
    assert max(cards) == 2
    assert sum(count == 1 for count in cards) >= 9


def test_a_sheet_that_breaks_is_named_and_nothing_is_written(
    compiled: Compiled, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def breaks(*_args: object) -> None:
        raise KeyError("lamp")

    monkeypatch.setattr(lighting, "_colours", breaks)
    with pytest.raises(BrokenSheet, match=r"'day-1/lighting'.*nothing was written.*--only call-sheet"):
        build(compiled, tmp_path / "none", pdf=False)
    assert not (tmp_path / "none").exists() or not list((tmp_path / "none").iterdir())
    assert main(["build", str(PLAN), "--out", str(tmp_path / "none"), "--no-pdf"]) == 3
    assert "'day-1/lighting' cannot be made" in capsys.readouterr().err
    assert build(compiled, tmp_path / "some", only=["call-sheet", "grip", "camera"], pdf=False).written
