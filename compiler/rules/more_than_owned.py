"""More pieces are needed at one moment than there are.

On set: the third panel of the plan is the second one again, and the setup is lit with what is left.

How it is decided: as for a single thing in two places, with the number under 'quantity:': inside one setup; and along
the agreed order, where what a held setup keeps is not free for the setups shot meanwhile. Lamps given as any of several
are matched to pieces so that as many as possible are served. Source: counting.

Fix: get more of them, take another thing for one of the uses, or end a hold earlier.

When to accept it: one piece is moved between two takes of the setup, and the time for that is planned.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import shortage

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "more-than-owned"
SEVERITY: Final = "error"
TITLE = "more pieces are needed at one moment than there are"

TRIGGERS = """
hotset: 1
gear: {panel: {kind: light, quantity: 2}}
setups:
  wide:
    lights:
      key: {lamp: panel}
      fill: {lamp: panel}
      back: {lamp: panel}  # <- here
"""
PASSES = TRIGGERS.replace("quantity: 2", "quantity: 3").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding]:
    return shortage.found(facts, (RULE, SEVERITY), single=False)
