"""A file named under 'include:' is outside the plan's folder, includes itself, or is no file.

On set: the list of the lamps is missing from every sheet.

How it is decided: an include is a path from the file that names it, inside the folder of the plan after links are
followed, at most 8 deep, at most 500 files; never an address on the network. Source: limits of this tool, so that a
plan that somebody sends cannot read what else lies on the disk.

Fix: copy the file into the folder of the plan and name it from there.

When to accept it: it cannot be accepted; what the file holds has not been read.
"""

from __future__ import annotations

from typing import Final

RULE = "bad-include"
SEVERITY: Final = "error"
TITLE = "an include cannot be followed"

TRIGGERS = """
hotset: 1
include: ../kit.yaml  # <- here
"""
PASSES = """
hotset: 1
include: kit.yaml
# in kit.yaml:
gear: {}
"""
