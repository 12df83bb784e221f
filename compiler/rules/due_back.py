"""A borrowed or rented thing must be back before it is used for the last time.

On set: the lender stands in the door while the lamp is the key of the shot.

How it is decided: a thing leaves when its 'return:' begins ('at:'), else at 'due:' less the time its 'return:' takes.
That is held against the hour at which the takes of the last setup with it end, in the agreed order; without one, only a
thing that leaves before the day's call or on an earlier date is an error. Where any of several things will do, none is
counted. Of a thing that is due on a shooting day, and of which nobody says how long its way back is, that is said to be
missing. Source: counting.

Fix: shoot what needs it earlier, ask for a longer loan, or take another thing.

When to accept it: the lender has agreed to wait; then change 'due:'.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import errands
from ..findings import NotChecked
from ..source.quantities import show
from . import timing
from .loans import Loan, loans
from .words import AGREED, clock, finding, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.stock import Stock

RULE = "due-back"
SEVERITY: Final = "error"
TITLE = "a thing must be back before it is used for the last time"

TRIGGERS = """
hotset: 1
days: {1: {date: 2026-11-14, call: 08:00, wrap: 18:00}}
gear:
  fresnel: {kind: light, owner: borrowed, due: 2026-11-14 07:00, return: 30 min}
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
        leaves = errands.leaves(thing, day)
        if leaves is None:
            continue
        due = timing.clock_on(thing.due, day) if thing.due is not None else None
        way = due - leaves if due is not None else 0
        frame = timing.frame(day)
        if _way_unknown(thing) and due is not None and 0 < due < timing.NIGHT:
            yield NotChecked(RULE, f"the way of '{thing.id}' back to its lender", f"'return:' of '{thing.id}'")
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


def _way_unknown(thing: Gear | Stock) -> bool:
    """Whether nobody says how long it takes to bring a thing back."""
    return thing.return_ is None or (thing.return_.takes is None and thing.return_.at is None)


def _finding(facts: Facts, loan: Loan, way: int, when: str) -> Finding:
    thing, back = loan.thing, loan.thing.return_
    lender = f" to {thing.lent_by}" if thing.lent_by else ""
    if back is not None and back.at is not None:
        gone = show("moment", back.at)
        who = f" with '{back.by}'" if back.by else ""
        sentence = f"'{thing.id}' goes back{lender}{who} at {gone}"
    else:
        assert thing.due is not None
        gone = show("moment", thing.due)
        bring = f", {span(way)} away," if way else ""
        sentence = f"'{thing.id}' is due back{lender}{bring} at {gone}"
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        loan.path,
        f"{sentence}, and '{loan.setup}' still needs it on day {loan.day.id}, {when}",
        (f"shoot '{loan.setup}' earlier, or with another thing", "or ask for a longer loan and change 'due:'"),
        (("thing", thing.id), ("setup", loan.setup), ("day", loan.day.id), ("due", gone)),
        also=[(f"{thing.path}.return", "taken back then") if back and back.at else (f"{thing.path}.due", "due then")],
    )
