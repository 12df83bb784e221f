"""A list or map stands where a word is due, a word that is none of those allowed, or a key of another kind of thing.

On set: the plan says something the sheets cannot print.

How it is decided: the schema says of every key what it takes: a text, a quantity, one of a few words, a name, keys of
its own. Source: the language's schema.

Fix: write what the finding shows.

When to accept it: it cannot be read, so it would change nothing; put the words under 'note:'.
"""

from __future__ import annotations

from typing import Final

RULE = "wrong-kind"
SEVERITY: Final = "error"
TITLE = "a value is of another kind than its key takes"

TRIGGERS = """
hotset: 1
gear:
  panel: {kind: lamp}  # <- here
"""
PASSES = TRIGGERS.replace('lamp}  # <- here', 'light}')
