"""Single questions, without a plan: the same functions that judge a plan, with their inputs, formula and source.

`SUBJECTS` are the questions; each is a module with `HELP`, `ASKS` (what it wants to know) and `answer`.
"""

from __future__ import annotations

SUBJECTS = ("sun", "daylight", "light", "lens", "colour", "power", "cloth", "battery", "card", "flicker", "setup")
