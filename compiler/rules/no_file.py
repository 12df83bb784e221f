"""The file or folder that was named as the plan is not there, or cannot be opened.

On set: nothing; the command was started in another folder, or the name has a slip in it.

How it is decided: by asking the system for the file; a folder must hold a file ending in .yaml or .yml. Source: none
needed.

Fix: check the spelling and the folder, or start a plan with 'hotset new'.

When to accept it: it cannot be accepted.
"""

from __future__ import annotations

from typing import Final

RULE = "no-file"
SEVERITY: Final = "error"
TITLE = "there is no such file"

TRIGGERS = ""
PASSES = ""
