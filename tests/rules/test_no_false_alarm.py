"""Plans in which every wish is granted by construction give no error and no warning.

How: rooms are drawn first. Each setup has its own mark, lamp, stand, lead and lens, so nothing is wanted twice. The
size of each shot is chosen, and the camera stands where the thin lens formula puts it (distance = usual frame height
x focal length / height of the picture); a room that is too short for it gets the next smaller size. Lamps stand beside
and behind the camera, so that none can be in frame. The lamps of a circuit together take at most half of its breaker.
The day is much longer than its work, with the meal in its middle; everybody is there all day; all papers are there.
Half of the plans are 230 V and metric, half 120 V and imperial.
"""

from __future__ import annotations

import random

import pytest
from hotset.facts.tables import framing as table
from hotset.pipeline import compile_plan
from hotset.science import framing
from hotset.source.quantities import show

GATE = 0.02025  # metres: 36 mm wide, 16:9
SIZES = ("FS", "MWS", "MS", "MCU", "CU")
LENSES = (0.024, 0.035, 0.05)
AT = 1.2  # metres from the south wall to the camera


def rooms_of(seed: int, count: int) -> list[dict[str, float | str]]:
    """Rooms in metres, with a lens, a size that fits into it, and places of camera, mark and lamp."""
    draw = random.Random(seed)
    places = {s.name: s for s in framing.sizes_of(table(), 1.7, "standing")}
    found: list[dict[str, float | str]] = []
    for _ in range(count):
        width, depth, focal = draw.uniform(4.5, 7.0), draw.uniform(4.5, 6.5), draw.choice(LENSES)
        away, size = 0.0, ""
        for size in SIZES[draw.randrange(3) :]:
            away = places[size].likely * focal / GATE
            if away < depth - 2.0:
                break
        x = draw.uniform(2.0, width - 2.0)
        side = draw.choice((-1.0, 1.0)) * draw.uniform(0.9, 1.2)
        found.append({"width": width, "depth": depth, "focal": focal, "size": size, "x": x, "mark": AT + away,
                      "lamp": x + side, "takes": float(draw.randint(5, 15))})  # fmt: skip
    return found


def plan_of(seed: int) -> str:
    metric = seed % 2 == 0
    mains, breaker, plug = ("230 V 50 Hz", 16, "three-pin") if metric else ("120 V 60 Hz", 15, "two-pin")
    count = 3 + seed % 5
    watts = int(0.5 * breaker * (230 if metric else 120) * 0.9 / count)

    def m(metres: float | str) -> str:
        # As many digits as it needs: what is rounded for a crew would move the camera.
        return f"{float(metres):.3f} m" if metric else f"{float(metres) / 0.3048:.4f} ft"

    rooms, gear, setups, shots = [], [], [], []
    for k, room in enumerate(rooms_of(seed, count)):
        x, mark = m(room["x"]), m(room["mark"])
        rooms.append(
            f"      room-{k}: {{size: '{m(room['width'])} x {m(room['depth'])} x {m(2.6)}',\n"
            f"        marks: {{spot: {{at: [{x}, {mark}]}}}},\n        outlets: {{wall-box: {{wall: south, "
            f"from: {m(0.5)}, circuit: house, plug: {plug}, sockets: 2}}}}}}"
        )
        gear += [
            f"  lens-{k}: {{kind: lens, focal: {show('length', room['focal'], 'metric')}, mount: cine-short}}",
            f"  lamp-{k}: {{kind: light, draws: {watts} W, factor: 0.95, plug: {plug}, lead: 10 m, flicker: none,",
            "    colour: 3000-6000 K, size: 0.3 m x 0.3 m x 0.3 m, weight: 3 kg}",
            f"  stand-{k}: {{kind: support, carries: 8 kg, reaches: 1.0-2.5 m, base: 0.6 m}}",
        ]
        setups.append(
            f"  setup-{k}:\n    set: room-{k}\n    camera: {{body: body, lens: lens-{k}, on: sticks, "
            f"at: [{x}, {m(AT)}], height: {m(1.5)}, aim: spot, white-balance: 4300 K}}\n"
            f"    lights: {{key: {{lamp: lamp-{k}, on: stand-{k}, at: [{m(room['lamp'])}, {m(0.6)}], "
            f"height: {m(2.0)}, aim: spot, colour: 4300 K,\n"
            "      role: key, circuit: house, motivated-by: a window}}\n"
            "    hands: {camera: olek, performance: bea}"
        )
        shots.append(
            f"      {k + 1}A: {{size: {room['size']}, setup: setup-{k}, cast: [CLERK], takes: {room['takes']:.0f} min}}"
        )
    lengths = "metric" if metric else "imperial"
    order = [f"setup-{k}" for k in range(count)]
    order.insert((count + 1) // 2, "meal")
    return "\n".join([
        f"hotset: 1\ntitle: Granted {seed}\nlengths: {lengths}\naspect: 16:9\ndays:\n  1:\n    date: 2026-11-14",
        "    call: 08:00\n    wrap: 19:30\n    location: house\n    meal: 40 min\n    first-aid: bea",
        f"    order: [{', '.join(order)}]\nlocations:\n  house:\n    at: '55.01 N, 1.44 W'\n    zone: Europe/London",
        "    hospital: {name: Town Hospital}\n    permission: granted\n    insurance: granted",
        f"    mains: {mains}\n    circuits: {{house: {{breaker: {breaker} A}}}}\n    sets:",
        *rooms,
        "people:",
        "  mara: {plays: CLERK, tall: 1.7 m, release: granted, emergency: a sister}",
        "  olek: {works: camera, skills: [camera, rig], emergency: a brother}",
        "  bea: {works: [first assistant, light], skills: [rig, data], emergency: a friend}",
        "mounts: {cine-short: {flange: 18 mm}}\ngear:",
        "  body: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9, mount: cine-short, draws: 8 W, runs: 10 h}",
        "  sticks: {kind: support, moves: [pan, tilt], carries: 9 kg, reaches: 0.6-1.8 m, base: 0.6 m}",
        "  bag: {kind: grip, of: sand bag 7 kg, quantity: 9}",
        *gear,
        "setups:",
        *setups,
        "scenes:\n  1:\n    heading: INT. HOUSE - DAY\n    characters: [CLERK]\n    sound: mos\n    shots:",
        *shots,
        "",
    ])  # fmt: skip


@pytest.mark.parametrize("seed", range(10))
def test_all_wishes_granted(seed: int) -> None:
    done = compile_plan(["-"], plan_of(seed).encode())
    loud = [f"{f.place.line}: {f.sentence} [{f.rule}]" for f in done.findings if f.severity != "note"]
    assert loud == []


@pytest.mark.parametrize("seed", range(10))
def test_and_one_taken_away_is_told(seed: int) -> None:
    """The plans are really looked at: the same ones speak when the one body is gone or the breaker is small."""
    broken = plan_of(seed).replace("    circuits: {house: {breaker: 16 A}}", "    circuits: {house: {breaker: 0.5 A}}")
    broken = broken.replace("    circuits: {house: {breaker: 15 A}}", "    circuits: {house: {breaker: 0.5 A}}")
    rules = {f.rule for f in compile_plan(["-"], broken.encode()).findings if f.severity == "error"}
    assert rules == {"circuit-overloaded"}
