"""The batteries do not last the day.

On set: it is the last close-up, the lamp goes dark, and both spare bricks blink red on the charger.

How it is decided: watt-hours x 0.8 usable (common practice, no source) against watts x time. Along the agreed order
each thing keeps its battery until it is flat, takes a full one, and the flat one goes to the charger, as many at a time
as it has slots; a thing burns while its takes run and 10 minutes before, dimmed in proportion (common practice, no
source). What has a battery built in ('runs:') is held against that time, without charging. Without an agreed order
only a day whose takes alone need more than all batteries and all charging hours give is said. Source: arithmetic.

Fix: bring the number of batteries named, charge at the meal, or run a lamp from the mains.

When to accept it: a battery station or a car stands by.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import cells, hours
from ..findings import NotChecked
from .timing import frame
from .words import AGREED, clock, counted, finding, quoted, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.cells import Burn, Drain
    from ..findings import Finding
    from ..plan.day import Day
    from ..plan.gear import Gear

RULE = "battery-flat"
SEVERITY: Final = "warning"
TITLE = "the batteries do not last the day"

TRIGGERS = """
hotset: 1
days: {1: {call: "08:00", wrap: "16:00", load-in: 30 min, wrap-out: 30 min, order: [wide]}}
gear:
  panel: {kind: light, draws: 45 W, battery: plate-v}
  brick: {kind: battery, holds: 98 Wh, plate: plate-v}
setups:
  wide:
    takes: 120 min
    lights:
      key: {lamp: panel, battery: brick}  # <- here
scenes: {4: {shots: {4A: {setup: wide}}}}
"""
PASSES = TRIGGERS.replace("holds: 98 Wh", "holds: 98 Wh, quantity: 2").replace("  # <- here", "")
_MOST = 40


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    by_setup = {s.id: tuple(cells.drains(plan, s)) for s in plan.setups.values()}
    if not any(by_setup.values()):
        return
    for day in plan.days.values():
        here = {s: d for s, d in by_setup.items() if facts.day_of[s] == day.id and d}
        if not here:
            continue
        if day.id not in facts.timelines:
            yield NotChecked(RULE, f"day {day.id}", AGREED)
        used = dict.fromkeys(
            (d.battery, d.gear.id if d.battery == cells.OWN else "") for row in here.values() for d in row
        )
        for battery, thing in used:
            if battery == cells.OWN:
                yield from _built_in(facts, day, plan.gear[thing])
            elif battery in plan.gear:
                yield from _kind(facts, day, plan.gear[battery], here)


def _kind(facts: Facts, day: Day, battery: Gear, here: dict[str, tuple[Drain, ...]]) -> Iterator[Finding | NotChecked]:
    holds = cells.energy(battery)
    mine = {s: tuple(d for d in row if d.battery == battery.id) for s, row in here.items()}
    silent = next((d.gear for row in mine.values() for d in row if d.watts <= 0), None)
    if holds is None or holds <= 0 or silent is not None:
        wants = f"'draws:' of '{silent.id}'" if silent else f"'holds:' of '{battery.id}', such as 98 Wh"
        yield NotChecked(RULE, f"'{battery.id}' on day {day.id}", wants)
        return
    burnt = [b for b in cells.burns(facts, day.id) if b.drain.battery == battery.id]
    if day.id in facts.timelines:
        flat = _run(facts, battery, holds, battery.quantity or 1, burnt)
        if flat is not None:
            yield _finding(facts, day, battery, holds, burnt, flat)
        return
    yield from _at_best(facts, day, battery, holds, mine)


def _run(facts: Facts, battery: Gear, holds: float, count: int, burnt: list[Burn]) -> tuple[float, Burn] | None:
    """When (half-minutes) and in what the last battery is flat; None where they last."""
    day = cells.along(facts.plan, battery, holds, count, burnt)
    if day.lasts or day.flat is None:
        return None
    at = day.flat.time * 2
    inside = [
        b for b in burnt if f"{b.drain.gear.id} {b.number}" == day.flat.what and b.start <= at + 1e-6 <= b.end + 1e-6
    ]
    return (at, inside[0]) if inside else None


def _finding(
    facts: Facts, day: Day, battery: Gear, holds: float, burnt: list[Burn], flat: tuple[float, Burn]
) -> Finding:
    at, burn = flat[0] // 2 * 2, flat[1]  # it is flat by then, so the minute before counts
    count = battery.quantity or 1
    enough = next((n for n in range(count + 1, count + _MOST) if _run(facts, battery, holds, n, burnt) is None), None)
    charger = cells.charger(facts.plan, battery)
    ways = [f"bring {counted(enough - count, 'more battery', 'more batteries')}"] if enough else []
    if charger is None:
        ways.append(f"{'or ' if ways else ''}bring a charger, and charge while you shoot")
    ways.append("or dim the lamp, or run it from the mains")
    with_ = f", {charger[2]} charging at a time" if charger else ", and nothing to charge them with"
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        burn.drain.path,
        f"on day {day.id} no charged '{battery.id}' is left for '{burn.drain.words}' in '{burn.setup}' at {clock(at)} "
        f"({counted(count, 'battery', 'batteries')} of {holds:g} Wh{with_})",
        tuple(ways),
        (
            ("day", day.id),
            ("battery", battery.id),
            ("setup", burn.setup),
            ("at", clock(at)),
            ("count", count),
            ("watt_hours", holds),
            ("watts", round(burn.drain.watts * burn.drain.level, 1)),
            ("enough", enough or 0),
        ),
        also=[(battery.path, "the batteries")],
        typical=("four fifths of the energy usable", "lamps on 10 min before the takes"),
    )


def _at_best(
    facts: Facts, day: Day, battery: Gear, holds: float, mine: dict[str, tuple[Drain, ...]]
) -> Iterator[Finding]:
    """What no order avoids: the takes alone need more than all batteries and a day of charging give."""
    from ..science.cells import USABLE

    need = 0.0
    first: Drain | None = None
    for setup, row in mine.items():
        minutes = hours.takes(facts.plan, setup, None)[0] / 2
        need += sum(d.watts * d.level for d in row) * minutes / 60.0
        first = first or next(iter(row), None)
    span_ = frame(day)
    charger = cells.charger(facts.plan, battery)
    if first is None or (charger is not None and span_ is None):
        return
    count = battery.quantity or 1
    charged = charger[2] * (span_[1] - span_[0]) / 2 / charger[1] if charger and span_ else 0.0
    have = (count + charged) * holds * USABLE
    if need > have:
        yield finding(
            facts.plan,
            (RULE, SEVERITY),
            first.path,
            f"the takes of day {day.id} need {need:.0f} Wh of '{battery.id}', and "
            f"{counted(count, 'battery', 'batteries')} of {holds:g} Wh with all charging give {have:.0f} Wh",
            ("bring more batteries or a charger with more slots", "or run a lamp from the mains"),
            (("day", day.id), ("battery", battery.id), ("needs_wh", round(need)), ("have_wh", round(have))),
            also=[(battery.path, "the batteries")],
            typical=("four fifths of the energy usable",),
        )


def _built_in(facts: Facts, day: Day, thing: Gear) -> Iterator[Finding | NotChecked]:
    """Things with a battery of their own: all that is asked of them on a day against what they run."""
    if thing.runs is None:
        yield NotChecked(RULE, f"'{thing.id}'", f"'runs:' of '{thing.id}'")
        return
    burnt = [b for b in cells.burns(facts, day.id) if b.drain.gear.id == thing.id and b.drain.battery == cells.OWN]
    count, runs = thing.quantity or 1, float(thing.runs) / 30.0
    asked = sum((b.end - b.start) * b.drain.level for b in burnt)
    if asked <= runs * count + 1e-9:
        return
    total = 0.0
    for burn in burnt:
        total += (burn.end - burn.start) * burn.drain.level
        if total > runs * count:
            break
    setups = quoted(dict.fromkeys(b.setup for b in burnt))
    yield finding(
        facts.plan,
        (RULE, SEVERITY),
        burn.drain.path,
        f"'{thing.id}' burns {span(asked)} at full power on day {day.id} (in {setups}), and "
        f"{counted(count, 'piece')} {'runs' if count == 1 else 'run'} {span(runs * count)} on one charge",
        ("charge it at the meal, and say how", "or take it off between the takes, dim it, or bring another"),
        (
            ("day", day.id),
            ("thing", thing.id),
            ("minutes", round(asked / 2)),
            ("runs_minutes", round(runs * count / 2)),
        ),
        also=[(thing.path, "what it runs")],
        typical=("lamps on 10 min before the takes",),
    )
