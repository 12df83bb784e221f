"""Plugs against sockets, with leads that split, other rooms, held sets and practicals."""

from __future__ import annotations

from pathlib import Path

import pytest

from .plans import compiled, conflicts

PLAN = """
hotset: 1
DAYS
locations:
  landing:
    mains: 230 V 50 Hz
    circuits: {ring: {breaker: 32 A}, other: {breaker: 16 A}}
    sets:
      office:
        size: 6 m x 4 m x 2.4 m
        outlets: {a: {wall: east, from: 1 m, circuit: ring, SOCKETS}, o: {wall: west, from: 1 m, circuit: other}}
      hall: {size: 6 m x 4 m x 2.4 m, outlets: {b: {wall: east, from: 1 m, circuit: ring, sockets: 2}}}
gear:
  cob: {kind: light, draws: 100 W, factor: 0.95, quantity: 9}
  bulb: {kind: prop, practical: true, draws: 9 W}
  one-way: {kind: power, sockets: 1, quantity: 4}
  three-way: {kind: power, sockets: 3, quantity: 1}
  reel: {kind: power}
setups:
  wide:
    set: office
    lights: {LIGHTS}
    practicals: {PRACTICALS}
  MORE
"""


def lamps(*leads: str) -> str:
    def one(n: int, lead: str) -> str:
        return f"l{n}: {{lamp: cob, circuit: ring{', lead: ' + lead if lead else ''}}}"

    return ", ".join(one(n, lead) for n, lead in enumerate(leads))


def plan(**said: str) -> str:
    plain = {"DAYS": "title: x", "SOCKETS": "sockets: 2", "LIGHTS": "", "PRACTICALS": "", "MORE": ""}
    text = PLAN
    for key, words in (plain | said).items():
        text = text.replace(key, words)
    return text


def said(tmp_path: Path, **words: str) -> list[str]:
    return [f.sentence for f in conflicts(plan(**words), tmp_path) if f.rule == "sockets-short"]


@pytest.mark.parametrize(
    ("leads", "speaks"),
    [
        (("", ""), False),
        (("", "", ""), True),  # those of the hall are on the circuit, and nothing leads there
        (("", "", "one-way"), False),
        (("one-way", "one-way", "one-way", "one-way"), False),  # two here, two in the hall
        (("", "", "three-way", ""), False),  # the three-way has two to spare
        (("", "", "three-way", "", "", ""), True),
        (("", "", "three-way", "three-way", "three-way", "three-way"), False),  # 4 on walls, and 2 more
        (("", "", "three-way", "three-way", "three-way", "three-way", "three-way"), True),
    ],
)
def test_leads_split(leads: tuple[str, ...], speaks: bool, tmp_path: Path) -> None:
    assert bool(said(tmp_path, LIGHTS=lamps(*leads))) == speaks


def test_the_sentence_counts(tmp_path: Path) -> None:
    (sentence,) = said(tmp_path, LIGHTS=lamps("", ""), PRACTICALS="desk: {prop: bulb, circuit: ring}")
    assert sentence == (
        "'wide' has 3 plugs on 'ring' in 'office' that name no lead ('l0', 'l1' and 'desk'), and 2 sockets for them"
    )


def test_on_a_battery_nothing_is_plugged_in(tmp_path: Path) -> None:
    assert said(tmp_path, LIGHTS=lamps("", ""), PRACTICALS="desk: {prop: bulb, battery: own}") == []


def test_a_held_set_keeps_its_sockets(tmp_path: Path) -> None:
    more = "close: {set: office, lights: {c: {lamp: cob, circuit: ring}}}\n  late: {set: office}"
    days = "days: {1: {call: 08:00, load-in: 0 min, order: [wide, close, late]}}"
    held = {"MORE": more, "DAYS": days, "PRACTICALS": "}\n    held-until: late\n    sound: {"}
    (sentence,) = said(tmp_path, LIGHTS=lamps("", ""), **held)
    assert "'close' has 3 plugs" in sentence
    assert "with 'l0' and 'l1' of what stays hot" in sentence
    assert said(tmp_path, LIGHTS=lamps("", ""), **{**held, "PRACTICALS": ""}) == []


def test_what_is_not_said_is_not_counted(tmp_path: Path) -> None:
    five = lamps("", "", "", "", "")
    assert said(tmp_path, SOCKETS="plug: three-pin", LIGHTS=five) == []
    done = compiled(plan(LIGHTS=lamps("", "", "", "reel")), tmp_path)
    assert [n.wants for n in done.coverage.not_checked if n.rule == "sockets-short"] == ["'sockets:' of 'reel'"]
    done = compiled(plan(LIGHTS=lamps("", "reel")), tmp_path)
    assert [n for n in done.coverage.not_checked if n.rule == "sockets-short"] == []
