"""What the found order saves against story order, and against one made by hand: room by room, wide to close.

    python tests/bench/savings.py [--plans N] [--setups N]

On every day of the examples and on invented days: a house of three rooms, five scenes that go to and fro between them,
half of them at night behind black cloth, a kit of five lamps, one actor with few hours. Minutes by which the day by
hand ends later, what breaks in it, and what the cast wait more. Nothing is asserted.
"""

from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path
from random import Random

from hotset.facts.numbers import FOREVER
from hotset.facts.shootday import shoot_day
from hotset.facts.slate import in_time
from hotset.order import order_day
from hotset.order.byhand import rooms, story
from hotset.order.compare import Compared, compared
from hotset.plan import Plan, decode
from hotset.source import read

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
LIMIT = 12_000
LAMPS = ("fresnel", "panel", "tube", "cob", "mat")
SPOTS = ((1, 1), (4, 1), (4, 3), (1, 3))
SIZES = (("WS",), ("MWS", "MS"), ("OTS",), ("CU", "MCU"), ("insert",))


def invented(seed: int, setups: int) -> str:
    """A day of a short film, from a seed."""
    rng = Random(seed)
    leaves = rng.choice(("15:00", "16:30", "20:00"))
    lines = [
        "hotset: 1", "title: Invented",
        'days: {1: {date: 2026-10-10, call: "08:00", wrap: "22:00", load-in: 40 min, wrap-out: 40 min, buffer: 30 min, '
        "location: house, meal: {takes: 40 min, between: 12:00-14:30}}}",
        "locations:", "  house:", '    at: "55.01 N, 1.44 W"', "    zone: Europe/London", "    sets:",
    ]  # fmt: skip
    for room in ("hall", "study", "attic"):
        lines.append(f"      {room}: {{size: 5 m x 4 m x 2.6 m, windows: {{bay: "
                     "{wall: east, from: 1 m, sill: 1 m, width: 1 m, height: 1 m}}}")  # fmt: skip
    lines += ["people:", "  olek: {skills: [rig]}", "  bea: {skills: [rig]}", "  mara: {plays: CLERK}",
              f"  ines: {{plays: GUEST, here: 08:00-{leaves}}}", "  tom: {plays: WARDEN, here: 11:00-22:00}",
              "gear:", "  body: {kind: camera}", "  sticks: {kind: support}"]  # fmt: skip
    lines += [f"  {name}: {{kind: light, quantity: {2 if name == 'panel' else 1}}}" for name in LAMPS]
    lines += [f"  lens-{mm}: {{kind: lens, focal: {mm} mm}}" for mm in (24, 35, 50, 85)]
    lines += ["stock: {cloth: {opaque: true, roll: 3 m x 20 m}}", "setups:"]
    scenes: list[str] = []
    for s in range(setups):
        scene = s * 5 // setups
        if len(scenes) <= scene:
            scenes.append("")
            room, night = rng.choice(("hall", "study", "attic")), rng.random() < 0.5
            cast = rng.sample(("CLERK", "GUEST", "WARDEN"), rng.choice((1, 2, 2)))
            first = s
        lights = ", ".join(
            f"{name}: {{lamp: {name}, at: [{x} m, {y} m]{rng.choice(('', ', colour: 3200 K', ', colour: 5600 K'))}}}"
            for name, (x, y) in zip(rng.sample(LAMPS, rng.choice((1, 2, 3))), rng.sample(SPOTS, 3), strict=False)
        )
        cloth = ", windows: {bay: {black-out: cloth}}" if night else ""
        x, y = rng.choice(SPOTS)
        size = rng.choice(SIZES[min(s - first, 4)])
        lines.append(
            f"  s{s}: {{set: {room}, takes: {rng.randrange(15, 40, 5)} min, lights: {{{lights}}}{cloth}, "
            f"camera: {{body: body, on: sticks, lens: lens-{rng.choice((24, 35, 50, 85))}, at: [{x}.5 m, {y}.5 m]}}, "
            f"cast: [{', '.join(rng.sample(cast, rng.randint(1, len(cast))))}]}}"
        )
        scenes[scene] += f"{scene + 1}{chr(65 + s - first)}: {{size: {size}, setup: s{s}}}, "
    lines.append("scenes:")
    lines += [f"  {k + 1}: {{shots: {{{shots.rstrip(', ')}}}}}" for k, shots in enumerate(scenes)]
    return "\n".join(lines) + "\n"


def plan_of(text: str) -> Plan:
    plan, faults = decode(read(["-"], stdin_text=text.encode()))
    errors = [f.sentence for f in faults if f.severity == "error"]
    if plan is None or errors:
        raise SystemExit(f"the invented plan does not read: {errors}")
    return plan


def measured(plan: Plan, day_id: str) -> tuple[Compared, dict[str, Compared], bool] | None:
    """The best order, those by hand, whether the best is proven; None for a day that cannot be shot."""
    day = in_time(plan, shoot_day(plan, day_id), usual=False)
    best = order_day(day, (), LIMIT)
    if not best.order or best.dropped:
        return None
    by_hand = {"story": story(plan, day), "rooms": rooms(plan, day)}
    orders = {name: compared(day, name, order) for name, order in by_hand.items()}
    return compared(day, "best", best.order), orders, best.answer.parts[0].proven


def waiting(one: Compared) -> int:
    return sum(time for _, time in one.costs.waiting)


def main() -> None:
    arguments = sys.argv[1:]
    plans = int(arguments[arguments.index("--plans") + 1]) if "--plans" in arguments else 50
    setups = int(arguments[arguments.index("--setups") + 1]) if "--setups" in arguments else 12
    for path in sorted(EXAMPLES.glob("*/plan.yaml")):
        plan, _ = decode(read([str(path)]))
        for day_id in plan.days if plan is not None else ():
            assert plan is not None
            found = measured(plan, day_id)
            if found is not None:
                told = [f"{name} {(o.costs.wrap - found[0].costs.wrap) / 2:+.0f} min, cast waits "
                        f"{(waiting(o) - waiting(found[0])) / 2:+.0f} min" for name, o in found[1].items()]  # fmt: skip
                print(f"{path.parent.name} day {day_id}: {'; '.join(told)}")
    later: dict[str, list[float]] = {"story": [], "rooms": []}
    waits: dict[str, list[float]] = {"story": [], "rooms": []}
    broken = {"story": 0, "rooms": 0}
    proven = seed = skipped = 0
    began = time.process_time()
    while len(later["story"]) < plans:
        found = measured(plan_of(invented(seed, setups)), "1")
        seed += 1
        if found is None:
            skipped += 1
            continue
        proven += found[2]
        for name, order in found[1].items():
            later[name].append((order.costs.wrap - found[0].costs.wrap) / 2)
            waits[name].append((waiting(order) - waiting(found[0])) / 2)
            broken[name] += bool(order.breaks) and order.costs.wrap < FOREVER
    print(f"{plans} invented days of {setups} setups, {proven} proven, {skipped} left aside, "
          f"{time.process_time() - began:.0f} s")  # fmt: skip
    for name in later:
        print(f"  {name}: wraps later by {statistics.median(later[name]):.0f} min (median; mean "
              f"{statistics.mean(later[name]):.0f}, from {min(later[name]):.0f} to {max(later[name]):.0f}); cast waits "
              f"{statistics.median(waits[name]):.0f} min more; something breaks in {broken[name]}")  # fmt: skip


if __name__ == "__main__":
    main()
