"""There is not enough black cloth for the windows that must be dark at one moment.

On set: the last window is left, the roll is empty, and it is noon outside.

How it is decided: every window is covered with an overlap on each side (what the treatment, the stock or 'defaults:'
says, else 15 cm; common practice, no source), as often as 'layers-of:' says; a tent takes a front, two sides and a top
of its depth; grip things take their size. The panels of one setup, with those of sets held hot meanwhile, are laid onto
the rolls and pieces in every way; strips of cloth may be joined with a seam of 10 cm. Only a proof that none of the
ways works is an error. Cloth that is up and not held may be taken down for the next setup.

Formula: width + 2 x overlap by height + 2 x overlap. Source of the search: normal patterns of Christofides and Whitlock
(1977).

Fix: bring more, write a smaller overlap (10 cm), or treat one of the windows in another way.

When to accept it: the window is out of the picture and a coat over it will do.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import stock_short

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding, NotChecked

RULE = "cloth-short"
SEVERITY: Final = "error"
TITLE = "not enough cloth for what must be dark at one moment"

TRIGGERS = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        windows:
          hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}
          quay: {wall: north, from: 1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}
stock: {black-cloth: {opaque: true, roll: 1.5 m x 3 m}}
setups:
  office-wide:
    set: office
    windows:
      hatch: {black-out: black-cloth}
      quay: {black-out: black-cloth}  # <- here
"""
PASSES = TRIGGERS.replace("1.5 m x 3 m", "1.5 m x 3.2 m").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    return stock_short.found(facts, (RULE, SEVERITY), "cloth")
