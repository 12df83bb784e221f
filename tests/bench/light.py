"""What light costs: lamps at the mark, the room's part, daylight and the two exposure rules over sixty setups.

    python tests/bench/light.py [--runs N]

Medians of several runs in one process, the plan read beforehand; nothing is asserted but that all is there.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable

from hotset.facts import Facts
from hotset.pipeline import compile_plan
from hotset.rules import direct_sun_on_window, over_exposed, ratio_off, under_exposed

SETUPS = 60

HEAD = """
hotset: 1
days:
  1: {date: 2026-06-20, call: "08:00", wrap: "20:00", load-in: 30 min, location: house, order: [ORDER]}
locations:
  house:
    at: "52.0 N, 0.0 E"
    zone: Europe/London
    sets:
      room:
        size: 6 m x 5 m x 2.6 m
        windows:
          south: {wall: south, from: 1 m, sill: 0.9 m, width: 2 m, height: 1.3 m}
          east: {wall: east, from: 1 m, sill: 0.9 m, width: 1 m, height: 1.3 m}
        marks: {chair: {at: [3 m, 2.5 m], height: 1.3 m}, door: [0.8 m, 4 m]}
      yard: {size: 20 m x 20 m, outdoors: true, marks: {tree: [10 m, 10 m]}}
gear: {lamp: {kind: light, gives: {bare: 1500 lx at 1 m}, beam: 60 deg, field: 90 deg, dims: 1-100 %, quantity: 4}}
stock: {black: {opaque: true, roll: 3 m x 50 m}}
setups:
"""
INSIDE = """  in-NUMBER:
    set: room
    takes: 5 min
    rig: 2 min
    key-at: chair
    key-to-fill: 4:1
    camera: {at: [1 m, 1 m], height: 1.5 m, aim: chair, stop: T2.8, iso: 800, shutter: 1/50 s}
    windows: {WINDOWS}
    lights:
      key: {lamp: lamp, role: key, at: [5 m, 2.5 m], height: 1.9 m, aim: chair, level: NUMBER %}
      fill: {lamp: lamp, role: fill, at: [1 m, 1.5 m], height: 1.6 m, aim: chair, level: 10 %}
      edge: {lamp: lamp, role: edge, at: [4 m, 4.5 m], height: 2.2 m, aim: chair, level: 20 %}
      back: {lamp: lamp, role: background, at: [0.6 m, 4.6 m], height: 1.2 m, aim: door, level: 20 %}
    grip: {dark: {use: black, size: 1.2 m x 2 m, at: [2 m, 3.2 m], height: 1.2 m, aim: chair}}
"""
OUTSIDE = """  out-NUMBER:
    set: yard
    takes: 5 min
    rig: 2 min
    camera: {at: [10 m, 4 m], height: 1.5 m, aim: tree, stop: T4, iso: 400, shutter: 1/50 s}
"""


def plan(setups: int = SETUPS) -> str:
    """Two of three setups indoors with four lamps, half of them past open windows; the others under the sky."""
    names, bodies = [], []
    for number in range(1, setups + 1):
        body, name = (OUTSIDE, f"out-{number}") if number % 3 == 0 else (INSIDE, f"in-{number}")
        dark = "{south: {black-out: black}, east: {black-out: black}}"
        names.append(name)
        bodies.append(body.replace("NUMBER", str(number)).replace("{WINDOWS}", dark if number % 2 else "{}"))
    return HEAD.replace("ORDER", ", ".join(names)) + "".join(bodies)


def measure(facts: Facts) -> dict[str, float]:
    """Milliseconds of each part, on facts that know nothing yet but the day's order."""
    _ = facts.timelines
    found: dict[str, float] = {}

    def clock(words: str, work: Callable[[], object]) -> None:
        began = time.perf_counter()
        work()
        found[words] = (time.perf_counter() - began) * 1000.0

    clock("lamps at the mark", lambda: facts.readings)
    clock("daylight", lambda: facts.daylights)
    clock("the room's own light", lambda: [facts.room_light(name) for name in facts.readings])
    rules = (over_exposed, under_exposed, ratio_off, direct_sun_on_window)
    clock("four rules", lambda: [list(rule.check(facts)) for rule in rules])
    found["all"] = sum(found.values())
    return found


def main(arguments: list[str]) -> int:
    runs = int(arguments[arguments.index("--runs") + 1]) if "--runs" in arguments else 7
    done = compile_plan(["-"], stdin_text=plan().encode(), stdin_name="plan.yaml")
    assert done.facts is not None
    samples = [measure(Facts(done.facts.plan)) for _ in range(runs)]
    lit, sunny = len(done.facts.readings), len(done.facts.daylights)
    print(f"{SETUPS} setups, {lit} with lamps, {sunny} with daylight; median of {runs}")
    for words in samples[0]:
        print(f"  {words:<22} {statistics.median(s[words] for s in samples):8.1f} ms")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
