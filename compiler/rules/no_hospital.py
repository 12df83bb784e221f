"""The plan of a place does not say where the nearest hospital with an emergency department is.

On set: someone is hurt and the first five minutes go into a search. The address belongs on the call sheet.

How it is decided: once the plan names people and a dated day, every location that is shot at needs 'hospital:' with at
least a name or an address. Source: common practice, no source; a written emergency plan is asked for by most insurers
and film schools.

Fix: write the name, address and time to get there under the location, and ring to hear that it has an emergency
department at the hours of the shoot.

When to accept it: never for a shoot with people in it; accept it for a plan of table-top inserts at home.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import papers
from .words import finding, written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "no-hospital"
SEVERITY: Final = "warning"
TITLE = "no hospital is named for a place"

TRIGGERS = """
hotset: 1
days: {1: {date: 2026-11-14}}
people: {bea: {works: camera}}
locations:
  landing: {sets: {office: {size: 4 m x 3 m x 2.4 m}}}  # <- here
setups:
  office-wide: {set: office}
"""
PASSES = TRIGGERS.replace("landing: {", "landing: {hospital: Saltmere General, ").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    if not papers.is_due(plan):
        return
    for place_id in facts.locations_used:
        place = plan.locations[place_id]
        if place.hospital is None and written(plan, f"{place.path}.hospital"):
            continue
        if place.hospital is None or not (place.hospital.name or place.hospital.address):
            yield finding(
                plan,
                (RULE, SEVERITY),
                place.path,
                f"no hospital with an emergency department is named for '{place_id}'",
                (f"add 'hospital: {{name: ..., address: ..., phone: ...}}' under '{place_id}'",),
                (("location", place_id),),
            )
