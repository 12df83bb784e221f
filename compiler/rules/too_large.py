"""The text is larger or more deeply nested than any plan, or a value in it is.

On set: nothing; it is mostly a picture that was named as the plan, or a bracket left open.

How it is decided: 8 MB a file, 64 levels of lists and maps inside each other, 500,000 values counting what is pointed
to with * again each time, 64,000 characters a value. Source: limits of this tool, far above the largest plan known.

Fix: split the plan and join its parts with 'include:', or close the bracket.

When to accept it: it cannot be accepted; the rest of the text has not been read.
"""

from __future__ import annotations

from typing import Final

RULE = "too-large"
SEVERITY: Final = "error"
TITLE = "the text is larger than what is read"

TRIGGERS = """
hotset: 1
note: DEEP  # <- here
""".replace("DEEP", "[" * 70 + "]" * 70)
PASSES = TRIGGERS.replace("[" * 70, "[").replace("]" * 70, "nothing]")
