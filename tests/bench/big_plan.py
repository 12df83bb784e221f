"""Writes a long plan: many rooms, lamps and setups. `python tests/bench/big_plan.py 12000 > plan.yaml`."""

from __future__ import annotations

import sys

LINES_OF_A_SETUP = 17
SETUPS_OF_A_DAY = 8

HEAD = """\
hotset: 1
title: A Long Shoot
locations:
  house:
    zone: Europe/London
    at: '55.01 N, 1.44 W'
    mains: 230 V 50 Hz
    hospital: {name: Town Hospital, address: 1 Example Road, phone: "000 0000"}
    circuits:
      sockets: {breaker: 32 A, already: 200 W}
    sets:
"""
GEAR = """\
gear:
  body: {kind: camera, sensor: 36 mm x 24 mm, mount: cine-short}
  lens: {kind: lens, focal: 35 mm, opens: f/1.8, closest: 0.3 m, mount: cine-short}
  panel: {kind: light, quantity: 2, draws: 60 W, colour: 2800-6500 K, flicker: none}
  sticks: {kind: support, moves: [pan, tilt], carries: 6 kg, reaches: 0.6-1.7 m}
  stand: {kind: grip, quantity: 4, carries: 5 kg, reaches: 1.0-2.6 m, base: 0.9 m}
people:
  ana: {plays: MINA, here: 08:00-20:00}
  noor: {works: [camera, light], skills: [focus, rig]}
  bo: {works: sound, skills: boom}
"""


def plan(lines: int) -> str:
    """A plan of about this many lines."""
    setups = max(1, (lines - 40) // (LINES_OF_A_SETUP + 4))
    rooms = setups // 6 + 1
    parts = [HEAD]
    parts += [
        f"      room-{n}:\n        size: 5.0 m x 4.0 m x 2.6 m\n"
        "        marks: {table: {at: [3.0 m, 2.5 m], sits: true}}\n"
        for n in range(rooms)
    ]
    parts.append(GEAR)
    parts.append("days:\n")
    for day in range(setups // SETUPS_OF_A_DAY + 1):
        parts.append(f"  {day + 1}: {{date: 2027-{day // 28 % 12 + 1:02}-{day % 28 + 1:02}, location: house}}\n")
    parts.append("setups:\n")
    parts += [_setup(n, rooms) for n in range(setups)]
    parts.append("scenes:\n")
    for n in range(setups):
        parts.append(f"  {n + 1}:\n    heading: INT. ROOM {n % rooms} - NIGHT\n    shots:\n")
        parts.append(f"      {n + 1}A: {{size: MS, setup: setup-{n}, takes: 20 min, does: She waits.}}\n")
    return "".join(parts)


def _setup(n: int, rooms: int) -> str:
    return f"""\
  setup-{n}:
    set: room-{n % rooms}
    day: {n // SETUPS_OF_A_DAY + 1}
    # the key comes from the lamp by the wall
    camera:
      body: body
      lens: lens
      on: sticks
      at: [{1 + n % 7 / 10:.1f} m, 1.0 m]
      height: 1.4 m
      aim: table
      white-balance: 3600 K
    lights:
      key: {{lamp: panel, on: stand, at: [4.7 m, 0.6 m], height: 2.0 m, aim: table, colour: 3200 K, circuit: sockets}}
      fill: {{lamp: panel, on: stand, at: [0.6 m, 3.0 m], height: 1.8 m, aim: table, level: {10 + n % 80} %}}
    sound: {{by: bo}}
    note: Room {n % rooms}, the {n}th place of the camera.
"""


if __name__ == "__main__":
    sys.stdout.write(plan(int(sys.argv[1])))
