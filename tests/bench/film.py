"""A whole film: six setups a day, five things of gear a setup, orders agreed, and how the time of a check grows.

    python tests/bench/film.py 60 > plan.yaml        writes a plan of 60 setups, ten days and 300 things
    python tests/bench/film.py --growth [--runs N]   measures a cold check from 30 to 300 setups, with the exponent

Everything in it is invented. Nothing is asserted: numbers differ from machine to machine, the exponent hardly.
"""

from __future__ import annotations

import math
import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

A_DAY = 6
ROOMS = 3  # to a location
SIZES = (30, 60, 120, 300)
WITH_LENS = ("WS", "WS", "MWS", "MS")


def film(setups: int) -> str:
    """A plan of so many setups: a location every four days, five things to a setup, eight people."""
    days = math.ceil(setups / A_DAY)
    places = math.ceil(days / 4)
    parts = ["hotset: 1\ntitle: A Long Film\naspect: 16:9\n", DEFAULTS, "days:\n"]
    parts += [_day(n, setups) for n in range(days)]
    parts.append("locations:\n")
    parts += [_location(n) for n in range(places)]
    parts += [PEOPLE, "mounts: {cine-short: {flange: 18 mm}, slr-long: {flange: 44 mm}}\ngear:\n", FIXED]
    parts += [_things(n) for n in range(setups)]
    parts.append(STOCK + "setups:\n")
    parts += [_setup(n) for n in range(setups)]
    parts.append("scenes:\n")
    parts += [_scene(n, setups) for n in range(math.ceil(setups / 3))]
    return "".join(parts)


DEFAULTS = """\
defaults:
  camera: {body: body-a, on: sticks, iso: 800, stop: T2.8, shutter: 180 deg, fps: 25 fps, codec: long,
      media: card, battery: cell}
  shot: {count: 3, rolls: 3 min}
  day: {hours: eu, load-in: 30 min, wrap-out: 30 min, buffer: 30 min, first-aid: Bo}
"""
PEOPLE = """\
people:
  ana: {plays: MINA, here: "07:30-20:00", before: 20 min, tall: 1.7 m, release: {state: granted}, emergency: a sister}
  leo: {plays: OTTO, here: "07:30-20:00", before: 20 min, tall: 1.8 m, release: {state: granted},
      emergency: a brother}
  noor: {works: [camera, direction], skills: [camera, focus], emergency: a friend}
  pell: {works: [camera, grip], skills: [focus, rig], emergency: a son}
  quin: {works: sound, skills: [sound, boom, rig], emergency: a mother}
  bo: {works: [first assistant, data], skills: [rig, drive, data], emergency: a father}
  ida: {works: gaffer, skills: [rig, boom], emergency: a wife}
  kim: {works: grip, skills: rig, emergency: a husband}
"""
FIXED = """\
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9, mount: cine-short, iso: [800, 3200],
      codecs: {long: 100 Mbit/s}, battery: cell, draws: 8 W, weight: 1.4 kg}
  sticks: {kind: support, moves: [pan, tilt], carries: 8 kg, reaches: 0.7-1.8 m, base: 0.8 m, weight: 5 kg}
  slider: {kind: support, moves: [push-in, slide], carries: 6 kg, reaches: 0.7-1.7 m, base: 0.8 m, weight: 6 kg}
  long-to-short: {kind: adapter, from: cine-short, to: slr-long, thick: 26 mm}
  card: {kind: media, holds: 128 GB, writes: 250 MB/s, reads: 280 MB/s, quantity: 6}
  card-reader: {kind: reader, reads: 300 MB/s}
  disk: {kind: drive, holds: 8 TB, writes: 400 MB/s, reads: 400 MB/s, quantity: 2}
  cell: {kind: battery, holds: 30 Wh, plate: cell, quantity: 12}
  cell-charger: {kind: charger, plate: cell, charges: cell, slots: 4, fills: 2 h, draws: 60 W, plug: three-pin}
  stand: {kind: support, quantity: 12, carries: 8 kg, reaches: 0.5-2.7 m, base: 0.8 m, bags: 1,
      needs: sand-bag, weight: 3.5 kg}
  sand-bag: {kind: grip, of: sand bag 7 kg, quantity: 20, weight: 7 kg}
  boom: {kind: sound, of: boom pole with microphone, long: 2.4 m, weight: 1 kg}
  recorder: {kind: sound, of: recorder in a bag, runs: 12 h, weight: 1.8 kg}
  panel: {kind: light, of: LED panel, quantity: 6, colour: 2800-6500 K, gives: {bare: 2800 lx at 1 m},
      beam: 100 deg, draws: 60 W, plug: three-pin, lead: 5 m, flicker: none, size: 0.3 m x 0.1 m x 0.3 m,
      weight: 1.6 kg}
  lead: {kind: power, of: lead 15 m, quantity: 12, long: 15 m, section: 1.5 mm2, sockets: 3, plug: three-pin,
      outlet: three-pin}
"""
STOCK = """\
stock:
  black-cloth: {of: black stage cloth, opaque: true, roll: 3 m x 20 m, quantity: 3}
"""


def _day(n: int, setups: int) -> str:
    mine = [f"s{k}" for k in range(n * A_DAY, min((n + 1) * A_DAY, setups))]
    order = [entry for k, name in enumerate(mine) for entry in ((name, "room-tone") if k % 2 else (name,))]
    order.insert(3, "meal")
    date = f"2027-{3 + n // 28:02d}-{n % 28 + 1:02d}"
    return (
        f"  {n + 1}: {{date: {date}, call: 07:30, wrap: 19:30, location: house-{n // 4}, "
        f"meal: {{takes: 40 min, between: 11:00-14:00}}, weather: indoors, order: [{', '.join(order)}]}}\n"
    )


def _location(n: int) -> str:
    head = f"""\
  house-{n}:
    at: "55.01 N, 1.44 W"
    zone: Europe/London
    mains: 230 V 50 Hz
    hospital: {{name: Town Hospital, phone: "000 0000"}}
    permission: {{state: granted}}
    insurance: {{state: granted}}
    circuits: {{downstairs: {{breaker: 16 A, already: 300 W}}, upstairs: {{breaker: 16 A, already: 200 W}}}}
    sets:
"""
    return head + "".join(_room(k) for k in range(ROOMS))


def _room(k: int) -> str:
    return f"""\
      room-{k}:
        size: 6.0 m x 5.0 m x 3.0 m
        north: {20 * k} deg
        walls: {{colour: grey, reflects: 40 %}}
        windows: {{window: {{wall: south, from: 2.0 m, sill: 0.9 m, width: 1.4 m, height: 1.2 m}}}}
        furniture: {{table: {{at: [3.0 m, 3.2 m], size: 1.4 m x 0.8 m x 0.75 m}}}}
        marks: {{seat: {{at: [3.0 m, 4.2 m], sits: true}}, door: [5.2 m, 4.4 m]}}
        outlets: {{by-door: {{wall: west, from: 0.6 m, circuit: downstairs, plug: three-pin}},
            by-wall: {{wall: east, from: 0.6 m, circuit: upstairs, plug: three-pin}}}}
        usual: {{windows: {{window: {{black-out: black-cloth}}}}}}
"""


def _things(n: int) -> str:
    """Five things that belong to one setup: a lens, a filter, a lamp, its softbox, a prop."""
    due = f"2027-{3 + n // A_DAY // 28:02d}-{n // A_DAY % 28 + 1:02d} 23:00"
    return f"""\
  lens-{n}: {{kind: lens, focal: {(24, 35, 50, 85)[n % 4]} mm, opens: T2.0, closest: 0.4 m, circle: 44 mm,
      thread: 67 mm, mount: {("cine-short", "slr-long")[n % 2]}, weight: 0.6 kg}}
  filter-{n}: {{kind: filter, thread: 67 mm, loses: 0.3 stops}}
  lamp-{n}: {{kind: light, owner: rented, lent-by: a house, due: {due}, plan-b: panel, draws: 300 W,
      colour: 3200 K, gives: {{bare: 9000 lx at 1 m}}, beam: 60 deg, mount: bayonet-{n}, plug: three-pin,
      lead: 4 m, flicker: none, size: 0.3 m x 0.3 m x 0.3 m, weight: 4 kg}}
  soft-{n}: {{kind: modifier, fits: bayonet-{n}, loses: 1.5 stops, makes: 80 deg, weight: 0.9 kg}}
  prop-{n}: {{kind: prop, of: a thing on the table}}
"""


def _setup(n: int) -> str:
    day = n // A_DAY
    close = n % 3
    moves = "    move: {kind: push-in, to: [2.9 m, 1.6 m]}\n" if n % A_DAY == 5 else ""
    on = ", on: slider" if moves else ""
    held = f"    held-until: s{n + 1}\n" if n % A_DAY == 1 else ""
    return f"""\
  s{n}:
    set: house-{day // 4}/room-{n % A_DAY // 2}
    day: {day + 1}
    camera: {{lens: lens-{n}, filters: filter-{n}, at: [{2.4 + 0.2 * close:.1f} m, {0.6 + 0.3 * close:.1f} m],
        height: 1.3 m, aim: seat, white-balance: 3600 K{on}}}
{moves}{held}    key-at: seat
    lights:
      key: {{lamp: lamp-{n}, with: soft-{n}, on: stand, at: [0.5 m, {1.0 + 0.2 * close:.1f} m], height: 2.0 m,
          aim: seat, role: key, colour: 3200 K, circuit: downstairs, lead: lead, motivated-by: the window}}
      fill: {{lamp: panel, on: stand, at: [5.6 m, 1.0 m], height: 1.8 m, aim: seat, role: fill, colour: 4300 K,
          level: 20 %, circuit: upstairs, lead: lead}}
      low: {{lamp: panel, on: stand, at: [5.6 m, 0.4 m], height: 1.2 m, aim: table, role: fill, colour: 3200 K,
          level: 10 %, circuit: upstairs, lead: lead}}
    dressing: [prop-{n}]
    sound: {{boom: boom, recorder: recorder, by: quin}}
    hands: {{camera: noor, focus: pell, boom: quin}}
"""


def _scene(n: int, setups: int) -> str:
    head = f"""\
  {n + 1}:
    heading: INT. ROOM {n} - NIGHT
    characters: [MINA, OTTO]
    sound: sync
    props: [{", ".join(f"prop-{k}" for k in range(3 * n, min(3 * n + 3, setups)))}]
    shots:
"""
    shots = []
    for k in range(3 * n, min(3 * n + 3, setups)):
        number, size = f"{n + 1}{'ABC'[k - 3 * n]}", WITH_LENS[k % 4]
        start = f"size: {size}, setup: s{k}"
        shots.append(f"      {number}: {{{start}, cast: [MINA], takes: 25 min, does: She waits.}}\n")
        shots.append(f"      {number}2: {{{start}, cast: [OTTO], takes: 15 min, does: He waits., priority: want}}\n")
    return head + "".join(shots)


ENVIRONMENT = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}


def cold(command: list[str], runs: int) -> float:
    """Median milliseconds of the processor for a cold run, after one that compiles what has changed: unlike the clock
    it does not count what other programs take."""
    found = []
    for n in range(runs + 1):
        quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
        process = subprocess.Popen(command, env=ENVIRONMENT, **quiet)  # type: ignore[call-overload]
        _pid, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        if n:
            found.append((usage.ru_utime + usage.ru_stime) * 1000)
    return statistics.median(found)


def growth(runs: int) -> None:
    """A cold check against a style checker, by size, and the exponent of the growth from each size to the next."""
    with tempfile.TemporaryDirectory() as folder:
        plan = Path(folder) / "plan.yaml"
        base = cold([sys.executable, "-c", "pass"], runs)
        print(f"bare Python {base:.0f} ms")
        before: tuple[int, float] | None = None
        for setups in SIZES:
            plan.write_text(film(setups), "utf-8")
            lines = len(plan.read_text("utf-8").splitlines())
            mine = cold([sys.executable, "-m", "hotset", "check", str(plan)], runs)
            style = cold([sys.executable, "-m", "yamllint", "-d", "relaxed", str(plan)], runs)
            grown = ""
            if before is not None:
                grown = f"  exponent {math.log((mine - base) / before[1]) / math.log(setups / before[0]):.2f}"
            print(f"{setups:4d} setups, {lines:5d} lines: {mine:7.0f} ms, style checker {style:7.0f} ms{grown}")
            before = (setups, mine - base)


if __name__ == "__main__":
    if "--growth" in sys.argv:
        growth(int(sys.argv[sys.argv.index("--runs") + 1]) if "--runs" in sys.argv else 5)
    else:
        sys.stdout.write(film(int(sys.argv[1])))
