"""A bare number stands where a unit is due.

On set: 2 is read as two metres by one and as two feet by the other.

How it is decided: every quantity is written as the crew says it, with its unit; ISO, counts, ratios and factors alone
go without. Source: the language's schema.

Fix: write the unit behind the number.

When to accept it: write the unit instead; nothing is guessed.
"""

from __future__ import annotations

from typing import Final

RULE = "missing-unit"
SEVERITY: Final = "error"
TITLE = "a number has no unit"

TRIGGERS = """
hotset: 1
gear: {panel: {kind: light}}
setups:
  wide:
    lights:
      key: {lamp: panel, height: 2}  # <- here
"""
PASSES = TRIGGERS.replace('height: 2}  # <- here', 'height: 2 m}')
