"""A name holds blanks or signs, so that a path could not point to it.

On set: nothing; but the finding about the big lamp could not say where it stands.

How it is decided: names are letters, digits, hyphens and underscores, with / between the parts of a place. Source: the
language page.

Fix: write the name that is offered, and the full words under 'of:', 'name:' or 'note:'.

When to accept it: write another name instead; what stands below it has not been read.
"""

from __future__ import annotations

from typing import Final

RULE = "bad-name"
SEVERITY: Final = "error"
TITLE = "a name cannot be used as one"

TRIGGERS = """
hotset: 1
gear:
  big lamp: {kind: light}  # <- here
"""
PASSES = TRIGGERS.replace('big lamp: {kind: light}  # <- here', 'big-lamp: {kind: light}')
