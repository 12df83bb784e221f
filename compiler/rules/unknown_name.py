"""A name is used that nothing in the plan has.

On set: the sheet asks for a lamp that nobody packed, because it is called something else on the list.

How it is decided: every name is looked for in its family (gear, stock, people, sets, setups, marks of the set and so
on); a set may drop its front where it is unique. The nearest name is offered. Source: none needed.

Fix: write the name that is offered, or add the thing to the plan.

When to accept it: add the thing instead, with its kind alone; it costs one line.
"""

from __future__ import annotations

from typing import Final

RULE = "unknown-name"
SEVERITY: Final = "error"
TITLE = "a name means nothing in this plan"

TRIGGERS = """
hotset: 1
gear: {panel: {kind: light}}
setups:
  wide:
    lights:
      key: {lamp: pannel}  # <- here
"""
PASSES = TRIGGERS.replace('pannel}  # <- here', 'panel}')
