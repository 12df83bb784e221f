"""The plan of a place does not say where the nearest hospital with an emergency department is.

On set: someone is hurt and the first five minutes go into a search. The address belongs on the call sheet.

How it is decided: every location that is shot at needs `hospital:` with at least a name. Source: common practice,
no source; a written emergency plan is asked for by most insurers and film schools.

Fix: write the name, address and time to get there under the location.

When to accept it: never for a shoot with people in it; accept it for a plan of table-top inserts at home.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from ..findings import Finding

if TYPE_CHECKING:
    from ..facts import Facts

RULE = "no-hospital"
SEVERITY: Final = "warning"
TITLE = "no hospital is named for a place"

TRIGGERS = """
hotset: 1
locations:
  landing: {sets: {office: {size: 4 m x 3 m x 2.4 m}}}
setups:
  office-wide: {set: office}
"""
PASSES = """
hotset: 1
locations:
  landing: {hospital: Saltmere General, sets: {office: {size: 4 m x 3 m x 2.4 m}}}
setups:
  office-wide: {set: office}
"""


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    for place_id in facts.locations_used:
        place = plan.locations[place_id]
        if place.hospital is None or not (place.hospital.name or place.hospital.address):
            yield Finding(
                RULE,
                SEVERITY,
                f"no hospital with an emergency department is named for '{place_id}'",
                plan.where(place.path),
                ways_out=(f"add 'hospital: {{name: ..., address: ..., phone: ...}}' under '{place_id}'",),
                details=(("location", place_id),),
            )
