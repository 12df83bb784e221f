"""The plan and a file that it includes both write the same name.

On set: two lists of the same lamp, and each department has the other one.

How it is decided: maps under the same key are joined name by name; a name that stands in two files is a clash, whatever
it holds; the first counts. Source: none needed.

Fix: delete one of the two, or give it another name.

When to accept it: it cannot be accepted, since one of the two texts is not used.
"""

from __future__ import annotations

from typing import Final

RULE = "include-clash"
SEVERITY: Final = "error"
TITLE = "two files say the same thing differently"

TRIGGERS = """
hotset: 1
include: kit.yaml
gear: {panel: {kind: light}}
# in kit.yaml:
gear:
  panel: {kind: light, quantity: 2}  # <- here
"""
PASSES = TRIGGERS.replace('panel: {kind: light, quantity: 2}  # <- here', 'tube: {kind: light}')
