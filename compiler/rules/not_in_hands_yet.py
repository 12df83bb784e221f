"""A thing is needed before it is in hands.

On set: the lamp is the key of the first setup, and it is fetched at noon.

How it is decided: 'in-hands:' of a thing, or, where it is later, the hour at which whoever fetches it is back
('fetch:', 30 min where it does not say how long; common practice, no source), against the hour at which the rigging of
the first setup that takes it begins, in the agreed order; without one, only a thing that comes after the day's latest
wrap or on a later date is an error.
Where any of several things will do, none is counted. Source: counting.

Fix: fetch it earlier, shoot what needs it later, or take another thing.

When to accept it: it is brought straight to the set, and the setup waits for it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import errands
from ..findings import NotChecked
from ..source.quantities import show
from . import timing
from .loans import loans
from .words import AGREED, clock, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "not-in-hands-yet"
SEVERITY: Final = "error"
TITLE = "a thing is needed before it is in hands"

TRIGGERS = """
hotset: 1
days: {1: {date: 2026-11-14, call: 08:00, wrap: 18:00}}
gear:
  fresnel: {kind: light, in-hands: 2026-11-15 09:00}
setups:
  wide:
    lights:
      key: {lamp: fresnel}  # <- here
"""
PASSES = TRIGGERS.replace("2026-11-15 09:00", "2026-11-13 18:00").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    said: set[tuple[str, str]] = set()
    for loan in loans(facts):
        thing, day = loan.thing, loan.day
        comes = errands.comes(thing, day)
        if comes is None or (thing.id, day.id) in said:
            continue
        frame = timing.frame(day)
        end_of_day = frame[1] if frame else timing.NIGHT
        if loan.start is None:
            if comes < end_of_day:
                if day.call is not None and comes > day.call:
                    yield NotChecked(RULE, f"'{thing.id}' on day {day.id}", AGREED)
                continue
            when = f"which ends at {clock(end_of_day)}" if frame else f"which is {day.date}"
        elif comes > loan.start:
            when = f"where its rigging begins at {clock(loan.start)}"
        else:
            continue
        said.add((thing.id, day.id))
        own = timing.clock_on(thing.in_hands, day) if thing.in_hands is not None else None
        fetched = thing.fetch is not None and (own is None or comes > own)
        told = clock(comes) if fetched or thing.in_hands is None else show("moment", thing.in_hands)
        words = f"is in hands from {told}"
        if fetched and thing.fetch is not None and thing.fetch.at is not None:
            who = f" by '{thing.fetch.by}'" if thing.fetch.by else ""
            words = f"is fetched{who} at {show('moment', thing.fetch.at)} and there at {told}"
        yield finding(
            plan,
            (RULE, SEVERITY),
            loan.path,
            f"'{thing.id}' {words}, and '{loan.setup}' needs it on day {day.id}, {when}",
            ("fetch it earlier", f"or shoot '{loan.setup}' later, or with another thing"),
            (("thing", thing.id), ("setup", loan.setup), ("day", day.id), ("in_hands", told)),
            also=[(f"{thing.path}.{'fetch' if fetched else 'in-hands'}", "in hands from then")],
        )
