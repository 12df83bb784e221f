"""The same name is written twice in one map; only the first counts. So is a shot number in two scenes.

On set: the second lamp of that name is on nobody's list.

How it is decided: names are compared as written. Source: YAML 1.2.2, section 3.2.1.3, keys of a map are unique.

Fix: give one of the two another name where both are meant, else delete one.

When to accept it: it cannot be accepted, since one of the two texts is not used.
"""

from __future__ import annotations

from typing import Final

RULE = "duplicate-key"
SEVERITY: Final = "error"
TITLE = "a name is written twice"

TRIGGERS = """
hotset: 1
gear:
  panel: {kind: light}
  panel: {kind: light, quantity: 2}  # <- here
"""
PASSES = TRIGGERS.replace('panel: {kind: light, quantity: 2}  # <- here', 'tube: {kind: light}')
