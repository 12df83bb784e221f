"""A value with a unit is not written in a way that can only mean one thing.

On set: half past seven is read as seven minutes and a half.

How it is decided: each kind of quantity has its forms; what is close to one is answered with that form. Source: the
language page; units after the SI brochure, inches and feet as international inch and foot.

Fix: write it like the example in the finding.

When to accept it: it cannot be read, so it would change nothing; put the words under 'note:'.
"""

from __future__ import annotations

from typing import Final

RULE = "bad-quantity"
SEVERITY: Final = "error"
TITLE = "a quantity cannot be read"

TRIGGERS = """
hotset: 1
days:
  1: {call: half past seven}  # <- here
"""
PASSES = TRIGGERS.replace('half past seven}  # <- here', '07:30}')
