"""Setups are 'like:' one another in a circle, so that none of them is ever written out.

On set: the sheet of the close-up says: as the wide; that of the wide says: as the close-up.

How it is decided: the chain of 'like:' is followed until it ends or comes back. Source: none needed.

Fix: take 'like:' out of one of them and write that one out.

When to accept it: it cannot be accepted, since nothing can be inherited from a circle.
"""

from __future__ import annotations

from typing import Final

RULE = "like-cycle"
SEVERITY: Final = "error"
TITLE = "setups are like each other in a circle"

TRIGGERS = """
hotset: 1
setups:
  wide: {like: close}  # <- here
  close: {like: wide}
"""
PASSES = TRIGGERS.replace('{like: close}  # <- here', '{takes: 20 min}')
