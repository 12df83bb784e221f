"""An errand cannot be done as it is written.

On set: one car is to be at two lenders at once, or the lamp comes back after the shop has closed.

How it is decided: 'fetch:' and 'return:' of things, with who goes, when and how long, the way included (30 min where it
is not said; common practice, no source). A fetch without 'at:' ends when the thing is to be in hands, a return without
one when it is due. Two errands of one person may not overlap unless they begin and end together (one drive). A fetch
must end by 'in-hands:', a return by 'due:'. That somebody is missed on set meanwhile has rules of its own. Source:
counting.

Fix: let somebody else go, go earlier, or make one drive of both: the same hours under 'at:' and 'takes:'.

When to accept it: the lender is on the way, and both are done in one drive.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import errands
from ..source.quantities import show
from .words import clock, finding, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.errands import Trip
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.stock import Stock

RULE = "errand-clash"
SEVERITY: Final = "error"
TITLE = "an errand cannot be done as it is written"

TRIGGERS = """
hotset: 1
people: {bea: {works: art, skills: drive}}
gear:
  fresnel: {kind: light, lent-by: the club, due: 2026-11-14 21:00, return: {by: bea, takes: 40 min}}
  crane:
    kind: support
    lent-by: the yard
    due: 2026-11-14 20:45
    return: {by: bea, takes: 30 min}  # <- here
setups: {wide: {camera: {on: crane}, lights: {key: {lamp: fresnel}}}}
"""
PASSES = TRIGGERS.replace("20:45", "20:20").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding]:
    trips = errands.trips(facts.plan)
    for i, trip in enumerate(trips):
        clash = next((other for other in trips[:i] if _overlap(trip, other)), None)
        if clash is not None:
            yield _two(facts, trip, clash)
        yield from _late(facts, trip)


def _overlap(one: Trip, other: Trip) -> bool:
    if not one.by or one.by != other.by or (one.thing, one.kind) == (other.thing, other.kind):
        return False
    shift = (one.date - other.date).days * errands.DAY
    mine, yours = (one.start + shift, one.end + shift), (other.start, other.end)
    together = mine == yours or (one.lender and (one.lender, one.kind) == (other.lender, other.kind))
    return not together and mine[0] < yours[1] and yours[0] < mine[1]


def _two(facts: Facts, trip: Trip, other: Trip) -> Finding:
    when = f"{trip.date} from {clock(trip.start)} to {clock(trip.end)}"
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        trip.path,
        f"'{trip.by}' {trip.words} on {when}, and meanwhile {other.words} (from {clock(other.start)} to "
        f"{clock(other.end)})",
        (
            "let somebody else go, or write an earlier 'at:' under one of the errands",
            "or make one drive of both: the same 'at:' and 'takes:' under each",
        ),
        (("person", trip.by), ("thing", trip.thing), ("other", other.thing)),
        also=[(other.path, "the other errand")],
        typical=("an errand of 30 min",) if trip.typical or other.typical else (),
    )


def _late(facts: Facts, trip: Trip) -> Iterator[Finding]:
    """An errand with its own hour that ends after the thing must be there."""
    thing: Gear | Stock = facts.plan.gear[trip.thing] if trip.thing in facts.plan.gear else facts.plan.stock[trip.thing]
    until = thing.in_hands if trip.kind == "fetch" else thing.due
    errand = thing.fetch if trip.kind == "fetch" else thing.return_
    if until is None or errand is None or errand.at is None:
        return
    end = (trip.date - until.date).days * errands.DAY + trip.end
    late = end - until.clock
    if late <= 0:
        return
    key, must = ("in-hands", "to be in hands") if trip.kind == "fetch" else ("due", "due")
    goes = f"is {'fetched' if trip.kind == 'fetch' else 'brought back'} from {show('moment', errand.at)} on"
    yield finding(
        facts.plan,
        (RULE, SEVERITY),
        trip.path,
        f"'{trip.thing}' {goes}, {span(trip.end - trip.start)} with the way: that ends {span(late)} after it is "
        f"{must}, at {show('moment', until)}",
        (f"go {span(late)} earlier", f"or change '{key}:' when the lender agrees"),
        (("thing", trip.thing), ("late_min", late / 2)),
        also=[(f"{thing.path}.{key}", f"{must} then")],
        typical=("an errand of 30 min",) if trip.typical else (),
    )
