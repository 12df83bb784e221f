"""One of the checks failed on this plan. This is a fault of hotset, not of the plan; the other checks have run.

On set: nothing; but what that check looks for has not been looked for.

How it is decided: a check that ends in an error of its own becomes this finding. Source: none needed.

Fix: report it with the plan that caused it, and look yourself at what the named check is about.

When to accept it: it cannot be accepted; it goes away with the next version.
"""

from __future__ import annotations

from typing import Final

RULE = "broken-rule"
SEVERITY: Final = "error"
TITLE = "a check of hotset broke"

TRIGGERS = ""
PASSES = ""
