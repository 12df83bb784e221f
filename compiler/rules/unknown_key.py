"""A plan uses a key that the language does not have.

On set: the height was meant for the lamp, and the sheet does not print it.

How it is decided: every noun has its list of keys (see the language page); the nearest one is offered. A key that a
later version will know is never guessed at. Source: the language's schema.

Fix: write the key that is offered, or put free text under 'note:'.

When to accept it: with a plan written for a later version, until that is installed.
"""

from __future__ import annotations

from typing import Final

RULE = "unknown-key"
SEVERITY: Final = "error"
TITLE = "a key does not exist"

TRIGGERS = """
hotset: 1
gear: {panel: {kind: light}}
setups:
  wide:
    lights:
      key: {lamp: panel, hight: 2 m}  # <- here
"""
PASSES = TRIGGERS.replace('hight: 2 m}  # <- here', 'height: 2 m}')
