"""What hotset found out for itself stands on the sheets: adapters, rings, gels in a colour, places outside."""

from __future__ import annotations

import pytest
from hotset.documents.camera import joins
from hotset.documents.desk import Desk
from hotset.documents.gather import shoot_of
from hotset.documents.light_words import practical_words, seen_of
from hotset.documents.marking import Marking
from hotset.documents.say import Say
from hotset.documents.words import words_for
from hotset.pipeline import compile_plan

PLAN = """
hotset: 1
locations:
  landing:
    sets:
      hall:
        size: 7 m x 5 m x 3 m
        windows: {sea: {wall: south, from: 2 m, sill: 1 m, width: 2 m, height: 1 m}}
mounts: {short: {flange: 18 mm}, long: {flange: 44 mm}}
gear:
  body: {kind: camera, mount: short}
  old-85: {kind: lens, mount: long, thread: 55 mm}
  ring: {kind: adapter, from: 55 mm, to: 67 mm}
  joint: {kind: adapter, from: short, to: long, thick: 26 mm}
  mist: {kind: filter, thread: 67 mm}
  fresnel: {kind: light, colour: 3200 K}
stock: {sea-green: {of: gel, shifts: -90 mired, roll: 1 m x 1 m}}
setups:
  wide:
    set: hall
    camera: {body: body, lens: old-85, filters: mist, white-balance: 4300 K}
    lights: {buoy: {lamp: fresnel, with: sea-green, outside: sea, away: 0.7 m, along: ALONG}}
"""


def desk_of(text: str) -> Desk:
    words = words_for()
    shoot = shoot_of(compile_plan(["-"], stdin_text=text.encode()), words)
    say = Say(shoot.plan, words)
    return Desk(shoot, words, say, Marking(shoot, say))


def test_adapters_and_rings_that_were_found() -> None:
    desk = desk_of(PLAN.replace("ALONG", "0.6 m"))
    camera = desk.shoot.plan.setups["wide"].camera
    assert camera is not None
    assert joins(desk, camera) == ("joint", "ring")


def test_a_gel_shifts_what_is_seen() -> None:
    desk = desk_of(PLAN.replace("ALONG", "0.6 m"))
    setup = desk.shoot.plan.setups["wide"]
    seen = seen_of(desk, setup, setup.lights["buoy"])
    assert seen == pytest.approx(1e6 / (1e6 / 3200 - 90), abs=0.1)  # the definition of the mired


def test_a_lamp_in_the_picture_has_the_colour_of_its_bulb() -> None:
    """1e6 / 2700 - 1e6 / 4300 = 137.8 mired."""
    desk = desk_of(
        PLAN.replace("ALONG", "0 m")
        .replace("  fresnel:", "  bulb: {kind: light, colour: 2700 K}\n  fresnel:")
        .replace("    lights:", "    practicals: {desk-lamp: {bulb: bulb, at: [1 m, 1 m]}}\n    lights:")
    )
    setup = desk.shoot.plan.setups["wide"]
    said = practical_words(desk, setup, setup.practicals["desk-lamp"])
    assert "2700 K (+138 mired, deep orange)" in said.replace("\u00a0", " ")


@pytest.mark.parametrize(("along", "said"), [("0.6 m", "60\u00a0cm east of its"), ("-0.5 m", "50\u00a0cm west of its")])
def test_along_the_wall(along: str, said: str) -> None:
    desk = desk_of(PLAN.replace("ALONG", along))
    assert said in desk.say.light_place(desk.shoot.plan.setups["wide"].lights["buoy"], "landing/hall")


GENERATOR = """
hotset: 1
days: {1: {call: "08:00", order: [wide]}}
locations:
  quay:
    mains: 230 V 50 Hz
    circuits: {engine: {gives: 2000 W, runs: 3 h}, house: {breaker: 16 A}}
    sets: {pier: {size: 12 m x 6 m, outdoors: true}}
gear: {lamp: {kind: light, draws: 300 W}}
setups: {wide: {set: pier, takes: 20 min, lights: {moon: {lamp: lamp, circuit: CIRCUIT}}}}
scenes: {4: {shots: {4A: {setup: wide}}}}
"""


@pytest.mark.parametrize(("circuit", "told"), [("engine", True), ("house", False)])
def test_a_generator_in_use_brings_its_cautions(circuit: str, told: bool) -> None:
    from hotset.documents import risk

    desk = desk_of(GENERATOR.replace("CIRCUIT", circuit))
    found = [h for h in risk.view(desk, desk.shoot.days[0]).hazards if h.title == "Generator and fuel"]
    assert [h.where for h in found] == ([("Engine",)] if told else [])
    for one in found:
        assert "cool before it is refuelled" in one.measures[0]
        assert "carbon monoxide" in one.measures[1]
