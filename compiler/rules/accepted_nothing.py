"""A risk is accepted under 'accepted:', and nothing in the plan is found there any more.

On set: the risk sheet warns of what has long been changed, and is read less for it.

How it is decided: an acceptance covers findings of its rule at its path or below it; one that covers none is stale.
Source: none needed.

Fix: take it out, or mend its 'rule:' or 'at:' if it was meant for another finding.

When to accept it: take it out instead.
"""

from __future__ import annotations

from typing import Final

RULE = "accepted-nothing"
SEVERITY: Final = "warning"
TITLE = "an accepted risk no longer exists"

TRIGGERS = """
hotset: 1
gear: {tube: {kind: light}}
setups:
  quay: {lights: {siren: {lamp: tube, effect: {flashes: 2 per s}}}}
accepted:
  - {rule: flashing-light, at: setups.quay, because: crew was asked, agreed-by: bea}  # <- here
people: {bea: {works: camera}}
"""
PASSES = TRIGGERS.replace('2 per s', '4 per s').replace('  # <- here', '')
