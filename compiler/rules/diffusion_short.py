"""There is not enough diffusion for the windows and frames that need it at one moment.

On set: one window is soft and the other is not, and the two do not cut together.

How it is decided: as for cloth, for stock that takes light ('loses:'), is not opaque and does not shift colour. Layers
on the glass have the size of the window, without overlap unless the treatment says one; diffusion is not joined, since
the seam shows. Source: common practice, no source, for the overlap; the search as for cloth.

Fix: bring more, or a wider roll.

When to accept it: the seam or the gap is out of the picture and throws no line.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import stock_short

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding, NotChecked

RULE = "diffusion-short"
SEVERITY: Final = "error"
TITLE = "not enough diffusion at one moment"

TRIGGERS = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        windows: {hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}}
stock: {frost: {loses: 1/3 stop, roll: 1.22 m x 1 m}}
setups:
  office-wide:
    set: office
    windows:
      hatch: {layers: [frost]}  # <- here
"""
PASSES = TRIGGERS.replace("1.22 m x 1 m", "1.22 m x 1.3 m").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    return stock_short.found(facts, (RULE, SEVERITY), "diffusion")
