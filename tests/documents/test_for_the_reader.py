"""Each sheet tells its reader what they can use: no keys of the plan's file, times, flames, hours that close."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest
from hotset.documents import build
from hotset.documents.on_set import sentence, way_out
from hotset.findings import Finding, Place
from hotset.pipeline import compile_plan

PLAN = Path(__file__).with_name("dusk.yaml")


class Day:
    """The built sheets as words in one line."""

    def __init__(self, out: Path) -> None:
        build(compile_plan([str(PLAN)]), out, pdf=False)
        self.out = out / "day-1"

    def __call__(self, name: str) -> str:
        text = (self.out / f"{name}.html").read_text("utf-8")
        text = re.sub(r"<style>.*?</style>|<title.*?</title>|<desc.*?</desc>", " ", text, flags=re.DOTALL)
        plain = html.unescape(re.sub(r"<[^>]*>", " ", text)).replace("\u200b", "").replace("\u00a0", " ")
        return re.sub(r" ([,.;:])", r"\1", " ".join(plain.split()))


@pytest.fixture(scope="module")
def day(tmp_path_factory: pytest.TempPathFactory) -> Day:
    return Day(tmp_path_factory.mktemp("dusk"))


def found(said: str, *ways: str) -> Finding:
    return Finding("some-rule", "warning", said, Place("plan.yaml", 1, 1), ways_out=ways)


def test_ways_out_of_the_plans_file_stay_out() -> None:
    one = found("'big' has no spare ('plan-b:' is not said)", "say what would serve under 'plan-b:' of 'big'",
                "or ask for a second one")  # fmt: skip
    assert (sentence(one), way_out(one)) == ("'big' has no spare", "ask for a second one")
    assert way_out(found("x", "have it signed and write 'release: granted'")) == "have it signed"
    assert way_out(found("x", "leave a door open, and name what lets air in under 'vents:'")) == "leave a door open"
    assert way_out(found("x", "write 'room-tone' into the order")) == ""
    assert way_out(found("x", "set a flag on the line ('grip:', at half the way)")) == "set a flag on the line"


def test_no_sheet_speaks_of_the_plans_file(day: Day) -> None:
    for path in sorted(day.out.glob("*.html")):
        told = day(path.stem)
        found_here = re.findall(r"way out: [^.]*'[a-z-]+:[^.]*", told)
        assert found_here == [], path.stem
        assert "write 'release" not in told
        assert not re.search(r"\w way out:", told), "a sentence ends before the way out begins"


def test_a_wait_stands_once_and_not_on_a_card(day: Day) -> None:
    for name in ("call-sheet", "running-order"):
        assert day(name).count("'noa' waits") == 1, name
    assert "waits" not in day("setup-garden")


def test_the_gaffer_reads_breakers_then_setups_then_charts(day: Day) -> None:
    told = day("lighting")
    places = [told.index(words) for words in ("Breaker map", "nothing stands here yet", "Windows over the day")]
    assert places == sorted(places)
    assert "gives 2000 W · 8.7 A · 5 h on one tank" in told, "2000 W at 230 V"
    assert re.search(r"up to 0\.9 A of 8\.7 A .*?0\.9 A", told), "180 W at 230 V, told at the bar as well"


def test_the_camera_reads_both_lenses_of_a_dusk_and_a_low_battery(day: Day) -> None:
    told = day("camera")
    assert "2A from 18:29 on Lens 50, 2B from 18:49 on Lens 85; dusk closes at 19:02" in told
    assert "18:49 Lens 85, 2B" in told
    assert "BATTERY LOW: Cell no. 1" in told


def test_art_reads_what_is_seen_and_what_burns(day: Day) -> None:
    told = day("art")
    assert "mired" not in told
    assert "deep orange" in told
    assert "the camera shows: Letter (1C) · props: letter" in told
    assert told.count("props: letter") == 3
    flame = "OPEN FLAME: candle · 2 m from the west wall, 2.3 m from the south wall · 90 cm high · watched by Una"
    assert flame in told
    assert flame in day("place")


def test_the_house_reads_of_tent_and_generator(day: Day) -> None:
    told = day("place")
    assert "black tent before canal (outside), 1.5 m deep" in told
    mains, brought = told.index("Power that we bring"), told.index("gives 2000 W")
    assert mains < brought
    assert "Genny" not in told[:mains]
    assert re.search(r"runs \d\d:\d\d-\d\d:\d\d, \d\d:\d\d-18:59 · an engine, heard while it runs", told)


def test_the_actor_reads_clothes_rain_and_release(day: Day) -> None:
    told = day("cast-noa")
    assert "wear: blue pullover" in told
    assert "wear: not said" in told
    assert "When the weather turns: Rain: the dusk moves under the roof." in told
    assert "your release is not signed yet" in told


def test_silence_on_clothes_is_no_change(day: Day) -> None:
    told = day("wardrobe")
    assert "not said" in told
    assert "CHANGE" not in told


def test_the_sky_has_the_hours_that_are_asked_for(day: Day) -> None:
    """As `hotset ask sun --at "52.40 N, 4.90 E" --date 2027-03-06 --zone Europe/Amsterdam` answers."""
    assert "dusk 18:29-19:02" in day("call-sheet")
    assert "19:03" not in day("call-sheet").split("sky: ")[1]


def test_a_card_says_may_be_and_why_nothing_is_drawn(day: Day) -> None:
    assert "crossed, for it may be in the picture, its size is not said: lamp 1" in day("setup-night")
    assert "Not drawn what the lens sees: it wants" in day("setup-garden")


def test_hours_and_minutes_break_between_them(day: Day) -> None:
    text = (day.out / "running-order.html").read_text("utf-8")
    assert re.search(r"\d\u00a0h \d+\u00a0min", text)
