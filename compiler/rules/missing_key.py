"""A noun lacks the one key without which nothing can be made of it.

On set: there is a thing on the list, and nobody knows whether it is a lamp or a stand.

How it is decided: the schema names what must be said: 'hotset: 1' on top, and the kind of a piece of gear. Everything
else may be left out. Source: the language's schema.

Fix: add the key that is named.

When to accept it: write the key instead; it is one word.
"""

from __future__ import annotations

from typing import Final

RULE = "missing-key"
SEVERITY: Final = "error"
TITLE = "something that must be said is missing"

TRIGGERS = """
hotset: 1
gear:
  panel: {quantity: 2}  # <- here
"""
PASSES = TRIGGERS.replace('{quantity: 2}  # <- here', '{kind: light, quantity: 2}')
