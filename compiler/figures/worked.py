"""What comes out of a figure for one setup of a plan, each with the part it is of."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from ..facts import Facts
    from ..plan.setup import Setup


class Result(NamedTuple):
    """Of what, the number with its unit, and how it came about in numbers ("" where it is as the plan says)."""

    of: str
    words: str
    how: str = ""


def worked(facts: Facts, setup: Setup, name: str) -> tuple[Result, ...]:
    """The results of a figure in a setup; empty where the plan lacks what it needs, or it is not one of setups."""
    way = _WAYS.get(name)
    return tuple(way(facts, setup)) if way else ()


def _amperes(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import loads

    place = facts.plan.location_of(setup.id)
    volts = loads.volts(place) if place else None
    for moment in facts.circuit_moments:
        if moment.setup != setup.id or not volts:
            continue
        parts = [f"{x.words} {x.watts:g} W / ({volts:g} V x {x.watts / (x.amperes * volts):.2g})" for x in moment.loads]
        parts += [f"the house {moment.already:.3g} A"] if moment.already else []
        name = moment.circuit.id.rpartition("/")[2]
        yield Result(
            f"circuit '{name}'",
            f"{moment.amperes:.2f} A, {moment.share:.0%} of {moment.breaker:.4g} A",
            " + ".join(parts),
        )


def _volts_lost(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import drops

    for light in setup.lights.values():
        found = drops.at_lamp(facts.plan, setup, light)
        if isinstance(found, drops.Drop):
            how = f"{found.amperes:.2f} A through {found.metres:g} m ({', '.join(g.id for g in found.leads)})"
            words = f"{found.lost:.2f} V lost, {found.at_lamp:.1f} V of {found.volts:g} V at the lamp"
            yield Result(f"'{light.id}'", words, how)


def _battery(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import cells
    from ..science import cells as energy

    for drain in cells.drains(facts.plan, setup):
        battery = facts.plan.gear.get(drain.battery)
        holds = cells.energy(battery) if battery else None
        watts = drain.watts * drain.level
        if holds and watts > 0:
            how = f"{holds:g} Wh x {energy.USABLE:g} / {watts:g} W x 60"
            yield Result(f"'{drain.words}' on '{drain.battery}'", f"{energy.run_time(holds, watts):.0f} min", how)


def _tank(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import tanks

    place, day = facts.plan.location_of(setup.id), facts.day_of[setup.id]
    for circuit in place.circuits.values() if place else ():
        found = tanks.of_day(facts, day, circuit) if day else None
        watts = tanks.drawn(facts, setup, circuit.id)
        if found is not None and watts > 0:
            dry = f", dry at {_clock(int(found.dry))}" if found.dry is not None else ", enough"
            name = circuit.id.rpartition("/")[2]
            yield Result(f"'{name}' on day {day}", f"{found.used:.2f} of one full{dry}", f"{watts:g} W in this setup")


def _gigabytes(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import cards

    for one in cards.of_setup(facts, setup):
        minutes = one.gigabytes * 8000.0 / one.megabits / 60.0
        yield Result(
            f"shot {one.shot}", f"{one.gigabytes:.2f} GB", f"{one.megabits:g} Mbit/s x {minutes:g} min x 60 / 8000"
        )


def _lux(facts: Facts, setup: Setup) -> Iterator[Result]:
    reading = facts.readings.get(setup.id)
    for one in reading.arrivals if reading else ():
        axis = one.source.at(one.metres)
        how = f"{axis:.4g} lx on its axis at {one.metres:.2f} m x {one.part:.3g} of its light left"
        yield Result(f"'{one.item.id}' at '{reading.mark if reading else ''}'", f"{_two(one.lux)} lx", how)
    if reading is not None and reading.key is not None:
        yield Result(f"on a face turned to the key '{reading.key.item.id}'", f"{_two(reading.lux)} lx")


def _wanted(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import exposure
    from ..science import exposure as formula

    wanted, time, camera = exposure.wanted(facts.plan, setup), exposure.shutter(setup), setup.camera
    if wanted is not None and time and camera and camera.stop is not None and camera.iso:
        how = f"250 x {camera.stop.number:g}^2 / ({time:.5g} s x {camera.iso:g}), and what filters take"
        yield Result("the camera", f"{_two(wanted)} lx", how)
        reading = facts.readings.get(setup.id)
        if reading is not None and reading.lux > 0:
            off = formula.stops_over(reading.lux, wanted)
            yield Result("the light there", f"{off:+.2f} stops", f"log2 ({reading.lux:.3g} lx / {wanted:.3g} lx)")


def _mired(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import colours
    from ..science import colour

    balance = setup.camera.white_balance if setup.camera else None
    for tone in colours.tones(facts.plan, setup):
        seen = tone.seen()
        if seen is None:
            continue
        words, how = f"{seen:.0f} K", f"{tone.set_to():.0f} K and gels of {tone.shift:+.0f} mired" if tone.shift else ""
        if balance:
            words += f", {colour.difference(seen, float(balance)):+.0f} mired against {float(balance):.0f} K"
        yield Result(f"'{tone.words}'", words, how)


def _view(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import views
    from ..science import lens

    gate, focal = views.picture(facts.plan, setup), views.focal(facts.plan, setup)
    if gate is not None and focal is not None:
        angles = [lens.field_of_view(side, focal) for side in gate]
        sides = [f"2 atan ({side * 1000:.2f} / {2000 * focal:.4g})" for side in gate]
        yield Result("the camera", f"{angles[0]:.1f} x {angles[1]:.1f} deg", " and ".join(sides))


def _frame(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import views
    from ..science import lens

    for shot in facts.shots_of.get(setup.id, ()):
        gate, focal = views.picture(facts.plan, setup, shot), views.focal(facts.plan, setup, shot)
        for end in (False, True) if setup.move is not None else (False,):
            away = views.subject_distance(facts.plan, setup, shot, end=end)
            if away is None or gate is None or focal is None:
                continue
            zoom = float(setup.move.zoom_to) if end and setup.move and setup.move.zoom_to is not None else focal
            where = f"shot {shot.id}" + (" at the end of the move" if end else "")
            how = f"{gate.height * 1000:.2f} mm x {away[0]:.2f} m / {zoom * 1000:.4g} mm"
            yield Result(where, f"{lens.frame_at(gate.height, zoom, away[0]):.2f} m high", how)


def _distance(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import focus

    for shot in facts.shots_of.get(setup.id, ()):
        for one in focus.distances(facts.plan, setup, shot):
            end = f", {one.end} of the move" if one.end else ""
            sharp = focus.sharp(facts.plan, setup, shot, one.metres)
            words = f"{one.metres:.2f} m"
            if sharp is not None:
                far = "without end" if math.isinf(sharp.far) else f"{sharp.far:.2f} m"
                words += f", sharp from {sharp.near:.2f} m to {far}"
            yield Result(f"shot {shot.id}{end}", words)


def _in_frame(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import views
    from ..facts.eye import Eye

    ends = views.ends(facts.plan, setup)
    blockers = views.blockers(facts.plan, setup) if ends else []
    for light in setup.lights.values() if ends else ():
        solids = views.lamp_solids(facts.plan, setup, light)
        for end, words in zip(ends, ("at the start", "at the end"), strict=False):
            looks = [Eye((end,), blockers).look(solid.shape)[1] for solid in solids]
            best = max(looks, key=lambda v: (v.seen, v.margin), default=None)
            if best is not None:
                side = "inside" if best.seen else "hidden, or outside"
                yield Result(f"'{light.id}' {words}", f"{abs(best.margin):.1f} deg {side} ({best.edge} edge)")


def _heat(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import heat

    for light in setup.lights.values():
        lamp = facts.plan.gear.get(light.lamp[0]) if light.lamp else None
        for gap in heat.gaps(facts.plan, setup, light, lamp) if lamp else ():
            wants = f"'{lamp.id}' wants {float(lamp.hot_within):g} m" if lamp and lamp.hot_within is not None else ""
            yield Result(f"'{light.id}' to {gap.words}", f"{max(gap.metres, 0.0):.2f} m", wants)


def _cloth(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts import cloth

    for need in cloth.needs(facts.plan, setup):
        if isinstance(need, cloth.Need):
            area = sum(p.width * p.height for p in need.panels)
            how = ", ".join(f"{p.name} {p.width:.2f} x {p.height:.2f} m" for p in need.panels)
            yield Result(f"'{need.stock}'", f"{area:.2f} m2", how)


def _sun(facts: Facts, setup: Setup) -> Iterator[Result]:
    from ..facts.sun_at import sun_at

    rolling, day, place = facts.rolling(setup.id), facts.day_of[setup.id], facts.plan.location_of(setup.id)
    for clock in rolling if rolling and day and place else ():
        at = sun_at(facts.plan, day or "", place.id if place else "", clock)
        if at is not None:
            yield Result(f"at {_clock(clock)}", f"bearing {at.azimuth:.1f} deg, height {at.elevation:.1f} deg")


def _minutes(facts: Facts, setup: Setup) -> Iterator[Result]:
    line = facts.timelines.get(facts.day_of[setup.id] or "")
    step = line.shooting(setup.id) if line else None
    if line is not None and step is not None:
        yield Result("the takes", f"{_clock(step.start)} to {_clock(step.end)}", f"{(step.end - step.start) / 2:g} min")


def _two(value: float) -> str:
    """A number to two significant figures, as light deserves."""
    return f"{float(f'{value:.2g}'):g}"


def _clock(half_minutes: int) -> str:
    return f"{half_minutes // 120 % 24:02d}:{half_minutes % 120 // 2:02d}"


_WAYS: dict[str, Callable[[Facts, Setup], Iterator[Result]]] = {
    "amperes": _amperes, "breaker": _amperes, "circuit-share": _amperes, "circuit-limit": _amperes, "watts": _amperes,
    "volts-lost": _volts_lost, "battery-time": _battery, "watt-hours": _battery, "tank": _tank, "gigabytes": _gigabytes,
    "lux": _lux, "ratio": _lux, "wanted-lux": _wanted, "stops": _wanted, "kelvin": _mired, "mired": _mired,
    "field-of-view": _view, "focal-length": _view, "frame-height": _frame, "distance": _distance, "sharp": _distance,
    "in-frame": _in_frame, "heat-distance": _heat, "cloth-area": _cloth, "sun": _sun, "clock": _minutes,
    "minutes": _minutes,
}  # fmt: skip
