"""What fits onto what: the chain of adapters between camera and lens, filters and threads, modifiers and lamps.

Mounts are words of the plan; two that are spelt alike fit. A chain of one adapter is found in a dictionary; only a
longer one is searched for in a graph.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.gear import Gear

FLANGE_TOLERANCE = 0.0001  # metres; flange distances are written to a tenth of a millimetre


class Chain(NamedTuple):
    """How two sides meet. `state` is "fits" (with `wants`: but whether the adapters are as thick as they must be is not
    known for want of that detail), "unknown" (a detail is missing: `wants`), "none" (nothing joins `from_`
    and `to`) or "flange" (the adapters join them, but at the wrong distance). `thick` is the thickness in metres an
    adapter must have, where the plan tells both flange distances; `have` that of the adapters found."""

    state: str
    adapters: tuple[str, ...] = ()
    from_: str = ""
    to: str = ""
    wants: str = ""
    thick: float | None = None
    have: float | None = None


def lens_chain(plan: Plan, body: Gear, lens: Gear, named: tuple[str, ...] = ()) -> Chain:
    """The way from the camera's mount to the lens's, with the adapters the plan names, or with any that it owns."""
    if not body.mount or not lens.mount:
        lacks = lens if body.mount else body
        return Chain("unknown", wants=f"'mount:' of '{lacks.id}'" if body.mount or lens.mount else "")
    need = _needed_thickness(plan, body.mount, lens.mount)
    if named:
        return _along(plan, named, body.mount, lens.mount, need)
    if body.mount == lens.mount:
        return Chain("fits", (), body.mount, lens.mount)
    adapters = [g for g in plan.gear_of("adapter") if g.from_ and g.to]
    ways: list[tuple[str, ...]] = [(a.id,) for a in adapters if a.from_ == body.mount and a.to == lens.mount]
    if not ways and len(adapters) > 1:
        ways = _searched(adapters, body.mount, lens.mount)
    judged = [_thickness(plan, way, body.mount, lens.mount, need) for way in ways]
    good = sorted((c for c in judged if c.state == "fits"), key=lambda c: bool(c.wants))  # what is known comes first
    return (good or judged or [Chain("none", (), body.mount, lens.mount, thick=need)])[0]


def _needed_thickness(plan: Plan, body_mount: str, lens_mount: str) -> float | None:
    """Flange distance of the lens less that of the camera, in metres; None where the plan does not tell both."""
    near, far = plan.film.mounts.get(body_mount), plan.film.mounts.get(lens_mount)
    if near is None or far is None or near.flange is None or far.flange is None:
        return None
    return float(far.flange) - float(near.flange)


def _flange_said(plan: Plan, mount: str) -> bool:
    known = plan.film.mounts.get(mount)
    return known is not None and known.flange is not None


def _along(plan: Plan, named: tuple[str, ...], start: str, end: str, need: float | None) -> Chain:
    """The adapters as named, from the camera on or from the lens on."""
    here = start
    for way in (named, named[::-1]):
        here = start
        for name in way:
            adapter = plan.gear[name]
            if adapter.from_ != here or not adapter.to:
                break
            here = adapter.to
        else:
            if here == end:
                return _thickness(plan, way, start, end, need)
    lacks = next((n for n in named if not plan.gear[n].from_ or not plan.gear[n].to), None)
    if lacks:
        return Chain("unknown", named, start, end, wants=f"'from:' and 'to:' of '{lacks}'")
    return Chain("none", named, start, end, thick=need)


def _searched(adapters: list[Gear], start: str, end: str) -> list[tuple[str, ...]]:
    """Chains of two and more, the shortest ones."""
    from itertools import pairwise

    import networkx

    graph: networkx.DiGraph[str] = networkx.DiGraph()
    for adapter in reversed(adapters):  # of adapters between the same mounts the first in the plan stays
        graph.add_edge(adapter.from_ or "", adapter.to or "", by=adapter.id)
    if start not in graph or end not in graph or not networkx.has_path(graph, start, end):
        return []
    path = networkx.shortest_path(graph, start, end)
    return [tuple(str(graph.edges[a, b]["by"]) for a, b in pairwise(path))]


def _thickness(plan: Plan, way: tuple[str, ...], start: str, end: str, need: float | None) -> Chain:
    parts = [plan.gear[name] for name in way]
    if any(p.loses is not None for p in parts):
        return Chain("fits", way, start, end)  # an adapter that takes light has glass in it and moves the image itself
    if need is None:
        lacks = [f"'{m}'" for m in dict.fromkeys((start, end)) if not _flange_said(plan, m)]
        return Chain("fits", way, start, end, f"'flange:' of {' and '.join(lacks)} under 'mounts:'" if lacks else "")
    unsaid = next((p.id for p in parts if p.thick is None), None)
    if unsaid is not None:
        return Chain("fits", way, start, end, f"'thick:' of '{unsaid}'", need)
    have = sum(float(p.thick or 0.0) for p in parts)
    return Chain("fits" if abs(have - need) <= FLANGE_TOLERANCE else "flange", way, start, end, "", need, have)


class Thread(NamedTuple):
    """How a filter meets a lens: "fits" (with a step ring or without), "unknown" or "none"; threads in metres."""

    state: str
    ring: str = ""
    lens: float = 0.0
    filter: float = 0.0
    wants: str = ""


def thread(plan: Plan, lens: Gear, filter_: Gear) -> Thread:
    """Whether a screw-in filter fits the lens's thread. One without a thread that fits a holder is no screw-in."""
    if filter_.thread is None:
        wants = f"'thread:' of '{filter_.id}'" if lens.thread is not None and not filter_.fits else ""
        return Thread("unknown", wants=wants)
    if lens.thread is None:
        return Thread("unknown", wants=f"'thread:' of '{lens.id}'")
    near, far = float(lens.thread), float(filter_.thread)
    if _same(near, far):
        return Thread("fits", "", near, far)
    for gear in plan.gear_of("adapter"):
        if gear.from_ and gear.to:
            a, b = _thread_word(gear.from_), _thread_word(gear.to)
            if a is not None and b is not None and _same(a, near) and _same(b, far):
                return Thread("fits", gear.id, near, far)
    return Thread("none", "", near, far)


def _same(a: float, b: float) -> bool:
    return abs(a - b) < 0.0001


def _thread_word(text: str) -> float | None:
    """A side of a step ring, written as a length; of one without its unit, which is said elsewhere, millimetres."""
    from ..source.quantities import QuantityError, parse

    if not text[:1].isdigit():
        return None
    if text.replace(".", "", 1).isdigit():
        return float(text) / 1000.0
    try:
        return float(parse("length", text))
    except QuantityError:
        return None


def fits_on(plan: Plan, outer: Gear, inner: Gear, lamp: Gear) -> bool | None:
    """Whether a modifier goes onto what stands before it on the way out from the lamp, directly or by an adapter one
    owns; None where the plan does not say."""
    if not outer.fits:
        return None
    sides = {inner.id, lamp.id, *([inner.mount] if inner.mount else [])}
    if sides & set(outer.fits):
        return True
    if not inner.mount:
        return None
    owned = (g for g in plan.gear_of("adapter") if g.from_ == inner.mount)
    return any(g.to in outer.fits for g in owned)
