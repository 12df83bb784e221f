"""A window is blacked out and tented at once, or a lamp stands at a place and outside of a window.

On set: two people rig the same window in two ways.

How it is decided: some keys are alternatives: open, black-out, tent and layers; at and outside; circuit and battery; on
and held-by. Inside one map only one of each may be written; in a setup that is 'like:' another the new one replaces the
inherited one. Source: the language page.

Fix: keep one of the two.

When to accept it: it cannot be both; write the second as a window treatment or lamp of its own.
"""

from __future__ import annotations

from typing import Final

RULE = "two-ways"
SEVERITY: Final = "error"
TITLE = "two ways that exclude each other are written"

TRIGGERS = """
hotset: 1
gear: {panel: {kind: light}, stand: {kind: support}}
setups:
  wide:
    lights:
      key: {lamp: panel, on: stand, held-by: any}  # <- here
"""
PASSES = TRIGGERS.replace(', held-by: any}  # <- here', '}')
