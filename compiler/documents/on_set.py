"""A finding as it is told on set: nobody there has the plan's file before them, so its keys stay out of the sentence.

The ways out that only say what to write into the plan are for `hotset check`; here the next one stands, or none.
"""

from __future__ import annotations

import re

from ..findings import Finding

_KEY = re.compile(r"'[a-z][a-z-]*:(?: [^']*)?'")  # such as 'plan-b:' or 'release: granted'
_ASIDE = re.compile(r" ?\([^()]*'[a-z][a-z-]*:(?: [^']*)?'[^()]*\)")
_OR = re.compile(r"^or\s")
_TAIL = re.compile(r",?\sand\s(?:write|name|say\sso)\b.*$")


def sentence(finding: Finding) -> str:
    """What was found, without asides on what the plan's file says."""
    return _ASIDE.sub("", finding.sentence)


def way_out(finding: Finding) -> str:
    """The first way out that can be done with one's hands; "" where all of them are about the plan's file."""
    return next((told for way in finding.ways_out if (told := _done(_OR.sub("", way)))), "")


def _done(way: str) -> str:
    told = _ASIDE.sub("", way)
    if _KEY.search(told) or "write" in told.split(" "):
        told = _TAIL.sub("", told)
    return "" if _KEY.search(told) or told.split(" ")[0] == "write" else told
