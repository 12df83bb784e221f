"""A single thing is taken by two parts of a setup, or by a setup while another that holds it stays hot.

On set: the lamp is called for on the left while it burns on the right; one of the two states cannot be lit.

How it is decided: every use a setup makes of a thing is counted (lamp, modifier, stand, lens, lead, battery, prop).
A thing of which there is one cannot serve two uses inside one setup, nor one that is shot between a setup written with
'held-until:' and the setup that ends the hold, in the agreed order. A setup that is 'like:' the held one works inside
it, and the camera with what it shoots with and the sound go on with the crew. Lamps given as any of several are matched
to pieces so that as many as possible are served. Source: counting.

Fix: take another piece for one of the two, get a second one, or end the hold earlier.

When to accept it: the thing is moved between two takes of the setup, and the time for that is planned.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import shortage

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "piece-in-two-places"
SEVERITY: Final = "error"
TITLE = "one thing is needed in two places at once"

TRIGGERS = """
hotset: 1
gear:
  big-lamp: {kind: light}
  panel: {kind: light}
setups:
  wide:
    lights:
      key: {lamp: big-lamp}
      edge: {lamp: big-lamp}  # <- here
"""
PASSES = TRIGGERS.replace("edge: {lamp: big-lamp}  # <- here", "edge: {lamp: panel}")


def check(facts: Facts) -> Iterator[Finding]:
    return shortage.found(facts, (RULE, SEVERITY), single=True)
