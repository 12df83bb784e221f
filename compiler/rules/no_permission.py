"""Nobody has granted that a place may be shot at, or the permission runs out before the day.

On set: the caretaker does not know, and the crew stands in the yard.

How it is decided: a location that is shot at and says 'permission: asked' or 'missing', or one whose 'until:' lies
before its last day, always counts. One that says nothing counts once the plan names people, a dated day and an address
or a contact for the place, that is, a place of somebody else's. 'not-needed' is an answer. Source: common practice, no
source; local law says what needs a permission.

Fix: ask, and write 'permission: {state: granted, by: ..., paper: ...}' when you have it.

When to accept it: the owner stands beside the camera.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import papers
from .words import finding, written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "no-permission"
SEVERITY: Final = "warning"
TITLE = "no permission to shoot at a place"

TRIGGERS = """
hotset: 1
locations:
  landing:
    permission: asked  # <- here
    sets: {office: {size: 4 m x 3 m x 2.4 m}}
setups:
  office-wide: {set: office}
"""
PASSES = TRIGGERS.replace("permission: asked  # <- here", "permission: {state: granted, by: the harbour office}")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    for place_id in facts.locations_used:
        place = plan.locations[place_id]
        path = f"{place.path}.permission"
        if place.permission is not None:
            wrong = papers.fault(place.permission, papers.last_day_at(facts, place_id))
            words = f"the permission to shoot at '{place_id}' {wrong}"
        else:
            somebodys = place.address is not None or place.contact is not None
            wrong = "unsaid" if papers.is_due(plan) and somebodys and not written(plan, path) else ""
            words = f"the plan does not say whether '{place_id}' may be shot at"
        if wrong:
            yield finding(
                plan,
                (RULE, SEVERITY),
                path,
                words,
                (
                    "get it in writing and write 'permission: {state: granted, by: ...}'",
                    "or write 'permission: not-needed' where that is so",
                ),
                (("location", place_id), ("state", place.permission.state or "" if place.permission else "")),
            )
