"""Plugs and sockets: what is plugged in at the same time, and how many sockets the walls and the leads offer it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from . import loads

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.set import Outlet
    from ..plan.setup import Setup


class Plug(NamedTuple):
    """A lamp or practical on a circuit: the plan's path, its name, the set it stands in, the leads it names, the setup
    that has it."""

    path: str
    words: str
    room: str
    leads: tuple[str, ...]
    setup: str


class Sockets(NamedTuple):
    """A circuit at one moment. `plugs` want a socket; `wall` are those of the circuit's outlets, `split` what the
    leads in use give beyond the socket that each takes; `unsaid` leads do not say how many they have; `room` is the
    set where it binds, "" where it is the whole circuit."""

    circuit: str
    setup: str
    room: str
    plugs: tuple[Plug, ...]
    wall: int
    split: int
    unsaid: tuple[str, ...]

    @property
    def short(self) -> int:
        """Plugs without a socket."""
        return max(0, len(self.plugs) - self.wall - self.split)


def plugs(plan: Plan, setup: Setup) -> dict[str, list[Plug]]:
    """Circuit -> what a setup plugs into it."""
    found: dict[str, list[Plug]] = {}
    for path, words, circuit, _ in loads.plugged(plan, setup):
        if circuit:
            light = setup.lights.get(words)
            room = setup.set or ""
            if light is not None and light.path == path:
                room = light.outside.rsplit("/", 1)[0] if light.outside else light.in_ or room
            leads = light.lead if light is not None and light.path == path else ()
            found.setdefault(circuit, []).append(Plug(path, words, room, leads, setup.id))
    return found


def fullest(plan: Plan, setup: Setup, held: tuple[str, ...]) -> list[Sockets]:
    """Every circuit while a setup is shot and others stay hot, where it is tightest. A circuit of which an outlet does
    not say how many sockets it has is left out."""
    now: dict[str, dict[tuple[str, str], Plug]] = {}
    for name in (setup.id, *held):
        for circuit, row in plugs(plan, plan.setups[name]).items():
            for plug in row:
                now.setdefault(circuit, {}).setdefault((plug.room, plug.words), plug)
    found = []
    for circuit, row_ in now.items():
        every = list(row_.values())
        outlets = _outlets(plan, circuit)
        if not outlets or any(o.sockets is None for _, o in outlets):
            continue
        cases = [_count(plan, circuit, setup.id, "", every, outlets)]
        for room in dict.fromkeys(p.room for p in every):
            here = [(r, o) for r, o in outlets if r == room]
            if here and len({r for r, _ in outlets}) > 1:
                cases.append(_count(plan, circuit, setup.id, room, [p for p in every if p.room == room], here))
        found.append(max(cases, key=lambda c: c.short))
    return found


def _outlets(plan: Plan, circuit: str) -> list[tuple[str, Outlet]]:
    place = plan.locations.get(circuit.split("/")[0])
    rooms = place.sets.values() if place is not None else ()
    return [(room.id, o) for room in rooms for o in room.outlets.values() if o.circuit == circuit]


def _count(
    plan: Plan, circuit: str, setup: str, room: str, row: list[Plug], outlets: list[tuple[str, Outlet]]
) -> Sockets:
    """In one room only what names no lead has to find its socket there; its leads' spare sockets serve the others."""
    used: dict[str, int] = {}
    for plug in row:
        for lead in plug.leads:
            used[lead] = used.get(lead, 0) + 1
    split, unsaid = 0, []
    for lead, times in used.items():
        thing = plan.gear.get(lead)
        if thing is None or thing.sockets is None:
            unsaid.append(lead)
            continue
        split += (thing.sockets - 1) * min(times, thing.quantity or 1)
    mine = tuple(p for p in row if not room or not p.leads)
    return Sockets(circuit, setup, room, mine, sum(o.sockets or 0 for _, o in outlets), split, tuple(unsaid))
