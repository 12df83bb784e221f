"""A borrowed or rented thing must be back before it is used for the last time.

On set: the lender stands in the door while the lamp is the key of the shot.

How it is decided: 'due:' of a thing, less the time its 'return:' takes, against the hour at which the takes of the last
setup with it end, in the agreed order; without one, only a thing that is due before the day's call or on an earlier
date is an error. Where any of several things will do, none is counted. Source: counting.

Fix: shoot what needs it earlier, ask for a longer loan, or take another thing.

When to accept it: the lender has agreed to wait; then change 'due:'.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from ..source.quantities import show
from . import timing
from .loans import Loan, loans
from .words import AGREED, clock, finding, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "due-back"
SEVERITY: Final = "error"
TITLE = "a thing must be back before it is used for the last time"

TRIGGERS = """
hotset: 1
days: {1: {date: 2026-11-14, call: 08:00, wrap: 18:00}}
gear:
  fresnel: {kind: light, owner: borrowed, due: 2026-11-14 07:00}
setups:
  wide:
    lights:
      key: {lamp: fresnel}  # <- here
"""
PASSES = TRIGGERS.replace("2026-11-14 07:00", "2026-11-14 21:00").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    worst: dict[tuple[str, str], tuple[int, Loan, int, str]] = {}
    for loan in loans(facts):
        thing, day = loan.thing, loan.day
        due = timing.clock_on(thing.due, day) if thing.due is not None else None
        if due is None:
            continue
        back = thing.return_.takes if thing.return_ is not None else None
        way = round(float(back) / 30) if back is not None else 0
        leaves = due - way
        frame = timing.frame(day)
        if loan.end is None:
            start = int(day.call) if day.call is not None else 0
            if leaves > start:
                if leaves < (frame[1] if frame else timing.NIGHT):
                    yield NotChecked(RULE, f"'{thing.id}' on day {day.id}", AGREED)
                continue
            late, when = start - leaves, f"which is called at {clock(start)}" if day.call else f"on {day.date}"
        elif loan.end > leaves:
            late, when = loan.end - leaves, f"until {clock(loan.end)}"
        else:
            continue
        mark = (thing.id, day.id)
        if mark not in worst or late > worst[mark][0]:
            worst[mark] = (late, loan, way, when)
    for _, loan, way, when in worst.values():
        yield _finding(facts, loan, way, when)


def _finding(facts: Facts, loan: Loan, way: int, when: str) -> Finding:
    thing = loan.thing
    assert thing.due is not None
    bring = f", {span(way)} away," if way else ""
    lender = f" to {thing.lent_by}" if thing.lent_by else ""
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        loan.path,
        f"'{thing.id}' is due back{lender}{bring} at {show('moment', thing.due)}, and '{loan.setup}' still needs it on "
        f"day {loan.day.id}, {when}",
        (f"shoot '{loan.setup}' earlier, or with another thing", "or ask for a longer loan and change 'due:'"),
        (("thing", thing.id), ("setup", loan.setup), ("day", loan.day.id), ("due", show("moment", thing.due))),
        also=[(f"{thing.path}.due", "due then")],
    )
