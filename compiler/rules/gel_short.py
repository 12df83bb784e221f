"""There is not enough gel for the windows that need it at one moment.

On set: half of the window is daylight and half of it is not.

How it is decided: as for cloth, for stock that shifts colour ('shifts:'). Gel on the glass has the size of the window,
without overlap unless the treatment says one, and is not joined. Gel in front of lamps is not counted: the plan does
not say how large it is. Source: the search as for cloth.

Fix: bring more, or a wider roll.

When to accept it: a seam on a bar of the window is seen by nobody; write the panes as windows then.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import stock_short

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding, NotChecked

RULE = "gel-short"
SEVERITY: Final = "error"
TITLE = "not enough gel at one moment"

TRIGGERS = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        windows: {hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}}
stock: {half-orange: {shifts: +81 mired, loses: 1/2 stop, roll: 1.22 m x 1 m}}
setups:
  office-wide:
    set: office
    windows:
      hatch: {layers: [half-orange]}  # <- here
"""
PASSES = TRIGGERS.replace("1.22 m x 1 m", "1.22 m x 1.3 m").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    return stock_short.found(facts, (RULE, SEVERITY), "gel")
