"""The text is no YAML: from a certain place on nobody can say what belongs to what.

On set: nothing yet; without this nothing else is checked, and no sheet is printed.

How it is decided: the file is read as YAML 1.2 in UTF-8, and the first place where that fails is named, with the
mistake that most often leads there: a tab, a quote or bracket left open, a colon without a blank, a mark of a merge.
Source: YAML 1.2.2, the published specification.

Fix: type what the finding names; look at the line above as well.

When to accept it: it cannot be accepted, since what cannot be read cannot be judged.
"""

from __future__ import annotations

from typing import Final

RULE = "not-yaml"
SEVERITY: Final = "error"
TITLE = "the text cannot be read"

TRIGGERS = """
hotset: 1
scenes:
  4:
    heading: "INT. TICKET OFFICE - NIGHT  # <- here
    synopsis: She counts the till.
"""
PASSES = TRIGGERS.replace('NIGHT  # <- here', 'NIGHT"')
