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
    "which socket does it go into": "circuit Ground floor, socket by hatch",
    "where is the first big lamp": "outside Hatch, 90 cm away, 10 cm north of its middle, on Stand · 1.9 m high",
    "what colour is it to the camera": "3200 K (+80 mired, warm) · level 40 % · circuit Ground floor",
    "over which lead": "socket by hatch · over extension lead 15 m",
    "what must I keep cloth away from": "HOT: cloth no nearer than 20 cm",
    "what may I leave standing": "keep 1 Quay lamp, 3 Till glow",
    "what do I take out of the office, and where does it go":
        "Last setup in Ticket office: take out 1 Quay lamp, goes on to Waiting hall 4 Lick Hatch: back to bare",
    "how full is the breaker": "of 12.8 A for hours",
}  # fmt: skip
ASSISTANT = {
    "when do I roll first, with which lens": "{rolling:hall-sun-wide} Hall sun wide",
    "which lens comes next, when, and focused how far": "{rolling:hall-sun-close} Portrait 85, Hall sun close · 2.49 m",
    "what sits between the lens and the body": "● Portrait 85 · ● Long to short",
    "what comes off": "● Long to short OFF · ● soft mist filter, grey filter 1.2 OFF",
    "what does it stand on, and how high is the lens": "on Sticks · lens at 1.4 m",
    "where does it stand": "6.3 m from the west wall, 3.9 m from the south wall",
    "what stop, ISO and white balance": "T5.6 · ISO 800 · 5600 K",
    "what is sharp in the close shot": "focus 2.49 m (sharp 2.37 m to 2.63 m)",
    "how wide is the insert framed": "picture 60 cm high",
    "what cards are there": "3 × Card",
}  # fmt: skip
ACTOR = {
    "when and where am I called": "Your call The old landing, Ferry Road 1, Northhaven",
    "when am I in front of the camera": "on set from {rolling:hall-night-wide}",
    "when may I leave": "released about {released:ines}",
    "where do I wait": "The net loft is heated and has a sofa; cast waits there.",
    "do I eat there": "meal over before your call: eat before you come",
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
    "what do I carry out of the office": "take out Desk lamp till open and half counted keys on the hook",
    "what must nobody touch": "HOT SET until Hall night bench: nobody takes anything from it",
    "which practical, which bulb, where plugged": "bulb LED bulb 9 W 2700 K · level 40 % · circuit Ground floor",
    "how many of what is torn": "6 × paper ticket that is torn",
    "which of the props are used up": "used up in each take: have spares",
    "which scene is it": "Scene 4 · INT. TICKET OFFICE - NIGHT",
    "what goes back as it was": "bench back to the north wall",
}  # fmt: skip
OWNER = {
    "when do you come": "07:30 We come, and begin to carry in",
    "when are you gone": "we are gone by {gone} as planned, 19:30 at the latest",
    "when are you in the office": "{move:office-wide}",
    "what do you do to my windows": "black tent before hatch (outside), 1.4 m deep",
    "when do you eat, and where": "the hall's back corner meal",
    "when must the house be still": "Please be still for a minute at about: {tone}",
    "what do you draw from my mains": "Ground floor at most 1800 W",
    "what do you switch on again": "compressor: on again windows bare again: hatch, sea window, bay, slit",
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
