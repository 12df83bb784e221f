"""A comma, a # or a brace ended a text before its end, so that a part of it is not read.

On set: the shot says that she turns, and the rest of what she does stands on no sheet.

How it is decided: inside { } a word without a colon is what a comma cut off; a # after a blank begins a comment. Where
a comment with a number right behind its # may be meant, it is only a warning. Source: YAML 1.2.2, sections 6.6 and 7.4.

Fix: put the text in quotes.

When to accept it: a comment that begins with a number; better write a blank after its #.
"""

from __future__ import annotations

from typing import Final

RULE = "lost-text"
SEVERITY: Final = "error"
TITLE = "a part of a text is lost"

TRIGGERS = """
hotset: 1
scenes:
  4:
    shots:
      4A: {does: She turns, listens.}  # <- here
"""
PASSES = TRIGGERS.replace('She turns, listens.}  # <- here', '"She turns, listens."}')
