"""Five readers, ten questions each: what a sheet must answer, asked of the example day.

The words are those of the plan in examples/last-boat; the times are taken from the day's own timeline, so that the
sheets and the running order cannot tell two stories.
"""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest
from hotset.documents import build
from hotset.documents.gather import shoot_of
from hotset.documents.say import Say
from hotset.documents.shoot import DayLine
from hotset.documents.words import words_for
from hotset.pipeline import compile_plan

PLAN = Path(__file__).parents[2] / "examples" / "last-boat" / "plan.yaml"


class Day:
    """The built sheets, as words in one line, and the clock of the day."""

    def __init__(self, out: Path) -> None:
        compiled = compile_plan([str(PLAN)])
        assert compiled.plan is not None
        build(compiled, out, pdf=False)
        self.out = out
        self.line: DayLine = shoot_of(compiled, words_for()).days[0]
        self.say = Say(compiled.plan, words_for())

    def sheet(self, name: str) -> str:
        text = (self.out / "day-1" / f"{name}.html").read_text("utf-8")
        text = re.sub(r"<style>.*?</style>|<title.*?</title>|<desc.*?</desc>", " ", text, flags=re.DOTALL)
        plain = html.unescape(re.sub(r"<[^>]*>", " ", text)).replace("\u200b", "").replace("\u00a0", " ")
        return re.sub(r" ([,.;:])", r"\1", " ".join(plain.split()))

    def rolling(self, setup: str) -> str:
        return self.say.clock(self.line.rolling(setup))

    def start(self, setup: str) -> str:
        return self.say.clock(self.line.start_of(setup))

    def move(self, setup: str) -> str:
        slot = self.line.of_setup(setup, "move")
        assert slot is not None
        return self.say.clock(slot.start)

    def released(self, person: str) -> str:
        plays = {"mara": "shed-two", "ines": "quay-dark"}  # the last setup of each, as the plan's order has it
        slot = self.line.of_setup(plays[person], "shoot")
        assert slot is not None
        return self.say.clock(slot.end)


@pytest.fixture(scope="module")
def day(tmp_path_factory: pytest.TempPathFactory) -> Day:
    return Day(tmp_path_factory.mktemp("readers"))


# 3200 K at a white balance of 4300 K: 1e6 / 3200 - 1e6 / 4300 = 312.5 - 232.6 = +79.9 mired.
GAFFER = {
    "when do I start, with what, where": "{start:hall-sun-wide} Hall sun wide Waiting hall, The old landing",
    "what feeds what, and what hangs there already": "Ground floor 16 A · 1400 W on it already",
    "where can I plug in": "by bay (Waiting hall)",
    "where is the first big lamp": "outside Hatch, 90 cm away, 10 cm north of its middle, on Stand · 1.9 m high",
    "what colour is it to the camera": "3200 K (+80 mired, warm) · level 40 % · circuit Ground floor",
    "over which lead": "over extension lead 15 m",
    "what must I keep cloth away from": "HOT: cloth no nearer than 30 cm",
    "what may I leave standing": "keep 1 Quay lamp, 3 Till glow",
    "what must be cut for the bay": "cut 1.7 m x 1.5 m",
    "how full is the breaker": "of 12.8 A for hours",
}  # fmt: skip
ASSISTANT = {
    "when do I roll first, with which lens": "{rolling:hall-sun-wide} Hall sun wide",
    "what sits between the lens and the body": "adapters ● Long to short",
    "which filter": "soft mist filter",
    "what does the camera stand on": "Sticks",
    "how high is the lens": "lens height 1.4 m",
    "where does it stand": "6.3 m from the west wall, 3.9 m from the south wall",
    "what stop": "stop T5.6",
    "which lens comes when": "Portrait 85, from Hall sun close",
    "how wide is the insert framed": "picture 60 cm high at the subject",
    "what cards are there": "3 × Card",
}  # fmt: skip
ACTOR = {
    "when and where am I called": "Your call The old landing, Ferry Road 1, Northhaven",
    "when am I in front of the camera": "on set from {rolling:hall-night-wide}",
    "when am I free": "released about {released:ines}",
    "where do I wait": "The net loft is heated and has a sofa; cast waits there.",
    "when and where do I eat": "the hall's back corner",
    "what do I wear": "wear: oilskin, wet",
    "what happens in my first scene": "The passenger waits under the buoy's light.",
    "what do I do in it": "5A WS · She sits and waits. The buoy counts.",
    "what could harm me": "a lamp FLASHES 1.5 per s: speak up if flashing light harms you",
    "whom do I call when I am late": "production Bea, 07700 900101",
}  # fmt: skip
ART = {
    "which set first": "{start:hall-sun-wide} Hall sun wide Waiting hall",
    "how is it dressed": "timetable as new, bench turned to the window",
    "what changes for the night": "timetable struck through, one glove under the bench",
    "what stays": "keep till open and half counted",
    "what must nobody touch": "HOT SET until Hall night bench: nobody takes anything from it",
    "which practical, which bulb, where plugged": "bulb LED bulb 9 W 2700 K · level 40 % · circuit Ground floor",
    "how many of what is torn": "6 × paper ticket that is torn",
    "which of the props are used up": "used up in each take: have spares",
    "which scene is it": "Scene 4 · INT. TICKET OFFICE - NIGHT",
    "what goes back as it was": "bench back to the north wall",
}  # fmt: skip
OWNER = {
    "when do you come": "07:30 We come, and begin to carry in",
    "when are you gone": "we are gone by {gone}",
    "when are you in the office": "{move:office-wide}",
    "what do you do to my windows": "hatch covered with black cloth (outside)",
    "what will flash": "flashing or flickering light",
    "when must the house be still": "Please be still for a minute at about: {tone}",
    "what do you draw from my mains": "Ground floor at most 1800 W",
    "what do you put back": "timetable glass wiped",
    "are you insured": "insurance granted, the film co-operative",
    "whom do I call": "production Bea, 07700 900101",
}  # fmt: skip
READERS = (("lighting", GAFFER), ("camera", ASSISTANT), ("cast-ines", ACTOR), ("art", ART), ("place", OWNER))


def filled(day: Day, words: str) -> str:
    """The answer with the times of the timeline in it."""
    for kind in ("start", "rolling", "move", "released"):
        words = re.sub(rf"{{{kind}:([\w-]+)}}", lambda m, kind=kind: str(getattr(day, kind)(m[1])), words)  # type: ignore[misc]
    tone = next(slot for slot in day.line.slots if slot.kind == "room-tone")
    end = day.line.slots[-1].end
    return words.replace("{tone}", day.say.clock(tone.start)).replace("{gone}", day.say.clock(end))


@pytest.mark.parametrize(("sheet", "question"), [(sheet, q) for sheet, asked in READERS for q in asked])
def test_the_sheet_answers(day: Day, sheet: str, question: str) -> None:
    answer = filled(day, dict(READERS)[sheet][question])
    text = day.sheet(sheet)
    assert answer in text, (question, answer, text[:600])


def test_every_reader_asks_ten_questions() -> None:
    assert [len(asked) for _sheet, asked in READERS] == [10] * 5


@pytest.mark.parametrize("sheet", ["lighting", "grip", "camera", "sound", "data", "art", "wardrobe", "cast-mara",
                                   "place", "running-order", "call-sheet"])  # fmt: skip
def test_first_stands_what_comes_next(day: Day, sheet: str) -> None:
    """The first line of every sheet after its head is a time and what is done then."""
    text = (day.out / "day-1" / f"{sheet}.html").read_text("utf-8")
    first = re.search(r'<section class="first"><p class="when">(\d\d:\d\d)</p><p class="what"><b>([^<]+)</b>', text)
    assert first, sheet


def test_times_are_told_alike_everywhere(day: Day) -> None:
    """Minutes as the running order has them, on the sheets and in the drawings."""
    order = set(re.findall(r"\b\d\d:\d\d\b", day.sheet("running-order")))
    for sheet in ("call-sheet", "lighting", "camera", "sound", "art"):
        for setup in day.line.setups:
            known = {day.rolling(setup), day.start(setup)}
            assert known <= order
            assert known & set(re.findall(r"\b\d\d:\d\d\b", day.sheet(sheet))), (sheet, setup)
