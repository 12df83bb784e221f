"""Invented plans of several days, as text: places with rooms, lamps, cast with their own days, dark setups."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise
from random import Random

ROOMS = 3  # to a place
CAST = 6


def plan(seed: int, setups: int, days: int, *, takes: tuple[int, int] = (25, 50), wrap: str = "19:30") -> str:
    """A plan whose setups name no day. A place every three days or so; the same seed gives the same plan."""
    rng = Random(seed)
    places = max(1, round(days / 3))
    begin = date(2027, 3, 1)
    lines = ["hotset: 1", "title: Invented", "days:"]
    for d in range(days):
        where = f", location: place-{d * places // days}" if places > 1 else ""
        lines.append(
            f"  {d + 1}: {{date: {begin + timedelta(days=d)}, call: '08:00', wrap: '{wrap}', load-in: 30 min, "
            f"wrap-out: 30 min, buffer: 30 min, meal: {{takes: 30 min, between: 12:00-14:30}}{where}}}"
        )
    lines.append("locations:")
    for p in range(places):
        lines.append(f'  place-{p}:\n    at: "{50 + p} N, 1 W"\n    zone: Europe/London\n    sets:')
        for r in range(ROOMS):
            lines.append(f"      room-{r}:")
            lines.append("        size: 6 m x 5 m x 2.6 m")
            lines.append("        windows: {bay: {wall: east, from: 1 m, sill: 1 m, width: 1 m, height: 1 m}}")
    lines += ["people:", "  bo: {skills: [rig]}", "  kim: {skills: [rig]}"]
    for c in range(CAST):
        off = rng.sample(range(1, days + 1), max(1, days // 4)) if c % 2 and days > 2 else []
        there = ", ".join(f"{d}: {{}}" for d in range(1, days + 1) if d not in off)
        lines.append(f"  actor-{c}: {{plays: ROLE-{c}, here: 08:00-20:00" + (f", days: {{{there}}}}}" if off else "}"))
    lines += ["gear:", "  panel: {kind: light, quantity: 2}", "  tube: {kind: light}", "  lamp: {kind: light}"]
    lines += ["stock: {cloth: {opaque: true, roll: 3 m x 12 m}}", "setups:"]
    for s in range(setups):
        lines.append(_setup(rng, s, places, takes))
    rooms = [line.split("set: ")[1].split("/")[0] for line in lines if "{set: " in line]
    for k, (one, two) in enumerate(pairwise(rooms)):
        if one != two or not rng.random() < 0.3:
            lines[-len(rooms) + k + 1] = lines[-len(rooms) + k + 1].replace(f", after: s{k}}}", "}")
    lines.append("scenes: {}")
    return "\n".join(lines) + "\n"


def _setup(rng: Random, s: int, places: int, takes: tuple[int, int]) -> str:
    p, r = rng.randrange(places), rng.randrange(ROOMS)
    spots = [(1, 1), (4, 1), (4, 4), (1, 4)]
    lights = []
    for name in rng.sample(["panel", "tube", "lamp"], rng.choice((1, 2, 2, 3))):
        x, y = rng.choice(spots)
        colour = rng.choice(("", ", colour: 3200 K", ", colour: 5600 K"))
        lights.append(f"{name}: {{lamp: {name}, at: [{x} m, {y} m]{colour}}}")
    cast = rng.sample(range(CAST), rng.choice((1, 1, 2, 2, 3)))
    cloth = ", windows: {bay: {black-out: cloth}}" if rng.random() < 0.35 else ""
    needs = ", needs: daylight" if not cloth and rng.random() < 0.2 else ""
    wish = rng.choice(("", "", "", ", priority: want", ", priority: if-time"))
    after = f", after: s{s - 1}" if s else ""
    return (
        f"  s{s}: {{set: place-{p}/room-{r}, takes: {rng.randrange(takes[0], takes[1], 5)} min, "
        f"lights: {{{', '.join(lights)}}}{cloth}{needs}, cast: [{', '.join(f'ROLE-{c}' for c in cast)}]{wish}{after}}}"
    )
