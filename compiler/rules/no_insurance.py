"""The shoot at a place is not insured, or the cover runs out before the day.

On set: the lamp falls onto the parquet, and the question of who pays is asked for the first time.

How it is decided: a location that is shot at and says 'insurance: asked' or 'missing', or one whose 'until:' lies
before its last day, always counts. One that says nothing counts once the plan is far enough (people and a dated day)
and the place's 'permission:' is written, since that is when its owner asks for it. 'not-needed' is an answer. Source:
common practice, no source.

Fix: ask the insurer, the film school or the lender of the gear, and write 'insurance: granted'.

When to accept it: a risk you carry yourself, and know how large it is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import papers
from .words import finding, written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "no-insurance"
SEVERITY: Final = "warning"
TITLE = "the shoot at a place is not insured"

TRIGGERS = """
hotset: 1
locations:
  landing:
    insurance: missing  # <- here
    sets: {office: {size: 4 m x 3 m x 2.4 m}}
setups:
  office-wide: {set: office}
"""
PASSES = TRIGGERS.replace("missing  # <- here", "granted")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    for place_id in facts.locations_used:
        place = plan.locations[place_id]
        path = f"{place.path}.insurance"
        if place.insurance is not None:
            wrong = papers.fault(place.insurance, papers.last_day_at(facts, place_id))
            words = f"the insurance for '{place_id}' {wrong}"
        else:
            begun = place.permission is not None and place.permission.state != "not-needed"
            wrong = "unsaid" if papers.is_due(plan) and begun and not written(plan, path) else ""
            words = f"the plan does not say whether the shoot at '{place_id}' is insured"
        if wrong:
            yield finding(
                plan,
                (RULE, SEVERITY),
                path,
                words,
                ("ask the insurer and write 'insurance: granted' when it holds", "or write 'insurance: not-needed'"),
                (("location", place_id), ("state", place.insurance.state or "" if place.insurance else "")),
            )
